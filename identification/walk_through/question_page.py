"""What a question page shows."""

from collections.abc import Sequence
from dataclasses import replace

from catalogue.reference.facts import FeatureFacts, TypeFacts
from catalogue.reference.words import ALTERED, CANNOT_TELL, PART_MISSING
from identification import engine
from identification.labels_on_pages.sewn import MIND, QUESTION, TRACES, WHERE
from identification.profiles_from_catalogue import engine_answers
from identification.walk_through import packs
from identification.walk_through.accepted_pieces import pieces_showing
from identification.walk_through.address import LABEL_SEWN, Walk
from identification.walk_through.any_garment import ANY_GARMENT, OUTLINE
from identification.walk_through.handover import types_left
from identification.walk_through.packs import questions_left
from identification.walk_through.steps import Step, may_ask
from identification.walk_through.words import about, likely, percent

SHOWN_CANDIDATES = 5
MOST_OTHERS = 40  # of a page: whoever sees something rare asks for it, and the list is folded away
ANSWER_WORDS = {
    CANNOT_TELL: "Cannot tell",
    PART_MISSING: "The part is missing now",
    ALTERED: "It has been altered",
}
ANSWER_HINTS = {
    CANNOT_TELL: "counts for nothing, either way",
    PART_MISSING: "lost, torn off or cut out",
    ALTERED: "repaired or changed by an owner",
}
PURPOSES = {
    "unmask": "This would show a look-alike of another kind.",
    "confirm": "All that are still likely show the same here: another answer would say that it is none of them.",
    "read_back": "Please look once more. This answer does not fit what the others point to.",
    "chosen": "",
    "type": "",
    "version": "",
}


def answer_words(feature: FeatureFacts, text: str) -> str:
    """An answer as a person would say it."""
    if text in ANSWER_WORDS:
        return ANSWER_WORDS[text]
    if text in feature.state_by_code or not feature.is_measured:
        return (
            " or ".join(feature.label_of(code) for code in text.split(",")) if "," in text else feature.label_of(text)
        )
    return f"{text.removesuffix('mm')} mm"


def given_words(feature: FeatureFacts, texts: Sequence[str]) -> str:
    """What was answered, and what when it was read back; the same again is said once."""
    words = [answer_words(feature, text) for text in texts]
    if len(words) > 1 and len(set(words)) == 1:
        return f"{words[0]} (looked at {'twice' if len(words) == 2 else f'{len(words)} times'})"
    return ", then ".join(words)


def answered_rows(facts: TypeFacts, walk: Walk, left_out: dict) -> list[dict]:
    """Every earlier answer, with the addresses that change it alone or take it back."""
    rows = []
    for code, texts in walk.answers.items():
        feature = facts.features[code]
        rows.append(
            {
                "feature": code,
                "name": feature.name,
                "answer": given_words(feature, texts),
                "change": asking(walk, code).query(),
                "undo": walk.without(code).query(),
                "left_out": left_out.get(code, ""),
            }
        )
    return rows


def asking(walk: Walk, code: str) -> Walk:
    return replace(walk, ask=code, stop=False)


def candidate_rows(pack: engine.Pack, belief: engine.Belief, facts: TypeFacts, most: int = SHOWN_CANDIDATES) -> list:
    """What is still possible, likeliest first, the unrecorded version in its place among them."""
    order = sorted(range(len(pack.version_codes)), key=lambda i: (-belief.posterior[i], i))
    rows = [
        candidate(facts.versions[pack.version_codes[i]].name, pack.version_codes[i], float(belief.posterior[i]), facts)
        for i in order[:most]
    ]
    rows.append(candidate("A version not in the reference", "", float(belief.unrecorded), facts))
    return sorted(rows, key=lambda row: -row["chance"])


def candidate(name: str, code: str, chance: float, facts: TypeFacts) -> dict:
    version = facts.versions.get(code)
    return {
        "code": code,
        "name": name,
        "chance": chance,
        "likely": likely(chance),
        "percent": percent(chance),
        "width": round(chance * 100, 1),
        "kind": version.kind_words if version else "",
        "not_seen": bool(version and not version.piece_seen),
    }


def type_rows(facts: TypeFacts, pack: engine.Pack, walk: Walk, number: int) -> list[dict]:
    """The garment types that are still possible, likeliest first, each with the way into its own walk."""
    return [
        {
            "go_on": one["go_on"],
            "name": one["type"].name,
            "likely": likely(one["chance"]),
            "percent": percent(one["chance"]),
            "width": round(one["chance"] * 100, 1),
        }
        for one in types_left(facts, pack, walk, number)
    ]


