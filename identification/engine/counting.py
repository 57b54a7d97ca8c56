"""Which answers count, and for what."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from identification.engine.bands import chance_of_bands
from identification.engine.model import ALTERED, CANNOT_TELL, PART_MISSING, Answer, Answers, Measured, States

if TYPE_CHECKING:
    from identification.engine.pack import Pack

UNKNOWN_FEATURE = "not a feature of this garment type"
NEEDS_PART = "counts only where the part is there"
SAYS_NOTHING = "counts for nothing"
# The least chance of an answer: an answer never makes a version impossible.
LEAST = 1e-12


@dataclass(frozen=True)
class Counted:
    """Chance of one answer, and of the parts that it shows to be there, on every version and on the base row."""

    feature: str
    of_version: np.ndarray
    of_base: float


def definite(answer) -> bool:
    """Whether an answer names what was seen. A pair stands for its second answer."""
    return isinstance(last(answer), States | Measured)


def last(answer) -> Answer:
    return answer[-1] if isinstance(answer, tuple) else answer


def count(pack: "Pack", answers: Answers) -> tuple[list[Counted], dict[str, str]]:
    """The answers that count, in the features' own order; and why the others do not."""
    counted: dict[int, Counted] = {}
    left_out: dict[str, str] = {}
    for code, answer in answers.items():
        column = pack.place.get(code)
        if column is None:
            left_out[code] = UNKNOWN_FEATURE
        elif not part_may_be_there(pack, column, answers):
            left_out[code] = NEEDS_PART
        elif (chances := chances_of(pack, column, answer)) is None:
            left_out[code] = SAYS_NOTHING
        else:
            counted[column] = Counted(code, *chances)
    if pack.enabling_by_default:
        add_implied_parts(pack, answers, counted)
    return [counted[column] for column in sorted(counted)], left_out


def part_may_be_there(pack: "Pack", column: int, answers: Answers) -> bool:
    """Whether every part above this detail was answered as being there, or may be taken to be there."""
    feature = pack.features[column]
    while feature.parent in pack.place:
        given = last(answers.get(feature.parent, CANNOT_TELL))
        if given is CANNOT_TELL or given is ALTERED:
            if not pack.enabling_by_default:
                return False
        elif not (isinstance(given, States) and set(given.states) & set(feature.shown_when)):
            return False
        feature = pack.features[pack.place[feature.parent]]
    return True


def add_implied_parts(pack: "Pack", answers: Answers, counted: dict[int, Counted]) -> None:
    """A detail that was seen shows that its part is there, where nobody said so. Each part is counted once."""
    nearest: dict[int, list[tuple]] = {}
    for column, one in counted.items():
        if definite(answers[one.feature]):
            for steps, (above, shown_when) in enumerate(unsaid_parts(pack, column, answers, counted)):
                nearest.setdefault(above, []).append((steps, *weight_of(one), column, shown_when))
    for above, details in nearest.items():
        *_, column, shown_when = min(details)
        counted[column] = together(counted[column], chances_of(pack, above, States(shown_when)))


def unsaid_parts(pack: "Pack", column: int, answers: Answers, counted) -> Iterator[tuple[int, tuple[str, ...]]]:
    """The parts above a detail of which nothing counts, nearest first, with the states that the detail shows."""
    feature = pack.features[column]
    while feature.parent in pack.place:
        above = pack.place[feature.parent]
        if above not in counted and answers.get(feature.parent) is not ALTERED:
            yield above, feature.shown_when
        feature = pack.features[above]


def weight_of(one: Counted) -> tuple[float, tuple[float, ...]]:
    """What decides which of two details speaks for their part: never the order in which features come."""
    return round(one.of_base, 12), tuple(sorted(one.of_version.round(12).tolist()))


def together(detail: Counted, part: tuple[np.ndarray, float] | None) -> Counted:
    if part is None:
        return detail
    return Counted(detail.feature, detail.of_version * part[0], detail.of_base * part[1])


def chances_of(pack: "Pack", column: int, answer) -> tuple[np.ndarray, float] | None:
    """P(answer | version) for every version, and on the base row; None where the answer counts for nothing.

    An answer and its reading back are two looks at one piece: P = Σ_t P(found t | v) P(y1 | t) P(y2 | t), which is
    not the product of two answers. An alteration or a lost part said in either look stands.
    """
    looks = answer if isinstance(answer, tuple) else (answer,)
    if ALTERED in looks:
        return None
    if PART_MISSING in looks:
        return chances_of_missing_part(pack, column)
    if len(looks) == 1 and isinstance(answer, States) and len(answer.states) == 1:
        row = pack.row_of.get((column, answer.states[0]))
        return None if row is None else (pack.table[row], float(pack.base[row]))
    vectors = [vector for look in looks if (vector := chance_by_state(pack, column, look)) is not None]
    if not vectors:
        return None
    chance = np.prod(vectors, axis=0)
    return np.maximum(chance @ pack.found[column], LEAST), max(float(chance @ pack.base_found[column]), LEAST)


def chance_by_state(pack: "Pack", column: int, answer: Answer) -> np.ndarray | None:
    """Chance of the answer for each state as found; None for an answer that counts for nothing."""
    feature, matrix = pack.features[column], pack.answered[column]
    if isinstance(answer, States):
        named = [feature.states.index(state) for state in dict.fromkeys(answer.states) if state in feature.states]
        return matrix[:, named].sum(axis=1) if named else None
    if isinstance(answer, Measured) and feature.bands:
        return matrix @ chance_of_bands(feature.bands, answer.value, feature.sd)
    return None


def chances_of_missing_part(pack: "Pack", column: int) -> tuple[np.ndarray, float] | None:
    """A part that is gone was once there: (chance that the version has the part) × loss, erring as any answer does.

    The loss is the same for all versions and for the base row, so it is left out.
    """
    feature = pack.features[column]
    if feature.absent not in feature.states:
        return None
    absent = feature.states.index(feature.absent)
    had, base_had = 1 - pack.doubted[column][absent], 1 - float(pack.base_issued[column][absent])
    right, wrong = 1 - feature.error, feature.error
    return right * had + wrong * (1 - had), right * base_had + wrong * (1 - base_had)
