"""What the form for members' pieces asks of the identification (catalogue.member_examples.submitting.advice)."""

from collections.abc import Iterable
from dataclasses import replace

from catalogue.member_examples.submitting.advice import Answers, Known, Opinion, ReasonWords, View, register
from catalogue.member_examples.words import Held
from catalogue.reference.facts import OTHER_SIZE, FeatureFacts, TypeFacts
from identification import engine
from identification.profiles_from_catalogue import engine_answers, pack_of_type
from identification.walk_through import packs
from identification.walk_through.address import Walk, read_walk
from identification.walk_through.photographs import photographs
from identification.walk_through.steps import may_ask, next_step
from identification.walk_through.verdict_page import headline_alone, reason_rows
from identification.walk_through.views_shown import LABEL, shown_in_a_picture, view_of, views_offered
from identification.walk_through.words import about

MOST_READ_BACK = 5


class Advice:
    """The engine behind the form. Nothing is written; everything follows from what is handed in."""

    def answers_in(self, facts: TypeFacts, pairs: Iterable[tuple[str, str]]) -> tuple[Answers, tuple[str, ...]]:
        walk = read_walk(pairs, facts.features, views=views_offered(facts))
        return walk.answers, walk.notes

    def next_question(self, facts: TypeFacts, answers: Answers, known: Known, number: int) -> str:
        if not facts.versions:
            return ""
        pack, walk = pack_for(facts, known, number), walk_of(answers)
        for _ in range(MOST_READ_BACK):
            step = next_step(facts, pack, walk)
            if step.page != "question" or step.feature not in walk.answers:
                return step.feature if step.page == "question" else ""
            # A draft keeps one word for each feature: what would be read back counts as said twice.
            walk = replace(walk, answers={**walk.answers, step.feature: walk.answers[step.feature][:1] * 2})
        return ""

    def questions_left(self, facts: TypeFacts, answers: Answers, known: Known, number: int) -> str:
        if not facts.versions:
            return ""
        pack, walk = pack_for(facts, known, number), walk_of(answers)
        key = (facts.code, known.maker, known.size, known.year, walk.views, tuple(answers.items()))
        given = engine_answers(answers, facts.features)
        return about(packs.questions_left(pack, key, given, may_ask(facts, walk), number))

    def best_detail(self, facts: TypeFacts, answers: Answers, held: str, known: Known, number: int) -> str:
        """A picture proves most where most is at stake: what holds the named version, or the likeliest, off its
        nearest rival; while nothing was answered what would tell most."""
        if not facts.versions:
            return ""
        pack = pack_for(facts, known, number)
        given = engine_answers(answers, facts.features)
        at_stake: list[str] = []
        if held in facts.versions:
            at_stake += engine.refuting_checks(pack, held)
        elif given:
            verdict = engine.verdict(pack, given)
            weighty = sorted(verdict.for_and_against, key=lambda reason: -abs(reason.decibans))
            at_stake += [verdict.rests_on or "", *(reason.feature for reason in weighty)]
        at_stake += [question.feature for question in pack.rank_questions(pack.weigh({}), {})]
        return next((code for code in at_stake if code and is_detail(facts, facts.features.get(code))), "")

    def further_views(self, facts: TypeFacts, views: tuple[str, ...], known: Known, number: int) -> list[View]:
        """Worked out without the label: it says most, and is the part most often cut out or moved."""
        cloth = tuple(view for view in views if view != LABEL)
        if not facts.versions or not cloth:
            return []
        pack = pack_for(facts, known, number)
        found = photographs(facts, pack, Walk(views=cloth, accepted=True), number, but=(LABEL,))
        return [View(one["view"], one["words"], tuple(one["features"])) for one in found]

    def opinion(self, facts: TypeFacts, answers: Answers, known: Known, number: int) -> Opinion | None:
        if not answers or not facts.versions:
            return None
        pack = pack_of_type(facts, context_of(facts, known), packs.evidence_for(facts, number), without=known.code)
        walk = replace(walk_of(answers), stop=True)
        verdict = engine.verdict(pack, engine_answers(answers, facts.features))
        said = headline_alone(facts, verdict)
        named = verdict.named if verdict.status in ("settled", "narrowed", "inseparable") else ()
        version = named[0] if len(named) == 1 else ""
        rows = reason_rows(facts, walk, verdict.for_and_against, verdict.leader)
        return Opinion(
            title=said.version,
            why=f"{said.kind}. {said.why}",
            held=held_by(verdict, version),
            version=version,
            named=tuple(named),
            chance=dict(verdict.short_list).get(version) if version else None,
            reasons=tuple(
                ReasonWords(r["name"], r["answer"], r["word"], r["mark"], r["direction"], r["recorded"]) for r in rows
            ),
        )


def held_by(verdict: engine.Verdict, version: str) -> str:
    if version:
        return Held.VERSION
    return Held.NOT_IN_REFERENCE if verdict.status == "not_in_reference" else Held.CANNOT_SAY


def walk_of(answers: Answers) -> Walk:
    return Walk(answers=dict(answers), accepted=True)


def context_of(facts: TypeFacts, known: Known) -> engine.Context:
    """Only what limits some state: whatever else a member types would make a pack of its own for nothing."""
    limits = facts.limits
    size = known.size if known.size in limits.sizes else OTHER_SIZE
    return engine.Context(
        maker=known.maker if known.maker in limits.makers else None,
        size=size if known.size and limits.sizes else None,
        year=known.year,
    )


def pack_for(facts: TypeFacts, known: Known, number: int) -> engine.Pack:
    return packs.pack_for(facts, context_of(facts, known), number)


def is_detail(facts: TypeFacts, feature: FeatureFacts | None) -> bool:
    """A part that a close picture shows: not on the label, which is asked for anyway, and nothing that must be opened
    on a garment that must stay closed."""
    if feature is None or not shown_in_a_picture(feature):
        return False
    if facts.must_stay_closed and feature.needs_handling:
        return False
    return any(view_of(place) != LABEL and place.region != "cloth" for place in feature.places)


register(Advice())
