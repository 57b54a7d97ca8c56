"""What a page says of the mistakes that are to be expected with a version."""

from collections.abc import Mapping

from catalogue.figures.small_spots import small_spots
from catalogue.reference.addresses import address_of
from catalogue.reference.facts import TypeFacts, VersionFacts
from catalogue.reference.snapshots import keep_for_state, type_facts
from identification import engine
from identification.mistakes.apart import told_apart
from identification.mistakes.counted import counted
from identification.profiles_from_catalogue import pack_with_stranger
from identification.walk_through.address import OUTSIDE, Walk
from identification.walk_through.packs import evidence_for, pack_for
from identification.walk_through.steps import may_ask

# Ours; no source. Rarer mistakes are within what the number of simulated pieces can be off.
LEAST_SHOWN = 0.02


def mistakes_context(facts: TypeFacts, version: VersionFacts, *, number: int) -> dict:
    """Everything the template needs, kept until the reference changes."""
    return keep_for_state(("mistakes", version.code), lambda: make_context(facts, version, number), number=number)


def make_context(facts: TypeFacts, version: VersionFacts, number: int) -> dict:
    looks = looks_of(facts, version, number) if version.cells else []
    context = {
        "facts": facts,
        "version": version,
        "address": address_of("version", version.code),
        "type_address": address_of("type", facts.code),
        "looks": looks,
        "elsewhere": [elsewhere(facts, version, code, number) for code in version.passes_for] if looks else [],
        "pieces": engine.WALKS,
        **counted(facts, version, number=number),
    }
    draw_places(facts, rows_in_order(context))
    return context


def rows_in_order(context: dict) -> list[dict]:
    """All rows of the page, from top to bottom."""
    counts = [context["offered"], context["anew"]]
    parts = [rows for count in counts for rows in (count["rows"], count["as_it"])]
    parts += [part["rows"] for part in (*context["looks"], *context["elsewhere"])]
    return [row for rows in parts for row in rows]


def draw_places(facts: TypeFacts, rows: list[dict]) -> None:
    """Puts beside each check the place to look at, drawn small."""
    checked = [row["check"] for row in rows if row["check"]]
    for check, flat in zip(checked, small_spots(facts, [check["feature"] for check in checked]), strict=True):
        check["flat"] = flat


def looks_of(facts: TypeFacts, version: VersionFacts, number: int) -> list[dict]:
    """What is named after a look from outside, and after every question; one look where nothing else is allowed."""
    pack = pack_for(facts, engine.Context(), number)
    outside = engine.named_as(pack, version.code, allowed=may_ask(facts, Walk(views=(OUTSIDE,))))
    looks = [look("By a look from outside", "from outside", facts, version, outside)]
    if not facts.must_stay_closed:
        named = engine.named_as(pack, version.code)
        looks.append(look("After every question worth asking", "after every question", facts, version, named))
    return looks


def look(heading: str, when: str, facts: TypeFacts, version: VersionFacts, named: Mapping[str, float]) -> dict:
    """`when`: the heading in two or three words. `wrong`: of a hundred pieces named as another version."""
    others = [code for code in named if code not in (version.code, engine.NOT_RECORDED)]
    return {
        "heading": heading,
        "when": when,
        "wrong": hundred(sum(named[code] for code in others)),
        "right": hundred(named.get(version.code, 0.0)),
        "none": hundred(named.get(engine.NOT_RECORDED, 0.0)),
        "rows": [
            mistake_row(facts, version, facts, code, named[code]) for code in others if named[code] >= LEAST_SHOWN
        ],
    }


def elsewhere(facts: TypeFacts, version: VersionFacts, code: str, number: int) -> dict:
    """What is named by somebody who takes the piece for a garment of another type, by what both types have."""
    other = type_facts(code, number=number)
    pack = pack_with_stranger(other, version, evidence_for(other, number))

    def both_have(feature: engine.Feature) -> bool:
        closed = (facts.must_stay_closed or other.must_stay_closed) and feature.needs_handling
        return feature.code in version.cells and not closed

    named = engine.named_as(pack, version.code, allowed=both_have)
    known = [one for one in named if one in other.versions and named[one] >= LEAST_SHOWN]
    return {
        "name": other.name,
        "address": address_of("type", other.code),
        "none": hundred(named.get(engine.NOT_RECORDED, 0.0)),
        "rows": [mistake_row(facts, version, other, one, named[one]) for one in known],
    }


def mistake_row(facts: TypeFacts, version: VersionFacts, home: TypeFacts, code: str, share: float) -> dict:
    """A version that a piece is named as, and the easiest features that tell the two apart."""
    return {"share": hundred(share)} | told_apart(facts, version, home, code)


def hundred(share: float) -> int:
    """Of a hundred, never a false hundred."""
    return min(round(share * 100), 99) if share < 1 else 100
