"""From the walk over all types into the walk of one, as soon as that one is clear."""

from collections import defaultdict
from dataclasses import replace

from django.urls import reverse

from catalogue.reference.facts import TypeFacts
from identification import engine
from identification.profiles_from_catalogue import engine_answers
from identification.walk_through import packs
from identification.walk_through.address import Walk

# Ours; no source. Lower than a version's limit, because the type's own walk can still say "not in the reference".
CLEAR = 0.9


def chance_of_types(pack: engine.Pack, belief: engine.Belief, home_of: dict[str, str]) -> dict[str, float]:
    """The chance of each garment type: that of its versions together, among all that is recorded.

    A version that is not recorded may be of any type, so it takes nothing from one.
    """
    known = float(belief.posterior.sum())
    chances: dict[str, float] = defaultdict(float)
    for code, chance in zip(pack.version_codes, belief.posterior, strict=True):
        chances[home_of[code]] += float(chance) / known if known else 0.0
    return dict(chances)


def handover_query(facts: TypeFacts, pack: engine.Pack, walk: Walk, number: int) -> str | None:
    """The address of the type's own walk with the answers that apply there, once the type is clear."""
    if not walk.answers:
        return None
    belief = pack.weigh(engine_answers(walk.answers, facts.features))
    garments = packs.garments_for(number)
    chances = chance_of_types(pack, belief, garments.home_of)
    home = max(chances, key=lambda code: chances[code], default=None)
    if home is None or chances[home] < CLEAR:
        return None
    own = packs.facts_for(home, number).features
    kept = {code: texts for code, texts in walk.answers.items() if code in own}
    onward = replace(walk, answers=kept, accepted=False, came_from_any=True, ask="")
    return reverse("walk_through:type", args=[home]) + onward.query()
