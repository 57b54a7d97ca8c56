"""Keys for paper: as short as can be, checked against published optima and a heap of our own."""

import heapq
import itertools

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import stats

from identification.engine.keys import ANY, Fork, KeyTable, Leaf
from identification.engine.tables import read_problem
from tests.identification.open_tables import files_of

# Five versions by eight features where asking for most information first is not best; optimum 1.6, greedy 2.0
# (searched exhaustively; no source).
TRAP = [
    [1, 1, 2, 1, 2, 1, 0, 0],
    [2, 0, 1, 1, 2, 2, 2, 2],
    [2, 1, 0, 1, 1, 2, 2, 0],
    [2, 1, 0, 2, 2, 2, 0, 1],
    [2, 2, 0, 0, 1, 1, 0, 0],
]
# Huffman 1952, Proc. IRE 40:1098, Table I: thirteen messages, mean length 3.42 (from memory).
HUFFMAN = [0.20, 0.18, 0.10, 0.10, 0.10, 0.06, 0.06, 0.04, 0.04, 0.04, 0.04, 0.03, 0.01]


def huffman_cost(weights, answers: int = 2) -> float:
    """Mean length of the best code: least two (or more) weights joined again and again."""
    heap = list(weights) + [0.0] * (-(len(weights) - 1) % (answers - 1))
    heapq.heapify(heap)
    cost = 0.0
    while len(heap) > 1:
        joined = sum(heapq.heappop(heap) for _ in range(answers))
        cost += joined
        heapq.heappush(heap, joined)
    return cost


def every_question(versions: int, answers: int = 2) -> np.ndarray:
    """All ways to sort the versions by one question."""
    return np.array(list(itertools.product(range(answers), repeat=versions))).T


def filled(problem) -> tuple[np.ndarray, np.ndarray]:
    """Distinct rows with how often each occurs; blanks filled with the commonest state."""
    columns = []
    for feature in problem.features:
        cells = [version.cells.get(feature.code) for version in problem.versions]
        known = [feature.states.index(cell[0].state) for cell in cells if cell]
        common = max(sorted(set(known)), key=known.count)
        columns.append([feature.states.index(cell[0].state) if cell else common for cell in cells])
    return np.unique(np.array(columns).T, axis=0, return_counts=True)


def costs(table: KeyTable) -> tuple[float, float, float]:
    return tuple(table.cost(table.tree(how)) for how in ("exact", "rollout", "greedy"))


def test_the_greedy_rule_is_caught_by_the_trap_and_the_others_are_not():
    assert costs(KeyTable.of_states(TRAP)) == pytest.approx((1.6, 1.6, 2.0))


@pytest.mark.parametrize(
    ("weights", "answers", "printed"),
    [([0.25, 0.25, 0.2, 0.15, 0.15], 2, 2.3), ([0.25, 0.25, 0.2, 0.15, 0.15], 3, 1.5)],
)
def test_with_every_question_at_hand_the_key_is_a_huffman_code(weights, answers, printed):
    """Cover & Thomas, Elements of Information Theory, 5.6 (from memory), and our own heap."""
    table = KeyTable.of_states(every_question(len(weights), answers), weights)

    assert table.least_cost(table.everything) == pytest.approx(printed) == pytest.approx(huffman_cost(weights, answers))


def test_shannons_four_letters_cost_their_entropy():
    """Shannon 1948, section 9: 1/2, 1/4, 1/8, 1/8 cost 7/4 (from memory; scipy.stats.entropy)."""
    weights = [1 / 2, 1 / 4, 1 / 8, 1 / 8]
    table = KeyTable.of_states(every_question(4), weights)

    assert table.least_cost(table.everything) == pytest.approx(1.75) == pytest.approx(stats.entropy(weights, base=2))


def code_questions(weights) -> np.ndarray:
    """Things × questions: for each joint of the best code, whether a thing hangs on its first branch."""
    heap = [(weight, place, {place}) for place, weight in enumerate(weights)]
    heapq.heapify(heap)
    columns = []
    while len(heap) > 1:
        (first, _, one), (second, place, other) = heapq.heappop(heap), heapq.heappop(heap)
        columns.append([int(thing in one) for thing in range(len(weights))])
        heapq.heappush(heap, (first + second, len(weights) + place, one | other))
    return np.array(columns).T


