"""Which further photographs would settle most, and the message that asks for them."""

from collections.abc import Collection
from dataclasses import replace

from catalogue.reference.facts import TypeFacts
from catalogue.reference.regions import OPENED_VIEWS
from identification import engine
from identification.profiles_from_catalogue import engine_answers
from identification.walk_through.address import Walk
from identification.walk_through.packs import information
from identification.walk_through.steps import may_ask
from identification.walk_through.views_shown import LABEL, is_pictures, view_words, views_offered
from identification.walk_through.words import listed

MOST_PHOTOGRAPHS = 2
# Less is not worth a seller's time. Ours; no source.
LEAST_BITS = 0.05
NAMED_FEATURES = 3
# The society's list of standard photographs; common practice, no source.
HOW_TO_TAKE = {
    "front": "the front, fastened and laid flat",
    "back": "the back, laid flat",
    "inside": "the inside, opened and laid flat",
    "label": "the label, whole and sharp, without flash",
    "sleeve_left": "the left sleeve (the wearer's left) from shoulder to cuff",
    "sleeve_right": "the right sleeve (the wearer's right) from shoulder to cuff",
    "hood": "the hood, spread out",
    "side_left": "the left side (the wearer's left)",
    "top": "the top, from straight above",
    "palm": "the palm side, laid flat",
    "cuff": "the cuff, with its fastening",
    "flap": "the flap, lifted",
    "strap": "the strap, in its full length",
}


def photographs(
    facts: TypeFacts, pack: engine.Pack, walk: Walk, number: int, *, but: Collection[str] = ()
) -> list[dict]:
    """The views, at most two, whose features would tell most beside those already seen, the better one first.

    Each with the bits that it adds and the features it would show. A garment that must stay closed is not asked to be
    opened for a picture; `but`: views that are not to be asked for either.
    """
    if not is_pictures(walk.views):
        return []
    chosen: list[dict] = []
    have, before = walk, told_by(facts, pack, walk, number)
    for _ in range(MOST_PHOTOGRAPHS):
        worth = {
            view: told_by(facts, pack, replace(walk, views=(*have.views, view)), number)
            for view in views_offered(facts)
            if view not in (*have.views, *but) and not (facts.must_stay_closed and view in OPENED_VIEWS)
        }
        best = max(worth, key=worth.get, default=None)
        if best is None or worth[best] - before < LEAST_BITS:
            break
        with_it = replace(walk, views=(*have.views, best))
        chosen.append(photograph(facts, pack, have, with_it, worth[best] - before))
        have, before = with_it, worth[best]
    return chosen


def told_by(facts: TypeFacts, pack: engine.Pack, walk: Walk, number: int) -> float:
    """Expected information of everything that the walk's views show and that is not answered yet."""
    answers = engine_answers(walk.answers, facts.features)
    key = (
        "information",
        facts.code,
        walk.maker,
        walk.size,
        walk.year,
        walk.label_key,
        walk.views,
        tuple(walk.answers.items()),
    )
    return information(pack, key, answers, may_ask(facts, walk), number)


def photograph(facts: TypeFacts, pack: engine.Pack, have: Walk, with_it: Walk, bits: float) -> dict:
    """The last view of `with_it`, with the names of the features that only it would show, most telling first."""
    view = with_it.views[-1]
    answers = engine_answers(have.answers, facts.features)
    seen, seen_with_it = may_ask(facts, have), may_ask(facts, with_it)
    ranked = pack.rank_questions(
        pack.weigh(answers), answers, allowed=lambda feature: seen_with_it(feature) and not seen(feature)
    )
    names = [facts.features[question.feature].name for question in ranked[:NAMED_FEATURES]]
    return {"view": view, "words": view_words(view), "bits": round(bits, 2), "features": names}


def message(facts: TypeFacts, wanted: list[dict]) -> str:
    """A short letter to the seller; empty where no photograph is wanted."""
    if not wanted:
        return ""
    number = "one more photograph" if len(wanted) == 1 else "two more photographs"
    lines = [f"{n}. {asked_for(one)}" for n, one in enumerate(wanted, start=1)]
    private = ["You are welcome to cover any name or service number that is written on it.", ""]
    return "\n".join(
        [
            "Good day,",
            "",
            f"I should like to know which version your {facts.name.lower()} is. Would you kindly send me {number}?",
            "",
            *lines,
            "",
            *(private if any(one["view"] in OPENED_VIEWS for one in wanted) else []),
            "Please leave everything as it is: nothing needs to be washed, ironed, cut or taken off.",
            "",
            "Many thanks.",
        ]
    )


def asked_for(one: dict) -> str:
    """`The label, whole and sharp, without flash. It should show: …`"""
    words = HOW_TO_TAKE.get(one["view"], f"this view: {one['words'].lower()}")
    shows = "" if one["view"] == LABEL or not one["features"] else listed([name.lower() for name in one["features"]])
    return words[0].upper() + words[1:] + (f", so that these can be made out: {shows}." if shows else ".")
