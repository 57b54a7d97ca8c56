"""The shortest checks: against trying every set, against another solver, and against what is known of such sets."""

import itertools
from math import ceil, inf, log2

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import Bounds, LinearConstraint, milp

from identification.engine import smallest_checks
from identification.engine.covering import fewest_columns
from identification.engine.tables import read_problem
from tests.identification.open_tables import files_of


def apart_in(rows) -> dict[tuple[int, int], list[str]]:
    """For every two rows of a full table the columns in which they differ."""
    return {
        (a, b): [f"f{place}" for place, (x, y) in enumerate(zip(rows[a], rows[b], strict=True)) if x != y]
        for a, b in itertools.combinations(range(len(rows)), 2)
    }


def even_efforts(columns: int) -> dict[str, float]:
    return {f"f{place}": 1.0 for place in range(columns)}


def separates(features, apart) -> bool:
    return all(set(features) & set(names) for names in apart.values() if names)


def by_trying_all(apart, efforts) -> tuple[int, float]:
    """Fewest features and their least effort, every set tried."""
    for number in range(len(efforts) + 1):
        costs = [
            sum(efforts[name] for name in chosen)
            for chosen in itertools.combinations(efforts, number)
            if separates(chosen, apart)
        ]
        if costs:
            return number, min(costs)
    raise AssertionError("all features together separate whatever can be separated")


def by_milp(apart, efforts) -> tuple[int, float]:
    """The same by scipy.optimize.milp (HiGHS): first the fewest, then among so many the least effort."""
    names = list(efforts)
    rows = np.array([[name in found for name in names] for found in apart.values() if set(found) & set(names)], float)
    if not len(rows):
        return 0, 0.0
    limits = {"integrality": np.ones(len(names)), "bounds": Bounds(0, 1)}
    cover = LinearConstraint(rows, 1, inf)
    fewest = round(milp(np.ones(len(names)), constraints=cover, **limits).fun)
    so_many = LinearConstraint(np.ones((1, len(names))), fewest, fewest)
    return fewest, milp(list(efforts.values()), constraints=[cover, so_many], **limits).fun


tables = st.integers(2, 6).flatmap(
    lambda n: st.tuples(
        st.lists(st.lists(st.integers(0, 2), min_size=6, max_size=6), min_size=n, max_size=n),
        st.lists(st.sampled_from([1.0, 1.5, 2.0, 2.5, 4.0]), min_size=6, max_size=6),
        st.lists(st.integers(1, 9), min_size=n, max_size=n),
    )
)


@settings(max_examples=150, deadline=None)
@given(tables)
def test_the_checks_are_as_few_and_as_easy_as_trying_every_set_finds(table):
    rows, efforts, _ = table
    apart, named = apart_in(rows), dict(zip(even_efforts(6), efforts, strict=True))
    found = smallest_checks(apart, named)

    assert found.exact
    assert separates(found.features, apart)
    assert by_trying_all(apart, named) == pytest.approx((len(found.features), sum(named[f] for f in found.features)))


@settings(max_examples=60, deadline=None)
@given(tables)
def test_without_any_one_of_the_checks_some_pair_is_not_separated(table):
    rows, efforts, _ = table
    apart = apart_in(rows)
    chosen = smallest_checks(apart, dict(zip(even_efforts(6), efforts, strict=True))).features

    assert not any(separates(set(chosen) - {one}, apart) for one in chosen)


@settings(max_examples=60, deadline=None)
@given(tables)
def test_pairs_that_no_feature_separates_are_named_and_all_others_fall_to_one_check(table):
    rows, _, _ = table
    apart = apart_in(rows)
    found = smallest_checks(apart, even_efforts(6))

    assert set(found.unseparated) == {pair for pair, names in apart.items() if not names}
    assert sorted([*itertools.chain(*found.newly), *found.unseparated]) == sorted(apart)


def expected_effort(order, apart, efforts, weights) -> float:
    """Effort of one piece after another, each until all that can be told of it is told; worked out the long way."""
    total = 0.0
    for version, weight in enumerate(weights):
        open_pairs = {pair for pair, names in apart.items() if version in pair and set(names) & set(efforts)}
        for feature in order:
            if open_pairs:
                total += weight / sum(weights) * efforts[feature]
            open_pairs = {pair for pair in open_pairs if feature not in apart[pair]}
    return total


@settings(max_examples=60, deadline=None)
@given(tables)
def test_no_other_order_takes_less_effort_on_average(table):
    rows, efforts, weights = table
    apart, named = apart_in(rows), dict(zip(even_efforts(6), efforts, strict=True))
    found = smallest_checks(apart, named, dict(enumerate(weights)))
    least = min(expected_effort(o, apart, named, weights) for o in itertools.permutations(found.features))

    assert found.expected_effort == pytest.approx(least)
    assert expected_effort(found.features, apart, named, weights) == pytest.approx(least)


@settings(max_examples=40, deadline=None)
@given(st.integers(0, 10_000), st.integers(5, 30), st.integers(4, 14))
def test_another_solver_finds_as_few_and_as_easy(seed, versions, features):
    """scipy.optimize.milp as reference, on larger tables with uneven efforts."""
    random = np.random.default_rng(seed)
    apart = apart_in(random.integers(0, 3, (versions, features)))
    efforts = {
        name: float(effort)
        for name, effort in zip(even_efforts(features), random.integers(1, 9, features), strict=True)
    }
    found = smallest_checks(apart, efforts)

    assert found.exact
    assert by_milp(apart, efforts) == pytest.approx((len(found.features), sum(efforts[f] for f in found.features)))


