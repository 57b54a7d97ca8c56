"""Sets of pieces: what people say of them, and what comparing their dates, cuts, prints, makers and sizes says."""

from collections.abc import Iterable

from catalogue.long_lists import page_of
from catalogue.member_examples.addresses import example_address, set_address
from catalogue.member_examples.evidence import Said, agreed_state
from catalogue.member_examples.gates import is_member, may_change_set, owns, readable_places, readable_sets
from catalogue.member_examples.models import Example, ExampleInSet, ExampleSet, Observation
from catalogue.member_examples.sets.rules import (
    VERDICT_WORDS,
    Fixing,
    Joint,
    PairJudged,
    Reason,
    Says,
    SetPiece,
    Verdict,
    judge_set,
)
from catalogue.member_examples.sold_as import sold_as_another
from catalogue.member_examples.titles import title_of
from catalogue.member_examples.words import ExampleState, Together
from catalogue.reference.addresses import address_of
from catalogue.reference.facts import CompanionFacts, FeatureFacts, TypeFacts, VersionFacts
from catalogue.reference.snapshots import type_facts

A_PAGE = 50
MARKS = {Says.FOR: "+", Says.AGAINST: "−", Says.STRONGLY_AGAINST: "−", Says.NOTHING: "·"}
DIRECTIONS = {Says.FOR: "for", Says.NOTHING: "neither"}


def sets_context(person, asked: str | None = None) -> dict:
    """The list: sets that the person may open, and those of their own that are dissolved."""
    page, odd_page = page_of(asked, readable_sets(person).order_by("code"), A_PAGE)
    dissolved = ()
    if is_member(person):
        dissolved = ExampleSet.with_dissolved.filter(made_by=person, dissolved_at__isnull=False).order_by("code")
    return {
        "page": page,
        "odd_page": odd_page,
        "keep": "",
        "rows": [set_row(row) | {"pieces": row.pieces} for row in page],
        "dissolved": [set_row(row) for row in dissolved],
        "is_member": is_member(person),
    }


def set_row(row: ExampleSet) -> dict:
    return {
        "name": row.name,
        "code": row.code,
        "address": set_address(row.code),
        "together": Together(row.together).label.lower(),
    }


def sets_of_piece(person, example: Example) -> list[dict]:
    """The sets that a piece is in, as far as this person may open them; `may_take_out`: it is their own piece."""
    mine = owns(person, example)
    return [
        set_row(row) | {"may_take_out": mine} for row in readable_sets(person).filter(examples=example).order_by("code")
    ]


def sets_to_add_to(person, piece: Example) -> list[dict]:
    """A member's own sets in which a piece is not yet."""
    return [set_row(row) for row in ExampleSet.objects.filter(made_by=person).exclude(examples=piece).order_by("code")]


def piece_row(place: ExampleInSet, person, *, number: int) -> dict:
    """One piece of a set; `seller` is what it was sold as, beside what it is."""
    one = place.example
    return {
        "code": one.code,
        "title": title_of(one),
        "address": example_address(one.code),
        "seller": one.sold_as,
        "not_as_sold": sold_as_another(one, number=number),
        "owner": one.owner.username,
        "mine": owns(person, one),
        "not_for_all": "" if one.state == ExampleState.ACCEPTED else one.state_words.lower(),
    }


def changing_context(person, found: ExampleSet, *, number: int) -> dict:
    return {
        "set": found,
        "pieces": [piece_row(place, person, number=number) for place in readable_places(person, found)],
        "is_maker": found.made_by_id == person.pk,
    }


def set_context(person, found: ExampleSet, *, number: int) -> dict:
    places = readable_places(person, found)
    examples = [place.example for place in places]
    verdict, pairs = judged(examples, fasten=found.fasten, number=number)
    versions = {one.code: one.held_as.code for one in examples if one.held_as}
    titles = source_titles(versions.values(), examples, number=number)
    return {
        "set": found,
        "verdict": verdict,
        "verdict_words": VERDICT_WORDS[verdict],
        "together": Together(found.together).label.lower(),
        "holder": found.made_by.username,
        "may_change": may_change_set(person, found),
        "pieces": [piece_row(place, person, number=number) for place in places],
        "pairs": [
            {
                "first": pair.first,
                "second": pair.second,
                "verdict": pair.verdict,
                "reasons": [reason_row(reason, titles) for reason in pair.reasons],
                "unrelated": unrelated(pair, versions),
            }
            for pair in pairs
        ],
    }


def reason_row(reason: Reason, titles: dict[str, str]) -> dict:
    """A reason as the page writes it; a relation on record with the sources that it stands on."""
    direction = DIRECTIONS.get(reason.says, "against")
    says = {"for": "speaks for it", "neither": "says little", "against": "speaks against it"}[direction]
    return {
        "words": reason.words,
        "mark": MARKS[reason.says],
        "direction": direction,
        "says": f"said by “{reason.again.lower()}” already" if reason.again else says,
        "of_the_record": reason.sources is not None,
        "sources": [
            {"code": code, "title": titles.get(code, ""), "address": address_of("source", code)}
            for code in reason.sources or ()
        ],
    }


