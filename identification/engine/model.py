"""What the engine is told: features, versions, answers."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import Enum

KIND_GROUPS = {
    "issue": "issued",
    "trial": "issued",
    "transitional": "issued",
    "unplaced": "issued",
    "depot_modification": "altered",
    "conversion": "altered",
    "commercial_copy": "copy",
    "reproduction": "copy",
}


@dataclass(frozen=True)
class Feature:
    """A diagnostic feature. `error`, `loss` and `gain` are chances; `bands` (low included, high not) go with `states`.

    `shown_when` are states of `parent` under which this detail exists. `replaceable`: often changed in service.
    """

    code: str
    states: tuple[str, ...]
    effort: float = 1.0
    error: float = 0.05
    absent: str | None = None
    loss: float = 0.0
    gain: float = 0.0
    parent: str | None = None
    shown_when: tuple[str, ...] = ()
    bands: tuple[tuple[float, float | None], ...] = ()
    sd: float = 5.0
    seen: str = "outside"
    needs_opening: bool = False
    needs_handling: bool = False
    replaceable: bool = False

    @property
    def sure_effort(self) -> float:
        """Effort until a look is right: one in 1 - error is, so it takes 1 / (1 - error) looks on average."""
        return self.effort / (1 - self.error)


@dataclass(frozen=True)
class Context:
    """What is known of the piece apart from its features; it decides which limited states apply."""

    maker: str | None = None
    size: str | None = None
    year: int | None = None


@dataclass(frozen=True)
class CellState:
    """One state of a recorded cell; `share` None means one of several, evenly. Limits: on which pieces only."""

    state: str
    share: float | None = None
    sizes: tuple[str, ...] = ()
    makers: tuple[str, ...] = ()
    first_year: int | None = None
    last_year: int | None = None

    def may_occur(self, known: Context) -> bool:
        """False only where a known fact rules the state out."""
        return not (
            (known.maker and self.makers and known.maker not in self.makers)
            or (known.size and self.sizes and known.size not in self.sizes)
            or (known.year and self.first_year and known.year < self.first_year)
            or (known.year and self.last_year and known.year > self.last_year)
        )


@dataclass(frozen=True)
class Version:
    """A version with its recorded cells; a feature without a cell is not recorded.

    `counts`: accepted examples by feature and state, which sharpen the recorded shares.
    """

    code: str
    cells: Mapping[str, tuple[CellState, ...]]
    weight: float = 1.0
    kind: str = "issue"
    piece_seen: bool = True
    counts: Mapping[str, Mapping[str, int]] = field(default_factory=dict)


@dataclass(frozen=True)
class States:
    """The piece shows this state, or one of these."""

    states: tuple[str, ...]


@dataclass(frozen=True)
class Measured:
    """A measure in the feature's unit."""

    value: float


class PlainAnswer(Enum):
    """Answers that name no state."""

    CANNOT_TELL = "cannot tell"
    PART_MISSING = "part missing"
    ALTERED = "altered"


CANNOT_TELL, PART_MISSING, ALTERED = PlainAnswer
Answer = States | Measured | PlainAnswer
# By feature code. A pair is an answer and the one given when it was read back.
Answers = Mapping[str, Answer | tuple[Answer, Answer]]
