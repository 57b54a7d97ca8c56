"""Asking for a name to be removed, and removing it everywhere."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from django.db import transaction
from django.utils import timezone

from catalogue.accounts.models import Member
from catalogue.accounts.wiping import wipe_what_was_deleted
from catalogue.member_examples.actions.refusals import NotDone, refuse_unread
from catalogue.member_examples.gates import is_moderator
from catalogue.member_examples.happenings import name_asked_for, name_removed, name_request_settled
from catalogue.member_examples.models import Example, HiddenName, NameRequest, Photograph
from catalogue.member_examples.photographs.hiding import Area
from catalogue.member_examples.removing_names.places import elsewhere, found_in, near_in
from catalogue.member_examples.submitting.drafting import refuse_bystanders
from catalogue.member_examples.submitting.names import LEAST_SIGNS, pattern_of
from catalogue.member_examples.submitting.pictures import blur, clear_taken_out, drop_originals
from catalogue.member_examples.words import NameOnLabel
from catalogue.member_examples.written_once import write_anew
from catalogue.reference.models import ReferenceState
from catalogue.typed_words import can_be_read

LONGEST_REQUEST = 2_000


@transaction.atomic
def ask_for_removal(*, example: Example, member: Member, words: str) -> NameRequest:
    """Ask the owner and the moderators for a name to be removed. While one's own request is open, new words take the
    place of the old."""
    refuse_unread(example, member)
    words = words.strip()[:LONGEST_REQUEST]
    if not can_be_read(words):
        raise NotDone("Say where the name stands, so that it can be found.")
    asked, new = NameRequest.objects.get_or_create(
        example=example, by=member, settled_at=None, defaults={"words": words}
    )
    if new:
        name_asked_for.send(sender=None, asked=asked)
    elif asked.words != words:
        asked.words = words
        asked.save(update_fields=["words"])
    return asked


@transaction.atomic
def settle_request(*, asked: NameRequest, member: Member) -> None:
    """Everything that was asked for is done, or there was nothing to do: what was written goes. Twice is once."""
    if not is_moderator(member):
        raise NotDone("Moderators settle requests.")
    NameRequest.objects.filter(pk=asked.pk, settled_at__isnull=True).update(
        words="", settled_at=timezone.now(), settled_by=member
    )
    name_request_settled.send(sender=None, asked=asked)
    transaction.on_commit(wipe_what_was_deleted, robust=True)


@transaction.atomic
def remove_on_request(*, example: Example, member: Member, names: Iterable[str]) -> int:
    """Mask a name in everything that was ever written of the piece, forget the plain names that were kept for the
    moderators, delete pictures that were taken out and pictures as they were sent in, and leave a dated note.

    In whatever state the piece is, for its owner and, once it was sent, for moderators. Returns in how many texts it
    stood. Rows that are written once are written anew with nothing changed but the name: the one reason there is.
    """
    refuse_bystanders(example, member)
    Example.objects.select_for_update().get(pk=example.pk)
    names = spelled(names)
    kept = list(example.hidden_names.exclude(name="").values_list("name", flat=True))
    if not names and not kept:
        raise NotDone("Write the name as it stands on the piece, so that it can be found.")
    clear_taken_out(example, before=timezone.now())
    drop_originals(example)
    changes: dict[tuple, tuple] = {}
    changed = 0
    for found in found_in(example, pattern_of([*names, *kept])):
        changed += 1
        place, row, texts = changes.setdefault((type(found.row), found.row.pk), (found.place, found.row, {}))
        texts[found.field] = found.cleaned
    for place, row, texts in changes.values():
        if place.written_once:
            write_anew(row, texts)
            continue
        for field, text in texts.items():
            setattr(row, field, text)
        row.save()  # all of it: a label's bare text follows its text
    example.hidden_names.exclude(name="").update(name="")
    note = HiddenName.objects.create(example=example, by=member, on_request=True)
    Example.objects.filter(pk=example.pk).update(name_on_label=NameOnLabel.MASKED)
    ReferenceState.mark_changed()
    name_removed.send(sender=None, note=note, by=member)
    transaction.on_commit(wipe_what_was_deleted, robust=True)
    example.refresh_from_db()
    return changed


def spelled(names: Iterable[str]) -> list[str]:
    return [name.strip() for name in names if len(name.strip()) >= LEAST_SIGNS]


@dataclass(frozen=True)
class Standing:
    """`places`: in how many texts of the piece a name stands, by place; `near`: words that are nearly it and stand
    there too; `elsewhere`: records of the reference that have it."""

    places: dict[str, int]
    near: list[str]
    elsewhere: list[str]


def where_it_stands(example: Example, names: Iterable[str]) -> Standing:
    """Where a name stands, before anything is removed."""
    names = spelled(names)
    pattern = pattern_of(names)
    counted: dict[str, int] = {}
    for found in found_in(example, pattern):
        counted[found.place.title] = counted.get(found.place.title, 0) + 1
    kept = sum(1 for one in example.hidden_names.all() if one.name and (pattern and pattern.search(one.name)))
    if kept:
        counted["names kept for the moderators"] = kept
    return Standing(counted, near_in(example, names), elsewhere(pattern))


def blur_on_request(*, example: Example, member: Member, photograph: Photograph, areas: Sequence[Area]) -> list[str]:
    """Make areas of a photograph unreadable in every stored size, whatever state the piece is in. Returns the files
    that could not be deleted."""
    left = blur(example=example, member=member, photograph=photograph, areas=areas, on_request=True)
    ReferenceState.mark_changed()
    return left
