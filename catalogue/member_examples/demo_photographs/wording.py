"""What is to be written on a drawn label, read from the record of its text."""

import re
from dataclasses import dataclass

REMARK = re.compile(r"\s*\(([^)]*)\)")
SECOND_LABELS = {
    "repellent": ("REPELLENT", "TREATED"),
    "proofed": ("PROOFED", "DO NOT IRON"),
    "flame": ("FLAME RESISTING", "WASH COLD"),
}


@dataclass(frozen=True)
class Writing:
    """`lines`: what can be read. `unreadable`: how many lines cannot. `missing`: there is no label, or no longer."""

    lines: tuple[str, ...]
    is_stamp: bool = False
    unreadable: int = 0
    missing: bool = False
    cut_out: bool = False


def writings_of(label_text: str) -> list[Writing]:
    """The labels and stamps of a piece, in the order of the record; ` / ` begins a line, ` // ` another label."""
    return [writing_of(part) for part in label_text.split(" // ") if part.strip()]


def writing_of(part: str) -> Writing:
    remarks = " ".join(REMARK.findall(part))
    lines = tuple(line.strip() for line in REMARK.sub("", part).split(" / ") if line.strip())
    if lines:
        return Writing(lines, is_stamp="stamp" in remarks)
    if "illegible" in remarks:
        return Writing((), unreadable=3)
    return Writing((), missing=True, cut_out="cut out" in remarks)
