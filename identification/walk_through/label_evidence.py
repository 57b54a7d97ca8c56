"""A label's evidence within a walk: what the address says in its parts that begin with `_label`, one witness.

Answers about the label itself (features that lie on it) are handed to the same witness, so that nothing on a label
counts twice, and all of it shares the doubt whether the label belongs to the piece.
"""

from dataclasses import asdict
from math import log10

from django.utils import timezone

from catalogue.member_examples.dated import doubts_of_ends
from catalogue.reference.facts import FeatureFacts, TypeFacts
from catalogue.reference.label_context import countries_of_makers, serial_forms, society_context
from catalogue.reference.numbers import bare_number
from catalogue.reference.words import CANNOT_TELL
from identification import engine
from identification.engine.label_witness import (
    BodyAndLabel,
    LabelSeen,
    LabelWitness,
    hear_label,
    inside_of,
    married,
    with_label,
)
from identification.engine.reasons import signed_words, strength_word
from identification.labels_on_pages.allowed import (
    SURE_ENDS,
    carried_by,
    label_record,
    makers_on_labels,
    numbers_on_record,
    reasons_for,
)
from identification.labels_on_pages.conflicts import label_conflicts
from identification.labels_on_pages.said import AGAINST, Reason, chances_said, reasons_said, states_words
from identification.labels_on_pages.sewn import is_doubtful, sewn_words
from identification.profiles_from_catalogue import engine_answers
from identification.walk_through import packs
from identification.walk_through.address import Walk
from identification.walk_through.any_garment import ANY_GARMENT
from identification.walk_through.words import percent

LABEL = "label"
MOST_CARRIERS = 3
MARKS = {"for": "✓", "against": "✗"}


def lies_on_label(feature: FeatureFacts) -> bool:
    """Whether every place of the feature is the label itself."""
    return bool(feature.places) and all(LABEL in (place.view, place.region) for place in feature.places)


def limits_of_labels(number: int) -> dict:
    """What the reader of an address needs to know of labels: makers and serials on record, and today's year."""
    this_year = timezone.localdate().year
    makers = society_context(garment="", this_year=this_year, number=number).makers
    known = {maker.code for maker in makers}
    return {"labelled_by": known, "serials": serial_forms(number), "this_year": this_year}


def seen_of(walk: Walk) -> LabelSeen:
    numbers = tuple(dict.fromkeys(bare_number(one) for one in walk.label_number.split(",") if bare_number(one)))
    years = (walk.label_year, walk.label_year) if walk.label_year else None
    return LabelSeen(
        numbers,
        years,
        walk.label_makers,
        contract=walk.label_contract,
        sewn=walk.label_sewn,
        # A maker says it too, and counts once.
        country="" if walk.label_makers else walk.label_country,
        repairs=walk.label_repairs,
        serials=walk.label_serials,
    )


def numbers_printed(walk: Walk) -> tuple[str, ...]:
    """The numbers of the address as they stand on the label."""
    return tuple(one.strip() for one in walk.label_number.split(",") if bare_number(one))


def speaks(walk: Walk) -> bool:
    """Whether the address has anything of a label that may tell of a version."""
    return bool(seen_of(walk)) or bool(walk.label_says)


def states_shown(walk: Walk) -> dict[str, tuple[str, ...]]:
    """States that the label shows by what it says. What somebody has looked at counts instead."""
    looked = {code for code, texts in walk.answers.items() if texts[-1] != CANNOT_TELL}
    return {code: states for code, states in walk.label_says if code not in looked}


def said_states(walk: Walk) -> dict[str, tuple[str, ...]]:
    """The same as answers."""
    return {code: (",".join(states),) for code, states in states_shown(walk).items()}


def label_words(facts: TypeFacts, walk: Walk, number: int) -> list[str]:
    """What the address says of the label, piece by piece."""
    names = {maker.code: maker.name for version in facts.versions.values() for maker in version.makers}
    numbers = [f"number {one.strip()}" for one in walk.label_number.split(",") if bare_number(one)]
    year = [f"year {walk.label_year}"] if walk.label_year else []
    makers = [f"maker {names.get(code, code)}" for code in walk.label_makers]
    repairs = [f"mark of a repair by {names.get(code, code)}" for code in walk.label_repairs]
    contract = [f"contract of {walk.label_contract}"] if walk.label_contract and not walk.label_year else []
    says = [
        f"{facts.features[code].name.lower()}: {states_words(facts.features[code], states)}"
        for code, states in walk.label_says
    ]
    country = [f"made in {walk.label_country}"] if walk.label_country else []
    forms = serial_forms(number)
    serials = [f"a number of the form “{forms[code].title}”" for code in walk.label_serials if code in forms]
    return [*numbers, *year, *contract, *makers, *repairs, *country, *serials, *says]