def state_rows(feature: FeatureFacts, given: tuple[str, ...]) -> list[dict]:
    return [
        {
            "code": state.code,
            "label": state.label,
            "drawing": state.drawing,
            "photograph": state.photograph,
            "explained": state.explained,
            "given": state.code in given,
        }
        for state in feature.states
    ]


def outline_rows(feature: FeatureFacts, given: tuple[str, ...], number: int) -> list[dict]:
    """The kinds of garment, each shown by a version of the first type of that kind."""
    garments = packs.garments_for(number)
    shown = {}
    for code, home in garments.home_of.items():
        shown.setdefault(garments.outline.get(home), (garments.homes[home], code))
    rows = state_rows(feature, given)
    return [row | {"home": shown[row["code"]][0], "example": shown[row["code"]][1]} for row in rows]


def plain_rows(facts: TypeFacts, feature: FeatureFacts, given: tuple[str, ...]) -> list[dict]:
    """The answers that name no state. That the part is missing is offered where it can be, or was said already."""
    return [
        {"code": code, "label": ANSWER_WORDS[code], "hint": ANSWER_HINTS[code], "given": code in given}
        for code in ANSWER_WORDS
        if code != PART_MISSING or code in given or facts.can_be_missing(feature)
    ]


def hidden_pairs(walk: Walk, feature: str, keep_first: bool) -> list[tuple[str, str]]:
    """What the form carries along: all of the address but the question being answered."""
    kept = [(name, value) for name, value in walk.pairs() if name not in ("_ask", "_stop", feature)]
    if keep_first and feature in walk.answers:
        kept.append((feature, walk.answers[feature][0]))
    return kept


def other_questions(facts: TypeFacts, pack: engine.Pack, belief, answers, walk: Walk, now: str, allowed) -> list[dict]:
    """Questions that could be asked instead, most telling first."""
    ranked = [question.feature for question in pack.rank_questions(belief, answers, allowed=allowed)]
    codes = [code for code in ranked if code != now and code not in walk.answers]
    return [
        {
            "name": facts.features[code].name,
            "seen": facts.features[code].seen_words,
            "query": asking(walk, code).query(),
        }
        for code in codes[:MOST_OTHERS]
    ]


def sewn_context(walk: Walk) -> dict:
    """What the page needs that asks how the label is sewn in."""
    return {
        "question": QUESTION,
        "where": WHERE,
        "mind": MIND,
        "traces": [{"trace": trace, "given": trace.code == walk.label_sewn} for trace in TRACES],
        "name": LABEL_SEWN,
        "hidden": [(name, value) for name, value in walk.pairs() if name not in ("_ask", "_stop", LABEL_SEWN)],
    }


def question_context(facts: TypeFacts, pack: engine.Pack, walk: Walk, step: Step, number: int) -> dict:
    """Everything the question template needs."""
    feature = facts.features[step.feature]
    allowed = may_ask(facts, walk)
    answers = engine_answers(walk.answers, facts.features)
    belief = pack.weigh(answers)
    read_back = step.purpose == "read_back"
    given = walk.answers.get(feature.code, ())
    any_type = facts.code == ANY_GARMENT
    of_whole = feature.code.startswith("_")  # of the garment as such: no part of it is missing or altered
    states = [] if feature.is_measured else state_rows(feature, given)
    if feature.code.startswith(OUTLINE):
        states = outline_rows(feature, given, number)
    showing = pieces_showing(facts, feature, number)
    for row in states:
        row["showing"] = showing.get(row["code"])
    left_key = (facts.code, walk.maker, walk.size, walk.year, walk.label_key, walk.views, tuple(walk.answers.items()))
    return {
        "feature": feature,
        "purpose": PURPOSES[step.purpose],
        "read_back": read_back,
        "given_words": answer_words(feature, given[0]) if given else "",
        "states": states,
        "bands": list(showing.values()) if feature.is_measured else [],
        "plain": plain_rows(facts, feature, given)[: 1 if of_whole else None],
        "of_whole": of_whole,
        "hidden": hidden_pairs(walk, feature.code, keep_first=read_back),
        "answered": answered_rows(facts, walk, belief.left_out),
        "candidates": type_rows(facts, pack, walk, number) if any_type else candidate_rows(pack, belief, facts),
        "left": "" if any_type else about(questions_left(pack, left_key, answers, allowed, number)),
        "others": other_questions(facts, pack, belief, answers, walk, feature.code, allowed),
        "number_of_versions": len(pack.version_codes),
    }