def unrelated(pair: PairJudged, versions: dict[str, str]) -> str:
    """That the record knows no relation of two versions, where it could: then nothing of the kind was weighed."""
    ours, theirs = versions.get(pair.first, ""), versions.get(pair.second, "")
    if not (ours and theirs) or any(reason.sources is not None for reason in pair.reasons):
        return ""
    return f"Whether {ours} and {theirs} fit each other or were worn together is not on record, and was not weighed."


def source_titles(codes: Iterable[str], examples: list[Example], *, number: int) -> dict[str, str]:
    """Titles of the sources for what these versions go with."""
    found: dict[str, str] = {}
    for garment_type in {one.garment_type.code for one in examples if one.held_as and one.garment_type}:
        facts = type_facts(garment_type, number=number)
        for code in codes:
            version = facts.versions.get(code) if facts else None
            for companion in version.companions if version else ():
                found.update({one.source: one.title for one in companion.citations})
    return found


def judged(examples: list[Example], *, fasten: str, number: int) -> tuple[Verdict, list[PairJudged]]:
    """The verdict on pieces and on every two of them, with what their versions' records and their owners say."""
    codes = {one.garment_type.code for one in examples if one.garment_type}
    of_types = {code: facts for code in sorted(codes) if (facts := type_facts(code, number=number))}
    joints = {
        (one, other): found
        for one in of_types
        for other in of_types
        if (found := joints_between(of_types[one], of_types[other]))
    }
    features = {joint.feature for found in joints.values() for joint in found}
    seen = agreed_fixings(examples, features)
    pieces = [set_piece(one, of_types, features, seen.get(one.pk, {})) for one in examples]
    return judge_set(pieces, fasten=fasten, joints=joints)


def joints_between(one: TypeFacts, other: TypeFacts) -> list[Joint]:
    """What joins pieces of two garment types, as their versions on record that fit each other show it."""
    pairs: dict[str, set[tuple[str, str]]] = {}
    for version in one.versions.values():
        for companion in version.companions:
            mate, code = other.versions.get(companion.version), companion.joined_by
            if mate and code:
                ours, theirs = version.cells.get(code, ()), mate.cells.get(code, ())
                pairs.setdefault(code, set()).update((a.state, b.state) for a in ours for b in theirs)
    return [
        Joint(code, one.features[code].name, frozenset(joined))
        for code, joined in sorted(pairs.items())
        if joined and code in one.features
    ]


def agreed_fixings(examples: list[Example], features: set[str]) -> dict[int, dict[str, str]]:
    """By piece and feature, the state that people agree on."""
    if not features:
        return {}
    rows = Observation.objects.filter(example__in=examples, feature__code__in=features).order_by("pk")
    told: dict[tuple[int, str], list[Said]] = {}
    for piece, feature, who, answer, state in rows.values_list(
        "example_id", "feature__code", "observer_id", "answer", "state__code"
    ):
        told.setdefault((piece, feature), []).append(Said(str(who), answer, state or ""))
    found: dict[int, dict[str, str]] = {}
    for (piece, feature), said in told.items():
        if state := agreed_state(said):
            found.setdefault(piece, {})[feature] = state
    return found


def fixing_of(feature: FeatureFacts, version: VersionFacts | None, seen: str, code: str) -> Fixing | None:
    if seen:
        return Fixing((seen,), f"{code} has {feature.label_of(seen).lower()}", seen=True)
    cells = version.cells.get(feature.code, ()) if version else ()
    words = " or ".join(cell.label.lower() for cell in cells)
    return Fixing(tuple(cell.state for cell in cells), f"{code}, by its record, {words}", seen=False) if cells else None


def sources_for(companion: CompanionFacts) -> tuple[str, ...]:
    return tuple(one.source for one in companion.citations if not one.contradicts)


def set_piece(example: Example, of_types: dict[str, TypeFacts], features: set[str], seen: dict[str, str]) -> SetPiece:
    """What is compared of an example; what its version says where it is held as one."""
    held = example.held_as.code if example.held_as else ""
    facts = of_types.get(example.garment_type.code) if example.garment_type else None
    version = facts.versions.get(held) if facts else None
    companions = version.companions if version else ()
    fits = {one.version: sources_for(one) for one in companions if one.fits}
    fixings = {
        code: found
        for code in features
        if facts and code in facts.features
        and (found := fixing_of(facts.features[code], version, seen.get(code, ""), example.code))
    }  # fmt: skip
    return SetPiece(
        code=example.code,
        garment_type=facts.code if facts else "",
        version=held,
        kind=version.kind if version else "",
        year=example.label_year,
        first=version.from_year if version else None,
        last=version.to_year if version else None,
        cut=version.cut if version else "",
        colourway=version.colourway if version else "",
        maker=example.maker.name if example.maker else "",
        size=example.size_mark,
        fits=fits,
        fits_types=frozenset(code for code, other in of_types.items() if other.versions.keys() & fits.keys()),
        worn_with={one.version: sources_for(one) for one in companions if not one.fits},
        fixings=fixings,
    )
