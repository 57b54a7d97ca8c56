"""The gallery of pieces as a page: what is shown, what narrows it, and what to drop when nothing is left."""

from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import cache

from django.core.paginator import Page
from django.db.models import Prefetch, QuerySet
from django.http import QueryDict
from django.template.loader import render_to_string

from catalogue.long_lists import page_of
from catalogue.member_examples.addresses import example_address
from catalogue.member_examples.filters import (
    CONDITION_WORDS,
    FACETS,
    LOOKED,
    REVIEWED,
    STATE_WORDS,
    ExampleFilter,
    seen_by_all,
    visible_to,
)
from catalogue.member_examples.found import Found, found_for, read_again
from catalogue.member_examples.gates import is_member, is_moderator
from catalogue.member_examples.models import Example, Photograph
from catalogue.member_examples.pictures import picture_of
from catalogue.member_examples.queries import evidence_of
from catalogue.member_examples.titles import title_of
from catalogue.member_examples.words import Shot
from catalogue.reference.addresses import address_of
from catalogue.reference.facts import TypeFacts, VersionFacts
from catalogue.reference.models import GarmentType, Maker
from catalogue.reference.nearest import version_names
from catalogue.reference.snapshots import (
    KeptForState,
    keep_for_state,
    type_facts,
    type_of_retired,
    type_of_version,
)

A_PAGE = 24
# Lines of pages that were read, some thirty kilobytes each.
keep_rows = KeptForState(most=128)
keep_facets = KeptForState(most=48)
# By the view in which a feature lies: the standard photographs that show it, closest first.
SHOTS_OF_VIEW = {
    "front": (Shot.CLOSURE, Shot.POCKET, Shot.FRONT),
    "back": (Shot.BACK,),
    "inside": (Shot.INSIDE, Shot.NECK_INSIDE, Shot.WAISTBAND_INSIDE, Shot.CROWN_INSIDE, Shot.SEAM),
    "label": (Shot.MAIN_LABEL, Shot.SIZE_LABEL, Shot.TREATMENT_LABEL, Shot.PROPERTY_MARK),
    "sleeve_left": (Shot.CUFF, Shot.FRONT),
    "sleeve_right": (Shot.CUFF, Shot.FRONT),
    "side_left": (Shot.SIDE,),
    "top": (Shot.TOP,),
    "palm": (Shot.PALM,),
    "cuff": (Shot.GLOVE_CUFF,),
    "flap": (Shot.FLAP,),
    "strap": (Shot.STRAP,),
    "any": (Shot.WEAVE, Shot.DAYLIGHT, Shot.FRONT),
}
MOST_CHOICES = 24
TYPED = ("q", "year_from", "year_to", "reviewed", "looked")


def gallery_context(person, given: QueryDict, *, number: int) -> dict:
    """Everything the template needs, for whatever the address holds and whoever asks."""
    member, moderator = is_member(person), is_moderator(person)
    given, moved = in_place_of_retired(given, number=number)
    wanted = wanted_states(given, number=number)
    filtered = ExampleFilter(given, seen_by_all(), showing=wanted.showing)
    visible = visible_to(person if member else None, moderator=moderator)
    facets = [facet for facet in FACETS if facet != "state" or member]
    known = [*ExampleFilter.base_filters, "page"]
    context = {
        "typed": {name: given.get(name, "") for name in TYPED},
        "shows": list(wanted.words),
        "unknown": [name for name in given if name not in known] + wanted.not_understood,
        "reviewed": plain_choices(REVIEWED, given.get("reviewed")) if member else [],
        "looked": plain_choices(LOOKED, given.get("looked")),
        "heading": heading(given, number=number),
        "is_member": member,
        "is_moderator": moderator,
        "moved": moved,
        "chosen": chosen_filters(given, wanted, number=number),
    }
    if moved and not given.getlist("version"):
        return context
    filtered.is_valid()
    told = {name: " ".join(messages) for name, messages in filtered.form.errors.items()}
    told |= unknown_values(given, number=number)
    if told:
        labels = {name: one.label for name, one in ExampleFilter.base_filters.items()}
        faults = [{"field": name, "label": labels[name], "words": words} for name, words in told.items()]
        return context | {"faults": faults, "fault_in": {fault["field"]: fault["words"] for fault in faults}}
    found, counts = found_for(filtered, person if member else None, moderator=moderator, number=number)
    page, odd_page = page_of(given.get("page"), found, A_PAGE)
    return context | {
        "page": page,
        "odd_page": odd_page,
        "keep": query_without(given, "page"),
        "found": len(found),
        "rows": rows_of(found, page, visible, wanted.shots, number=number),
        "facets": facets_of(found, filtered, facets, counts, given, number=number),
    }


