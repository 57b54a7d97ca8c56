"""What to do next: ask, or stop."""

from dataclasses import dataclass

import numpy as np

from identification.engine.model import Answers
from identification.engine.pack import Allowed, Belief, Pack, Question
from identification.engine.verdict import (
    MOST_READ_BACK,
    NOT_IN_REFERENCE,
    SURE,
    checks_between,
    contradicting,
    could_have_refuted,
    leader,
    rests_on,
    rivals_without,
    telling,
    unchecked,
)

LEAST_TELLING = 0.1


@dataclass(frozen=True)
class Ask:
    """Ask this feature. `purpose`: version, unmask or read_back."""

    feature: str
    purpose: str


@dataclass(frozen=True)
class Finish:
    """Stop. `reason`: confident, no gain, exhausted or limit."""

    reason: str


def next_step(
    pack: Pack, answers: Answers, *, allowed: Allowed | None = None, read_back: bool = True, limit: int | None = None
) -> Ask | Finish:
    """The next page of a walk with kinds, look-alikes and reading back.

    First the version is sought. When one stands out, what could still unmask it as another kind of piece is asked,
    then what supports it beside one replaceable part, then up to three contradicting answers are read back.
    """
    belief = pack.weigh(answers)
    lead = leader(pack, belief)
    if lead is None or (limit is not None and len(answers) >= limit):
        return Finish("limit" if lead else "exhausted")
    ranked = pack.rank_questions(belief, answers, allowed=allowed)
    if ranked and not stands_out(pack, answers, belief, lead):
        return Ask(ranked[0].feature, "version")
    if belief.unrecorded < NOT_IN_REFERENCE:
        if question := unmasking_question(pack, answers, lead, allowed):
            return Ask(question, "unmask")
        if question := supporting_question(pack, answers, lead, allowed):
            return Ask(question, "version")
    if read_back and (question := question_to_read_back(pack, answers, lead)):
        return Ask(question, "read_back")
    return Finish("confident" if stands_out(pack, answers, belief, lead) else "no gain")


def stands_out(pack: Pack, answers: Answers, belief: Belief, lead: str) -> bool:
    """One version with those that nothing tells from it, or none of them, is sure, and could have been refuted."""
    if belief.unrecorded >= SURE:
        return True
    twins = [pack.version_place[code] for code in (lead, *pack.inseparable_from(lead))]
    return float(belief.posterior[twins].sum()) >= SURE and could_have_refuted(pack, answers, lead)


def unmasking_question(pack: Pack, answers: Answers, lead: str, allowed: Allowed | None) -> str | None:
    """The allowed question that tells most per effort of the look-alikes not yet checked, all taken together."""
    worth: dict[str, float] = {}
    for other in unchecked(pack, answers, lead, allowed):
        for code in other.would_show:
            column = pack.place[code]
            weight = telling(pack, column, lead, other.version)
            if weight >= LEAST_TELLING:
                worth[code] = worth.get(code, 0.0) + weight / pack.features[column].effort
    return max(worth, key=lambda code: (worth[code], -pack.place[code]), default=None)


def supporting_question(pack: Pack, answers: Answers, lead: str, allowed: Allowed | None) -> str | None:
    """What else tells the leader from its rival, where so far one replaceable part alone does."""
    part = rests_on(pack, answers, lead)
    if part is None:
        return None
    for rival in rivals_without(pack, answers, part):
        if rival != lead and (checks := checks_between(pack, answers, lead, rival, allowed)[0]):
            return checks[0]
    return None


def question_to_read_back(pack: Pack, answers: Answers, lead: str) -> str | None:
    """A contradicting answer not yet taken again, while fewer than three were."""
    again = sum(isinstance(answer, tuple) for answer in answers.values())
    if again >= MOST_READ_BACK:
        return None
    codes = [code for code in contradicting(pack, answers, lead) if not isinstance(answers[code], tuple)]
    return codes[0] if codes else None


def plain_step(pack: Pack, answers: Answers, *, confident: float = SURE, limit: int | None = None) -> Ask | Finish:
    """The bare rule, for scoring on any table: ask the best until sure, no gain, nothing left, or the limit."""
    belief = pack.weigh(answers)
    if len(belief.posterior) and max(float(belief.posterior.max()), belief.unrecorded) >= confident:
        return Finish("confident")
    if limit is not None and len(answers) >= limit:
        return Finish("limit")
    if not len(pack.askable(answers)):
        return Finish("exhausted")
    ranked = pack.rank_questions(belief, answers)
    if not ranked:
        return Finish("no gain")
    if limit is not None and len(answers) == limit - 1:
        return Ask(last_question(pack, belief, ranked), "version")
    return Ask(ranked[0].feature, "version")


def last_question(pack: Pack, belief: Belief, ranked: list[Question]) -> str:
    """Before the limit: the question with the highest expected chance of naming the right version afterwards."""

    def expected_best(question: Question) -> float:
        column = pack.place[question.feature]
        span = slice(int(pack.starts[column]), int(pack.starts[column + 1]))
        return float((belief.posterior[:, None] * pack.table[:, span]).max(axis=0).sum())

    best = np.argmax([expected_best(question) for question in ranked])
    return ranked[int(best)].feature
