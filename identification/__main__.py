"""`python -m identification rank|ask|figures`: the engine on anybody's own table, without the site."""

import argparse
import json
import sys
from pathlib import Path

from identification import engine
from identification.engine.dialogue import Dialogue, ranked
from identification.engine.figures import figure
from identification.engine.tables import FaultyTable, Problem, read_problem
from identification.engine.verdict import SURE

FEWEST_RANKED = 20
# Versions beyond the first twenty are listed while they are likelier than this.
LEAST_LISTED = 1e-6


def say(line: dict) -> None:
    """One line of JSON, at once."""
    print(json.dumps(line, ensure_ascii=False), flush=True)


def compiled(problem: Problem, options) -> engine.Pack:
    for note in problem.notes:
        print(note, file=sys.stderr)
    return engine.compile_pack(
        problem.features,
        problem.versions,
        unrecorded=options.unrecorded,
        blanks=options.blanks,
        unanswered_parent="drops",
    )


def rank(options) -> None:
    """One line a specimen: the posterior, and each answer's weight for the best against the second."""
    problem = read_problem(options.features, options.matrix, options.observations)
    pack = compiled(problem, options)
    for specimen, answers in problem.specimens.items():
        belief = pack.weigh(answers)
        likely = max(FEWEST_RANKED, int((belief.posterior > LEAST_LISTED).sum()))
        posterior = ranked(pack, belief, likely)
        evidence = []
        if len(posterior) > 1:
            for reason in engine.reasons(pack, answers, posterior[0][0], posterior[1][0]):
                answer = "|".join(answers[reason.feature].states)
                evidence.append({"feature": reason.feature, "answer": answer, "decibans": reason.decibans})
        say({"specimen": specimen, "posterior": posterior, "unrecorded": belief.unrecorded, "evidence": evidence})


def ask(options) -> None:
    """One question at a time, over standard input and output."""
    pack = compiled(read_problem(options.features, options.matrix), options)
    answer_lines(sys.stdin.buffer, Dialogue(pack, options.confident, options.limit).reply)


def figures(options) -> None:
    """Figures from lines of JSON over standard input and output."""
    answer_lines(sys.stdin.buffer, figure)


def answer_lines(lines, reply) -> None:
    """Answer every line; one that is no JSON object gets an error and the dialogue goes on."""
    for line in lines:
        if not line.strip():
            continue
        try:
            message = json.loads(line.decode("utf-8-sig"))
        except ValueError as problem:
            say({"error": f"one JSON object a line is read; this is none: {problem}"})
            continue
        say(reply(message) if isinstance(message, dict) else {"error": "one JSON object a line is read; this is none"})


def number_within(low: float, high: float, low_counts: bool, high_counts: bool):
    """A reader of numbers between two limits, for the command line."""

    def read(text: str) -> float:
        value = float(text)
        if low < value < high or (low_counts and value == low) or (high_counts and value == high):
            return value
        raise argparse.ArgumentTypeError(f"{text}: a number from {low:g} to {high:g} is wanted")

    read.__name__ = "number"
    return read


def whole_number(text: str) -> int:
    if not text.isascii() or not text.isdigit():
        raise argparse.ArgumentTypeError(f"{text}: a whole number from 0 is wanted")
    return int(text)


def parser() -> argparse.ArgumentParser:
    made = argparse.ArgumentParser(prog="python -m identification", description=__doc__)
    modes = made.add_subparsers(dest="mode", required=True)
    for run in (rank, ask, figures):
        mode = modes.add_parser(run.__name__, help=run.__doc__)
        mode.set_defaults(run=run)
    for mode in (modes.choices["rank"], modes.choices["ask"]):
        mode.add_argument("--features", type=Path, required=True)
        mode.add_argument("--matrix", type=Path, required=True)
        mode.add_argument("--unrecorded", type=number_within(0, 1, True, False), default=0.05)
        mode.add_argument("--blanks", choices=["borrowed", "pooled"], default="borrowed")
    modes.choices["rank"].add_argument("--observations", type=Path, required=True)
    modes.choices["ask"].add_argument("--confident", type=number_within(0, 1, False, True), default=SURE)
    modes.choices["ask"].add_argument("--limit", type=whole_number, default=40)
    return made


def main(arguments: list[str] | None = None) -> int:
    options = parser().parse_args(arguments)
    sys.stdout.reconfigure(encoding="utf-8")
    sys.stderr.reconfigure(encoding="utf-8")
    try:
        options.run(options)
    except FaultyTable as problem:
        print(problem, file=sys.stderr)
        return 2
    except BrokenPipeError:
        # Whoever read the lines has gone; nothing is left to tell, and the interpreter must not try at exit.
        sys.stderr.close()
    return 0


if __name__ == "__main__":
    sys.exit(main())