@pytest.mark.once
def test_huffmans_thirteen_messages_need_the_printed_length_and_no_bound_is_broken():
    """Asked by the joints of the code the key is the code; by single messages it can only be longer."""
    by_code, one_by_one = (
        KeyTable.of_states(code_questions(HUFFMAN), HUFFMAN),
        KeyTable.of_states(np.eye(13, dtype=int), HUFFMAN),
    )

    assert by_code.least_cost(by_code.everything) == pytest.approx(3.42) == pytest.approx(huffman_cost(HUFFMAN))
    assert stats.entropy(HUFFMAN, base=2) == pytest.approx(3.355, abs=0.001)
    assert by_code.entropy_bound(by_code.everything) == pytest.approx(stats.entropy(HUFFMAN, base=2))
    assert one_by_one.least_cost(one_by_one.everything) > 3.42


def deepest(tree: Fork | Leaf) -> int:
    return 0 if isinstance(tree, Leaf) else 1 + max(deepest(branch) for _, branch in tree.branches)


LEFT, RIGHT, ASIDE = 0, 1, 2


def test_one_heavier_coin_among_nine_takes_two_weighings_and_among_twenty_seven_three():
    """Dyson 1946, Math. Gazette 30:231 (from memory). Nine: every fair weighing; twenty-seven: by ternary figures."""
    sides = np.array(list(itertools.product((LEFT, RIGHT, ASIDE), repeat=9)))
    fair = sides[(sides == LEFT).sum(axis=1) == (sides == RIGHT).sum(axis=1)]
    nine = KeyTable.of_states(fair[::7].T)
    figures = KeyTable.of_states(np.array([[coin // 3**place % 3 for place in range(3)] for coin in range(27)]))

    assert nine.least_cost(nine.everything) == pytest.approx(2)
    assert (
        figures.cost(figures.tree("exact"))
        == pytest.approx(3)
        == pytest.approx(figures.entropy_bound(figures.everything))
    )


def test_one_heavier_coin_among_twenty_eight_takes_four_weighings():
    """Dyson 1946 (from memory): the bound leaves no room for three; nine against nine, then thirds, needs four.

    The mean is that of the best ternary code of 28 equal messages, by our own heap.
    """
    first = [LEFT] * 9 + [RIGHT] * 9 + [ASIDE] * 10
    second = [LEFT, RIGHT, ASIDE] * 6 + [LEFT] * 3 + [RIGHT] * 3 + [ASIDE] * 4
    third = [LEFT] * 3 + [RIGHT] * 3 + [ASIDE] * 3
    third += third + [LEFT, RIGHT, ASIDE] * 2 + [LEFT, RIGHT, ASIDE, ASIDE]
    last = [ASIDE] * 26 + [LEFT, RIGHT]
    table = KeyTable.of_states(np.array([first, second, third, last]).T)
    tree = table.tree("exact")

    assert table.entropy_bound(table.everything) > 3
    assert deepest(tree) == 4
    assert table.cost(tree) == pytest.approx(huffman_cost([1 / 28] * 28, 3)) == pytest.approx(86 / 28)


@pytest.mark.once
def test_one_odd_coin_among_twelve_heavy_or_light_takes_three_weighings_and_not_two():
    """Dyson 1946 (from memory): 24 cases. Weighings of four against four and of three against three, as drawn; one
    set of three that settles every case is among them."""
    random = np.random.default_rng(12)
    figures = [figure for figure in itertools.product((-1, 0, 1), repeat=3) if any(figure)]
    signed = [figure for figure in figures if figure > tuple(-one for one in figure)]
    drawn = [random.permutation([1] * size + [-1] * size + [0] * (12 - 2 * size)) for size in (4, 3) for _ in range(20)]
    weighings = np.array([*dyson_weighings(signed), *drawn])
    cases = np.concatenate([weighings, -weighings], axis=1).T + 1
    table = KeyTable.of_states(cases)
    tree = table.tree("exact")

    assert (weighings == 1).sum(axis=1).tolist() == (weighings == -1).sum(axis=1).tolist()
    assert table.entropy_bound(table.everything) > 2
    assert deepest(tree) == 3
    assert all(len(leaf) == 1 for leaf in leaves(tree))


def leaves(tree: Fork | Leaf) -> list[tuple[int, ...]]:
    return [tree.versions] if isinstance(tree, Leaf) else [one for _, branch in tree.branches for one in leaves(branch)]


def dyson_weighings(signed) -> list[list[int]]:
    """Three weighings in which every coin has a figure of its own, none the opposite of another, in balance."""
    for left_out in signed:
        for signs in itertools.product((1, -1), repeat=12):
            coins = [
                [sign * part for part in figure]
                for sign, figure in zip(signs, (one for one in signed if one != left_out), strict=True)
            ]
            if not any(map(sum, zip(*coins, strict=True))):
                return [list(weighing) for weighing in zip(*coins, strict=True)]
    raise AssertionError("no three weighings in balance")


@pytest.mark.parametrize(
    ("name", "optimum", "greedy"),
    [("animals", 3.70, 3.80), ("flower", 2.444, 2.444), ("mites", 1.583, 1.583), ("zoo", 4.871, 4.921)],
)
def test_open_tables_need_as_many_questions_as_an_exhaustive_search_found(name, optimum, greedy, tmp_path):
    """Optimum and greedy mean of a search by another program; every thing weighs alike."""
    try:
        rows, weights = filled(read_problem(*files_of(name, tmp_path)))
    except FileNotFoundError as missing:
        pytest.skip(f"not installed: {missing}")
    found = costs(KeyTable.of_states(rows, weights))

    assert found[0] == pytest.approx(optimum, abs=0.001)
    assert found[2] == pytest.approx(greedy, abs=0.001)
    assert found[0] <= found[1] <= found[2]


def brute_force(rows, weights) -> float:
    """The least mean number of questions, every tree tried; for very small tables."""
    if len(rows) < 2:
        return 0.0
    best = None
    for column in range(len(rows[0])):
        parts = [[i for i, row in enumerate(rows) if row[column] == state] for state in {row[column] for row in rows}]
        if len(parts) > 1:
            rest = sum(brute_force([rows[i] for i in part], [weights[i] for i in part]) for part in parts)
            best = min(best, sum(weights) + rest) if best is not None else sum(weights) + rest
    return best or 0.0


small_tables = st.integers(2, 5).flatmap(
    lambda n: st.tuples(
        st.lists(st.lists(st.integers(0, 2), min_size=3, max_size=3), min_size=n, max_size=n),
        st.lists(st.integers(1, 9), min_size=n, max_size=n),
    )
)


@settings(max_examples=60, deadline=None)
@given(small_tables)
def test_the_search_finds_what_trying_every_tree_finds(table):
    rows, weights = table
    exact, rollout, greedy = costs(KeyTable.of_states(rows, weights))

    assert exact == pytest.approx(brute_force(rows, [weight / sum(weights) for weight in weights]))
    assert exact <= rollout + 1e-9 <= greedy + 2e-9


@settings(max_examples=60, deadline=None)
@given(small_tables)
def test_greedy_is_never_further_from_the_optimum_than_its_guarantee(table):
    """ln(1 / least weight) + 1 times the optimum: Golovin & Krause 2011, J. Artif. Intell. Res. 42:427 (factor from
    memory)."""
    rows, weights = table
    exact, _, greedy = costs(KeyTable.of_states(rows, weights))

    assert greedy <= exact * (np.log(sum(weights) / min(weights)) + 1) + 1e-9


def test_a_version_with_no_state_recorded_goes_down_every_branch():
    tree = KeyTable.of_states([[0], [1], [ANY]]).tree("exact")

    assert tree == Fork(0, ((0, Leaf((0, 2))), (1, Leaf((1, 2)))))
