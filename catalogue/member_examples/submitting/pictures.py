"""What an owner does with the photographs of a piece: put some in, say what they show, take out, put back, blur."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from django.core.files.storage import default_storage
from django.db import transaction
from django.utils import timezone

from catalogue.accounts.models import Member
from catalogue.member_examples.actions.refusals import NotDone
from catalogue.member_examples.happenings import name_removed
from catalogue.member_examples.models import Example, HiddenName, Photograph
from catalogue.member_examples.photographs import originals
from catalogue.member_examples.photographs.hiding import Area
from catalogue.member_examples.photographs.intake import Refused, TakenIn, bytes_of, hidden, shown_name, take_in_each
from catalogue.member_examples.photographs.keeping import NotKept, discard_file, file_name, kept
from catalogue.member_examples.photographs.originals import discard_originals
from catalogue.member_examples.submitting.drafting import (
    discard_files_of,
    next_position,
    refuse_bystanders,
    refuse_closed,
    touch,
)
from catalogue.member_examples.words import NameOnLabel, NamePlace, Shot

MOST_PHOTOGRAPHS = 30
PUT_BACK_WITHIN = timedelta(days=1)
NAMES_TOLD = 3
LICENCES = (
    ("", "All rights mine; shown on this site only"),
    ("CC BY 4.0", "CC BY 4.0: anybody may use it who names me"),
    ("CC BY-SA 4.0", "CC BY-SA 4.0: the same, under the same terms"),
    ("CC0 1.0", "CC0 1.0: free for any use"),
)


@dataclass(frozen=True)
class Uploaded:
    """What became of one upload: photographs that are there now, refusals in words, and in words those that were there
    before."""

    taken: tuple[Photograph, ...]
    refused: tuple[str, ...]
    again: tuple[str, ...] = ()

    @property
    def arrived(self) -> int:
        return len(self.taken) - len(self.again)


def put_in(*, example: Example, member: Member, files: Sequence, view: str = Shot.OTHER, caption: str = "") -> Uploaded:
    """Take the files in, each for itself: one that is refused spoils no other. A picture that is there stays once.

    Opening pictures takes seconds, so it is done before the database is asked to wait. Raises NotDone where the piece
    is not open to its owner.
    """
    with transaction.atomic():
        refuse_closed(example, member)
        room = MOST_PHOTOGRAPHS - example.photographs.count()
    refused = [too_many(files[max(room, 0) :])] if room < len(files) else []
    taken: list[Photograph] = []
    again: list[str] = []
    there = set(example.photographs.values_list("pk", flat=True))
    for outcome, file in zip(take_in_each(files[:room]) if room > 0 else [], files, strict=False):
        if isinstance(outcome, Refused):
            refused.append(str(outcome))
            continue
        try:
            original = bytes_of(file, "") if originals.are_kept() else None
            made = put_one(example, member, outcome, view, caption, original=original)
        except NotKept as problem:
            refused.append(f"{shown_name(getattr(file, 'name', ''))}: {problem}")
        except NotDone as problem:
            refused.append(f"{shown_name(getattr(file, 'name', ''))}: {problem}")
        else:
            taken.append(made)
            if made.pk in there:
                again.append(f"{shown_name(getattr(file, 'name', ''))}: {already_here(example, made)}")
            there.add(made.pk)
    return Uploaded(tuple(taken), tuple(refused), tuple(again))


def already_here(example: Example, photograph: Photograph) -> str:
    """Where on the page the picture stands."""
    number = list(example.photographs.values_list("pk", flat=True)).index(photograph.pk) + 1
    return f"this picture is already here, shown as number {number}."


def too_many(files: Sequence) -> str:
    """Of a hundred files one sentence, with the first few by name."""
    names = [shown_name(getattr(file, "name", "") or "") for file in files]
    shown = ", ".join(names[:NAMES_TOLD]) + (f" and {len(names) - NAMES_TOLD} more" if len(names) > NAMES_TOLD else "")
    were = "was" if len(names) == 1 else "were"
    return f"{shown} {were} not taken: a piece has at most {MOST_PHOTOGRAPHS} photographs. Take one out first."


@transaction.atomic
def set_terms(*, example: Example, member: Member, credit: str, licence: str) -> None:
    """Whose the pictures of the piece are and who may use them, for all that are here; those that follow take it
    over. `licence`: one of LICENCES. Raises NotDone where the piece is not open to its owner."""
    refuse_closed(example, member)
    example.photographs.update(credit=credit or member.username, licence=licence)
    touch(example)


def put_one(
    example: Example, member: Member, picture: TakenIn, view: str, caption: str, *, original: bytes | None = None
) -> Photograph:
    """A picture that was taken in, with the file as it was sent where that is kept. One that is there stays once."""
    there = Photograph.with_taken_out.filter(example=example, sha256=picture.sha256).first()
    if there:
        if there.taken_out_at:
            put_back(example=example, member=member, photograph=there)
        return there
    last = last_of(member)
    with kept(picture.sizes) as key, originals.kept_original(original) as name, transaction.atomic():
        refuse_closed(example, member)
        if example.photographs.count() >= MOST_PHOTOGRAPHS:
            raise NotDone(f"a piece has at most {MOST_PHOTOGRAPHS} photographs.")
        made = Photograph.objects.create(
            example=example,
            view=view if view in Shot.values else Shot.OTHER,
            caption=caption[:300],
            credit=last.credit if last else member.username,
            licence=last.licence if last else "",  # a licence is given by whoever owns the picture, never by us
            position=next_position(example.photographs),
            files=files_of(key, picture),
            original=name,
            width=picture.width,
            height=picture.height,
            sha256=picture.sha256,
            perceptual_hash=picture.perceptual_hash,
        )
        touch(example)
    return made


def last_of(member: Member) -> Photograph | None:
    """The member's latest photograph, whose licence and credit the next one begins with."""
    return Photograph.objects.filter(example__owner=member, drawn=False).order_by("-made_at", "-pk").first()


