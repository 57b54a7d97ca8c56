"""What was seen on a piece beside what the record of its version says. Pure."""

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

from catalogue.member_examples.evidence import Said, agreed_state, last_looks
from catalogue.member_examples.words import Answer


class Beside(StrEnum):
    """How what was seen stands to the record."""

    AGREES = "agrees"
    DISAGREES = "disagrees"
    NOT_RECORDED = "not recorded"
    ALTERED = "altered"
    DISPUTED = "seen differently"
    GONE = "part is gone"
    SAYS_NOTHING = "says nothing"


MEANING = {
    Beside.AGREES: "as the record has it",
    Beside.DISAGREES: "not as the record has it",
    Beside.NOT_RECORDED: "the record does not speak of it",
    Beside.ALTERED: "altered, so it says nothing of the version",
    Beside.DISPUTED: "people see it differently",
    Beside.GONE: "the part was there and is gone",
    Beside.SAYS_NOTHING: "nobody could tell",
}
MARKS = {Beside.AGREES: "+", Beside.DISAGREES: "−", Beside.DISPUTED: "≠"}


@dataclass(frozen=True)
class Compared:
    beside: Beside
    agreed: str

    @property
    def mark(self) -> str:
        """A sign that does not rest on colour."""
        return MARKS.get(self.beside, "·")

    @property
    def meaning(self) -> str:
        return MEANING[self.beside]


def compared(said: Iterable[Said], recorded: Iterable[str], *, altered: bool) -> Compared:
    """`said`: every look at one feature, in their order; `recorded`: the states of the record, none where it is silent;
    `altered`: an alteration of the piece names this feature."""
    said, recorded = list(said), set(recorded)
    last = last_looks(said)
    agreed = agreed_state(said)
    if altered or any(one.answer == Answer.ALTERED for one in last):
        return Compared(Beside.ALTERED, "")
    if any(one.answer == Answer.PART_MISSING for one in last):
        return Compared(Beside.GONE, "")
    if not agreed and any(one.answer == Answer.SEEN for one in last):
        return Compared(Beside.DISPUTED, "")
    if not agreed:
        return Compared(Beside.SAYS_NOTHING, "")
    if not recorded:
        return Compared(Beside.NOT_RECORDED, agreed)
    return Compared(Beside.AGREES if agreed in recorded else Beside.DISAGREES, agreed)