def on_label(facts: TypeFacts, walk: Walk) -> tuple[str, ...]:
    """Features that the label's witness takes over, where the address says what stands on it: those answered that lie
    on the label, and those they are details of, since a detail that was seen shows its part as well."""
    found: dict[str, None] = {}
    for code in walk.answers if speaks(walk) else ():
        above: str | None = code
        while above in facts.features and lies_on_label(facts.features[above]):
            found[above] = None
            above = facts.features[above].parent
    # A part of the piece itself stays to be looked at; what is seen there then counts instead of the label's word.
    found |= {code: None for code in said_states(walk) if lies_on_label(facts.features[code])}
    return tuple(found)


def heard_answers(facts: TypeFacts, walk: Walk, number: int) -> dict[str, tuple[str, ...]]:
    """Answers about the label that say more than what was read on it.

    Left out is the form of the number where the number itself is on record.
    """
    forms = forms_read(walk, number)
    return {
        code: walk.answers[code]
        for code in on_label(facts, walk)
        if code in walk.answers
        and not forms.intersection(text for answer in walk.answers[code] for text in answer.split(","))
    }


def forms_read(walk: Walk, number: int) -> set[str]:
    """The forms of those numbers on the label that are on record: whoever reads 27-114-06 has read its form."""
    seen = seen_of(walk).numbers
    return {one.form for rows in numbers_on_record(number).values() for one in rows if one.bare in seen} - {""}


def told_by_number(facts: TypeFacts, walk: Walk, number: int) -> tuple[str, ...]:
    """Features that ask for the form of the number, which was read: asked again they could tell nothing."""
    forms = forms_read(walk, number)
    return tuple(
        code
        for code, feature in facts.features.items()
        if code not in walk.answers and lies_on_label(feature) and forms & set(feature.state_by_code)
    )


def bare_pack(facts: TypeFacts, walk: Walk, number: int) -> engine.Pack:
    """The pack of this walk before its label."""
    if facts.code == ANY_GARMENT:
        return packs.any_pack(number)
    known = engine.Context(maker=walk.maker or None, size=walk.size or None, year=walk.year)
    return packs.pack_for(facts, known, number)


def heard(facts: TypeFacts, walk: Walk, number: int) -> LabelWitness:
    on_record, countries, serials = numbers_on_record(number), countries_of_makers(number), serial_forms(number)
    seen, records = seen_of(walk), []
    types = packs.garments_for(number).homes.values() if facts.code == ANY_GARMENT else [facts]
    doubts = doubts_of_ends(types, number=number) if seen.possible_years else {}
    for version in facts.versions.values():
        makers = makers_on_labels(version, facts.versions)
        ends = doubts.get(version.code, SURE_ENDS)
        records.append(label_record(version, carried_by(version, on_record), makers, countries, serials, ends))
    answers = engine_answers(heard_answers(facts, walk, number) | said_states(walk), facts.features)
    inside = inside_of(bare_pack(facts, walk, number), answers) if answers else None
    return hear_label(records, seen, inside=inside)


def pack_with_label(facts: TypeFacts, walk: Walk, number: int) -> engine.Pack:
    """The pack of this walk; where its address says nothing of a label, the pack as it is."""
    pack = bare_pack(facts, walk, number)
    if not speaks(walk):
        return pack
    shared = tuple(dict.fromkeys((*on_label(facts, walk), *told_by_number(facts, walk, number))))
    given = tuple((code, walk.answers.get(code)) for code in shared)
    key = ("pack with label", facts.code, walk.maker, walk.size, walk.year, walk.label_key, given)
    return packs.keep_pack(key, lambda: with_label(pack, heard(facts, walk, number), shared), number=number)