def terms_words(photograph: Photograph) -> str:
    """`Ada: all rights mine; shown on this site only`."""
    words = dict(LICENCES).get(photograph.licence, photograph.licence)
    return f"{photograph.credit}: {words if photograph.licence else words[0].lower() + words[1:]}"


def files_of(key: str, picture: TakenIn) -> list[dict]:
    """One entry for each stored size; a picture that is smaller than a size was not enlarged."""
    longest = max(picture.width, picture.height)
    found = []
    for longer in sorted(picture.sizes):
        scale = min(1, longer / longest)
        width, height = max(1, round(picture.width * scale)), max(1, round(picture.height * scale))
        found.append({"name": file_name(key, longer), "longer": longer, "width": width, "height": height})
    return found


@transaction.atomic
def describe(*, example: Example, member: Member, photograph: Photograph, fields: Mapping[str, str]) -> None:
    """What the picture shows, in words, and whose it is under what terms."""
    refuse_closed(example, member)
    Photograph.objects.filter(pk=photograph.pk).update(
        **{name: fields[name] for name in ("view", "caption", "credit", "licence") if name in fields}
    )
    touch(example)


@transaction.atomic
def move(*, example: Example, member: Member, photograph: Photograph, by: int) -> None:
    """One place forward (-1) or back (+1)."""
    refuse_closed(example, member)
    order = list(example.photographs.all())
    place = next(n for n, one in enumerate(order) if one.pk == photograph.pk)
    order.insert(max(0, min(len(order) - 1, place + by)), order.pop(place))
    for number, one in enumerate(order):
        Photograph.objects.filter(pk=one.pk).update(position=number)
    touch(example)


