"""From the record to plain numbers: what one answer says of each version.

Steps for a feature with K states (each is a published idea; values marked ours have no source):
1. as issued: recorded shares d, sharpened by counted examples (Dirichlet mean, Good 1965);
2. doubt in the record: 0.98 d + 0.02 base, where base(s) = (sum of d over recorded cells + 1/K) / (number + 1) (ours);
3. not recorded: base, or borrowed from relatives (`borrowing`);
4. as found: a part may be lost or added; 5. as answered: right with 1 - error, else any other state
   (4 and 5 are misclassification matrices as in Dawid & Skene 1979, Appl. Stat. 28:20).

All tables are states × versions, so that one answer is one row in memory.
"""

from collections.abc import Mapping, Sequence

import numpy as np

from identification.engine.borrowing import borrowed_shares
from identification.engine.model import CellState, Context, Feature, Version
from identification.engine.pack import Pack

DOUBT = 0.02
COUNT_WEIGHT = 1.0
NO_SUCH_PART = "-"


def compile_pack(
    features: Sequence[Feature],
    versions: Sequence[Version],
    *,
    unrecorded: float = 0.05,
    blanks: str = "borrowed",
    unanswered_parent: str = "enabling",
    context: Context | None = None,
) -> Pack:
    """The pack of a garment type.

    `unrecorded`: prior chance of a version that the reference does not have. `blanks`: "pooled" leaves unrecorded
    cells at the base row, "borrowed" fills them from relatives where that predicts recorded cells better.
    `unanswered_parent`: an answered detail whose parent was not answered counts as if the part were there
    ("enabling") or not at all ("drops"). `context`: known facts that rule out states limited to other pieces.
    Raises ValueError for an unknown option, a chance outside 0 to 1, a code given twice or parents in a circle.
    """
    check(features, versions, unrecorded, blanks, unanswered_parent)
    recorded = [issued_shares(feature, versions, context or Context()) for feature in features]
    bases = [base_row(shares) for shares in recorded]
    issued = [with_counts(f, versions, s, b) for f, s, b in zip(features, recorded, bases, strict=True)]
    filled = fill_blanks(issued, bases, neutral_cells(features, versions), blanks)
    rows = [with_doubt(*parts) for parts in zip(issued, filled, bases, strict=True)]
    changes = [found_matrix(feature) for feature in features]
    return Pack(
        features=tuple(features),
        versions=tuple(versions),
        recorded=tuple(recorded),
        doubted=tuple(rows),
        found=tuple(change.T @ row for change, row in zip(changes, rows, strict=True)),
        base_issued=tuple(bases),
        base_found=tuple(base @ change for change, base in zip(changes, bases, strict=True)),
        answered=tuple(answered_matrix(feature) for feature in features),
        unrecorded_prior=unrecorded if len(versions) else 1.0,
        enabling_by_default=unanswered_parent == "enabling",
    )


def check(features, versions, unrecorded: float, blanks: str, unanswered_parent: str) -> None:
    """Raise ValueError with words for the first thing that cannot be compiled."""
    if blanks not in ("borrowed", "pooled") or unanswered_parent not in ("enabling", "drops"):
        raise ValueError("blanks is borrowed or pooled, unanswered_parent is enabling or drops")
    if not 0 <= unrecorded < 1:
        raise ValueError("the chance of an unrecorded version lies between 0 and 1")
    for codes in ([feature.code for feature in features], [version.code for version in versions]):
        if len(set(codes)) < len(codes):
            raise ValueError(f"given twice: {next(code for code in codes if codes.count(code) > 1)}")
    parents = {feature.code: feature.parent for feature in features}
    for code in parents:
        above, steps = parents[code], 0
        while above in parents:
            above, steps = parents[above], steps + 1
            if steps > len(parents):
                raise ValueError(f"{code} is a detail of itself")


def issued_shares(feature: Feature, versions: Sequence[Version], known: Context) -> np.ndarray:
    """States × versions: the shares of a recorded cell, a column of NaN where nothing is recorded or applies."""
    shares = np.full((len(feature.states), len(versions)), np.nan)
    place = {state: row for row, state in enumerate(feature.states)}
    for column, version in enumerate(versions):
        cell = version.cells.get(feature.code, ())
        if len(cell) == 1 and cell[0].state in place and cell[0].share != 0 and cell[0].may_occur(known):
            shares[:, column] = 0.0  # by far the most: one state, so all of its share
            shares[place[cell[0].state], column] = 1.0
        elif cell and (row := shares_of_cell(feature, cell, known)) is not None:
            shares[:, column] = row
    return shares


