"""What to do next: ask, or stop."""

from collections import defaultdict
from dataclasses import dataclass, replace

import numpy as np

from identification.engine.confirming import confirming_question
from identification.engine.model import Answers
from identification.engine.pack import Allowed, Belief, Pack
from identification.engine.questions import Question
from identification.engine.rivals import (
    LEAST_TELLING,
    TINY,
    best_first,
    checks_between,
    doubtful_rivals,
    evidence_for,
    group_of,
    telling,
    unchecked,
)
from identification.engine.verdict import (
    MOST_READ_BACK,
    NOT_IN_REFERENCE,
    PROBABLE,
    SURE,
    chance_together,
    contradicting,
    could_have_been_refuted,
    kind_shares,
    leader,
    refuting_features,
    seen_twins,
)

# A planned question is kept while it tells at least this share of what the best one tells now. Ours; chosen by
# measuring (tests/benchmarks/identification.py open).
AS_GOOD = 0.5
# Under this chance of a version that nobody has recorded, questions are asked for the recorded ones only. Ours; chosen
# by measuring (tests/benchmarks/identification.py kinds, left_out).
UNLIKELY = 0.10
# A version under this chance is not spoken of as likely; chances of an answer nearer than this are told as alike. Ours.
STILL_LIKELY, ALIKE = 0.01, 0.05


