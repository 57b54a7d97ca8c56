"""A version's dates against the published formulas, and what must hold of any label years."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from identification.dating.range_ends import both_ends_reach, coverage, one_end_reach
from identification.dating.spans import Documented, chances_of_ends, date_version, reaches, widths
from identification.dating.words import span_sentences
from tests.benchmarks.dating import covered, shapes

SEEN = [1957, 1958, 1958, 1960, 1961, 1964]
years_of_labels = st.lists(st.integers(1900, 1990), min_size=1, max_size=40)


@pytest.mark.parametrize(("number", "reach"), [(2, 19.0), (6, 0.821), (33, 0.098)])
def test_one_end_reaches_as_far_as_published(number, reach):
    """Gingerich & Uhen 1998, Palaeontologia Electronica 1(2), fig. 2: at 95 % 1900 %, 82.1 % and 9.8 %."""
    assert one_end_reach(0.95, number) == pytest.approx(reach, abs=6e-4)


@pytest.mark.parametrize(("number", "reach"), [(3, 4.8325), (5, 1.4647), (10, 0.5002), (20, 0.2128)])
def test_both_ends_reach_as_far_as_the_formula_says(number, reach):
    """Strauss & Sadler 1989, eq. 20, solved here by scipy."""
    optimize = pytest.importorskip("scipy.optimize")

    assert both_ends_reach(0.95, number) == pytest.approx(reach, abs=5e-5)
    assert both_ends_reach(0.95, number) == pytest.approx(
        optimize.brentq(lambda a: coverage(a, number) - 0.95, 0, 100), rel=1e-9
    )


def test_the_interval_is_never_inside_the_one_for_even_production():
    dates = date_version(SEEN)
    plain = both_ends_reach(0.95, 5) * 8

    assert (dates.first, dates.last, dates.pieces, dates.distinct) == (1957, 1964, 6, 5)
    assert dates.low <= 1957 - plain
    assert dates.high >= 1964 + plain
    assert dates.low <= dates.about_first <= 1957 <= 1964 <= dates.about_last <= dates.high


def test_ends_of_production_that_ran_out_with_the_square_are_held_nearly_as_often_as_stated():
    """By simulation, no published figure: 95 % are stated, the even interval alone held half of them."""
    held, _, plain, *_ = covered(shapes(40)["with the square to nothing"], labels=10, times=100)

    assert held >= 92
    assert plain < 70


def test_even_production_alone_gives_strauss_and_sadler_again(monkeypatch):
    """With sudden ends only and finds so rare that no year is seen twice, the weights are theirs: the chance that both
    ends lie within alpha times the range."""
    monkeypatch.setattr("identification.dating.spans.SHAPES", {1: 1.0})
    monkeypatch.setattr("identification.dating.spans.PLENTY", (1.0,))
    years = np.array([1000, 1300, 1450, 1600, 2000])
    reach = np.arange(0, 9000, 15)
    chances = chances_of_ends(years, reach, reach)
    alpha = 1.4647
    within = chances[: int(alpha * 1001 / 15), : int(alpha * 1001 / 15)].sum()

    assert within == pytest.approx(0.95, abs=0.01)


@pytest.mark.parametrize("years", [[], [1957], [1957, 1957], [1957, 1958], [1957, 1958, 1958, 1957]])
def test_under_three_distinct_years_there_is_no_interval(years):
    dates = date_version(years)

    assert (dates is None) == (years == [])
    if dates:
        words = " ".join(span_sentences(dates))
        assert dates.low is dates.high is None
        assert "Too few dated labels to say how long it was made" in words
        assert "more different years might allow it" in words
        assert "or a paper that names the year, would narrow it most" in words


def test_papers_close_an_end_or_limit_it():
    closed = date_version(SEEN, Documented(first=1956, last=1966))
    limited = date_version(SEEN, Documented(not_before=1950, not_after=1970))

    assert (closed.low, closed.high, closed.about_first, closed.about_last) == (1956, 1966, 1956, 1966)
    assert (limited.low, limited.high) == (1950, 1970)
    assert "Papers name 1956–66; labels of 5 of these 11 years are known." in span_sentences(closed)
    assert "by papers" in " ".join(span_sentences(limited))


def test_a_paper_for_one_end_leaves_the_other_open():
    dates = date_version(SEEN, Documented(first=1957))

    assert dates.low == 1957
    assert 1964 < dates.high <= date_version(SEEN).high


def test_a_label_outside_the_papers_is_named_and_moves_nothing():
    dates = date_version([*SEEN, 1990], Documented(last=1966))

    assert dates.against == (1990,)
    assert dates.last == 1990
    assert dates.high == 1966
    assert "1990" in " ".join(span_sentences(dates))


def test_both_documented_ends_stand_without_labels_enough():
    assert (date_version([1960], Documented(first=1957, last=1966)).high) == 1966


def test_more_labels_between_the_ends_narrow_it_and_the_record_says_how_far():
    dates = date_version(SEEN)

    assert dates.narrowing.labels == 3
    assert dates.low < dates.narrowing.low < 1957 < 1964 < dates.narrowing.high < dates.high
    assert date_version(range(1957, 1965)).narrowing.labels == 0


MANY_SEEN = [*range(1957, 1971), 1972, 1973]


def test_the_sentences_name_span_interval_and_what_would_narrow_it():
    words = span_sentences(date_version(MANY_SEEN))

    assert words[0] == "Label years seen: 1957–73 (16 dated labels)."
    assert words[1].startswith("Production probably lay within 1950–83 (95 %)")
    assert "before 1957 or after 1973" in words[2]


def test_an_interval_that_reaches_farther_than_the_labels_lie_apart_is_said_in_words_and_not_in_years():
    dates = date_version(SEEN)
    words = " ".join(span_sentences(dates))

    assert dates.first - dates.low > 8  # what the labels alone allow: longer on either side than all they span
    assert not dates.begin_told
    assert not dates.end_told
    assert date_version(MANY_SEEN).begin_told
    assert date_version(MANY_SEEN).end_told
    assert not date_version(range(1957, 1967)).begin_told  # ten years in a row: too few, however near the estimate
    assert str(dates.low) not in words
    assert str(dates.high) not in words
    assert "Too few dated labels to say how long it was made; labels of 6 more different years might allow it." in words
    assert "A dated label from before 1957 or after 1964" in words


def test_many_labels_of_few_years_are_not_called_too_few():
    words = " ".join(span_sentences(date_version([1976, 1977, 1978, 1979, 1980] * 5)))

    assert "Labels of too few different years to say how long it was made." in words
    assert "more different year" not in words


def test_an_end_by_papers_is_told_though_the_other_is_not():
    begun = " ".join(span_sentences(date_version(SEEN, Documented(first=1957))))
    ended = " ".join(span_sentences(date_version([1960], Documented(last=1966))))

    assert "Production began in 1957, by papers; too few dated labels to say how long it went on;" in begun
    assert "after 1964" in begun
    assert "before 1957" not in begun
    assert "Production ended in 1966, by papers; too few dated labels to say when it began" in ended
    assert "labels of 10 more different years might allow it" in ended


def test_bounds_of_the_service_are_named_where_an_end_is_not_told():
    bounds = Documented(not_before=1952, not_after=1970, why_not_before="when it began", why_not_after="when it ended")
    words = " ".join(span_sentences(date_version(SEEN, bounds)))
    bounds = Documented(not_before=1952, not_after=1975, why_not_before="w", why_not_after="w")
    near = date_version(MANY_SEEN, bounds)

    assert "Sure is only: not before 1952, when it began; not after 1970, when it ended." in words
    assert "by papers" not in words
    assert (near.low, near.high) == (1952, 1975)
    assert "Production probably lay within 1952–75 (95 %)" in " ".join(span_sentences(near))


def test_contracts_whose_papers_would_tell_an_end_are_named_only_for_an_end_that_is_open():
    open_ends = " ".join(span_sentences(date_version(SEEN), contracts=("T/57/3", "T/64/9")))
    begun = " ".join(span_sentences(date_version(SEEN, Documented(first=1957)), contracts=("T/57/3", "T/64/9")))

    assert "such as that of contract T/57/3 or T/64/9, would narrow it most" in open_ends
    assert "such as that of contract T/64/9, would narrow it most" in begun


@given(years_of_labels)
@settings(max_examples=50, deadline=None)
def test_order_does_not_matter_and_a_repeated_year_changes_only_the_count(years):
    dates = date_version(years)
    again = date_version([*reversed(years), years[0]])

    assert (again.low, again.high, again.first, again.last) == (dates.low, dates.high, dates.first, dates.last)
    assert again.pieces == dates.pieces + 1


@given(years_of_labels)
@settings(max_examples=50, deadline=None)
def test_a_higher_level_is_never_narrower_and_the_interval_holds_the_span(years):
    low, high = date_version(years, level=0.8), date_version(years, level=0.99)

    if low.low is not None:
        assert high.low <= low.low <= low.first
        assert low.last <= low.high <= high.high


@given(years_of_labels, st.integers(-300, 300))
@settings(max_examples=30, deadline=None)
def test_moving_all_years_moves_the_interval(years, by):
    dates, moved = date_version(years), date_version([year + by for year in years])

    if dates.low is not None:
        assert (moved.low, moved.high) == (dates.low + by, dates.high + by)


def test_a_level_outside_nought_to_one_is_refused():
    with pytest.raises(ValueError, match="level"):
        date_version(SEEN, level=1)


def test_steps_cover_the_line_of_years_without_gaps():
    reach = reaches(40)

    assert reach[0] == 0
    assert (reach[:-1] + widths(reach)[:-1] == reach[1:]).all()
    assert reach[-1] >= 9 * 40


FRAME = Documented(not_before=1900, not_after=2009, why_not_before="w", why_not_after="w")


def test_from_three_different_years_on_an_interval_inside_known_limits_is_told_as_wide_as_it_is():
    dates = date_version([1957, 1958, 1960], FRAME)
    words = " ".join(span_sentences(dates))

    assert 1900 < dates.low < 1957
    assert 1960 < dates.high < 2009
    assert f"Production probably lay within {dates.low}–" in words
    assert "(95 %)" in words
    assert "That is wide: 3 different label years tell little." in words
    assert not date_version([1957, 1958], FRAME).begin_told
    assert not date_version([1957, 1958], FRAME).end_told


def test_a_label_of_the_last_possible_year_settles_the_end():
    dates = date_version([2005, 2008, 2009], FRAME)

    assert dates.end_told
    assert dates.high == 2009
    assert "narrow it most" in " ".join(span_sentences(dates))


@given(st.lists(st.integers(1960, 1999), min_size=3, max_size=10))
@settings(max_examples=60, deadline=None)
def test_no_year_is_told_that_only_a_limit_stands_behind(years):
    dates = date_version(years, FRAME)

    if dates.begin_told and dates.distinct >= 3:
        assert 1900 < dates.low <= dates.first
    if dates.end_told and dates.distinct >= 3:
        assert dates.last <= dates.high < 2009
