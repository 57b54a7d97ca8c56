"""From the walk over all types into the walk of one, as soon as that one is clear."""

from dataclasses import replace

from django.urls import reverse

from catalogue.reference.facts import TypeFacts
from identification import engine
from identification.profiles_from_catalogue import engine_answers
from identification.walk_through import packs
from identification.walk_through.address import Walk

# Ours; no source. Lower than a version's limit, because the type's own walk can still say "not in the reference".
# Chosen by measuring, on drawn pieces of the demo whose observers err: at 0.90 95.0 % come to their own type after 3.0
# questions and 1.2 % to another, at 0.85 95.7 % after 2.9 and 1.8 %, at 0.80 92.5 % and 5.5 %.
CLEAR = 0.85
# A type under this is not offered when the questions have run out. Ours.
STILL_POSSIBLE = 0.02
MOST_OFFERED = 12


def handover_query(facts: TypeFacts, pack: engine.Pack, walk: Walk, number: int) -> str | None:
    """The address of the type's own walk with the answers that apply there, once the type is clear."""
    if not walk.answers:
        return None
    home, chance = next(iter(type_chances(facts, pack, walk, number).items()), ("", 0.0))
    return onward(home, walk, number) if chance >= CLEAR else None


def type_chances(facts: TypeFacts, pack: engine.Pack, walk: Walk, number: int) -> dict[str, float]:
    """The chance of each garment type, likeliest first."""
    belief = pack.weigh(engine_answers(walk.answers, facts.features))
    return engine.group_chances(pack, belief, packs.garments_for(number).home_of)


def onward(home: str, walk: Walk, number: int) -> str:
    """The address of a type's own walk, with those answers of this one that apply there."""
    own = packs.garments_for(number).homes[home].features
    kept = {code: texts for code, texts in walk.answers.items() if code in own}
    there = replace(walk, answers=kept, came_from_any=True, ask="", stop=False)
    return reverse("walk_through:type", args=[home]) + there.query()


def types_left(facts: TypeFacts, pack: engine.Pack, walk: Walk, number: int) -> list[dict]:
    """The garment types that are still possible, likeliest first, each with the way into its own walk."""
    homes = packs.garments_for(number).homes
    return [
        {"type": homes[code], "chance": chance, "go_on": onward(code, walk, number)}
        for code, chance in list(type_chances(facts, pack, walk, number).items())[:MOST_OFFERED]
        if chance >= STILL_POSSIBLE or not walk.answers
    ]
