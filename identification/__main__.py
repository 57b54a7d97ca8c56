"""`python -m identification rank|ask|figures`: the engine on anybody's own table, without the site."""

import argparse
import json
import sys
from pathlib import Path

from identification import engine
from identification.engine.figures import figure
from identification.engine.stepping import Ask, plain_step
from identification.engine.tables import FaultyTable, read_answer, read_observations, read_table
from identification.engine.verdict import SURE

RANKED = 20
TOP = 3


def say(line: dict) -> None:
    """One line of JSON, at once."""
    print(json.dumps(line, ensure_ascii=False), flush=True)


def compiled(options) -> engine.Pack:
    features, versions = read_table(options.features, options.matrix)
    return engine.compile_pack(
        features,
        versions,
        unrecorded=options.unrecorded,
        blanks=getattr(options, "blanks", "borrowed"),
        unanswered_parent="drops",
    )


def ranked(pack: engine.Pack, belief: engine.Belief, most: int) -> list[list]:
    order = sorted(range(len(pack.version_codes)), key=lambda i: (-belief.posterior[i], i))[:most]
    return [[pack.version_codes[i], float(belief.posterior[i])] for i in order]


def rank(options) -> None:
    """One line a specimen: the posterior, and each answer's weight for the best against the second."""
    pack = compiled(options)
    for specimen, answers in read_observations(options.observations, list(pack.features)).items():
        belief = pack.weigh(answers)
        posterior = ranked(pack, belief, RANKED)
        evidence = []
        if len(posterior) > 1:
            for reason in engine.reasons(pack, answers, posterior[0][0], posterior[1][0]):
                answer = answers[reason.feature].states[0]
                evidence.append({"feature": reason.feature, "answer": answer, "decibans": reason.decibans})
        say({"specimen": specimen, "posterior": posterior, "unrecorded": belief.unrecorded, "evidence": evidence})


class Dialogue:
    """One specimen after another, one question at a time."""

    def __init__(self, pack: engine.Pack, confident: float, limit: int):
        self.pack, self.confident, self.limit = pack, confident, limit
        self.answers: dict[str, object] | None = None
        self.asked: str | None = None

    def reply(self, message: dict) -> dict:
        """The engine's line to one of the scorer's."""
        if "start" in message:
            self.answers, self.asked = {}, None
            return self.next_line()
        if self.answers is None or self.asked is None:
            return {"error": 'write {"start": "name"} first: no question is open'}
        if message.get("stop"):
            return self.finished("stopped")
        if "answer" not in message:
            return {"error": "write answer, stop or start"}
        feature = self.pack.features[self.pack.place[self.asked]]
        answer = read_answer(str(message["answer"]), feature)
        if answer is None:
            return {"error": f"{message['answer']!r} is not ? or - or one of {'|'.join(feature.states)}"}
        self.answers[self.asked] = answer
        return self.next_line()

    def next_line(self) -> dict:
        step = plain_step(self.pack, self.answers, confident=self.confident, limit=self.limit)
        if not isinstance(step, Ask):
            return self.finished(step.reason)
        self.asked = step.feature
        belief = self.pack.weigh(self.answers)
        return {"ask": step.feature, "top": ranked(self.pack, belief, TOP), "unrecorded": belief.unrecorded}

    def finished(self, reason: str) -> dict:
        belief = self.pack.weigh(self.answers)
        asked, self.asked = len(self.answers), None
        posterior = ranked(self.pack, belief, RANKED)
        return {"done": True, "reason": reason, "asked": asked, "posterior": posterior, "unrecorded": belief.unrecorded}


def each_message(lines, reply) -> None:
    """Answer every line; one that is no JSON object gets an error and the dialogue goes on."""
    for line in lines:
        if not line.strip():
            continue
        try:
            message = json.loads(line)
            if not isinstance(message, dict):
                raise ValueError("not an object")
        except ValueError as problem:
            say({"error": f"one JSON object a line, please: {problem}"})
            continue
        say(reply(message))


def ask(options) -> None:
    each_message(sys.stdin, Dialogue(compiled(options), options.confident, options.limit).reply)


def figures(options) -> None:
    each_message(sys.stdin, figure)


def chance(text: str) -> float:
    value = float(text)
    if not 0 < value < 1:
        raise argparse.ArgumentTypeError("a chance between 0 and 1")
    return value


def parser() -> argparse.ArgumentParser:
    made = argparse.ArgumentParser(prog="python -m identification", description=__doc__)
    modes = made.add_subparsers(dest="mode", required=True)
    for name, run in (("rank", rank), ("ask", ask)):
        mode = modes.add_parser(name, help=(run.__doc__ or "one question at a time, over standard input and output"))
        mode.set_defaults(run=run)
        mode.add_argument("--features", type=Path, required=True)
        mode.add_argument("--matrix", type=Path, required=True)
        mode.add_argument("--unrecorded", type=chance, default=0.05)
        mode.add_argument("--blanks", choices=["borrowed", "pooled"], default="borrowed")
    modes.choices["rank"].add_argument("--observations", type=Path, required=True)
    modes.choices["ask"].add_argument("--confident", type=chance, default=SURE)
    modes.choices["ask"].add_argument("--limit", type=int, default=40)
    modes.add_parser("figures", help="figures from lines of JSON").set_defaults(run=figures)
    return made


def main(arguments: list[str] | None = None) -> int:
    options = parser().parse_args(arguments)
    try:
        options.run(options)
    except FaultyTable as problem:
        print(problem, file=sys.stderr)
        return 2
    return 0


if __name__ == "__main__":
    sys.exit(main())
