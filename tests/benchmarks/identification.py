"""How well the engine identifies, printed and never asserted.

    python -m tests.benchmarks.identification [speed] [open] [demo] [examples] [kinds] [left_out] [new_copies]
        [moved_labels] [--more]

speed: the next question beside one bare matrix-vector product. open: questions and right answers on open tables and
simulated lineages, against bounds, an elimination key and a scikit-learn decision tree. demo: the demo society's
pieces walked one question at a time, by the records alone. examples: the same pieces from everything seen on them,
without and with accepted pieces counted as evidence. kinds: drawn pieces of every version, outside checks only and all
checks, with three thresholds. left_out: the demo's pieces, their own version taken out of the reference. new_copies:
drawn pieces of every copy, the copy itself taken out of the reference. moved_labels: copies with a genuine label.
`--more` takes three or four times the pieces of open, kinds, new_copies and moved_labels. Fixed
seeds; simulations, not a study of people.
"""

import runpy
import sys
from collections import Counter
from pathlib import Path
from time import perf_counter

import numpy as np

if not __package__ and __name__ == "__main__":  # run by its path, this file would stand for the package of its name
    sys.path[0] = str(Path(__file__).parents[2])
    runpy.run_module("tests.benchmarks.identification", run_name="__main__", alter_sys=True)
    sys.exit()

from identification.engine import (
    CANNOT_TELL,
    KIND_GROUPS,
    Finish,
    compile_pack,
    next_step,
    rivals,
    verdict,
)
from tests.benchmarks.demo_pieces import load_demo
from tests.benchmarks.drawn_pieces import DrawnPiece
from tests.benchmarks.moved_labels import moved_labels
from tests.benchmarks.open_answers import open_set, right_answers
from tests.benchmarks.open_questions import questions
from tests.benchmarks.scores import area_under_curve
from tests.benchmarks.simulated import draw_pieces, simulate

MOST = 40


def median_ms(work, times: int = 30) -> float:
    work()
    taken = []
    for _ in range(times):
        began = perf_counter()
        work()
        taken.append(perf_counter() - began)
    return float(np.median(taken)) * 1000


def speed() -> None:
    print("\nNext question (weigh and rank), ms, median of 30, beside one bare matrix-vector product of that size")
    print("| versions x features | next question | matrix-vector | ratio | target |")
    print("|---|---|---|---|---|")
    for n, m, target in ((40, 30, 0.5), (2000, 80, 2.0), (5000, 300, 10.0)):
        reference = simulate(n, m, 711)
        pack = compile_pack(reference.features, reference.versions, blanks="pooled")
        _, piece = draw_pieces(reference, 1, 5, error=0.05)[0]
        answers = dict(list(piece.items())[:3])
        asked = median_ms(lambda a=answers, p=pack: p.rank_questions(p.weigh(a), a))
        states = sum(len(feature.states) for feature in reference.features)
        table, weights = np.random.default_rng(1).random((n, states)), np.random.default_rng(2).random(n)
        bare = median_ms(lambda t=table, w=weights: w @ t)
        print(f"| {n} x {m} | {asked:.3f} | {bare:.3f} | {asked / bare:.1f} | {target} |")


def site_pack(features, versions):
    """A pack with the site's own chance of an unrecorded version."""
    from identification.profiles_from_catalogue import UNRECORDED

    return compile_pack(features, versions, unrecorded=UNRECORDED)


def walk(pack, answer_of, *, allowed=None):
    """Answers and number of questions of a whole walk with kinds, look-alikes and reading back."""
    answers: dict[str, object] = {}
    asked = 0
    while not isinstance(step := next_step(pack, answers, allowed=allowed, limit=MOST), Finish):
        answer = answer_of(step.feature)
        given = answers.get(step.feature)
        answers[step.feature] = (given, answer) if step.purpose == "read_back" else answer
        asked += 1
    return answers, asked


def rank_of(pack, answers, version: str) -> int:
    posterior = pack.weigh(answers).posterior
    return [pack.version_codes[i] for i in np.argsort(-posterior, kind="stable")].index(version)