def in_place_of_retired(given: QueryDict, *, number: int) -> tuple[QueryDict, list[dict]]:
    """The address with what stands now in place of each retired version that it asks for, and what became of those. One
    in whose place nothing stands is left out: no piece is kept as it."""
    codes, moved = [], []
    for code in given.getlist("version"):
        home = type_of_retired(code, number=number)
        if home is None:
            codes.append(code)
            continue
        now = home.in_force(code)
        codes += [one.code for one in now]
        moved.append(linked_version(home.retired[code]) | {"now": [linked_version(one) for one in now]})
    if moved:
        given = given.copy()
        given.setlist("version", list(dict.fromkeys(codes)))
    return given, moved


def linked_version(version: VersionFacts) -> dict:
    return {"code": version.code, "name": version.name, "address": address_of("version", version.code)}


def unknown_values(given: QueryDict, *, number: int) -> dict[str, str]:
    """By facet what stands in the address and in no list of this site, in words."""
    told = {}
    for facet in FACETS:
        if facet == "size":  # marks are what labels say
            continue
        words = words_of(facet, number=number)
        if odd := [value.strip()[:60] for value in given.getlist(facet) if value.strip() and value not in words]:
            there = f" There are: {', '.join(words)}." if facet in ("state", "condition") else ""
            told[facet] = f"there is no “{'”, “'.join(odd[:3])}” here.{there}"
    return told


def plain_choices(words: dict[str, str], chosen: str | None) -> list[dict]:
    return [{"code": code, "words": text, "chosen": code == chosen} for code, text in words.items()]


class Wanted:
    """States that the pieces shall show, as `shows=feature:state`, and the accepted pieces that do."""

    def __init__(self):
        self.showing: Callable[[], set[str]] | None = None
        self.words: dict[str, str] = {}
        self.shots: list[str] = []
        self.not_understood: list[str] = []


def wanted_states(given: QueryDict, *, number: int) -> Wanted:
    """Reads `shows`: states of one feature are alternatives, several features must all agree. It needs a garment type
    or a version, whose features the codes are."""
    wanted = Wanted()
    asked = [text for text in given.getlist("shows") if text.strip()]
    if not asked:
        return wanted
    facts = facts_asked_for(given, number=number)
    by_feature: dict[str, set[str]] = {}
    for text in asked:
        feature, _, state = text.partition(":")
        known = facts.features.get(feature) if facts else None
        if known is None or state not in known.state_by_code:
            wanted.not_understood.append(f"shows={text[:60]}")
            continue
        wanted.words[text] = f"{known.name}: {known.label_of(state).lower()}"
        by_feature.setdefault(feature, set()).add(state)
        wanted.shots += [shot for place in known.places for shot in SHOTS_OF_VIEW.get(place.view, ())]
    if by_feature:
        wanted.showing = cache(lambda: showing(facts.code, by_feature, number=number))
    return wanted


def showing(type_code: str, by_feature: dict[str, set[str]], *, number: int) -> set[str]:
    """Codes of the accepted pieces of a type on which each of these features shows one of these states."""
    return {
        piece.code
        for piece in evidence_of(type_code, number=number).pieces
        if all(piece.states.get(feature) in states for feature, states in by_feature.items())
    }


def facts_asked_for(given: QueryDict, *, number: int) -> TypeFacts | None:
    if code := given.get("type"):
        return type_facts(code, number=number)
    return type_of_version(given.get("version", ""), number=number)


def heading(given: QueryDict, *, number: int) -> dict:
    """Of which version or type the pieces are, when it is one."""
    versions, types = given.getlist("version"), given.getlist("type")
    if len(versions) == 1 and (facts := type_of_version(versions[0], number=number)):
        version = facts.versions[versions[0]]
        return {"name": version.name, "code": version.code, "page": "version"}
    if len(types) == 1 and not versions and (facts := type_facts(types[0], number=number)):
        return {"name": facts.name, "code": facts.code, "page": "type"}
    return {}


@dataclass(frozen=True)
class Part:
    """A part of the page: what it shows, and the same as HTML, which costs most to make."""

    shown: list[dict]
    html: str


def part(template: str, shown: list[dict]) -> Part:
    return Part(shown, render_to_string(f"member_examples/{template}.html", {"shown": shown}) if shown else "")


