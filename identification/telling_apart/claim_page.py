"""Checking a claim: the checks with their answers, and what the answers say of it, in words."""

from urllib.parse import urlencode

from django.urls import reverse

from catalogue.reference.addresses import address_of
from catalogue.reference.facts import FeatureFacts, TypeFacts, VersionFacts
from catalogue.reference.snapshots import keep_for_state
from catalogue.reference.words import CANNOT_TELL, PART_MISSING
from identification import engine
from identification.engine.reasons import signed_words
from identification.labels_on_pages.allowed import makers_on_labels
from identification.labels_on_pages.sewn import sewn_choices
from identification.profiles_from_catalogue import engine_answers
from identification.walk_through import packs
from identification.walk_through.address import LABEL_SEWN, PLAIN_ANSWERS, Walk, read_answer
from identification.walk_through.label_evidence import heard, label_context, label_data, on_label, speaks
from identification.walk_through.question_page import answer_words, plain_rows
from identification.walk_through.steps import cautions_of, may_ask
from identification.walk_through.verdict_page import reason_rows, recorded_words
from identification.walk_through.words import likely, listed, percent

HEADLINES = {
    engine.NOTHING_AGAINST: "Nothing speaks against it so far",
    engine.DOUBTFUL: "Doubtful",
    engine.NOT_THIS: "Not",
}
MOST_UNCHECKED = 4
# Fields of the page's own form, beside its checks.
LABEL_FIELDS = ("_label_number", "_label_year", "_label_maker", LABEL_SEWN)


def context_of(walk: Walk) -> engine.Context:
    return engine.Context(maker=walk.maker or None, size=walk.size or None, year=walk.year)


def checks_for(facts: TypeFacts, pack: engine.Pack, code: str, walk: Walk, number: int) -> tuple[str, ...]:
    """The features to look at; they do not depend on the answers, so that the page keeps its questions."""
    key = ("refuting checks", code, walk.maker, walk.size, walk.year, walk.views)
    return keep_for_state(key, lambda: engine.refuting_checks(pack, code, allowed=may_ask(facts, walk)), number=number)


def claim_context(facts: TypeFacts, code: str, walk: Walk, number: int) -> dict:
    """Everything the template needs."""
    pack = packs.pack_for(facts, context_of(walk), number)
    version = facts.versions[code]
    checks = checks_for(facts, pack, code, walk, number)
    judged = judged_claim(facts, pack, code, walk, number)
    return {
        "facts": facts,
        "version": version,
        "address": address_of("version", code),
        "judged": judged,
        "headline": headline(version, judged),
        "why": why(facts, judged, made(walk, checks), checks, on_its_label=speaks(walk)),
        "checks": [check_row(facts, version, facts.features[feature], walk) for feature in checks],
        "told": bool(walk.answers or speaks(walk)),
        "label": label_context(facts, walk, code, judged.against, number),
        "makers_on_labels": label_makers(facts) + several_makers(facts, walk),
        "sewn_choices": [] if facts.must_stay_closed else sewn_choices(),
        "label_given": bool(walk.says_of_label or walk.label_sewn),
        "hidden": [("v", code), *((n, value) for n, value in walk.pairs() if n not in (*checks, *LABEL_FIELDS))],
        "not_checked": [facts.features[feature].name for feature in checks if not is_seen(walk, feature)],
        "closed": closed_checks(facts, pack, code, checks),
        "reasons": reason_rows(facts, walk, judged.reasons, code),
        "against": facts.versions[judged.against].name if judged.against else "",
        "rather": [version_row(facts, other) for other in judged.rather],
        "fits_nothing": judged.standing != engine.NOTHING_AGAINST and judged.verdict.status == "not_in_reference",
        "twins": [version_row(facts, other) for other in judged.twins],
        "unchecked": [version_row(facts, one.version) for one in judged.unchecked[:MOST_UNCHECKED]],
        "more_unchecked": max(0, len(judged.unchecked) - MOST_UNCHECKED),
        "likely": likely(judged.chance),
        "percent": percent(judged.chance),
        "decibans": signed_words(judged.decibans),
        "cautions": cautions_of(facts),
        "walk_address": reverse("walk_through:type", args=[facts.code]) + walk.query(),
        "data_address": reverse("telling_apart:claim_data") + claim_query(code, walk),
        "start_again": claim_query(code, Walk()),
    }