@pytest.mark.once
@pytest.mark.parametrize(("name", "number"), [("speech_sounds", 150), ("contact_languages", 12)])
def test_on_open_tables_another_solver_finds_as_few_and_as_easy(name, number, tmp_path):
    """Every two things of a published table, or of its first lines, by scipy.optimize.milp; a blank cell separates
    nothing. The tables' sources: the notices beside the files in tests/data."""
    problem = read_problem(*files_of(name, tmp_path))
    efforts = {feature.code: 1.0 + place % 3 for place, feature in enumerate(problem.features)}
    states = [{code: {cell.state for cell in cells} for code, cells in v.cells.items()} for v in problem.versions]
    apart = {
        (a, b): [code for code in efforts if excludes(states[a].get(code), states[b].get(code))]
        for a, b in itertools.combinations(range(number), 2)
    }
    found = smallest_checks(apart, efforts)

    assert found.exact
    assert (len(found.features), sum(efforts[f] for f in found.features)) == pytest.approx(by_milp(apart, efforts))


def excludes(ours: set | None, theirs: set | None) -> bool:
    return bool(ours and theirs and not ours & theirs)


@pytest.mark.parametrize("versions", [2, 3, 4, 5, 8, 9, 16])
def test_yes_or_no_checks_number_at_least_the_binary_figures_of_the_versions(versions):
    """Minimum test collection (Garey & Johnson 1979, SP6; from memory): n things take at least log2 n tests of two
    outcomes, rounded up, and their own binary figures reach it."""
    figures = ceil(log2(versions))
    rows = [[version >> place & 1 for place in range(figures)] + [int(version == 0)] for version in range(versions)]

    assert len(smallest_checks(apart_in(rows), even_efforts(figures + 1)).features) == figures


def test_where_each_check_knows_one_version_only_all_but_one_are_needed():
    """Of n versions each with a mark of its own n - 1 marks do: the last is known by having none."""
    rows = np.eye(7, dtype=int)

    assert len(smallest_checks(apart_in(rows), even_efforts(7)).features) == 6


def test_the_steiner_system_of_seven_points_needs_three_lines():
    """The lines of the Fano plane: a set that meets all of its seven lines has at least three points, and a line is
    one such set (blocking by a line; from any book on finite geometry, from memory)."""
    lines = [(0, 1, 2), (0, 3, 4), (0, 5, 6), (1, 3, 5), (1, 4, 6), (2, 3, 6), (2, 4, 5)]
    points = [sum(1 << row for row, line in enumerate(lines) if point in line) for point in range(7)]
    cover = fewest_columns(points, [1.0] * 7)

    assert cover.exact
    assert len(cover.columns) == 3
    assert cover.columns in lines


def test_always_taking_the_widest_would_take_three_where_two_do():
    """The usual example against the greedy rule (Johnson 1974, J. Comput. Syst. Sci. 9:256; from memory): two rows of
    seven, covered by the two rows, or by squares of eight, four and two."""
    rows = [0b1111111, 0b1111111 << 7]
    squares = [0b1111 | 0b1111 << 7, 0b110000 | 0b110000 << 7, 1 << 6 | 1 << 13]

    assert fewest_columns([*squares, *rows], [1.0] * 5).columns == (3, 4)


def test_a_search_that_is_stopped_says_so_and_still_separates_everything():
    random = np.random.default_rng(6)
    apart = apart_in(random.integers(0, 2, (40, 24)))
    stopped = smallest_checks(apart, even_efforts(24), most_looks=1)

    assert not stopped.exact
    assert separates(stopped.features, apart)


def test_of_several_sets_as_short_the_easiest_is_taken():
    apart = {("a", "b"): ["measure", "look"], ("a", "c"): ["look", "measure"]}

    assert smallest_checks(apart, {"measure": 4.0, "look": 1.0}).features == ("look",)
    assert smallest_checks(apart, {"measure": 1.0, "look": 4.0}).features == ("measure",)


def test_a_feature_that_may_not_be_used_separates_nothing():
    found = smallest_checks({("a", "b"): ["inside"]}, {"outside": 1.0})

    assert found.features == ()
    assert found.unseparated == (("a", "b"),)


def test_what_most_pieces_fail_is_looked_at_first():
    apart = {("v", "common"): ["x"], ("v", "rare"): ["y"]}
    efforts = {"x": 1.0, "y": 1.0}

    assert smallest_checks(apart, efforts, {"v": 1, "common": 8, "rare": 1}).features == ("x", "y")
    assert smallest_checks(apart, efforts, {"v": 1, "common": 1, "rare": 8}).features == ("y", "x")
    assert smallest_checks(apart, {"x": 9.0, "y": 1.0}, {"v": 1, "common": 2, "rare": 1}).features == ("y", "x")


def test_more_checks_than_can_be_ordered_exactly_still_come_in_a_useful_order():
    apart = {("v", number): [f"f{number}"] for number in range(14)}
    found = smallest_checks(apart, even_efforts(14), {"v": 1} | {number: number + 1 for number in range(14)})

    assert found.features == tuple(f"f{number}" for number in reversed(range(14)))


def test_no_pairs_need_no_checks():
    assert smallest_checks({}, {"a": 1.0}).features == ()
    assert smallest_checks({("a", "b"): []}, {}).unseparated == (("a", "b"),)
