"""Scans of sources beside the spreadsheets: out with the reference, and in again, where a moderator of that site looks
at each before it is shown. `scans/scans.csv` says which file belongs to which source, whose it is, and who may use it.
"""

import csv
from collections.abc import Mapping
from dataclasses import dataclass, field
from hashlib import sha256
from pathlib import Path

from django.db import transaction

from catalogue.accounts.models import Member
from catalogue.member_examples.actions import NotDone
from catalogue.member_examples.photographs import keeping
from catalogue.member_examples.photographs.limits import SIZES
from catalogue.reference.models import Source, SourceScan
from catalogue.reference.words import NamesOnScan
from catalogue.review.models import Proposal
from catalogue.review.proposals.actions import save_draft, send_proposal
from catalogue.review.scans.actions import AlreadyThere, begin_scan
from catalogue.typed_words import can_be_read

FOLDER, LIST = "scans", "scans.csv"
# What it shows, whose it is and who may use it are as in the form; an empty licence lets only the society show it.
COLUMNS = ("source", "file", "shows", "credit", "licence", "part_unreadable")
WORDS = ("shows", "credit", "licence")


@dataclass
class BroughtIn:
    """Proposals that wait, how many scans were there already, and refusals in words."""

    written: list[int] = field(default_factory=list)
    there: int = 0
    refused: list[str] = field(default_factory=list)


def export_scans(folder: Path) -> int:
    """Writes every scan that is shown, the largest size that is kept, and the list; how many. None makes no folder."""
    scans = SourceScan.objects.filter(shown=True).select_related("source").order_by("source__code", "pk")
    rows = [
        {"source": one.source.code, "file": f"scan-{place}.webp", "part_unreadable": "yes" if one.blurred else "no"}
        | {name: getattr(one, name) for name in WORDS}
        | {"data": keeping.read(one.key, SIZES[0])}
        for place, one in enumerate(scans, 1)
    ]
    if not rows:
        return 0
    (folder / FOLDER).mkdir(exist_ok=True)
    with (folder / FOLDER / LIST).open("w", encoding="utf-8", newline="") as file:
        writer = csv.DictWriter(file, COLUMNS, extrasaction="ignore", lineterminator="\n")
        writer.writeheader()
        writer.writerows(rows)
    for row in rows:
        (folder / FOLDER / row["file"]).write_bytes(row["data"])
    return len(rows)


def has_scans(folder: Path) -> bool:
    return (folder / FOLDER / LIST).is_file()


def bring_scans_in(*, folder: Path, by: Member, because: str) -> BroughtIn:
    """Each row of the list becomes a proposal that waits; what stands or waits at its source already is left, so that
    a folder may be brought in again. A row that cannot be read is refused by itself."""
    done = BroughtIn()
    try:
        with (folder / FOLDER / LIST).open(encoding="utf-8-sig", newline="") as file:
            rows = list(csv.DictReader(file))
    except (OSError, UnicodeDecodeError, csv.Error) as problem:
        done.refused.append(f"{LIST}: cannot be read ({problem}). Save it as CSV in UTF-8.")
        return done
    for line, row in enumerate(rows, 2):
        try:
            done.written.append(proposed(folder / FOLDER, row, by, because).pk)
        except AlreadyThere:
            done.there += 1
        except NotDone as refusal:
            done.refused.append(f"{LIST}, line {line}: {refusal}")
    return done


@transaction.atomic
def proposed(folder: Path, row: Mapping[str, str], by: Member, because: str) -> Proposal:
    """The proposal of one row, sent. Raises NotDone in words; nothing of the row is written then."""
    given = {name: (row.get(name) or "").strip() for name in COLUMNS}
    source = Source.objects.filter(code=given["source"]).first()
    if source is None:
        raise NotDone(f"there is no source “{given['source'][:80]}”.")
    path = folder / given["file"]
    if not given["file"] or path.parent != folder or not path.is_file():
        raise NotDone(f"there is no picture “{given['file'][:80]}” beside the list.")
    if not can_be_read(given["shows"]) or not can_be_read(given["credit"]):
        raise NotDone("say what the scan shows, and whose it is.")
    refuse_same(source, path, by)
    with path.open("rb") as file:
        made = begin_scan(by=by, source=source, file=file)
    # Whatever was made unreadable is so in the file; the moderator who lets it be shown looks for the rest.
    wanted = {name: given[name] for name in WORDS} | {"names": NamesOnScan.NONE.value}
    try:
        made = save_draft(proposal=made, by=by, revision=made.revision, wanted=wanted, grounds=because, sources=[])
        return send_proposal(proposal=made, by=by)
    except NotDone:
        keeping.discard(made.scan.key, SIZES)
        raise


def refuse_same(source: Source, path: Path, by: Member) -> None:
    """An exported file is one of ours, not the picture that was once sent in: it is told by its bytes."""
    digest = sha256(path.read_bytes()).digest()
    for one in source.scans.exclude(key="").select_related("proposal"):
        if sha256(keeping.read(one.key, SIZES[0])).digest() == digest:
            raise AlreadyThere(one, by)