def judged_claim(facts: TypeFacts, pack: engine.Pack, code: str, walk: Walk, number: int) -> engine.ClaimJudged:
    answers = engine_answers(walk.answers, facts.features)
    witness = heard(facts, walk, number) if speaks(walk) else None
    return engine.judge_claim(
        pack, code, answers, allowed=may_ask(facts, walk), label=witness, on_label=on_label(facts, walk)
    )


def label_makers(facts: TypeFacts) -> list[tuple[str, str]]:
    """Makers whose labels any version of the type carries, code and name, by name."""
    known = {code: name for v in facts.versions.values() for code, name in makers_on_labels(v, facts.versions).items()}
    return sorted(known.items(), key=lambda one: one[1])


def several_makers(facts: TypeFacts, walk: Walk) -> list[tuple[str, str]]:
    """Where the labels of the piece name several makers: all of them as one choice, so that the form keeps them."""
    names = dict(label_makers(facts))
    several = len(walk.label_makers) > 1
    return [(walk.label_maker, listed([names.get(code, code) for code in walk.label_makers]))] if several else []


def claim_query(code: str, walk: Walk) -> str:
    return "?" + urlencode([("v", code), *walk.pairs()], safe=",")


def is_seen(walk: Walk, feature: str) -> bool:
    """Whether the last answer says what was seen, a lost part among it."""
    given = walk.answers.get(feature, ("",))[-1]
    return bool(given) and (given not in PLAIN_ANSWERS or given == PART_MISSING)


def made(walk: Walk, checks: tuple[str, ...]) -> int:
    return sum(is_seen(walk, feature) for feature in checks)


def headline(version: VersionFacts, judged: engine.ClaimJudged) -> str:
    words = HEADLINES[judged.standing]
    return f"{words} {version.name}" if judged.standing == engine.NOT_THIS else words


def why(
    facts: TypeFacts, judged: engine.ClaimJudged, number_made: int, checks: tuple[str, ...], *, on_its_label: bool
) -> str:
    """The sentence below the headline."""
    if judged.standing == engine.NOT_THIS:
        return "What you saw does not fit it, and no single slip would explain that."
    if judged.standing == engine.DOUBTFUL and judged.rests_on == engine.THE_LABEL:
        return (
            "Its label speaks against it, and nothing else does as much. Labels get moved: look at how it is sewn in."
        )
    if judged.standing == engine.DOUBTFUL and judged.rests_on:
        name = facts.features[judged.rests_on].name.lower()
        return f"It would be ruled out but for one thing: all rests on the {name}. Look at that again."
    if judged.standing == engine.DOUBTFUL and judged.disagreements:
        names = [facts.features[one.feature].name.lower() for one in judged.disagreements]
        return f"What you saw is not what the record says of {listed(names)}: a slip, a repair, or another version."
    if judged.standing == engine.DOUBTFUL:
        return "No answer contradicts the record outright, but together they fit other versions better."
    if not checks:
        return "There is nothing on record that could show it to be wrong, so this says nothing."
    if not number_made and on_its_label:
        return "The label does not contradict it, but labels get moved and copied, and nothing else has been checked."
    if not number_made:
        return "Nothing has been checked yet, so this says nothing."
    were = f"check{'' if len(checks) == 1 else 's'} {'was' if number_made == 1 else 'were'}"
    return f"{number_made} of {len(checks)} {were} made. That does not prove it: a good copy passes them too."