def label_context(facts: TypeFacts, walk: Walk, version: str | None, against: str | None, number: int) -> dict | None:
    """What the label says for a version against another, or against one that is not recorded, in words; and whether
    it rather came from another piece. None without a label or a version."""
    if not speaks(walk) or not version:
        return None
    witness = heard(facts, walk, number)
    decibans = witness.decibans(version, against)
    word = strength_word(decibans)
    leader = facts.versions[version]
    carried = carried_by(leader, numbers_on_record(number))
    direction = word.split()[-1]
    found = moved(facts, walk, witness, number)
    return {
        "leader": leader,
        "against": facts.versions[against] if against else None,
        "word": word,
        "direction": direction,
        "mark": MARKS.get(direction, "○"),
        "decibans": signed_words(decibans),
        "sewn": sewn_words(walk.label_sewn),
        "doubtful": is_doubtful(walk.label_sewn),
        "belongs": percent(witness.belongs),
        "reasons": [
            *reasons_for(
                leader,
                carried,
                makers_on_labels(leader, facts.versions),
                seen_of(walk),
                countries_of_makers(number),
                serial_forms(number),
            ),
            *numbers_of_others(facts, leader.code, walk, number),
            *states_said_reasons(facts, leader.code, against, walk, number),
        ],
        "conflicts": label_conflicts(numbers_printed(walk), seen_of(walk), number),
        "moved": found
        and {
            "body": facts.versions[found.body],
            "label": facts.versions[found.label],
            "percent": percent(found.chance),
        },
    }


def numbers_of_others(facts: TypeFacts, version: str, walk: Walk, number: int) -> list[Reason]:
    """Numbers on the label that are on record, but not for this version."""
    on_record = numbers_on_record(number)
    found = []
    for bare in seen_of(walk).numbers:
        carriers = [v for v in facts.versions.values() if any(one.bare == bare for one in carried_by(v, on_record))]
        if carriers and version not in [one.code for one in carriers]:
            printed = next(one.number for one in carried_by(carriers[0], on_record) if one.bare == bare)
            names = " and ".join(one.code for one in carriers[:MOST_CARRIERS])
            more = f" and {len(carriers) - MOST_CARRIERS} more" if len(carriers) > MOST_CARRIERS else ""
            found.append(Reason(*AGAINST, f"number {printed} is on record for {names}{more}, not for it"))
    return found


def states_said_reasons(facts: TypeFacts, version: str, against: str | None, walk: Walk, number: int) -> list[Reason]:
    """What each state that the label shows says for a version against another, or against the mean of all."""
    said = states_shown(walk)
    chances = chances_said(bare_pack(facts, walk, number), facts, said)
    return reasons_said(facts, said, chances, version, against)


def label_data(facts: TypeFacts, walk: Walk, number: int) -> dict | None:
    """What the label contributed, as plain values: decibans for each version against one that is not recorded, and of
    each thing on the label beside the mean of all versions. None where the address says nothing of a label."""
    if not speaks(walk):
        return None
    witness = heard(facts, walk, number)
    found = moved(facts, walk, witness, number)
    return {
        "number": walk.label_number,
        "year": walk.label_year,
        "maker": walk.label_maker,
        "repair": walk.label_repair,
        "serial": walk.label_serial,
        "contract": walk.label_contract,
        "country": walk.label_country,
        "says": {code: list(states) for code, states in walk.label_says},
        "sewn": walk.label_sewn,
        "belongs": witness.belongs,
        "decibans": {version: round(witness.decibans(version), 2) for version in witness.likelihood},
        "aspects": {
            version: {name: round(10 * log10(ratio), 2) for name, ratio in aspects.items() if ratio > 0}
            for version, aspects in witness.aspects.items()
        },
        "answers_in_it": [code for code in on_label(facts, walk) if code in walk.answers],
        "moved": asdict(found) if found else None,
    }


def moved(facts: TypeFacts, walk: Walk, witness: LabelWitness, number: int) -> BodyAndLabel | None:
    """Body of one version, label of another: where the piece itself speaks against its label."""
    shared = on_label(facts, walk)
    body = {code: texts for code, texts in walk.answers.items() if code not in shared}
    pack = bare_pack(facts, walk, number)
    belief = pack.weigh(engine_answers(body, facts.features))
    return married(witness, dict(zip(pack.version_codes, belief.posterior.tolist(), strict=True)))
