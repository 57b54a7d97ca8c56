"""Everything that changes a set. Each action is atomic, and what was changed elsewhere meanwhile is not overwritten."""

import uuid
from collections.abc import Mapping, Sequence

from django.db import IntegrityError, transaction
from django.db.models import F
from django.utils import timezone

from catalogue.accounts.models import Member
from catalogue.member_examples.actions import ChangedMeanwhile, NotDone
from catalogue.member_examples.gates import is_member, is_moderator, may_change_set, owns
from catalogue.member_examples.happenings import piece_joined_set
from catalogue.member_examples.models import Example, ExampleInSet, ExampleSet, KeptOutOfSet
from catalogue.member_examples.models.numbers import next_number
from catalogue.member_examples.words import ExampleState

TRIES = 5
MOST_PIECES = 20
FIELDS = frozenset(["name", "together", "fasten", "grounds"])


@transaction.atomic
def make_set(
    *, member: Member, token: uuid.UUID | None, fields: Mapping[str, object], pieces: Sequence[Example]
) -> ExampleSet:
    """A new set of pieces that the member may add. The same `token` again is the same tap, and does nothing more."""
    if not is_member(member):
        raise NotDone("Sign in to make a set.")
    if len(pieces) < 2:
        raise NotDone("A set has two pieces at least.")
    for _ in range(TRIES):
        if token is not None and (made := ExampleSet.with_dissolved.filter(made_once=token, made_by=member).first()):
            return made
        try:
            with transaction.atomic():
                made = ExampleSet.objects.create(
                    code=f"G{next_number(ExampleSet)}", made_by=member, made_once=token, **checked_fields(fields)
                )
        except IntegrityError:  # somebody else took the code meanwhile, or it is the second of two taps
            continue
        for piece in pieces:
            put_in(made, piece, member)
        return made
    raise NotDone("Too many sets are made at this moment. Try again.")


def checked_fields(fields: Mapping[str, object]) -> dict[str, object]:
    if unknown := set(fields) - FIELDS:
        raise TypeError(f"not to be changed: {', '.join(sorted(unknown))}")
    return dict(fields)


@transaction.atomic
def change_set(*, found: ExampleSet, member: Member, revision: int, fields: Mapping[str, object]) -> None:
    """Its name, whether the pieces were together from the beginning, and on what grounds. `revision`: the one that the
    change began with. Raises ChangedMeanwhile when it was changed elsewhere since."""
    held = locked(found, member)
    if held.revision != revision:
        raise ChangedMeanwhile("This set was changed elsewhere since you opened it. What you typed is still here.")
    ExampleSet.objects.filter(pk=held.pk).update(revision=F("revision") + 1, **checked_fields(fields))


@transaction.atomic
def add_pieces(*, found: ExampleSet, member: Member, pieces: Sequence[Example]) -> None:
    """Put pieces into a set, all or none; one that is in it stays where it is. Owners of others' pieces are told."""
    held = locked(found, member)
    for piece in pieces:
        put_in(held, piece, member)


def put_in(found: ExampleSet, piece: Example, member: Member) -> None:
    if not may_be_added(member, piece):
        raise NotDone(f"There is no piece {piece.code} that you can add.")
    if found.places.filter(example=piece).exists():
        return
    if found.places.count() >= MOST_PIECES:
        raise NotDone(f"A set has at most {MOST_PIECES} pieces.")
    kept_out = found.kept_out.filter(example=piece)
    if not owns(member, piece) and kept_out.exists():
        raise NotDone(f"The owner of {piece.code} took it out of this set; only they put it back.")
    kept_out.delete()
    last = found.places.order_by("position").last()
    place = ExampleInSet.objects.create(
        example_set=found, example=piece, position=last.position + 1 if last else 0, added_by=member
    )
    piece_joined_set.send(sender=None, place=place, by=member)


def may_be_added(member: Member, piece: Example) -> bool:
    """One's own in any state, of others' what everybody may read: so no set tells of a draft."""
    return piece.state == ExampleState.ACCEPTED or owns(member, piece)


@transaction.atomic
def take_out(*, found: ExampleSet, member: Member, piece: Example) -> None:
    """Who made the set takes any piece out, and so does a moderator; the owner of a piece their own, and then nobody
    else puts it back. What is out already stays out."""
    held = ExampleSet.with_dissolved.select_for_update().get(pk=found.pk)
    if not (owns(member, piece) or may_change_set(member, held)):
        raise NotDone("This is not your set, nor your piece.")
    if not held.places.filter(example=piece).delete()[0]:
        return
    if owns(member, piece) and held.made_by_id != member.pk:
        KeptOutOfSet.objects.get_or_create(example_set=held, example=piece)


@transaction.atomic
def dissolve_set(*, found: ExampleSet, member: Member) -> None:
    """Nobody sees it as a set any more; the pieces stay as they are, and it can be brought back. Twice is once."""
    if ExampleSet.with_dissolved.filter(pk=found.pk, dissolved_at__isnull=False).exists():
        return
    held = locked(found, member)
    ExampleSet.objects.filter(pk=held.pk).update(dissolved_at=timezone.now(), dissolved_by=member)


@transaction.atomic
def bring_back_set(*, found: ExampleSet, member: Member) -> None:
    """Take the dissolving back: who did it, or a moderator. Twice is once."""
    held = ExampleSet.with_dissolved.select_for_update().get(pk=found.pk)
    if not may_change_set(member, held):
        raise NotDone("This is not your set.")
    if held.dissolved_by_id not in (None, member.pk) and not is_moderator(member):
        raise NotDone("A moderator dissolved this set; a moderator brings it back.")
    ExampleSet.with_dissolved.filter(pk=held.pk).update(dissolved_at=None, dissolved_by=None)


def locked(found: ExampleSet, member: Member) -> ExampleSet:
    """The set as it stands, until the transaction ends. Raises NotDone where dissolved or not theirs to change."""
    held = ExampleSet.with_dissolved.select_for_update().get(pk=found.pk)
    if not may_change_set(member, held):
        raise NotDone("This is not your set.")
    if held.dissolved_at:
        raise NotDone("This set is dissolved. Bring it back first.")
    return held
