"""From the record to plain numbers: what one answer says of each version.

Steps for a feature with K states (each is a published idea; values marked ours have no source):
1. as issued: recorded shares d, sharpened by counted examples (Dirichlet mean, Good 1965);
2. doubt in the record: 0.98 d + 0.02 base, where base(s) = (sum of d over recorded cells + 1/K) / (number + 1) (ours);
3. not recorded: base, or borrowed from relatives with the kernel of Aitchison & Aitken 1976 (Biometrika 63:413),
   its width chosen by leave-one-cell-out likelihood (Habbema et al. 1974);
4. as found: a part may be lost or added; 5. as answered: right with 1 - error, else any other state
   (4 and 5 are misclassification matrices as in Dawid & Skene 1979, Appl. Stat. 28:20).
"""

from collections.abc import Sequence

import numpy as np

from identification.engine.borrowing import borrowed_shares
from identification.engine.model import Context, Feature, Version
from identification.engine.pack import Pack

DOUBT = 0.02
COUNT_WEIGHT = 2.0
LEAST = 1e-12


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
    ("enabling") or not at all ("drops"). Raises ValueError for an unknown option.
    """
    if blanks not in ("borrowed", "pooled") or unanswered_parent not in ("enabling", "drops"):
        raise ValueError("blanks is borrowed or pooled, unanswered_parent is enabling or drops")
    known = context or Context()
    issued = [issued_shares(feature, versions, known) for feature in features]
    neutral = neutral_cells(features, versions)
    bases = [base_row(shares) for shares in issued]
    filled = fill_blanks(issued, bases, neutral, blanks)
    rows = [with_doubt(*parts) for parts in zip(issued, filled, bases, strict=True)]
    found = [shares @ found_matrix(feature) for shares, feature in zip(rows, features, strict=True)]
    base_found = [base @ found_matrix(feature) for base, feature in zip(bases, features, strict=True)]
    return Pack.from_parts(
        features=tuple(features),
        versions=tuple(versions),
        issued=issued,
        found=found,
        base_found=base_found,
        answered=[answered_matrix(feature) for feature in features],
        unrecorded=unrecorded,
        enabling_by_default=unanswered_parent == "enabling",
    )


def issued_shares(feature: Feature, versions: Sequence[Version], known: Context) -> np.ndarray:
    """Versions × states: the shares of a recorded cell, a row of NaN where nothing is recorded or applies."""
    place = {state: i for i, state in enumerate(feature.states)}
    shares = np.full((len(versions), len(feature.states)), np.nan)
    for row, version in enumerate(versions):
        cell = [state for state in version.cells.get(feature.code, ()) if state.state in place]
        possible = [state for state in cell if state.may_occur(known)] or cell
        if possible:
            shares[row] = 0.0
            for state in possible:
                shares[row, place[state.state]] += 1.0 if state.share is None else state.share
            total = shares[row].sum()
            shares[row] = shares[row] / total if total > 0 else np.nan
        shares[row] = with_counts(shares[row], version.counts.get(feature.code, {}), place)
    return shares


def with_counts(shares: np.ndarray, counts, place: dict[str, int]) -> np.ndarray:
    """Dirichlet mean (n_s + a q_s) / (n + a) of Good 1965, q the recorded shares or even ones, a = 2."""
    seen = np.zeros(len(place))
    for state, number in counts.items():
        if state in place:
            seen[place[state]] += number
    if not seen.sum():
        return shares
    prior = np.full(len(place), 1 / len(place)) if np.isnan(shares[0]) else shares
    return (seen + COUNT_WEIGHT * prior) / (seen.sum() + COUNT_WEIGHT)


def base_row(shares: np.ndarray) -> np.ndarray:
    """What is known of the feature when nothing is known of the version."""
    recorded = shares[~np.isnan(shares[:, 0])] if len(shares) else shares
    states = shares.shape[1]
    return (recorded.sum(axis=0) + 1 / states) / (len(recorded) + 1)


def neutral_cells(features: Sequence[Feature], versions: Sequence[Version]) -> np.ndarray:
    """Versions × features: details of a part that the version never has. Their answers say nothing of it."""
    by_code = {feature.code: feature for feature in features}
    neutral = np.zeros((len(versions), len(features)), dtype=bool)
    for row, version in enumerate(versions):
        for column, feature in enumerate(features):
            cell = version.cells.get(feature.code, ())
            neutral[row, column] = any(state.state == "-" for state in cell) or lacks_part(feature, version, by_code)
    return neutral


def lacks_part(feature: Feature, version: Version, by_code: dict[str, Feature]) -> bool:
    """True where some part above this detail is recorded, and never in a state that has the detail."""
    while feature.parent in by_code:
        cell = version.cells.get(feature.parent, ())
        if cell and not any(state.state in feature.shown_when for state in cell):
            return True
        feature = by_code[feature.parent]
    return False


def fill_blanks(issued: list[np.ndarray], bases: list[np.ndarray], neutral: np.ndarray, blanks: str) -> list:
    """Rows for every version: recorded shares, and in blank cells the base row or what relatives show."""
    filled = [np.where(np.isnan(s), b, s) for s, b in zip(issued, bases, strict=True)]
    if blanks == "pooled" or not filled:
        return filled
    for column, rows in borrowed_shares(issued, bases).items():
        blank = np.isnan(issued[column][:, 0]) & ~neutral[:, column]
        filled[column] = np.where(blank[:, None], rows, filled[column])
    return filled


def with_doubt(issued: np.ndarray, filled: np.ndarray, base: np.ndarray) -> np.ndarray:
    """Recorded rows mixed a little with the base row, so that nothing is ever impossible; blank rows as filled."""
    blank = np.isnan(issued[:, :1])
    return np.where(blank, filled, (1 - DOUBT) * filled + DOUBT * base)


def found_matrix(feature: Feature) -> np.ndarray:
    """States as issued × states as found: a part is lost with chance `loss`, added with chance `gain`."""
    states = len(feature.states)
    matrix = np.eye(states)
    if feature.absent is None or states < 2:
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
    return np.maximum(matrix, LEAST)
