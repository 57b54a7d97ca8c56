"""Simulated histories of details, from fixed seeds."""

import numpy as np

from identification.dating.change_over import DatedPiece

MAKERS = ("AAA", "BBB", "CCC")


def without_change(seed: int, *, features: int = 40, labels: int = 40) -> dict[str, list[DatedPiece]]:
    """Features of one type whose shares of states never change; makers work at different times and have habits."""
    draw = np.random.default_rng(seed)
    begins = draw.integers(1950, 1970, len(MAKERS))
    maker = draw.integers(0, len(MAKERS), labels)
    years = begins[maker] + draw.integers(0, 20, labels)
    found = {}
    for feature in range(features):
        share = draw.beta(1, 1, len(MAKERS))[maker]
        shows = draw.random(labels) < share
        seen = draw.random(labels) < 0.9
        found[f"f{feature}"] = [
            DatedPiece(int(year), "ab"[int(state)], MAKERS[m], f"E{place}")
            for place, (year, state, m) in enumerate(zip(years, shows, maker, strict=True))
            if seen[place]
        ]
    return found


def with_change(
    seed: int, *, labels: int = 24, overlap: float = 0.0, wrong: float = 0.0, late: int = 0, year: int = 1986
) -> list[DatedPiece]:
    """One detail that changed in `year`. `overlap`: years over which old stock is used up; `wrong`: share of repaired
    or misdated pieces; `late`: years by which one maker of three came after the others."""
    draw = np.random.default_rng(seed)
    found = []
    for place in range(labels):
        maker = int(draw.integers(0, len(MAKERS)))
        made = int(draw.integers(1974, 1999))
        middle = year + late * (maker == 2)
        new = made >= middle if not overlap else draw.random() < 1 / (1 + np.exp(-(made - middle + 0.5) / overlap))
        found.append(DatedPiece(made, "new" if new != (draw.random() < wrong) else "old", MAKERS[maker], f"E{place}"))
    return found