def demo() -> None:
    society = load_demo()
    packs = {code: site_pack(one.features, one.versions) for code, one in society.types.items()}
    found = {False: Counter(), True: Counter()}
    for piece in society.pieces:
        home = society.type_of[piece.version]
        pack, answers = packs[home], piece.answers(society.types[home].features)
        closed = (lambda f: not f.needs_handling) if society.types[home].closed else None
        given, asked = walk(pack, lambda code, a=answers: a.get(code, CANNOT_TELL), allowed=closed)
        here = found[piece.odd]
        here["pieces"] += 1
        here["questions"] += asked
        here["all first"] += rank_of(pack, answers, piece.version) == 0
        here["first"] += rank_of(pack, given, piece.version) == 0
        here["first two"] += rank_of(pack, given, piece.version) < 2
        said = verdict(pack, given, allowed=closed)
        here["named"] += piece.version in said.named
        group = KIND_GROUPS[pack.versions[pack.version_place[piece.version]].kind]
        here["wrong kind"] += said.kind not in ("cannot say", group)
    print("\nThe demo society's pieces, one question at a time (all first: with every observation at once)")
    print("| pieces | n | first | first two | all first | named in the verdict | wrong kind | questions |")
    print("|---|---|---|---|---|---|---|---|")
    for odd, here in found.items():
        n = here["pieces"]
        shares = " | ".join(f"{here[k] / n:.1%}" for k in ("first", "first two", "all first", "named", "wrong kind"))
        print(f"| {'odd' if odd else 'ordinary'} | {n} | {shares} | {here['questions'] / n:.2f} |")


def examples() -> None:
    """A piece never counts for itself on the site; the last line shows what it would make of the figures."""
    facts, evidence = {}, {}

    def read_pieces() -> None:
        from catalogue.member_examples.demo import load_demo_examples
        from catalogue.member_examples.queries import evidence_of
        from catalogue.reference.snapshots import all_types

        load_demo_examples()
        facts.update({one.code: one for one in all_types()})
        evidence.update({code: evidence_of(code) for code in facts})

    society = load_demo(also=read_pieces)
    from identification.profiles_from_catalogue import pack_of_type

    print("\nThe demo society's pieces from all that was seen on them, by what counts as evidence")
    print("| counted | pieces | n | first | named at 95 % | bits short of certain, mean |")
    print("|---|---|---|---|---|---|")
    for counted in ("records alone", "other accepted pieces", "the piece itself too"):
        packs: dict[tuple, object] = {}
        found = {False: Counter(), True: Counter()}
        for piece in society.pieces:
            home = society.type_of[piece.version]
            own = piece.code if counted == "other accepted pieces" else ""
            if (home, own) not in packs:
                counts = None if counted == "records alone" else evidence[home]
                packs[home, own] = pack_of_type(facts[home], None, counts, without=own)
            belief = packs[home, own].weigh(piece.answers(society.types[home].features))
            chance = float(belief.posterior[packs[home, own].version_codes.index(piece.version)])
            here = found[piece.odd]
            here["pieces"] += 1
            here["first"] += chance >= belief.posterior.max()
            here["named"] += belief.posterior.max() >= 0.95
            here["bits"] -= np.log2(chance)
        for odd, here in found.items():
            n = here["pieces"]
            shares = " | ".join(f"{here[key] / n:.1%}" for key in ("first", "named"))
            print(f"| {counted} | {'odd' if odd else 'ordinary'} | {n} | {shares} | {here['bits'] / n:.3f} |")


# Odds that a look-alike of another kind must be ruled out by, as log10: not at all, even, and as the engine has it.
THRESHOLDS = (-np.inf, 0.0, rivals.CHECKED)


def kinds(more: bool = False) -> None:
    each = 48 if more else 12
    society = load_demo()
    print(f"\nSimulated pieces, {each} of every version: what kind of piece the verdict says")
    print(
        "| ruled out | checks | kind of version | pieces | right | false issued | false altered | false copy |", end=""
    )
    print(" cannot say |")
    print("|---|---|---|---|---|---|---|---|---|")
    for threshold in THRESHOLDS:
        rivals.CHECKED = threshold
        words = "no rule" if threshold == -np.inf else f"{10**threshold:.0f} to 1"
        for label, outside in (("outside only", True), ("all", False)):
            for kind, counts in kinds_said(society, outside, each).items():
                n, group = sum(counts.values()), KIND_GROUPS[kind]
                false = (0 if said == group else counts[said] for said in ("issued", "altered", "copy"))
                shares = " | ".join(f"{count / n:.1%}" for count in (counts[group], *false, counts["cannot say"]))
                print(f"| {words} | {label} | {kind} | {n} | {shares} |", flush=True)


