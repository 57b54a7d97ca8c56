"""When a detail changed: recovered from simulated histories, silent where nothing changed."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from statsmodels.datasets import nile

from identification.dating import change_over
from identification.dating.change_over import DatedPiece, Shown, histories
from identification.dating.words import history_in_short, history_sentences
from tests.identification.dating.histories import with_change, without_change

SEWN = [1978, 1979, 1979, 1980, 1981, 1982, 1983, 1984, 1985]
SLOTTED = [1986, 1986, 1987, 1988, 1989, 1990, 1991]


def pieces(sewn=SEWN, slotted=SLOTTED, maker="DUN"):
    rows = [(year, "sewn") for year in sewn] + [(year, "slotted") for year in slotted]
    return [DatedPiece(year, state, maker, f"{maker}{place}") for place, (year, state) in enumerate(rows)]


def history_of(rows):
    return histories({"buttons": rows})["buttons"]


def test_a_clean_change_is_dated_to_the_year():
    found = history_of(pieces())
    change = found.changes[0]

    assert found.shown is Shown.CHANGED
    assert (change.before, change.after, change.about) == ("sewn", "slotted", 1986)
    assert 1984 <= change.first <= 1986 <= change.last <= 1987
    assert (change.both_from, change.odd, change.makers_apart, change.pieces) == (None, (), (), 16)


def told_of(features) -> list:
    return [
        (code, one.shown, one.confounded, [replace(change, curve=None) for change in one.changes])
        for code, one in histories(features).items()
    ]


@pytest.mark.parametrize("seed", range(4))
def test_not_counting_out_what_is_far_from_sure_changes_nothing_that_is_said(seed, monkeypatch):
    labels = (12, 25, 40, 80)[seed]
    rows = {"d": with_change(seed, labels=labels, late=6), **without_change(seed, features=15, labels=labels)}
    quick = told_of(rows)
    monkeypatch.setattr(change_over, "FAR_FROM_SURE", 1.0)

    assert told_of(rows) == quick


def test_a_gap_between_the_states_is_as_wide_as_it_is():
    change = history_of(pieces(slotted=[year + 5 for year in SLOTTED])).changes[0]

    assert change.first <= 1986
    assert change.last >= 1991
    assert 1987 <= change.about <= 1990


def test_old_stock_used_up_is_told_as_an_overlap():
    change = history_of(pieces(sewn=[*SEWN, 1986, 1987, 1988], slotted=[1985, *SLOTTED])).changes[0]

    assert (change.both_from, change.both_to) == (1985, 1988)
    assert 1985 <= change.about <= 1988


def test_one_maker_that_went_on_is_named_and_does_not_move_the_rest():
    late = [DatedPiece(year, "sewn", "GAR", f"G{year}") for year in (1983, 1987, 1988, 1989, 1991)]
    change = history_of(pieces() + late).changes[0]

    assert [(one.maker, one.late, one.year) for one in change.makers_apart] == [("GAR", True, 1991)]
    assert change.about == 1986
    words = history_sentences(history_of(pieces() + late), {"sewn": "Sewn", "slotted": "Slotted"}, {"GAR": "Garradine"})
    assert words[0].startswith("“Slotted” replaced “Sewn” about 1986 (")
    assert "21 labels); Garradine kept to the older until 1991." in words[0]


def test_one_maker_that_began_early_is_named():
    early = [DatedPiece(year, "slotted", "PEL", f"P{year}") for year in (1979, 1980, 1981, 1982)]

    change = history_of(pieces() + early).changes[0]

    assert [(one.maker, one.late, one.year) for one in change.makers_apart] == [("PEL", False, 1979)]


def test_a_repaired_piece_is_named_and_moves_the_year_little():
    plain = history_of(pieces()).changes[0]
    with_odd = history_of([*pieces(), DatedPiece(1976, "slotted", "DUN", "E138")]).changes[0]

    assert [piece.code for piece in with_odd.odd] == ["E138"]
    assert abs(with_odd.about - plain.about) <= 1
    assert with_odd.last - with_odd.first <= plain.last - plain.first + 4


def test_a_detail_that_changed_back_is_two_changes_or_a_return():
    back = [DatedPiece(year, "sewn", "DUN", f"B{year}") for year in range(1993, 2003)]

    found = history_of(pieces() + back)

    assert found.shown is Shown.CHANGED
    first = found.changes[0]
    assert (first.before, first.after) == ("sewn", "slotted")
    assert abs(first.about - 1986) <= 1
    assert len(found.changes) == 2 or first.again.first == 1993


def test_a_line_of_a_list_has_the_return_and_the_figures_of_the_sentences():
    names = {"sewn": "Sewn", "slotted": "Slotted"}
    back = [DatedPiece(year, "sewn", "LUM", f"B{year}") for year in range(1993, 2003)]
    found = history_of(pieces() + back)
    change = found.changes[0]
    short = history_in_short(found, names)

    assert found.pieces > change.pieces == 16
    assert short.startswith(f"Sewn, then Slotted about {change.about} (")
    assert ", 16 labels), then Sewn again in 1993–2002 (10 labels)" in short
    assert "“Sewn” came back in 1993–2002 (10 labels" in " ".join(history_sentences(found, names))
    assert history_in_short(history_of(pieces(slotted=[])), names) == "one state only, 9 labels"


@pytest.mark.parametrize("years", [range(1995, 1998), (1995, 1997), range(1993, 2003)])
def test_a_few_pieces_of_the_old_state_after_it_all_are_never_passed_over(years):
    """At the same maker they are too few for a change back of their own, and were left out with their years."""
    back = [DatedPiece(year, "sewn", "DUN", f"B{year}") for year in years]
    found = history_of(pieces() + back)

    assert found.changes[0].again or [(one.before, one.after) for one in found.changes][1:] == [("slotted", "sewn")]
    assert "then sewn" in history_in_short(found)


def test_makers_with_habits_and_times_of_their_own_are_not_a_change():
    rows = [DatedPiece(year, "sewn", "PEL") for year in SEWN] + [DatedPiece(year, "slotted", "DUN") for year in SLOTTED]

    found = history_of(rows)

    assert found.shown is Shown.WITH_MAKER
    assert history_sentences(found)[0].startswith("Year and maker cannot be separated here (16 dated labels)")


def test_few_labels_say_that_they_are_few():
    found = history_of(pieces(sewn=[1980, 1982], slotted=[1987, 1990]))

    assert found.shown is Shown.TOO_FEW
    assert history_sentences(found) == ["Too few to say whether it changed: 4 dated labels."]


def test_of_many_labels_it_is_the_second_state_that_is_too_rare():
    pieces = [DatedPiece(1960 + place % 20, "sewn", "DUN", str(place)) for place in range(40)]
    found = histories({"buttons": [*pieces, DatedPiece(1970, "slotted", "DUN", "odd")]})["buttons"]

    assert history_sentences(found) == [
        "Too few show a second state, maker by maker, to say whether it changed (41 dated labels in all)."
    ]


@pytest.mark.parametrize(("rows", "shown"), [
    ([], Shown.TOO_FEW),
    (pieces(slotted=[]), Shown.ONE_STATE),
    (pieces(sewn=[1975, 1978, 1981, 1984, 1987, 1990], slotted=[1976, 1979, 1980, 1985, 1988, 1989]), Shown.NO_CHANGE),
])  # fmt: skip
def test_where_nothing_is_shown_that_is_said(rows, shown):
    assert history_of(rows).shown is shown


def test_three_states_in_turn_are_two_changes_in_the_order_of_time():
    rows = pieces() + [DatedPiece(year, "glued", "DUN", f"Z{year}") for year in range(1992, 2001)]

    found = history_of(rows)

    assert [(change.before, change.after) for change in found.changes] == [("sewn", "slotted"), ("slotted", "glued")]


def test_on_histories_without_change_hardly_any_type_is_told_of_one():
    told = [
        sum(found.shown is Shown.CHANGED for found in histories(without_change(seed)).values()) for seed in range(12)
    ]

    # 5 % of 12 types is less than one; more than 3 would be met once in 400 such runs. The benchmark has many more.
    assert sum(number > 0 for number in told) <= 3
    assert sum(told) <= 0.05 * 12 * 40


@pytest.mark.parametrize(("kind", "most_off", "held"), [
    ({}, 1, 0.85), ({"overlap": 1.0}, 2, 0.85), ({"wrong": 0.06}, 1, 0.85),
    # A late maker that is not told apart leaves the years of both open.
    ({"late": 5}, 2, 0.75),
])  # fmt: skip
def test_a_simulated_change_is_found_again(kind, most_off, held):
    found = [history_of(with_change(seed, labels=60, **kind)) for seed in range(20)]
    changes = [one.changes[0] for one in found if one.shown is Shown.CHANGED]

    assert len(changes) >= 18
    assert sum(abs(change.about - 1986) <= most_off for change in changes) >= 0.9 * len(changes)
    assert sum(change.first <= 1986 <= change.last for change in changes) >= held * len(changes)


@given(st.randoms(use_true_random=False))
@settings(max_examples=15, deadline=None)
def test_the_order_of_the_pieces_does_not_matter(shuffle):
    rows = pieces() + [DatedPiece(year, "sewn", "GAR", f"G{year}") for year in (1983, 1987, 1988, 1989, 1991)]
    mixed = list(rows)
    shuffle.shuffle(mixed)

    one, other = history_of(rows).changes[0], history_of(mixed).changes[0]

    assert (replace(one, curve=other.curve)) == other
    assert one.curve.weights == pytest.approx(other.curve.weights)


@given(st.integers(1975, 1998), st.booleans())
@settings(max_examples=25, deadline=None)
def test_one_more_piece_of_any_kind_moves_the_year_little(year, new):
    found = history_of([*with_change(3, labels=40), DatedPiece(year, "new" if new else "old", "AAA", "X")])

    assert found.shown is Shown.CHANGED
    assert abs(found.changes[0].about - history_of(with_change(3, labels=40)).changes[0].about) <= 1


def test_a_wider_level_is_never_narrower():
    narrow, wide = (histories({"b": pieces()}, level=level)["b"].changes[0] for level in (0.5, 0.99))

    assert wide.first <= narrow.first <= narrow.last <= wide.last
    with pytest.raises(ValueError, match="level"):
        histories({}, level=0)


def test_one_maker_that_came_late_keeps_the_years_open_until_it_is_told_apart():
    found = [history_of(with_change(seed, labels=60, late=6)) for seed in range(80)]
    changes = [one.changes[0] for one in found if one.shown is Shown.CHANGED]
    held = sum(change.first <= 1986 <= change.last for change in changes)
    wrongly = sum(any(one.maker != "CCC" for one in change.makers_apart) for change in changes)

    # 95 % is stated and 93 % the least that is wanted; two standard errors of 80 histories below that are 87 %. The
    # benchmark has many more, and the width beside them.
    assert held >= 0.87 * len(changes)
    assert wrongly <= 0.05 * len(changes)


def test_the_order_of_makers_is_no_change_back():
    """An early maker slots soon, a later one sews long: all pieces together look as if sewing replaced slotting, and
    with each maker it is the other way round (Simpson's paradox)."""
    early = [DatedPiece(1960 + place % 2, "sewn", "EARLY", f"A{place}") for place in range(4)]
    early += [DatedPiece(1962 + place % 8, "slotted", "EARLY", f"B{place}") for place in range(40)]
    later = [DatedPiece(1980 + place % 8, "sewn", "LATER", f"C{place}") for place in range(40)]
    later += [DatedPiece(1988 + place % 2, "slotted", "LATER", f"D{place}") for place in range(4)]

    changes = history_of(early + later).changes
    assert [(one.before, one.after) for one in changes] == [("sewn", "slotted")]


def flow_of_the_nile(first: int, last: int) -> list[DatedPiece]:
    """The years as pieces, their flow above or below the median of these years: a limit that knows nothing of a change.
    Source of the figures: statsmodels.datasets.nile, annual flow at Aswan 1871-1970."""
    rows = nile.load_pandas().data
    rows = rows[(rows.year >= first) & (rows.year <= last)]
    middle = rows.volume.median()
    return [
        DatedPiece(int(year), "high" if volume > middle else "low", "NILE", str(int(year)))
        for year, volume in zip(rows.year, rows.volume, strict=True)
    ]


def test_the_nile_is_told_to_have_fallen_once_and_on_neither_side_of_its_break():
    """It carries less water since 1898 (Cobb 1978, Biometrika 65:243). That it fell is told, and no change in what lies
    before or after. The year is none of this check: a third of the later years lie above the median still, where the
    curve allows a tenth of pieces to be repaired or misdated, so that the years told come out late (1903-32).

    The series is one of amounts, made two-state here; among the data sets in the folder of statsmodels 0.14 none was
    found that is of dated things in two states, so this one stands for what the method cannot be held to exactly."""
    whole = history_of(flow_of_the_nile(1871, 1970))

    assert [(one.before, one.after) for one in whole.changes] == [("high", "low")]
    assert whole.changes[0].about > 1898
    assert history_of(flow_of_the_nile(1871, 1898)).shown is Shown.NO_CHANGE
    assert history_of(flow_of_the_nile(1899, 1970)).shown is Shown.NO_CHANGE
