"""Writing a checked folder: all or nothing, and never a piece twice."""

import uuid
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path

from django.db import transaction

from catalogue.accounts.models import Member
from catalogue.member_examples.actions import add_observations, start_example
from catalogue.member_examples.models import Example, Label, Measurement, Photograph
from catalogue.member_examples.photographs import originals
from catalogue.member_examples.photographs.intake import Refused, TakenIn, take_in_each
from catalogue.member_examples.photographs.keeping import keep
from catalogue.member_examples.submitting.drafting import discard_files_of, put_shades
from catalogue.member_examples.submitting.importing.checking import (
    Known,
    check,
    known_now,
    look_in,
    pictures_of,
    read,
    shot_of,
)
from catalogue.member_examples.submitting.importing.sheets import PHOTOGRAPHS
from catalogue.member_examples.submitting.pictures import files_of
from catalogue.member_examples.words import Attachment, LabelOrigin
from catalogue.reference.spreadsheets.faults import Fault
from catalogue.reference.spreadsheets.reading import Folder, Row

# A name space of its own for the numbers that keep a piece from being brought in twice (RFC 9562, version 5).
PIECES_OF_LISTS = uuid.UUID("5b0c7d0e-6c0b-5a86-9d0a-9f3f1d0f6a31")
FIELDS = (
    "sold_as", "seen_on", "venue", "label_year", "contract", "size_mark", "condition", "complete", "label_legible",
    "mould", "provenance", "repairs", "note",
)  # fmt: skip


class FaultyCollection(ValueError):
    """Nothing was brought in; `faults` says everything that is wrong."""

    def __init__(self, faults: list[Fault]):
        super().__init__("\n".join(map(str, faults)))
        self.faults = faults


@dataclass
class Outcome:
    """How many pieces and pictures came in, and how many pieces had been there before."""

    pieces: int = 0
    photographs: int = 0
    there: int = 0


@dataclass
class Kept:
    """Photographs whose files are written, by piece, still without a row."""

    by_piece: dict[str, list[Photograph]] = field(default_factory=dict)

    @property
    def photographs(self) -> list[Photograph]:
        return [one for rows in self.by_piece.values() for one in rows]


def import_examples(*, folder: Path, dry_run: bool = False, tell: Callable[[str], None] = print) -> Outcome:
    """Bring the pieces of the folder in as drafts of their owners. Raises FaultyCollection with every fault at once.

    A piece of the same owner with the same number that came in before is left as it is, so that repeating is safe.
    `dry_run`: everything is looked at, pictures too, and nothing is kept.
    """
    known = known_now()
    rows = read(folder)
    faults = check(rows, folder, known)
    # With a fault in any row nothing comes in; the pictures of a row that has one are looked at all the same.
    new = [row for row in rows.rows.get("pieces", []) if "piece" not in row.faulty]
    there = set(
        Example.objects.filter(begun_once__in=[number_of(row) for row in new]).values_list("begun_once", flat=True)
    )
    new = [row for row in new if number_of(row) not in there]
    kept = Kept()
    try:
        faults += take_pictures(folder, new, kept, only_look=dry_run or bool(faults), tell=tell)
        if faults:
            raise FaultyCollection(faults)
        outcome = Outcome(len(new), len(kept.photographs), len(there))
        if not dry_run:
            write(rows, new, kept, known)
        return outcome
    except BaseException:
        discard_files_of(kept.photographs)
        raise


def number_of(row: Row) -> uuid.UUID:
    """The same number for the same piece of the same owner, whenever it is read."""
    return uuid.uuid5(PIECES_OF_LISTS, f"{row['owner']}\n{row['piece']}")


def take_pictures(folder: Path, new: list[Row], kept: Kept, *, only_look: bool, tell) -> list[Fault]:
    """Opens every picture of the new pieces and writes its sizes; a refused one is a fault. `only_look`: no writing."""
    faults = []
    for row in new:
        files = pictures_of(folder, row["piece"])
        if not files:
            continue
        tell(f"{row['piece']}: {len(files)} pictures")
        found: dict[str, str] = {}
        for file, outcome in zip(files, take_in_each(file.read_bytes() for file in files), strict=True):
            name = f"{PHOTOGRAPHS}/{row['piece']}/{file.name}"
            if isinstance(outcome, Refused):
                wanted = f"a photograph as JPEG, PNG, WebP or HEIC. {str(outcome).rstrip('.')}"
                faults.append(Fault(name, 0, "", "a file that is not taken", wanted))
            elif outcome.sha256 in found:
                same = found[outcome.sha256]
                faults.append(Fault(name, 0, "", "the same picture twice", f"each picture once: it is {same} as well"))
            else:
                found[outcome.sha256] = file.name
                photograph = photograph_of(file, outcome, place=len(found) - 1)
                kept.by_piece.setdefault(row["piece"], []).append(photograph)
                if not only_look:
                    keep_files(photograph, file, outcome)
    return faults


@transaction.atomic
def write(rows: Folder, new: list[Row], kept: Kept, known: Known) -> None:
    for row in new:
        owner = known.owners[row["owner"]]
        fields = {name: row.values[name] for name in FIELDS if name in row.values}
        fields |= {
            "garment_type": known.types.get(row.values.get("type", "")),
            "maker": known.makers.get(row.values.get("maker", "")),
        }
        example = start_example(owner=owner, fields=fields)
        Example.objects.filter(pk=example.pk).update(begun_once=number_of(row))
        write_rows(rows, row["piece"], example, owner, known)
        write_pictures(kept.by_piece.get(row["piece"], []), example, owner)


def write_rows(rows: Folder, piece: str, example: Example, owner: Member, known: Known) -> None:
    def of(name: str) -> list[Row]:
        return [row for row in rows.rows.get(name, []) if row["piece"] == piece]

    for place, row in enumerate(of("labels")):
        given = {name: row.values.get(name) or "" for name in ("kind", "place", "text", "remark")}
        attachment = row.values.get("attachment") or Attachment.NOT_KNOWN
        origin = row.values.get("origin") or LabelOrigin.NOT_KNOWN
        Label.objects.create(example=example, position=place, attachment=attachment, origin=origin, **given)
    for row in of("lengths"):
        mm, typed = row["length"]
        Measurement.objects.create(example=example, what=row["what"], mm=mm, typed=typed, by=owner)
    for row in of("shades"):
        seen = {name: row.values.get(name) or "" for name in ("exposed", "protected")}
        labs = row.values.get("exposed_lab"), row.values.get("protected_lab")
        shade = known.shades[example.garment_type.code].code
        put_shades(example=example, member=owner, shade=shade, **seen, labs=labs if all(labs) else None)
    looks = [look for row in of("observations") if (look := look_in(row, known))]
    add_observations(example=example, member=owner, looks=looks)


def photograph_of(file: Path, taken: TakenIn, *, place: int) -> Photograph:
    return Photograph(
        view=shot_of(file),
        position=place,
        width=taken.width,
        height=taken.height,
        sha256=taken.sha256,
        perceptual_hash=taken.perceptual_hash,
    )


def keep_files(photograph: Photograph, file: Path, taken: TakenIn) -> None:
    photograph.files = files_of(keep(taken.sizes), taken)
    if originals.are_kept():
        photograph.original = originals.keep_original(file.read_bytes())


def write_pictures(pictures: list[Photograph], example: Example, owner: Member) -> None:
    for photograph in pictures:
        photograph.example, photograph.credit = example, owner.username
        photograph.save()