def kinds_said(society, outside: bool, each: int) -> dict[str, Counter]:
    """What the verdicts say of drawn pieces, by the kind of their version. The same pieces for any threshold."""
    random = np.random.default_rng(1952)
    said: dict[str, Counter] = {}
    for one in society.types.values():
        pack = site_pack(one.features, one.versions)
        allowed = (lambda f: not f.needs_handling) if outside or one.closed else None
        for row, version in enumerate(one.versions):
            for _ in range(each if version.piece_seen else 0):
                piece = DrawnPiece(pack, row, np.random.default_rng(int(random.integers(2**32))))
                given, _ = walk(pack, piece, allowed=allowed)
                said.setdefault(version.kind, Counter())[verdict(pack, given, allowed=allowed).kind] += 1
    return said


def left_out() -> None:
    society = load_demo()
    named, chances, inside = 0, [], []
    packs: dict[str, object] = {}
    for piece in society.pieces:
        one = society.types[society.type_of[piece.version]]
        answers = piece.answers(one.features)
        rest = [version for version in one.versions if version.code != piece.version]
        pack = packs.setdefault(piece.version, site_pack(one.features, rest))
        belief = pack.weigh(answers)
        named += bool(len(belief.posterior) and belief.posterior.max() >= 0.95)
        chances.append(belief.unrecorded)
        whole = packs.setdefault(society.type_of[piece.version], site_pack(one.features, one.versions))
        inside.append(whole.weigh(answers).unrecorded)
    print(f"\nOwn version taken out: {named / len(society.pieces):.1%} still named at 0.95 or more (target 15 %)")
    print(f"AUC of “not in the reference”: {area_under_curve(inside, chances):.3f} (target 0.90)")


def new_copies(more: bool = False) -> None:
    """Copies that nobody has recorded: how often a piece of one is taken for issued."""
    each = 48 if more else 12
    society = load_demo()
    print(f"\nCopies that the reference does not know, {each} pieces of each: what kind of piece the verdict says")
    print("| checks | pieces | said issued | probably issued | not in the reference | questions |")
    print("|---|---|---|---|---|---|")
    for label, outside in (("outside only", True), ("all", False)):
        random, found = np.random.default_rng(1952), Counter()
        for one in society.types.values():
            whole = site_pack(one.features, one.versions)
            allowed = (lambda f: not f.needs_handling) if outside or one.closed else None
            for row, version in enumerate(one.versions):
                if KIND_GROUPS[version.kind] != "copy":
                    continue
                pack = site_pack(one.features, [other for other in one.versions if other is not version])
                for _ in range(each):
                    piece = DrawnPiece(whole, row, np.random.default_rng(int(random.integers(2**32))))
                    given, asked = walk(pack, piece, allowed=allowed)
                    said = verdict(pack, given, allowed=allowed)
                    found.update(pieces=1, questions=asked, said=said.kind == "issued")
                    found.update(probably=said.probable_kind == "issued", unknown=said.status == "not_in_reference")
        n = found["pieces"]
        shares = " | ".join(f"{found[key] / n:.1%}" for key in ("said", "probably", "unknown"))
        print(f"| {label} | {n} | {shares} | {found['questions'] / n:.1f} |", flush=True)


def open_tables(more: bool) -> None:
    questions(more)
    right_answers(600 if more else 150)
    open_set(400 if more else 100)


PARTS = {
    "speed": speed,
    "open": open_tables,
    "demo": demo,
    "examples": examples,
    "kinds": kinds,
    "left_out": left_out,
    "new_copies": new_copies,
    "moved_labels": moved_labels,
}


def main(words: list[str]) -> None:
    more = "--more" in words
    named = [word for word in words if word != "--more"]
    if unknown := [name for name in named if name not in PARTS]:
        sys.exit(f"No part {unknown[0]}; there are {', '.join(PARTS)}.")
    for name in named or PARTS:
        PARTS[name](more) if name in ("open", "kinds", "new_copies", "moved_labels") else PARTS[name]()


if __name__ == "__main__":
    main(sys.argv[1:])
