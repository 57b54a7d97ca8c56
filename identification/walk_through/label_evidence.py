"""A label's evidence within a walk: `_label_number`, `_label_year` and `_label_maker` of the address, one witness.

Answers about the label itself (features that lie on it) are handed to the same witness, so that nothing on a label
counts twice, and all of it shares the doubt whether the label belongs to the piece.
"""

from catalogue.reference.facts import FeatureFacts, TypeFacts
from catalogue.reference.numbers import bare_number
from identification import engine
from identification.engine.label_witness import LabelSeen, LabelWitness, hear_label, inside_of, married, with_label
from identification.engine.reasons import strength_word
from identification.labels_on_pages.allowed import (
    carried_by,
    label_record,
    makers_on_labels,
    numbers_on_record,
    reasons_for,
)
from identification.profiles_from_catalogue import engine_answers
from identification.walk_through import packs
from identification.walk_through.address import Walk
from identification.walk_through.words import percent

LABEL = "label"
MARKS = {"for": "✓", "against": "✗"}


def lies_on_label(feature: FeatureFacts) -> bool:
    """Whether every place of the feature is the label itself."""
    return bool(feature.places) and all(LABEL in (place.view, place.region) for place in feature.places)


def seen_of(walk: Walk) -> LabelSeen:
    numbers = tuple(dict.fromkeys(bare_number(one) for one in walk.label_number.split(",") if bare_number(one)))
    years = (walk.label_year, walk.label_year) if walk.label_year else None
    return LabelSeen(numbers, years, (walk.label_maker,) if walk.label_maker else ())


def shared_answers(facts: TypeFacts, walk: Walk) -> dict[str, tuple[str, ...]]:
    """Answers about the label, which its witness takes over."""
    return {code: texts for code, texts in walk.answers.items() if lies_on_label(facts.features[code])}


def heard(facts: TypeFacts, pack: engine.Pack, walk: Walk, number: int) -> LabelWitness:
    on_record = numbers_on_record(number)
    records = []
    for version in facts.versions.values():
        makers = makers_on_labels(version, facts.versions)
        records.append(label_record(version, carried_by(version, on_record), makers))
    shared = engine_answers(shared_answers(facts, walk), facts.features)
    return hear_label(records, seen_of(walk), inside=inside_of(pack, shared) if shared else None)


def pack_with_label(facts: TypeFacts, pack: engine.Pack, walk: Walk, number: int) -> engine.Pack:
    """The pack of this walk; where its address says nothing of a label, the pack as it is."""
    if not seen_of(walk):
        return pack
    shared = shared_answers(facts, walk)
    key = ("pack with label", facts.code, walk.maker, walk.size, walk.year, walk.label_key, tuple(shared.items()))
    return packs.keep_pack(key, lambda: with_label(pack, heard(facts, pack, walk, number), shared), number=number)


def label_context(facts: TypeFacts, walk: Walk, verdict: engine.Verdict, number: int) -> dict | None:
    """What the label says for the leader, in words; and whether it rather came from another piece."""
    if not seen_of(walk) or not verdict.leader:
        return None
    known = engine.Context(maker=walk.maker or None, size=walk.size or None, year=walk.year)
    pack = packs.pack_for(facts, known, number)
    witness = heard(facts, pack, walk, number)
    decibans = witness.decibans(verdict.leader, verdict.second)
    word = strength_word(decibans)
    leader = facts.versions[verdict.leader]
    carried = carried_by(leader, numbers_on_record(number))
    direction = word.split()[-1]
    return {
        "leader": leader,
        "against": facts.versions[verdict.second] if verdict.second else None,
        "word": word,
        "direction": direction,
        "mark": MARKS.get(direction, "○"),
        "decibans": f"{decibans:+.1f}",
        "reasons": reasons_for(leader, carried, makers_on_labels(leader, facts.versions), seen_of(walk)),
        "moved": moved(facts, pack, walk, witness),
    }


def moved(facts: TypeFacts, pack: engine.Pack, walk: Walk, witness: LabelWitness) -> dict | None:
    """Body of one version, label of another: where the piece itself speaks against its label."""
    shared = shared_answers(facts, walk)
    body = {code: texts for code, texts in walk.answers.items() if code not in shared}
    belief = pack.weigh(engine_answers(body, facts.features))
    found = married(witness, dict(zip(pack.version_codes, belief.posterior.tolist(), strict=True)))
    if found is None:
        return None
    return {
        "body": facts.versions[found.body],
        "label": facts.versions[found.label],
        "percent": percent(found.chance),
    }
