"""A scan as a proposal sees it: what it says, whether it can be shown, and the writing of what was decided."""

from django.db import transaction

from catalogue.member_examples.actions import NotDone
from catalogue.member_examples.photographs import keeping
from catalogue.member_examples.photographs.limits import SIZES
from catalogue.member_examples.submitting.pictures import LICENCES
from catalogue.reference.models import ReferenceState, SourceScan
from catalogue.reference.words import NamesOnScan
from catalogue.typed_words import can_be_read

Rows = dict[str, object]
FIELD_WORDS = {
    "shows": "What it shows",
    "credit": "Whose it is",
    "licence": "Who may use it",
    "names": "Names and faces of private persons",
}
LONGEST = {"shows": 300, "credit": 120}
GONE = "Its files are gone: it was taken out, or the proposal is closed. Put it in anew."


def rows_of(scan: SourceScan) -> Rows:
    """What of it is shown; nothing where it is not."""
    held = SourceScan.objects.get(pk=scan.pk)
    return {name: getattr(held, name) for name in FIELD_WORDS} if held.shown else {}


def row_in_words(key: str, value) -> str:
    if key == "names":
        return NamesOnScan(value).label if value else ""
    return dict(LICENCES).get(value, str(value)) if key == "licence" else str(value)


def check_rows(rows: Rows) -> None:
    """Raises NotDone in words where a scan could not say this."""
    for name, longest in LONGEST.items():
        if len(str(rows.get(name, ""))) > longest:
            raise NotDone(f"{FIELD_WORDS[name]}: at most {longest} characters, please.")
    if rows.get("licence", "") not in dict(LICENCES):
        raise NotDone("Choose one of the licences.")
    if rows.get("names", "") not in ("", *NamesOnScan.values):
        raise NotDone("Say whether names or faces of private persons are to be seen.")


def reason_not_to_show(scan: SourceScan, rows: Rows, *, waits: bool) -> str | None:
    """What is missing before it can be sent, or, of one that `waits`, be shown. In words, or None."""
    if not scan.key:
        return GONE
    if not can_be_read(rows.get("shows", "")):
        return "Say in words what the scan shows: not everybody can see it."
    if not can_be_read(rows.get("credit", "")):
        return "Say whose it is: who made it, or who keeps what it shows."
    if not rows.get("names"):
        return "Say whether names or faces of private persons are to be seen on it."
    if rows["names"] == NamesOnScan.MASKED and not scan.blurred:
        return "Nothing is made unreadable yet: choose the place in the picture first."
    if rows["names"] == NamesOnScan.TO_MASK and waits:
        return "A name or face is still to be made unreadable in the picture before it can be shown."
    return None


def write_rows(scan: SourceScan, rows: Rows) -> None:
    """Shows it with these words; with none it is shown no more, and its files go."""
    held = SourceScan.objects.get(pk=scan.pk)
    held.shown = bool(rows.get("shows"))
    for name in FIELD_WORDS:
        setattr(held, name, rows.get(name, ""))
    if not held.shown:
        forget_files(held)
    held.save()
    ReferenceState.mark_changed()


def close(scan: SourceScan) -> None:
    """The proposal came to nothing: the words stay in it, the picture goes."""
    held = SourceScan.objects.get(pk=scan.pk)
    forget_files(held)
    held.save()


def forget_files(scan: SourceScan) -> None:
    """Its files are removed once the change that needs them no more is safe."""
    key, scan.key = scan.key, ""
    if key:
        transaction.on_commit(lambda: keeping.discard(key, SIZES))


def throw_away(scan: SourceScan) -> None:
    """Of a draft that nobody else has seen nothing is left."""
    held = SourceScan.objects.get(pk=scan.pk)
    forget_files(held)
    held.delete()