def check_row(facts: TypeFacts, version: VersionFacts, feature: FeatureFacts, walk: Walk) -> dict:
    """One check: whether the piece shows what the record of the version says, and every answer for who sees more.

    `as_recorded` and `otherwise` are answers of one state or several; both are empty where the record speaks of none,
    or where a measure is asked for. What an earlier answer said in another form is kept as an answer of its own.
    """
    texts = walk.answers.get(feature.code, ())
    given = texts[-1] if texts else ""
    as_recorded, otherwise = two_answers(version, feature)
    recorded = as_recorded.split(",") if as_recorded else []
    # Each answer is offered once: what the plain questions say already is not among the exact ones.
    states = [state for state in feature.states if state.code not in (as_recorded, otherwise)]
    plain = [row for row in plain_rows(facts, feature, ()) if not as_recorded or row["code"] != CANNOT_TELL]
    known = {as_recorded, otherwise, CANNOT_TELL, *(row["code"] for row in plain), *(state.code for state in states)}
    kept = [{"code": given, "label": answer_words(feature, given)}] if given not in known and given else []
    exact = [*kept, *plain, *({"code": state.code} for state in states)]
    return {
        "feature": feature,
        "question": feature.question,
        "where": feature.place_words,
        "seen": feature.seen_words,
        "mind": feature.error_note,
        "given": given,
        "as_recorded": as_recorded,
        "otherwise": otherwise,
        "recorded": recorded_words(facts, version.code, feature.code),
        "pictured": [feature.state_by_code[code] for code in recorded if code in feature.state_by_code],
        "states": states,
        "others": [*kept, *plain],
        "is_exact": any(row["code"] == given for row in exact),
        "answered": bool(given),
    }


def two_answers(version: VersionFacts, feature: FeatureFacts) -> tuple[str, str]:
    """What the version's record says of the feature, and all else that there may be, each as an answer."""
    recorded = {cell.state for cell in version.cells.get(feature.code, ())}
    inside = [state.code for state in feature.states if state.code in recorded]
    outside = [state.code for state in feature.states if state.code not in recorded]
    both = ",".join(inside), ",".join(outside)
    # A measure is no state, and of a count two states in a row may read as a number.
    return both if all(text and read_answer(feature, text) == text for text in both) else ("", "")


def closed_checks(facts: TypeFacts, pack: engine.Pack, code: str, checks: tuple[str, ...]) -> list[str]:
    """What would tell more of a garment that must stay closed, by name; never a question."""
    if not facts.must_stay_closed:
        return []
    every = engine.refuting_checks(pack, code)
    return [facts.features[c].name.lower() for c in every if c not in checks and facts.features[c].needs_handling]


def version_row(facts: TypeFacts, code: str) -> dict:
    version = facts.versions[code]
    return {
        "code": code,
        "name": version.name,
        "kind": version.kind_words.lower(),
        "address": address_of("version", code),
    }


def claim_data(facts: TypeFacts, code: str, walk: Walk, number: int) -> dict:
    """The same address as plain values for JSON."""
    pack = packs.pack_for(facts, context_of(walk), number)
    checks = checks_for(facts, pack, code, walk, number)
    judged = judged_claim(facts, pack, code, walk, number)
    return {
        "version": code,
        "type": facts.code,
        "standing": judged.standing,
        "chance": judged.chance,
        "decibans": judged.decibans,
        "twins": list(judged.twins),
        "answers": {feature: list(texts) for feature, texts in walk.answers.items()},
        "label": label_data(facts, walk, number),
        "notes": list(walk.notes),
        "cautions": cautions_of(facts),
        "checks": [
            {
                "feature": feature,
                "question": facts.features[feature].question,
                "states": {state.code: state.label for state in facts.features[feature].states},
                "recorded": recorded_words(facts, code, feature),
                "checked": is_seen(walk, feature),
            }
            for feature in checks
        ],
        "reasons": [{"feature": r.feature, "decibans": r.decibans, "word": r.word} for r in judged.reasons],
        "against": judged.against,
        "disagreements": [one.feature for one in judged.disagreements],
        "rests_on": judged.rests_on,
        "unchecked": [one.version for one in judged.unchecked],
        "rather": list(judged.rather),
    }