def facets_of(
    found: Found,
    filtered: ExampleFilter,
    facets: list[str],
    counts: Mapping[str, Counter],
    given: QueryDict,
    *,
    number: int,
) -> Part:
    """What narrows further. Kept where only what everybody sees was counted."""

    def read() -> Part:
        rows = [facet_row(facet, counts[facet], given.getlist(facet), number=number) for facet in facets]
        return part("gallery_facets", rows)

    return read() if len(found.first) else keep_facets((*facets, filtered.asked), read, number=number)


def rows_of(found: Found, page: Page, visible: QuerySet, shots: Sequence[str], *, number: int) -> Part:
    """The lines of one page. Those that everybody sees are kept until the reference changes or a photograph comes."""

    def read() -> Part:
        rows = [row_of(example, shots) for example in read_again(page.object_list, with_particulars(visible))]
        return part("gallery_rows", rows)

    if not found:
        return part("gallery_rows", [])
    if page.start_index() <= len(found.first):
        return read()
    newest = Photograph.with_taken_out.order_by("-pk").values_list("pk", flat=True).first()
    return keep_rows((newest, *shots, *page.object_list), read, number=number)


def with_particulars(rows: QuerySet) -> QuerySet:
    """The rows with all that a line of the gallery says: as many queries for one piece as for a page of them."""
    return rows.select_related("garment_type", "held_as", "maker").prefetch_related(
        Prefetch("photographs", Photograph.objects.filter(hidden=False)),
        "alterations",
    )


def row_of(example: Example, shots: Sequence[str] = ()) -> dict:
    """A line of the gallery. `shots`: standard photographs that show what is looked for, best first."""
    photographs = list(example.photographs.all())
    best = min(photographs, key=lambda one: shots.index(one.view) if one.view in shots else len(shots), default=None)
    particulars = [
        example.maker.name if example.maker else "",
        str(example.label_year or ""),
        f"size {example.size_mark}" if example.size_mark else "",
        example.condition_words.lower(),
    ]
    return {
        "code": example.code,
        "title": title_of(example),
        "address": example_address(example.code),
        "particulars": ", ".join(part for part in particulars if part),
        "picture": picture_of(best) if best else None,
        "pictures": len(photographs),
        "state": "" if example.state == "accepted" else example.state_words,
    }


def facet_row(facet: str, counts: dict[str, int], ticked: list[str], *, number: int) -> dict:
    """A facet's commonest values, how many pieces each would show, and whether it is ticked."""
    words = words_of(facet, number=number)
    values = sorted(counts, key=lambda value: (-counts[value], value))
    values += [value for value in dict.fromkeys(ticked) if value and value not in counts]
    shown = [value for place, value in enumerate(values) if place < MOST_CHOICES or value in ticked]
    return {
        "name": facet,
        "label": FACETS[facet][1],
        "choices": [
            {
                "code": value,
                "words": words.get(value, value),
                "number": counts.get(value, 0),
                "ticked": value in ticked,
            }
            for value in shown
        ],
        "more": len(values) - len(shown),
    }


def words_of(facet: str, *, number: int) -> dict[str, str]:
    """What people read for the values of a facet."""
    if facet == "version":
        return version_names(number=number)
    if facet in ("type", "maker"):
        table = GarmentType if facet == "type" else Maker
        return keep_for_state(("names", facet), lambda: dict(table.objects.values_list("code", "name")), number=number)
    return {"condition": CONDITION_WORDS, "state": STATE_WORDS}.get(facet, {})


def chosen_filters(given: QueryDict, wanted: Wanted, *, number: int) -> list[dict]:
    """What narrows the gallery now, each with the address without it."""
    found = []
    plain = {"reviewed": REVIEWED, "looked": LOOKED, "shows": wanted.words}
    for name in given:
        if name not in ExampleFilter.base_filters:
            continue
        words = plain.get(name) or (words_of(name, number=number) if name in FACETS else {})
        for value in dict.fromkeys(given.getlist(name)):
            if value.strip():
                label = ExampleFilter.base_filters[name].label
                rest = given.copy()
                rest.setlist(name, [other for other in rest.getlist(name) if other != value])
                rest.pop("page", None)
                found.append({"words": f"{label}: {words.get(value, value)}", "without": f"?{rest.urlencode()}"})
    return found


def query_without(given: QueryDict, name: str) -> str:
    rest = given.copy()
    rest.pop(name, None)
    return f"{rest.urlencode()}&" if rest else ""