def shares_of_cell(feature: Feature, cell: Sequence[CellState], known: Context) -> np.ndarray | None:
    """Shares of the states that occur on such a piece, rescaled to 1; None where the cell names none.

    Where limits rule out every state of the cell, the record does not say what such a piece shows: as if not recorded.
    """
    shares = np.zeros(len(feature.states))
    for state in cell:
        if state.state not in feature.states or not state.may_occur(known):
            continue
        shares[feature.states.index(state.state)] += 1.0 if state.share is None else state.share
    return shares / shares.sum() if shares.sum() > 0 else None


def with_counts(feature: Feature, versions: Sequence[Version], shares: np.ndarray, base: np.ndarray) -> np.ndarray:
    """Dirichlet mean (n_s + a q_s) / (n + a) of Good 1965 where accepted examples were counted.

    q: the recorded shares, or the base row where nothing is recorded; a: one for each state.
    """
    shares = shares.copy()
    for column, version in enumerate(versions):
        counts: Mapping[str, int] = version.counts.get(feature.code, {})
        if not counts:
            continue
        seen = np.array([counts.get(state, 0) for state in feature.states], dtype=float)
        if seen.sum():
            expected = base if np.isnan(shares[0, column]) else shares[:, column]
            weight = COUNT_WEIGHT * len(feature.states)
            shares[:, column] = (seen + weight * expected) / (seen.sum() + weight)
    return shares


def base_row(shares: np.ndarray) -> np.ndarray:
    """What is known of the feature when nothing is known of the version."""
    recorded = shares[:, ~np.isnan(shares[0])]
    return (recorded.sum(axis=1) + 1 / len(shares)) / (recorded.shape[1] + 1)


def neutral_cells(features: Sequence[Feature], versions: Sequence[Version]) -> dict[int, np.ndarray]:
    """For the details among the features: versions that never have the part. Answers say nothing of these."""
    by_code = {feature.code: feature for feature in features}
    return {
        place: np.array([lacks_part(feature, version, by_code) for version in versions], dtype=bool)
        for place, feature in enumerate(features)
        if feature.parent is not None
    }


def lacks_part(feature: Feature, version: Version, by_code: Mapping[str, Feature]) -> bool:
    """True where the record says that the detail does not apply, or never has some part above it."""
    if any(state.state == NO_SUCH_PART for state in version.cells.get(feature.code, ())):
        return True
    while feature.parent in by_code:
        cell = version.cells.get(feature.parent, ())
        if cell and not any(state.state in feature.shown_when for state in cell):
            return True
        feature = by_code[feature.parent]
    return False


def fill_blanks(issued, bases, neutral: Mapping[int, np.ndarray], blanks: str) -> list[np.ndarray]:
    """Columns for every version: recorded shares, and in blank cells the base row or what relatives show."""
    filled = [np.where(np.isnan(s), b[:, None], s) for s, b in zip(issued, bases, strict=True)]
    if blanks == "pooled" or not filled:
        return filled
    for place, shares in borrowed_shares(issued, bases).items():
        blank = np.isnan(issued[place][0]) & ~neutral.get(place, np.False_)
        filled[place] = np.where(blank, shares, filled[place])
    return filled


def with_doubt(issued: np.ndarray, filled: np.ndarray, base: np.ndarray) -> np.ndarray:
    """Recorded columns mixed a little with the base row, so that nothing is ever impossible; blank ones as filled."""
    return np.where(np.isnan(issued[0]), filled, (1 - DOUBT) * filled + DOUBT * base[:, None])


def found_matrix(feature: Feature) -> np.ndarray:
    """States as issued × states as found: a part is lost with chance `loss`, added with chance `gain`."""
    states = len(feature.states)
    matrix = np.eye(states)
    if feature.absent not in feature.states or states < 2:
        return matrix
    absent = feature.states.index(feature.absent)
    matrix *= 1 - feature.loss
    matrix[:, absent] += feature.loss
    matrix[absent] = feature.gain / (states - 1)
    matrix[absent, absent] = 1 - feature.gain
    return matrix


def answered_matrix(feature: Feature) -> np.ndarray:
    """States as found × answers: right with chance 1 - error, each other answer alike."""
    states = len(feature.states)
    if states < 2:
        return np.ones((states, states))
    matrix = np.full((states, states), feature.error / (states - 1))
    np.fill_diagonal(matrix, 1 - feature.error)
    return matrix