@dataclass(frozen=True)
class Ask:
    """Ask this feature. `purpose`: version, unmask or read_back; or confirm, where every version that is still likely
    would show the same, and another answer would say that the piece is none of them."""

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
    then what tells it from a rival that only one replaceable part or only weak features hold off, then what would make
    a probable version sure; at last up to three contradicting answers are read back. `limit`: the most answers that
    are taken.
    """
    belief = pack.weigh(answers)
    lead = leader(pack, belief)
    if lead is None:
        return Finish("exhausted")
    if limit is not None and len(answers) >= limit:
        return Finish("limit")
    found = stands_out(pack, answers, belief, lead)
    if not found and (question := telling_question(pack, answers, belief, allowed)):
        return ask_for_version(pack, belief, question)
    if not found and (question := refuting_question(pack, answers, lead, allowed)):
        return ask_for_version(pack, belief, question)
    if belief.unrecorded < NOT_IN_REFERENCE:
        if question := unmasking_question(pack, answers, lead, allowed):
            return Ask(question, "unmask")
        if question := supporting_question(pack, answers, belief, lead, allowed):
            return ask_for_version(pack, belief, question)
        if question := settling_question(pack, answers, belief, lead, allowed):
            return ask_for_version(pack, belief, question)
    if read_back and (question := question_to_read_back(pack, answers, lead)):
        return Ask(question, "read_back")
    return Finish("confident" if found else "no gain")


def ask_for_version(pack: Pack, belief: Belief, question: str) -> Ask:
    """What tells versions apart, or, where all that are still likely would show the same, confirms them together."""
    likely = belief.posterior >= STILL_LIKELY
    shown = pack.found[pack.place[question]][:, likely]
    alike = not likely.any() or float((shown.max(axis=1) - shown.min(axis=1)).max()) < ALIKE
    return Ask(question, "confirm" if alike else "version")


def telling_question(pack: Pack, answers: Answers, belief: Belief, allowed: Allowed | None) -> str | None:
    """The question that tells most per effort, if it tells anything of the recorded versions.

    Once a version that nobody has recorded is unlikely, a question that could only make it less so still is spared: the
    short list would stay as it is.
    """
    ranked = pack.rank_questions(belief, answers, allowed=allowed)
    if belief.unrecorded >= UNLIKELY:
        return ranked[0].feature if ranked else None
    recorded = replace(belief, posterior=belief.posterior / max(float(belief.posterior.sum()), TINY),
                       relative=np.zeros_like(belief.relative), unlike=0.0)  # fmt: skip
    tell = {question.feature for question in pack.rank_questions(recorded, answers, allowed=allowed)}
    return next((question.feature for question in ranked if question.feature in tell), None)


def stands_out(pack: Pack, answers: Answers, belief: Belief, lead: str) -> bool:
    """One version with those that nothing tells from it, or none of them, is sure, and could have been refuted."""
    if belief.unrecorded >= SURE:
        return True
    together = chance_together(pack, belief, (lead, *seen_twins(pack, lead)))
    return together >= SURE and could_have_been_refuted(pack, answers, lead)


def refuting_question(pack: Pack, answers: Answers, lead: str, allowed: Allowed | None) -> str | None:
    """A first check of a leader that no answer could have contradicted yet: a type with one version has no question
    that tells versions apart, and still nothing is named unseen."""
    if could_have_been_refuted(pack, answers, lead):
        return None
    row, refuting = pack.version_place[lead], refuting_features(pack, lead)
    found = {}
    for place in pack.askable(answers, allowed):
        feature, never = pack.features[place], pack.recorded[place][:, row] == 0
        if place in refuting:
            found[feature.code] = (never.sum() / len(never) / feature.effort, -int(place))
    return max(found, key=found.get, default=None)


def unmasking_question(pack: Pack, answers: Answers, lead: str, allowed: Allowed | None) -> str | None:
    """The allowed question that tells most per effort of the look-alikes not yet ruled out, all taken together."""
    worth: dict[str, float] = defaultdict(float)
    for other in unchecked(pack, answers, lead, allowed):
        for code in other.would_show:
            worth[code] += worth_asking(pack, code, lead, other.version)
    return next((code for code in best_first(worth, pack) if worth[code] > 0), None)


def worth_asking(pack: Pack, code: str, lead: str, other: str) -> float:
    """Expected evidence per effort; a part that only leads to the telling detail is worth a little."""
    weight = telling(pack, pack.place[code], lead, other)
    return max(weight, LEAST_TELLING) / pack.features[pack.place[code]].effort


def supporting_question(pack: Pack, answers: Answers, belief: Belief, lead: str, allowed) -> str | None:
    """What else tells the leader from a rival that only one replaceable part or only weak features hold off."""
    for rival in doubtful_rivals(pack, belief, evidence_for(pack, answers, lead)):
        may, _ = checks_between(pack, answers, lead, pack.version_codes[rival], allowed)
        if may:
            return may[0]
    return None


def settling_question(pack: Pack, answers: Answers, belief: Belief, lead: str, allowed: Allowed | None) -> str | None:
    """What would make a probable version sure, or else its kind of piece, where a few more answers can do so."""
    version = chance_together(pack, belief, (lead, *seen_twins(pack, lead)))
    kind = kind_shares(pack, belief)[group_of(pack, lead)]
    for chance in (version, kind):
        if PROBABLE <= chance < SURE and (
            question := confirming_question(pack, answers, belief, lead, chance, SURE, allowed)
        ):
            return question
    return None


def question_to_read_back(pack: Pack, answers: Answers, lead: str) -> str | None:
    """A contradicting answer not yet taken again, while fewer than three were."""
    if sum(isinstance(answer, tuple) for answer in answers.values()) >= MOST_READ_BACK:
        return None
    return next((code for code in contradicting(pack, answers, lead) if not isinstance(answers[code], tuple)), None)


def plain_step(
    pack: Pack, belief: Belief, answers: Answers, *, confident: float = SURE, limit: int | None = None
) -> Ask | Finish:
    """The bare rule, for scoring on any table: ask the best until sure, no gain, nothing left, or the limit.

    Neither kinds nor look-alikes nor reading back. `belief` is what the pack makes of `answers`.
    """
    if len(belief.posterior) and max(float(belief.posterior.max()), belief.unrecorded) >= confident:
        return Finish("confident")
    if limit is not None and len(answers) >= limit:
        return Finish("limit")
    if not pack.askable(answers):
        return Finish("exhausted")
    ranked = pack.rank_questions(belief, answers)
    if not ranked:
        return Finish("no gain")
    if limit is not None and len(answers) == limit - 1:
        return Ask(last_question(pack, belief, ranked), "version")
    return Ask(best_question(pack, answers, ranked), "version")


def best_question(pack: Pack, answers: Answers, ranked: list[Question]) -> str:
    """The question that the plan of the shortest key asks, unless another tells clearly more now; else the best ranked.

    Most information now is not always fewest questions in all: the plan looks ahead but takes every answer for right.
    """
    planned = pack.planned_question(answers)
    worth = next((question.score for question in ranked if question.feature == planned), 0.0)
    return planned if worth >= AS_GOOD * ranked[0].score else ranked[0].feature


def last_question(pack: Pack, belief: Belief, ranked: list[Question]) -> str:
    """Before the limit: the question with the highest expected chance of naming the right version afterwards.

    Σ_x max_v p_v P(x | v); a version that is not recorded counts as one that can be named.
    """

    def expected_best(question: Question) -> float:
        place = pack.place[question.feature]
        span = slice(int(pack.starts[place]), int(pack.starts[place + 1]))
        return float((belief.posterior * pack.table[span]).max(axis=1).sum())

    return ranked[int(np.argmax([expected_best(question) for question in ranked]))].feature
