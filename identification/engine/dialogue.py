"""The batch dialogue: one specimen after another, one question at a time, over plain messages."""

import numpy as np

from identification.engine.model import Answer
from identification.engine.pack import Belief, Pack
from identification.engine.stepping import Ask, plain_step
from identification.engine.tables import answers_taken, read_answer

TOP = 3
RANKED = 20
NOTHING_OPEN = 'no question is open: begin with {"start": "name"}'


def ranked(pack: Pack, belief: Belief, most: int) -> list[list]:
    """[version, chance], likeliest first, ties in the order of the table."""
    order = np.argsort(-belief.posterior, kind="stable")[:most]
    return [[pack.version_codes[i], float(belief.posterior[i])] for i in order]


class Dialogue:
    """What has been answered of the present specimen, and the question that is open."""

    def __init__(self, pack: Pack, confident: float, limit: int):
        self.pack, self.confident, self.limit = pack, confident, limit
        _ = pack.plan  # Worked out before anybody waits for a question.
        self.answers: dict[str, Answer] = {}
        self.asked: str | None = None

    def reply(self, message: dict) -> dict:
        """A question, a verdict or an error. After an error the question before is still open."""
        if "start" in message:
            self.answers, self.asked = {}, None
            return self.next_line()
        if self.asked is None:
            return {"error": NOTHING_OPEN}
        if message.get("stop") is True:
            return self.verdict_line("stopped", self.pack.weigh(self.answers))
        if "answer" not in message:
            return {"error": "a message has start, answer or stop"}
        return self.take(message["answer"])

    def take(self, text) -> dict:
        feature = self.pack.features[self.pack.place[self.asked]]
        answer = read_answer(text, feature) if isinstance(text, str) else None
        if answer is None:
            return {"error": f"{text!r} is no answer to {feature.code}; accepted: {answers_taken(feature)}"}
        self.answers[self.asked] = answer
        return self.next_line()

    def next_line(self) -> dict:
        belief = self.pack.weigh(self.answers)
        step = plain_step(self.pack, belief, self.answers, confident=self.confident, limit=self.limit)
        if not isinstance(step, Ask):
            return self.verdict_line(step.reason, belief)
        self.asked = step.feature
        return {"ask": step.feature, "top": ranked(self.pack, belief, TOP), "unrecorded": belief.unrecorded}

    def verdict_line(self, reason: str, belief: Belief) -> dict:
        self.asked = None
        return {
            "done": True,
            "reason": reason,
            "asked": len(self.answers),
            "posterior": ranked(self.pack, belief, RANKED),
            "unrecorded": belief.unrecorded,
        }
