"""Giving a feature or a state a photograph, marking its spot, replacing it, taking it out.

Each is one correction of the feature, with who, when and why. Opening a picture takes seconds, so it is done before the
database is asked to wait. What is refused raises NotDone with words for the author, and leaves nothing behind.
"""

from collections.abc import Iterator, Mapping
from contextlib import ExitStack, contextmanager

from django.db import transaction

from catalogue.accounts.models import Member
from catalogue.member_examples.actions.refusals import NotDone
from catalogue.member_examples.photographs import keeping
from catalogue.member_examples.photographs.hiding import Area
from catalogue.member_examples.photographs.intake import Refused, TakenIn, cut_out, take_in
from catalogue.member_examples.photographs.keeping import NotKept, kept
from catalogue.member_examples.photographs.limits import SIZES
from catalogue.reference.marked_spots import close_up, spot_on
from catalogue.reference.models import Correction, Feature, FeatureState, MarkedPhotograph, ReferenceState

CLOSE = SIZES[-1]
WORDS = ("shows", "credit", "licence", "drawn")
THERE = "There is a photograph of this already. Replace that one, or take it out first."
GONE = "This photograph was taken out meanwhile. Nothing was changed."
OVERTAKEN = "Somebody put another photograph in its place while you had this one open. Nothing was changed: look again."


def add(*, shown: Feature | FeatureState, by: Member, file, words: Mapping, why: str) -> MarkedPhotograph:
    """A photograph of the feature or state, not shown before its spot is marked. `words`: the fields named in WORDS."""
    place = {"state": shown} if isinstance(shown, FeatureState) else {"feature": shown}
    if MarkedPhotograph.objects.filter(**place).exists():
        raise NotDone(THERE)
    picture = taken(file)
    with keeping_words(), kept(picture.sizes) as key, transaction.atomic():
        ReferenceState.hold()
        if MarkedPhotograph.objects.filter(**place).exists():
            raise NotDone(THERE)
        made = MarkedPhotograph.objects.create(**place, **dict(words), **files_of(picture, key))
        write_down(made, by, why, [[titled(made), "", said(made)]])
    return made


def replace(*, number: int, seen: str, by: Member, file, why: str) -> MarkedPhotograph:
    """Another photograph in the place of one; its spot is marked anew. `seen`: the key of the one looked at."""
    picture = taken(file)
    with keeping_words(), kept(picture.sizes) as key, transaction.atomic():
        row = held(number, seen)
        before = said(row)
        forget_files(row)
        for name, value in {**files_of(picture, key), **unmarked()}.items():
            setattr(row, name, value)
        row.save()
        write_down(row, by, why, [[titled(row), before, f"another photograph; {said(row)}"]])
    return row


def mark(*, number: int, seen: str, by: Member, spot: tuple[float, float, float], words: Mapping, why: str) -> None:
    """The spot and the words. `spot`: x, y and radius as MarkedPhotograph has them."""
    row = MarkedPhotograph.objects.filter(pk=number).first()
    if row is None:
        raise NotDone(GONE)
    with keeping_words(), ExitStack() as files:
        close = row.close_key
        if spot != (row.x, row.y, row.radius):
            close = files.enter_context(kept({CLOSE: cut(row, spot)}))
        files.enter_context(transaction.atomic())
        row = held(number, seen)
        before = said(row)
        if close != row.close_key:
            forget(row.close_key, (CLOSE,))
        for name, value in {**dict(words), **dict(zip(("x", "y", "radius"), spot, strict=True))}.items():
            setattr(row, name, value)
        row.close_key = close
        row.save()
        if said(row) != before:
            write_down(row, by, why, [[titled(row), before, said(row)]])


def remove(*, number: int, seen: str, by: Member, why: str) -> None:
    """Takes the photograph out, with its files: the drawing stands again, where there is one."""
    with transaction.atomic():
        row = held(number, seen)
        write_down(row, by, why, [[titled(row), said(row), ""]])
        forget_files(row)
        row.delete()


def held(number: int, seen: str) -> MarkedPhotograph:
    """The row while nobody else changes the reference, if it still holds the photograph that was looked at."""
    ReferenceState.hold()
    row = MarkedPhotograph.objects.select_related("feature", "state__feature").filter(pk=number).first()
    if row is None:
        raise NotDone(GONE)
    if row.key != seen:
        raise NotDone(OVERTAKEN)
    return row


def taken(file) -> TakenIn:
    try:
        return take_in(file)
    except Refused as refusal:
        raise NotDone(str(refusal)) from refusal


def cut(row: MarkedPhotograph, spot: tuple[float, float, float]) -> bytes:
    """What lies round the spot, in the smallest size."""
    left, top, wide, high = close_up(row.width, row.height, spot_on(row.width, row.height, *spot))
    part = Area(left / row.width, top / row.height, wide / row.width, high / row.height)
    try:
        return cut_out(keeping.read(row.key, SIZES[0]), part).sizes[CLOSE]
    except (Refused, OSError) as problem:
        raise NotDone(
            "The photograph's file cannot be read, so its spot cannot be marked. Put it in anew."
        ) from problem


@contextmanager
def keeping_words() -> Iterator[None]:
    """What the storage refuses is told like any other refusal."""
    try:
        yield
    except NotKept as problem:
        raise NotDone(str(problem)) from problem


def files_of(picture: TakenIn, key: str) -> dict:
    return {"key": key, "width": picture.width, "height": picture.height, "sha256": picture.sha256}


def unmarked() -> dict:
    return {"x": None, "y": None, "radius": None, "close_key": ""}


def forget_files(row: MarkedPhotograph) -> None:
    forget(row.key, SIZES)
    if row.close_key:
        forget(row.close_key, (CLOSE,))


def forget(key: str, sizes: tuple[int, ...]) -> None:
    """Removes files once the change that needs them no more is safe."""
    if key:
        transaction.on_commit(lambda: keeping.discard(key, sizes))


def titled(row: MarkedPhotograph) -> str:
    return f"Photograph of “{row.state}”" if row.state else "Photograph of the feature"


def said(row: MarkedPhotograph) -> str:
    """All that a row says, in words."""
    by = f"drawn by {row.credit}" if row.drawn else f"by {row.credit}"
    spot = "not marked yet, so not shown"
    if row.is_marked:
        spot = f"marked at {row.x:.0%} from the left and {row.y:.0%} from above, {row.radius:.0%} round"
    return "; ".join(part for part in (row.shows, by, row.licence, spot) if part)


def write_down(row: MarkedPhotograph, by: Member, why: str, lines: list[list[str]]) -> None:
    """The correction stands in the history of the feature."""
    feature = row.of_feature
    Correction.objects.create(
        table=Feature._meta.model_name,
        row=feature.pk,
        title=f"{feature.name} ({feature.code})"[:300],
        deed=Correction.Deed.CHANGED,
        member=by,
        why=why.strip(),
        lines=lines,
    )
    ReferenceState.mark_changed()
