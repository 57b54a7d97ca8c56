"""Which page comes next: the caution, a question, or the verdict."""

from collections.abc import Callable
from dataclasses import dataclass

from catalogue.reference.facts import FeatureFacts, TypeFacts
from identification import engine
from identification.profiles_from_catalogue import engine_answers
from identification.walk_through import packs
from identification.walk_through.address import LABEL_SEWN, Walk
from identification.walk_through.any_garment import ANY_GARMENT, OUTLINE, WORN, AnyGarment
from identification.walk_through.views_shown import LABEL, can_be_seen

MOST_QUESTIONS = 40


@dataclass(frozen=True)
class Step:
    """`page` is caution, label_sewn, question, verdict or, in the walk over all types, types: those that are left to
    choose from.

    `purpose` says why a question is asked: version, confirm, unmask, read_back, type or chosen.
    """

    page: str
    feature: str = ""
    purpose: str = ""
    refusal: str = ""


def may_ask(facts: TypeFacts, walk: Walk) -> Callable[[engine.Feature], bool]:
    """What can be seen; of a type that must stay closed nothing that needs handling, whatever was accepted."""

    def allowed(feature: engine.Feature) -> bool:
        if facts.must_stay_closed and feature.needs_handling:
            return False
        return can_be_seen(facts.features[feature.code], walk.views)

    return allowed


def cautions_of(facts: TypeFacts) -> list[str]:
    """What is shown before anything is asked: the type's caution, then its versions' hazards, each once."""
    hazards = [
        f"{version.name}: {version.hazard_words.lower()}{f' ({version.hazard})' if version.hazard else ''}."
        for version in facts.versions.values()
        if version.hazard_words and (facts.code != ANY_GARMENT or version.must_stay_closed)
    ]
    return list(dict.fromkeys([*([facts.caution] if facts.caution else []), *hazards]))


def next_step(facts: TypeFacts, pack: engine.Pack, walk: Walk) -> Step:
    """The page for this address."""
    if cautions_of(facts) and not walk.accepted:
        return Step("caution")
    allowed = may_ask(facts, walk)
    if asks_how_sewn(facts, walk):
        return Step("label_sewn")
    if walk.ask and walk.ask != LABEL_SEWN:
        return chosen_question(facts.features[walk.ask], pack, allowed, facts)
    if facts.code == ANY_GARMENT:
        return type_step(pack, walk, facts, allowed)
    if walk.stop:
        return Step("verdict")
    return engine_step(pack, walk, facts, allowed)


def asks_how_sewn(facts: TypeFacts, walk: Walk) -> bool:
    """Before what stands on a label counts, it is asked how the label is sewn in; and again when the person wants to.
    Not where the label cannot be looked at, nor of a garment that must stay closed or may be one that must: there the
    chance that any label belongs to its piece has to do."""
    return may_ask_how_sewn(facts, walk) and (walk.ask == LABEL_SEWN or not (walk.label_sewn or walk.ask or walk.stop))


def may_ask_how_sewn(facts: TypeFacts, walk: Walk) -> bool:
    closed = facts.must_stay_closed or facts.code == ANY_GARMENT
    return walk.says_of_label and not closed and (not walk.views or LABEL in walk.views)


def chosen_question(feature: FeatureFacts, pack: engine.Pack, allowed, facts: TypeFacts) -> Step:
    """The question that the person picked, unless the garment must not be handled for it."""
    if facts.must_stay_closed and feature.needs_handling:
        return Step("verdict", refusal=f"“{feature.name}” needs handling or opening: not asked of this garment type.")
    return Step("question", feature.code, "chosen")


def type_step(pack: engine.Pack, walk: Walk, facts: TypeFacts, allowed) -> Step:
    """The whole first, where it is worn and which outline comes nearest; then what tells most of the garment type; when
    nothing more does, or the person stops, the types that are left."""
    if walk.stop:
        return Step("types")
    garments = packs.garments_for(packs.state_number())
    if whole := question_of_the_whole(garments, walk):
        return Step("question", whole, "type")
    answers = engine_answers(walk.answers, facts.features)
    question = engine.group_question(pack, pack.weigh(answers), answers, garments.home_of, allowed)
    return Step("question", question, "type") if question else Step("types")


def question_of_the_whole(garments: AnyGarment, walk: Walk) -> str:
    """What anybody can say of a garment at arm's length, while it is not answered; else nothing.

    A detail may promise more bits, but asks a hat about its collar, and whoever answers that it has none has said less
    than that it is a hat.
    """
    if WORN not in walk.answers and len(set(garments.worn.values())) > 1:
        return WORN
    outline = OUTLINE + "".join(walk.answers.get(WORN, ()))
    return outline if outline in garments.facts.features and outline not in walk.answers else ""


def engine_step(pack: engine.Pack, walk: Walk, facts: TypeFacts, allowed) -> Step:
    answers = engine_answers(walk.answers, facts.features)
    step = engine.next_step(pack, answers, allowed=allowed, limit=MOST_QUESTIONS)
    if isinstance(step, engine.Ask):
        return Step("question", step.feature, step.purpose)
    return Step("verdict")
