"""How often the right version comes first on simulated lineages when people err, and how new versions are noticed.

15 % of the answers are cannot tell, 10 % of the parts are lost. The engine is told the true chance of an error (1 %
where nobody errs). Beside it stand an elimination key, asked one question at a time and ending in the commonest version
that is left, and a decision tree of scikit-learn grown on pieces of the record, with gaps left as gaps.
"""

import warnings
from dataclasses import dataclass, field
from functools import cache

import numpy as np

from identification.engine import CANNOT_TELL, Feature, States, compile_pack
from identification.engine.keys import ANY, KeyTable, members
from identification.engine.stepping import Ask, plain_step
from identification.engine.verdict import MOST_READ_BACK, SURE, contradicting
from tests.benchmarks.scores import area_under_curve, calibration_error
from tests.benchmarks.simulated import Simulated, draw_pieces, simulate

MOST = 40
SIZES = {(12, 30): (711, 712, 713), (40, 30): (711, 712, 713), (200, 80): (711, 712)}
ERRORS = (0.0, 0.05, 0.10, 0.20)
LEAST_ERROR = 0.01
TREE_PIECES = 8


@dataclass
class Tally:
    """What came of the pieces of one row."""

    pieces: int = 0
    sums: dict[str, float] = field(default_factory=dict)
    stated: list[float] = field(default_factory=list)
    right: list[bool] = field(default_factory=list)

    def add(self, **values: float) -> None:
        self.pieces += 1
        for name, value in values.items():
            self.sums[name] = self.sums.get(name, 0.0) + value

    def mean(self, name: str) -> float:
        return self.sums[name] / self.pieces


# ---- what the engine is compared with


class EliminationKey:
    """Strikes out every version that an answer contradicts, asking what splits those left most evenly."""

    def __init__(self, reference: Simulated):
        self.reference = reference
        self.states = [[cell_states(v, f) for f in reference.features] for v in reference.versions]
        single = [[next(iter(s)) if len(s) == 1 else ANY for s in row] for row in self.states]
        self.table = KeyTable.of_states(single, reference.prior)
        self.ranked = cache(self.table.ranked)

    def named(self, piece) -> int:
        """The commonest version left; -1 where none is."""
        left, asked = self.table.everything, set()
        while (feature := next((f for f in self.ranked(left) if f not in asked), None)) is not None:
            asked.add(feature)
            answer = piece.get(self.reference.features[feature].code, CANNOT_TELL)
            if isinstance(answer, States):
                state = self.reference.features[feature].states.index(answer.states[0])
                left = sum(1 << v for v in members(left) if not (s := self.states[v][feature]) or state in s)
            if not left:
                return -1
        return max(members(left), key=lambda v: self.reference.prior[v])


def cell_states(version, feature: Feature) -> set[int]:
    """The recorded states as numbers; nothing where nothing is recorded or applies."""
    return {feature.states.index(c.state) for c in version.cells.get(feature.code, ()) if c.state in feature.states}


class GrownTree:
    """scikit-learn's decision tree over columns of yes, no or not known, grown on pieces drawn from the record."""

    def __init__(self, reference: Simulated):
        from sklearn.tree import DecisionTreeClassifier

        self.features = reference.features
        random = np.random.default_rng(3)
        rows, names, weights = [], [], []
        for place, version in enumerate(reference.versions):
            for _ in range(TREE_PIECES):
                rows.append(self.row({code: drawn(cell, random) for code, cell in version.cells.items()}))
                names.append(str(place))
                weights.append(reference.prior[place])
        self.tree = DecisionTreeClassifier(criterion="entropy", random_state=0)
        with warnings.catch_warnings(action="ignore"):
            self.tree.fit(rows, names, sample_weight=weights)

    def row(self, states: dict[str, str]) -> list[float]:
        return [
            float(states[f.code] == s) if states.get(f.code) in f.states else np.nan
            for f in self.features
            for s in f.states
        ]

    def named(self, piece) -> int:
        return int(
            self.tree.predict([self.row({c: a.states[0] for c, a in piece.items() if isinstance(a, States)})])[0]
        )


@cache
def tree_of(versions: int, features: int, seed: int) -> GrownTree:
    """The tree does not know of errors, so that one serves all rows."""
    return GrownTree(simulate(versions, features, seed))


def drawn(cell, random) -> str:
    shares = np.array([1.0 if one.share is None else one.share for one in cell])
    return cell[int(random.choice(len(cell), p=shares / shares.sum()))].state


# ---- walks of the engine


def asked_by_engine(pack, piece) -> dict[str, object]:
    answers: dict[str, object] = {}
    while isinstance(step := plain_step(pack, pack.weigh(answers), answers, limit=MOST), Ask):
        answers[step.feature] = piece.get(step.feature, CANNOT_TELL)
    return answers


