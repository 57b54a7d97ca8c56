"""The same address as data: posterior, and the next question or the verdict."""

from dataclasses import asdict

from catalogue.reference.facts import TypeFacts
from identification import engine
from identification.labels_on_pages.sewn import QUESTION, TRACES
from identification.profiles_from_catalogue import engine_answers
from identification.walk_through.address import ACCEPTED, LABEL_SEWN, YES, Walk
from identification.walk_through.handover import types_left
from identification.walk_through.label_evidence import label_data
from identification.walk_through.photographs import message, photographs
from identification.walk_through.steps import Step, cautions_of, may_ask, next_step
from identification.walk_through.verdict_page import headline, version_kinds


def walk_data(facts: TypeFacts, pack: engine.Pack, walk: Walk, number: int) -> dict:
    """Plain values for JSON. `next` is a caution, a question, a verdict or the types left, as the page would show."""
    answers = engine_answers(walk.answers, facts.features)
    belief = pack.weigh(answers)
    order = sorted(range(len(pack.version_codes)), key=lambda i: (-belief.posterior[i], i))
    return {
        "type": facts.code,
        "name": facts.name,
        "answers": {code: list(texts) for code, texts in walk.answers.items()},
        "left_out": dict(belief.left_out),
        "label": label_data(facts, walk, number),
        "notes": list(walk.notes),
        "cautions": cautions_of(facts),
        "posterior": [[pack.version_codes[i], float(belief.posterior[i])] for i in order],
        "unrecorded": belief.unrecorded,
        "views": list(walk.views),
        "next": next_data(facts, pack, walk, answers, next_step(facts, pack, walk), number),
    }


def next_data(facts: TypeFacts, pack: engine.Pack, walk: Walk, answers, step: Step, number: int) -> dict:
    if step.page == "caution":
        return {"page": "caution", "accept": f"{ACCEPTED}={YES}"}
    if step.page == "label_sewn":
        states = {trace.code: trace.label for trace in TRACES}
        return {
            "page": "question",
            "feature": LABEL_SEWN,
            "purpose": "label",
            "question": QUESTION,
            "states": states,
            "measured": False,
        }
    if step.page == "question":
        feature = facts.features[step.feature]
        return {
            "page": "question",
            "feature": feature.code,
            "purpose": step.purpose,
            "question": feature.question,
            "states": {state.code: state.label for state in feature.states},
            "measured": feature.is_measured,
        }
    if step.page == "types":
        left = types_left(facts, pack, walk, number)
        return {"page": "types", "types": [[one["type"].code, one["chance"]] for one in left]}
    wanted = photographs(facts, pack, walk, number)
    asked = {"photographs": wanted, "message": message(facts, wanted)} if wanted else {}
    return (
        {"page": "verdict"} | asked | verdict_data(facts, engine.verdict(pack, answers, allowed=may_ask(facts, walk)))
    )


def verdict_data(facts: TypeFacts, verdict: engine.Verdict) -> dict:
    """The verdict's codes and numbers, without the arrays behind them.

    `kind` and `probable_kind` are the engine's groups; `version_kinds` are what the headline says: a trial is of the
    group "issued", and was not issued.
    """
    return {
        "kind": verdict.kind,
        "probable_kind": verdict.probable_kind,
        "version_kinds": list(version_kinds(facts, verdict)),
        "headline": asdict(headline(facts, verdict)),
        "kind_shares": dict(verdict.kind_shares),
        "status": verdict.status,
        "named": list(verdict.named),
        "short_list": [list(pair) for pair in verdict.short_list],
        "unrecorded": verdict.unrecorded,
        "unchecked": [asdict(one) for one in verdict.unchecked],
        "nearest": [
            {"version": code, "disagreements": [asdict(one) for one in disagreements]}
            for code, disagreements in verdict.nearest
        ],
        "not_seen": list(verdict.not_seen),
        "contradicting": list(verdict.contradicting),
        "rests_on": verdict.rests_on,
        "reasons": [asdict(reason) for reason in verdict.for_and_against],
        "next_checks": list(verdict.next_checks),
        "untold_checks": list(verdict.untold_checks),
    }