@transaction.atomic
def take_out(*, example: Example, member: Member, photograph: Photograph, at: datetime | None = None) -> None:
    """Nobody sees it any more; for a day its owner can put it back."""
    refuse_closed(example, member)
    Photograph.with_taken_out.filter(pk=photograph.pk).update(taken_out_at=at or timezone.now())
    touch(example)


@transaction.atomic
def put_back(*, example: Example, member: Member, photograph: Photograph) -> None:
    refuse_closed(example, member)
    if example.photographs.count() >= MOST_PHOTOGRAPHS:
        raise NotDone(f"a piece has at most {MOST_PHOTOGRAPHS} photographs. Take another out first.")
    Photograph.with_taken_out.filter(pk=photograph.pk).update(taken_out_at=None)
    touch(example)


def clear_taken_out(example: Example, *, before: datetime | None = None) -> None:
    """Delete for good what was taken out before that time, a day ago where none is given, files and all."""
    old = Photograph.with_taken_out.filter(
        example=example, taken_out_at__lte=before or timezone.now() - PUT_BACK_WITHIN
    )
    if rows := list(old):
        old.delete()
        transaction.on_commit(lambda: discard_files_of(rows))


@transaction.atomic
def drop_originals(example: Example) -> None:
    """Pictures as they were sent in show and say what has to go now; the sizes on pages stay. Raises NotDone where one
    cannot be deleted."""
    rows = Photograph.with_taken_out.filter(example=example).exclude(original="")
    if discard_originals(rows.values_list("original", flat=True)):
        raise NotDone("A picture as it was sent in cannot be deleted just now. Try again; please tell the secretary.")
    rows.update(original="")


def discard_names(names: Iterable[str]) -> None:
    for name in names:
        discard_file(default_storage, name)


def blur(
    *, example: Example, member: Member, photograph: Photograph, areas: Sequence[Area], on_request: bool = False
) -> list[str]:
    """Make areas of a picture unreadable in every stored size, for good; the files that showed them are deleted, the
    picture as it was sent in among them.

    `on_request`: somebody asked for it later; then the owner or a moderator does it whatever state the piece is in.
    Returns the names of old files that could not be deleted. Raises NotDone, and leaves the picture as it was, where
    it cannot be read or written.
    """
    try:
        with default_storage.open(largest(photograph)) as file:
            made = hidden(file.read(), areas)
    except Refused as problem:
        raise NotDone(str(problem)) from problem
    except OSError as problem:
        raise NotDone("The picture's file cannot be read just now. Nothing was changed; try again.") from problem
    try:
        with kept(made.sizes) as key, transaction.atomic():
            (refuse_bystanders if on_request else refuse_closed)(example, member)
            before = Photograph.with_taken_out.select_for_update().get(pk=photograph.pk)
            if before.files != photograph.files:
                raise NotDone("This picture was changed elsewhere just now. Look at it again.")
            Photograph.objects.filter(pk=photograph.pk).update(
                files=files_of(key, made),
                original="",
                perceptual_hash=made.perceptual_hash,
                width=made.width,
                height=made.height,
            )
            note = HiddenName.objects.create(
                example=example, place=NamePlace.PHOTOGRAPH, by=member, on_request=on_request
            )
            if on_request:
                name_removed.send(sender=None, note=note, by=member)
            if example.name_on_label in (NameOnLabel.NOT_LOOKED, NameOnLabel.NONE):
                Example.objects.filter(pk=example.pk).update(name_on_label=NameOnLabel.MASKED)
            touch(example)
    except NotKept as problem:
        raise NotDone(str(problem)) from problem
    old = [size["name"] for size in before.files]
    discard_names(old)
    return still_there(old) + discard_originals([before.original])


def still_there(names: Iterable[str]) -> list[str]:
    """Which of these files the storage still holds, or cannot say."""
    found = []
    for name in names:
        try:
            if default_storage.exists(name):
                found.append(name)
        except OSError:
            found.append(name)
    return found


def largest(photograph: Photograph) -> str:
    return max(photograph.files, key=lambda size: size["longer"])["name"]