def asked_in_order(pack, piece) -> int:
    """How many questions the features' own order needs until one version, or none of them, is sure."""
    answers: dict[str, object] = {}
    for feature in pack.features:
        if not pack.part_was_seen(feature, answers):
            continue
        belief = pack.weigh(answers)
        if len(answers) == MOST or max(belief.posterior.max(), belief.unrecorded) >= SURE:
            break
        answers[feature.code] = piece.get(feature.code, CANNOT_TELL)
    return len(answers)


def rank_of(pack, answers, version: int) -> int:
    posterior = pack.weigh(answers).posterior
    return int((posterior > posterior[version]).sum())


def tally(size: tuple[int, int], error: float, number: int) -> Tally:
    """`number` pieces of each of the references of this size."""
    result = Tally()
    for seed in SIZES[size]:
        reference = simulate(*size, seed, max(error, LEAST_ERROR))
        pack = compile_pack(reference.features, reference.versions, unanswered_parent="drops")
        key, tree = EliminationKey(reference), tree_of(*size, seed)
        for truth, piece in draw_pieces(reference, number, 5, error=error):
            given = asked_by_engine(pack, piece)
            rank = rank_of(pack, given, truth)
            result.add(
                key=key.named(piece) == truth,
                tree=tree.named(piece) == truth,
                first=rank == 0,
                three=rank < 3,
                all=rank_of(pack, piece, truth) == 0,
                questions=len(given),
                in_order=asked_in_order(pack, piece),
            )
            result.stated.append(float(pack.weigh(given).posterior.max()))
            result.right.append(rank == 0)
    return result


def right_answers(number: int = 150) -> None:
    print(f"\nSimulated lineages, {number} pieces of each of two or three references a row: right version first")
    print("| table | errors | key | tree | engine | first three | all answered | engine / all | questions |", end="")
    print(" in fixed order | share | calibration error |")
    print("|---|---|---|---|---|---|---|---|---|---|---|---|")
    rows = {(size, error): tally(size, error, number) for size in SIZES for error in ERRORS}
    for ((n, m), error), row in rows.items():
        shares = " | ".join(f"{row.mean(name):.1%}" for name in ("key", "tree", "first", "three", "all"))
        asked, fixed = row.mean("questions"), row.mean("in_order")
        print(f"| {n} x {m} | {error:.0%} | {shares} | {row.mean('first') / row.mean('all'):.3f}", end="")
        print(f" | {asked:.2f} | {fixed:.2f} | {asked / fixed:.0%} | {calibration_error(row.stated, row.right):.3f} |")
    for error in ERRORS:
        same = [row for (_, e), row in rows.items() if e == error]
        over = np.mean([row.mean("first") - row.mean("key") for row in same])
        print(f"Over the elimination key, {error:.0%} errors, mean over tables: {100 * over:+.1f} points")


# ---- versions that are not recorded


def unrecorded(pack, looks, read_back: bool) -> float:
    """P(not recorded) with everything answered; with `read_back` up to three contradicting answers taken again."""
    answers = {code: pair[0] for code, pair in looks.items()}
    for _ in range(MOST_READ_BACK if read_back else 0):
        lead = pack.version_codes[int(pack.weigh(answers).posterior.argmax())]
        open_to = [code for code in contradicting(pack, answers, lead) if not isinstance(answers[code], tuple)]
        if not open_to:
            break
        answers[open_to[0]] = looks[open_to[0]]
    return pack.weigh(answers).unrecorded


def open_set(number: int = 100) -> None:
    print(f"\nVersions left out of the reference, {number} pieces of each of three, 5 % errors, all answered")
    print("| table | AUC | with up to three answers read back |")
    print("|---|---|---|")
    for size in ((12, 30), (40, 30)):
        scores = {False: ([], []), True: ([], [])}
        for seed in SIZES[size]:
            reference = simulate(*size, seed)
            whole = compile_pack(reference.features, reference.versions, unanswered_parent="drops")
            without = cache(lambda truth, r=reference: left_out(r, truth))
            for truth, looks in draw_pieces(reference, number, 6, error=0.05, looks=2):
                for read_back, (known, new) in scores.items():
                    known.append(unrecorded(whole, looks, read_back))
                    new.append(unrecorded(without(truth), looks, read_back))
        plain, again = (area_under_curve(*scores[read_back]) for read_back in (False, True))
        print(f"| {size[0]} x {size[1]} | {plain:.3f} | {again:.3f} |", flush=True)


def left_out(reference: Simulated, truth: int):
    rest = [version for place, version in enumerate(reference.versions) if place != truth]
    return compile_pack(reference.features, rest, unanswered_parent="drops")
