"""A scan as pages show it: one address for each size, behind the same gate."""

from dataclasses import dataclass

from django.urls import reverse

from catalogue.member_examples.photographs.limits import SIZES
from catalogue.reference.models import SourceScan


@dataclass(frozen=True)
class ScanPicture:
    """`srcset` names every size with its width in pixels."""

    small: str
    middle: str
    large: str
    srcset: str
    width: int
    height: int
    words: str
    owed: str


def picture_of_scan(scan: SourceScan) -> ScanPicture | None:
    """None where its files are gone. What it shows and whose it is stand in its proposal until it is shown."""
    if not scan.key:
        return None
    said = {"shows": scan.shows, "credit": scan.credit, "licence": scan.licence} if scan.shown else scan.proposal.rows
    pairs = [(reverse("scans:file", args=[scan.key, longer]), width_at(scan, longer)) for longer in reversed(SIZES)]
    return ScanPicture(
        small=pairs[0][0],
        middle=pairs[1][0],
        large=pairs[-1][0],
        srcset=", ".join(f"{address} {width}w" for address, width in pairs),
        width=scan.width,
        height=scan.height,
        words=said.get("shows") or "A scan; nobody has said yet what it shows",
        owed=" · ".join(part for part in (said.get("credit", ""), said.get("licence", "")) if part),
    )


def width_at(scan: SourceScan, longer: int) -> int:
    """A picture that is smaller than a size was not enlarged."""
    return max(1, round(scan.width * min(1, longer / max(scan.width, scan.height))))
