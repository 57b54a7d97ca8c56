"""The year of one piece within its version: from its label, its maker, its changed details, and the dated others.

P(year) is the smoothed share of the year among the version's label years, times what each detail makes of it, within
what is possible. Label years of approved examples are not issue dates.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from identification.dating.change_over import Change
from identification.dating.spans import VersionDates

# How far a label year of another piece speaks for the years around it, in years; widened where labels are few.
NARROWEST, WIDEST = 1.0, 6.0
# Every possible year keeps this part of an even share: the labels seen are not all there are.
EVEN_PART = 0.1
WORTH_NAMING = 0.05  # of a bit, by which something known must narrow the year


@dataclass(frozen=True)
class KnownOfPiece:
    """What is known of one piece: each None or empty where it is not.

    `label_year`: printed on it. `contract_year`: not made before it. `maker_from`, `maker_to`: when its maker worked.
    `details`: the state it shows of features that changed.
    """

    label_year: int | None = None
    contract_year: int | None = None
    maker: str = ""
    maker_from: int | None = None
    maker_to: int | None = None
    details: Mapping[str, str] | None = None


@dataclass(frozen=True)
class PieceYear:
    """The year of a piece. `first`–`last`: at the level asked for; `about` the likeliest middle.

    `rests_on`: what narrowed it, strongest first: label, contract, maker, a feature's code, or version. `against`: what
    does not fit a label year or leaves no year at all. `shares`: chance of each year from `years[0]` on.
    """

    first: int
    last: int
    about: int
    rests_on: tuple[str, ...]
    against: tuple[str, ...]
    years: tuple[int, ...]
    shares: tuple[float, ...]


def date_piece(
    known: KnownOfPiece,
    version: VersionDates,
    label_years: Iterable[int],
    changes: Mapping[str, Sequence[Change]] | None = None,
    *,
    level: float = 0.9,
) -> PieceYear:
    """The year of one piece of this version; `changes` of its features, as `change_over.histories` found them.

    A label year that is read settles it; what the details say against it is named.
    """
    low = version.first if version.low is None else min(version.low, version.first)
    high = version.last if version.high is None else max(version.high, version.last)
    years = np.arange(min(low, known.label_year or low), max(high, known.label_year or high) + 1)
    chances = smoothed(years, np.array(sorted(label_years), dtype=float))
    rests, against = {"version": spread(chances)}, []
    for name, factor in factors(years, known, changes or {}):
        narrowed = chances * factor
        if narrowed.sum() <= 0:
            against.append(name)
            continue
        narrowed /= narrowed.sum()
        if known.label_year is not None and fits_badly(factor, years == known.label_year):
            against.append(name)
        if spread(narrowed) < spread(chances) - WORTH_NAMING:
            rests[name] = spread(narrowed)
        chances = narrowed
    if known.label_year is not None:
        chances = (years == known.label_year).astype(float)
        rests = {"label": 0.0}
    sums = np.cumsum(chances)
    first, about, last = (
        int(years[min(np.searchsorted(sums, share - 1e-12), len(years) - 1)])
        for share in ((1 - level) / 2, 0.5, (1 + level) / 2)
    )
    return PieceYear(
        first,
        last,
        about,
        tuple(sorted(rests, key=lambda name: (rests[name], name))),
        tuple(against),
        tuple(int(year) for year in years),
        tuple(float(share) for share in chances),
    )


def smoothed(years: np.ndarray, label_years: np.ndarray) -> np.ndarray:
    """Share of each year: a normal hill around each label year, mixed with an even share of all.

    The hill is as wide as n labels allow, spread × n^-0.2 (Silverman 1986, from memory), from 1 to 6 years.
    """
    even = np.full(len(years), 1 / len(years))
    if not len(label_years):
        return even
    width = float(np.clip(1.06 * label_years.std() * len(label_years) ** -0.2, NARROWEST, WIDEST))
    hills = np.exp(-0.5 * ((years[:, None] - label_years[None, :]) / width) ** 2)
    hills = hills.sum(axis=1)
    return (1 - EVEN_PART) * hills / hills.sum() + EVEN_PART * even


def factors(
    years: np.ndarray, known: KnownOfPiece, changes: Mapping[str, Sequence[Change]]
) -> list[tuple[str, np.ndarray]]:
    """What each thing known makes of every year, 1 being neutral or the most."""
    found = []
    if known.contract_year is not None:
        found.append(("contract", (years >= known.contract_year).astype(float)))
    if known.maker_from is not None or known.maker_to is not None:
        early = known.maker_from if known.maker_from is not None else years[0]
        late = known.maker_to if known.maker_to is not None else years[-1]
        found.append(("maker", ((years >= early) & (years <= late)).astype(float)))
    for feature, state in sorted((known.details or {}).items()):
        for change in changes.get(feature, ()):
            # A maker that went its own way is not dated by what the others did.
            if state in (change.before, change.after) and known.maker not in {m.maker for m in change.makers_apart}:
                later = np.array([change.curve.chance_of_later(year) for year in years])
                found.append((feature, later if state == change.after else 1 - later))
    return found


def fits_badly(factor: np.ndarray, there: np.ndarray) -> bool:
    """Whether the year on the label has less than a tenth of the most that this would give."""
    return bool(factor[there].max(initial=0.0) < 0.1 * factor.max())


def spread(chances: np.ndarray) -> float:
    """Entropy of the shares, in bits: how open the year still is."""
    some = chances[chances > 0]
    return float(-(some * np.log2(some)).sum())
