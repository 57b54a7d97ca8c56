"""The files of an existing collection and their columns: what the import reads and DEVELOPERS.md lists."""

from catalogue.member_examples.submitting.figures_typed import lab
from catalogue.member_examples.submitting.lengths import millimetres
from catalogue.member_examples.words import Attachment, Condition, LabelKind, LabelOrigin, ProtectedShade
from catalogue.reference.spreadsheets.columns import (
    LONGEST_TEXT,
    Column,
    Unreadable,
    code,
    text,
    uncertain_date,
    whole,
    words,
)
from catalogue.reference.spreadsheets.layout import Sheet
from catalogue.reference.words import Measured
from identification.dating.shades import Lab


def yes_no_unknown(name: str, meaning: str) -> Column:
    def read(cell: str) -> bool | None:
        if cell not in ("", "yes", "no"):
            raise Unreadable("yes, no, or empty where nobody looked")
        return {"yes": True, "no": False, "": None}[cell]

    return Column(name, meaning, "yes, no, or empty where nobody looked", read, words=("yes", "no"))


def length(name: str, meaning: str) -> Column:
    accepts = "a length with its unit, as 55.5 cm or 21 1/2 in"

    def read(cell: str) -> tuple[int, str]:
        mm = millimetres(cell, "") if cell[-1:].isalpha() else None
        if mm is None:
            raise Unreadable(accepts)
        return mm, cell[:40]

    return Column(name, meaning, accepts, read, required=True, decimal=True)


def figures(name: str, meaning: str) -> Column:
    accepts = "L, a and b with spaces between, as 43.9 -5.8 13.7, or empty"

    def read(cell: str) -> Lab | None:
        if not cell:
            return None
        if (found := lab(cell)) is None:
            raise Unreadable(accepts)
        return found

    return Column(name, meaning, accepts, read)


def piece_number() -> Column:
    accepts = "a number or name without / and \\, which its folder of photographs bears; at most 80 characters"

    def read(cell: str) -> str:
        if len(cell) > 80 or cell.startswith(".") or set(cell) & set("/\\"):
            raise Unreadable(accepts)
        return cell

    return Column("piece", "the piece's number in the society's list", accepts, read, required=True)


PIECE = piece_number()

PIECES = Sheet(
    "pieces",
    "One row for each piece. It becomes a draft of its owner.",
    ("piece",),
    (
        PIECE,
        text("owner", "the owner's name on this site", required=True),
        text("type", "code of the garment type; empty where nobody is sure"),
        text("sold_as", "what the seller called it"),
        uncertain_date("seen_on", "when the owner got or saw it"),
        text("venue", "the kind of place, never an address", longest=120),
        text("maker", "code of the maker"),
        whole("label_year", "the year on a label", "a year from 1700 to 2200, or empty", 1700, 2200),
        text("contract", "the contract number on a label", longest=80),
        text("size_mark", "the size as it is marked", longest=40),
        words("condition", "condition", Condition, required=False),
        yes_no_unknown("complete", "whether everything is there"),
        yes_no_unknown("label_legible", "whether the label can be read"),
        yes_no_unknown("mould", "smell or mould"),
        text("provenance", "what is said of its history, and by whom", longest=LONGEST_TEXT),
        text("repairs", "what was mended", longest=LONGEST_TEXT),
        text("note", "anything else", longest=LONGEST_TEXT),
    ),
)
LABELS = Sheet(
    "labels",
    "One row for each label, stamp or mark, or the trace of one.",
    ("piece", "kind", "place", "text"),
    (
        PIECE,
        words("kind", "which label", LabelKind),
        text("place", "where on the piece", longest=80),
        text("text", "letter by letter; a line break within the cell for each line", longest=LONGEST_TEXT),
        text("remark", "what is not on it"),
        words("attachment", "how it is fixed; empty: not recorded", Attachment, required=False),
        words("origin", "whether it was always there; empty: not recorded", LabelOrigin, required=False),
    ),
)
OBSERVATIONS = Sheet(
    "observations",
    "One row for each thing the owner saw.",
    ("piece", "feature"),
    (
        PIECE,
        code("feature", "code of the feature"),
        text(
            "seen",
            "code of the state, a length such as `410 mm`, or cannot-tell, part-missing, altered, no-such-part",
            required=True,
        ),
        text("note", "note", longest=300),
    ),
)
LENGTHS = Sheet(
    "lengths",
    "One row for each length, garment laid flat.",
    ("piece", "what"),
    (PIECE, words("what", "what was measured", Measured), length("length", "how long it is")),
)
SHADES = Sheet(
    "shades",
    "One row for each piece whose shade was looked at in two places: where light falls, and where it does not.",
    ("piece",),
    (
        PIECE,
        text("exposed", "where light falls: a state of the garment type's shade; empty: not looked"),
        words("protected", "the protected place beside it; empty: not looked", ProtectedShade, required=False),
        figures("exposed_lab", "CIELAB where light falls, measured"),
        figures("protected_lab", "CIELAB of the protected place, measured"),
    ),
)
SHEETS = (PIECES, LABELS, OBSERVATIONS, LENGTHS, SHADES)
PHOTOGRAPHS = "photographs"
