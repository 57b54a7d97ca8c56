"""What a state or a shade goes with: found in simulated pieces, and not separated where it cannot be."""

import numpy as np
import pytest

from identification.dating.comparing_words import link_sentences, shade_sentences
from identification.dating.goes_with import Factor, Piece, Shade, Standing, links, links_of_all, shade_findings


def simulated(seed, shows, number=60, makers=("AAA", "BBB")):
    """Pieces whose makers, years, sizes and wear have nothing to do with each other; `shows` says what they show."""
    draw = np.random.default_rng(seed)
    found = []
    for place in range(number):
        maker, year = makers[int(draw.integers(len(makers)))], int(draw.integers(1970, 1990))
        size, wear = float(draw.integers(1, 9)), int(draw.integers(0, 5))
        share = shows(maker, year, size, wear)
        found.append(Piece(float(draw.random() < share), year, maker, size, wear, f"E{place}"))
    return found


def standings(pieces):
    return {link.factor: link.standing for link in links(pieces)}


@pytest.mark.parametrize(("factor", "shows"), [
    (Factor.YEAR, lambda maker, year, size, wear: 0.9 if year >= 1980 else 0.1),
    (Factor.MAKER, lambda maker, year, size, wear: 0.9 if maker == "AAA" else 0.15),
    (Factor.SIZE, lambda maker, year, size, wear: 0.95 if size > 5 else 0.05),
    (Factor.WEAR, lambda maker, year, size, wear: 0.95 if wear > 2 else 0.05),
])  # fmt: skip
def test_each_factor_is_found_and_hardly_ever_another(factor, shows):
    found = [standings(simulated(seed, shows)) for seed in range(10)]

    assert sum(one.pop(factor) is Standing.GOES for one in found) >= 9
    # 30 tries of factors that have nothing to do with it, some 5 % of them wrong.
    assert sum(standing is Standing.GOES for one in found for standing in one.values()) <= 4


def test_year_and_maker_that_came_together_cannot_be_separated():
    rows = [Piece(float(year >= 1980), year, "AAA" if year < 1980 else "BBB", code=f"E{year}")
            for year in range(1970, 1990)]  # fmt: skip
    found = {link.factor: link.standing for link in links(rows)}

    assert found[Factor.YEAR] is found[Factor.MAKER] is Standing.NOT_SEPARATED
    assert link_sentences(links(rows), "“Slotted”") == [
        "Year and maker cannot be separated here (20 pieces): “Slotted” goes with them only taken together."
    ]


def test_a_makers_habit_is_no_change_of_the_years():
    """Two makers, one mostly early and one mostly late, each with a habit that never changed."""
    draw = np.random.default_rng(6)
    rows = []
    for place in range(80):
        maker = "AB"[place % 2]
        year = int(draw.integers(1970, 1984) if maker == "A" else draw.integers(1976, 1990))
        rows.append(Piece(float(draw.random() < (0.05 if maker == "A" else 0.95)), year, maker, code=f"E{place}"))
    found = standings(rows)

    assert found[Factor.MAKER] is Standing.GOES
    assert found[Factor.YEAR] is Standing.EXPLAINED
    assert link_sentences(links(rows), "“Lined”", {"B": "Pellowrigg"})[0].startswith(
        "“Lined” goes more often or strongly at"
    )


def test_few_pieces_say_so():
    rows = [Piece(1.0, 1980, "A", 4.0, 1), Piece(0.0, 1970, "A", 3.0, 2)]

    assert set(standings(rows).values()) == {Standing.TOO_FEW}
    assert link_sentences(links(rows), "“Lined”") == ["Too few to say what “Lined” goes with: 2 pieces."]
    assert set(standings([]).values()) == {Standing.TOO_FEW}


def test_of_many_states_that_go_with_nothing_hardly_any_is_told_of():
    told = 0
    for seed in range(10):
        states = {f"s{n}": simulated(100 * seed + n, lambda *_: 0.5, number=40) for n in range(10)}
        told += sum(link.standing is Standing.GOES for found in links_of_all(states).values() for link in found)

    # 10 types with 40 tries each, corrected together in each: about half a type in all is told of one.
    assert told <= 3


def shades(number=60, *, maker_effect=0.0, year_effect=0.0, fade=2.0):
    draw = np.random.default_rng(9)
    found = []
    for place in range(number):
        maker, year, wear = "ABC"[place % 3], int(draw.integers(1970, 1990)), int(draw.integers(0, 5))
        light = 40 + draw.normal() - maker_effect * (maker == "C") + year_effect * (year - 1980)
        protected = (light, -5 + draw.normal() / 2, 8 + draw.normal() / 2)
        exposed = (light + fade * (1 + wear / 2) + draw.normal() / 3, protected[1], protected[2] - fade)
        found.append(Shade(exposed, protected, year, maker, None, wear, f"E{place}"))
    return found


def test_fading_is_told_within_the_pieces_before_any_are_compared():
    found = shade_findings(shades())
    words = shade_sentences(found)

    assert found.within.p < 1e-6
    assert words[0].startswith("Where light falls 60 of 60 pieces are lighter than under a flap")
    assert any("The difference of the two places goes with more wear" in sentence for sentence in words)
    assert "The protected shade is not shown to go with year, maker or wear (60 pieces)." in words


def test_a_maker_with_darker_cloth_is_found_under_the_flap():
    found = shade_findings(shades(maker_effect=3.0))

    assert {link.factor for link in found.protected["lightness"] if link.standing is Standing.GOES} == {Factor.MAKER}
    assert any("differs at Lumvikar" in sentence for sentence in shade_sentences(found, {"C": "Lumvikar"}))


def test_a_shade_that_follows_the_year_is_found():
    found = shade_findings(shades(year_effect=0.4))

    assert {link.factor for link in found.protected["lightness"] if link.standing is Standing.GOES} == {Factor.YEAR}


def test_no_shades_say_so():
    assert shade_sentences(shade_findings([])) == ["No piece has been measured in both places."]


def test_the_same_pieces_in_another_order_give_the_same():
    rows = simulated(4, lambda maker, year, size, wear: 0.9 if year >= 1980 else 0.1)

    assert links(rows) == links(rows[::-1])
    assert shade_findings(shades()) == shade_findings(shades()[::-1])


def test_of_two_makers_that_share_a_time_the_one_that_differs_from_all_is_named():
    """Late, only Va and Lo worked: within that time each differs from the other as much."""
    early = [Piece(41 + place % 5 / 10, 1972 + place % 3, maker, code=f"E{maker}{place}") for maker in ("Da", "Pe")
             for place in range(10)]  # fmt: skip
    late = [
        Piece(shade + place % 5 / 10, 1996 + place % 3, maker, code=f"L{maker}{place}")
        for maker, shade in (("Va", 41), ("Lo", 38))
        for place in range(10)
    ]

    maker = next(link for link in links(early + late) if link.factor is Factor.MAKER)

    assert (maker.standing, maker.more, maker.less) == (Standing.GOES, "Lo", True)
