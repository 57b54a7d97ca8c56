"""Mean questions without errors, on open tables and simulated lineages, beside bounds and other ways to ask.

Everything is recorded, with one state a cell; a detail of a part that is not there counts as a state of its own. A
tree of questions goes on until nothing in the table splits what is left. Exact figures: no piece is drawn.
"""

import heapq
import tempfile
import warnings
from collections.abc import Callable
from pathlib import Path
from time import perf_counter

import numpy as np
from sklearn.tree import DecisionTreeClassifier

from identification.engine import CellState, Feature, States, Version, compile_pack
from identification.engine.keys import KeyTable
from identification.engine.stepping import best_question
from identification.engine.tables import read_problem
from tests.benchmarks.simulated import simulate
from tests.identification.open_tables import files_of

SIMULATED = {(12, 30): range(711, 731), (40, 30): range(711, 719), (200, 80): range(711, 713)}
OPEN = ("zoo", "plant_traits", "speech_sounds", "contact_languages", "mushroom_forms")
# The exact optimum is searched up to so many versions; of the larger tables only for those named.
SEARCHED, SEARCHED_TOO = 12, ("zoo",)
RANDOM_TREES = 5
Table = tuple[np.ndarray, np.ndarray]


def simulated_table(versions: int, features: int, seed: int) -> Table:
    reference = simulate(versions, features, seed)
    return reference.truth + 1, reference.prior


def open_table(name: str) -> Table:
    """Distinct rows with how often each occurs; blanks filled with the commonest state."""
    with tempfile.TemporaryDirectory() as folder:
        problem = read_problem(*files_of(name, Path(folder)))
    columns = []
    for feature in problem.features:
        cells = [version.cells.get(feature.code) for version in problem.versions]
        states = [cell[0].state for cell in cells if cell]
        common = max(sorted(set(states)), key=states.count)
        names = sorted({*states, common})
        columns.append([names.index(cell[0].state if cell else common) for cell in cells])
    return np.unique(np.array(columns).T, axis=0, return_counts=True)


def huffman_bound(weights, answers: int) -> float:
    """Mean length of the best code with so many answers a question (Huffman 1952, Proc. IRE 40:1098, from memory)."""
    heap = list(weights / weights.sum()) + [0.0] * (-(len(weights) - 1) % (answers - 1))
    heapq.heapify(heap)
    cost = 0.0
    while len(heap) > 1:
        joined = sum(heapq.heappop(heap) for _ in range(answers))
        cost += joined
        heapq.heappush(heap, joined)
    return cost


def cost_of(table: KeyTable, choose: Callable[[int], int | None], versions: int | None = None) -> float:
    """Mean questions when `choose` names the next feature for what is left, or None to stop."""
    versions = table.everything if versions is None else versions
    feature = choose(versions) if versions & (versions - 1) else None
    if feature is None:
        return 0.0
    parts = table.parts(versions, feature) or [versions]
    return table.weight(versions) + sum(cost_of(table, choose, part) for part in parts)


def in_order(table: KeyTable, order) -> Callable[[int], int | None]:
    return lambda versions: next((f for f in order if table.parts(versions, f)), None)


def at_random(table: KeyTable, random) -> Callable[[int], int | None]:
    def choose(versions: int) -> int | None:
        useful = [f for f in range(len(table.efforts)) if table.parts(versions, f)]
        return int(random.choice(useful)) if useful else None

    return choose


def engine_cost(rows: np.ndarray, weights: np.ndarray) -> float:
    """Mean questions of the engine's bare walk, told that nobody errs."""
    names = [tuple(f"s{state}" for state in range(int(column.max()) + 1)) for column in rows.T]
    features = [Feature(f"f{i}", states, error=0.0) for i, states in enumerate(names) if len(states) > 1]
    place = [int(feature.code[1:]) for feature in features]
    cells = [{f"f{i}": (CellState(f"s{row[i]}"),) for i in place} for row in rows]
    versions = [Version(f"v{i}", one, float(w)) for i, (one, w) in enumerate(zip(cells, weights, strict=True))]
    pack = compile_pack(features, versions, unrecorded=0.0, blanks="pooled")
    shares = weights / weights.sum()

    def cost(left: np.ndarray, answers: dict) -> float:
        if len(np.unique(rows[left], axis=0)) < 2:
            return 0.0
        ranked = pack.rank_questions(pack.weigh(answers), answers)
        # What cannot be told apart any more by a question worth asking would be named as it is.
        if not ranked:
            return 0.0
        asked = best_question(pack, answers, ranked)
        states = rows[left, int(asked[1:])]
        rest = sum(cost(left[states == s], answers | {asked: States((f"s{s}",))}) for s in np.unique(states))
        return float(shares[left].sum()) + rest

    return cost(np.arange(len(rows)), {})


def tree_cost(rows: np.ndarray, weights: np.ndarray) -> float:
    """Mean depth of scikit-learn's decision tree, which asks of one state at a time."""
    one_hot = np.concatenate([column[:, None] == np.unique(column) for column in rows.T], axis=1).astype(float)
    tree = DecisionTreeClassifier(criterion="entropy", random_state=0)
    with warnings.catch_warnings(action="ignore"):
        tree.fit(one_hot, [str(place) for place in range(len(rows))], sample_weight=weights)
    depth = tree.decision_path(one_hot).sum(axis=1).A1 - 1
    return float(np.average(depth, weights=weights))


def measures(rows: np.ndarray, weights: np.ndarray, exact: bool) -> list[float]:
    table = KeyTable.of_states(rows, weights)
    random = np.random.default_rng(7)
    order = range(rows.shape[1])
    return [
        huffman_bound(np.asarray(weights, float), max(table.widest, 2)),
        table.least_cost(table.everything) if exact else np.nan,
        engine_cost(rows, np.asarray(weights, float)),
        table.greedy_cost(table.everything),
        table.cost(table.tree("rollout")),
        cost_of(table, in_order(table, order)),
        tree_cost(rows, weights),
        float(np.mean([cost_of(table, at_random(table, random)) for _ in range(RANDOM_TREES)])),
    ]


def tables(more: bool):
    """(name, list of tables, whether to search the optimum)."""
    for (n, m), seeds in SIMULATED.items():
        yield f"simulated {n} x {m}", [simulated_table(n, m, seed) for seed in seeds], n <= SEARCHED
    for name in OPEN if more else OPEN[:-1]:
        try:
            rows, counts = open_table(name)
        except FileNotFoundError:
            yield f"{name}, not installed", [], False
            continue
        yield f"{name} {len(rows)} x {rows.shape[1]}", [(rows, counts)], name in SEARCHED_TOO


def questions(more: bool = False) -> None:
    print("\nMean questions without errors, until nothing splits what is left")
    print(
        "| table | tables | Huffman bound | optimum | engine | greedy | rollout | fixed order | tree | random |", end=""
    )
    print(" engine / optimum | engine / greedy | s |")
    print("|---|---|---|---|---|---|---|---|---|---|---|---|---|")
    for name, some, exact in tables(more):
        began = perf_counter()
        if not some:
            print(f"| {name} |")
            continue
        each = np.array([measures(rows, weights, exact) for rows, weights in some])
        means = " | ".join("-" if np.isnan(value) else f"{value:.3f}" for value in each.mean(axis=0))
        to_optimum = f"{(each[:, 2] / each[:, 1]).mean():.3f}" if exact else "-"
        to_greedy = f"{(each[:, 2] / each[:, 3]).mean():.3f}"
        print(
            f"| {name} | {len(each)} | {means} | {to_optimum} | {to_greedy} | {perf_counter() - began:.0f} |",
            flush=True,
        )
