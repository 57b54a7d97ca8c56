"""Sets of pieces: what people say of them, and what comparing their dates, cuts, prints, makers and sizes says."""

from catalogue.long_lists import page_of
from catalogue.member_examples.addresses import example_address, set_address
from catalogue.member_examples.gates import is_member, may_change_set, owns, readable_places, readable_sets
from catalogue.member_examples.models import Example, ExampleInSet, ExampleSet
from catalogue.member_examples.sets.rules import VERDICT_WORDS, Says, SetPiece, judge_set
from catalogue.member_examples.titles import title_of
from catalogue.member_examples.words import ExampleState, Together
from catalogue.reference.snapshots import type_of_version

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


def piece_row(place: ExampleInSet, person) -> dict:
    """One piece of a set; `seller` is what it was sold as, beside what it is."""
    one = place.example
    return {
        "code": one.code,
        "title": title_of(one),
        "address": example_address(one.code),
        "seller": one.sold_as,
        "not_as_sold": bool(one.sold_as_version_id and one.held_as_id and one.sold_as_version_id != one.held_as_id),
        "owner": one.owner.username,
        "mine": owns(person, one),
        "not_for_all": "" if one.state == ExampleState.ACCEPTED else one.state_words.lower(),
    }


def changing_context(person, found: ExampleSet) -> dict:
    return {
        "set": found,
        "pieces": [piece_row(place, person) for place in readable_places(person, found)],
        "is_maker": found.made_by_id == person.pk,
    }


def set_context(person, found: ExampleSet, *, number: int) -> dict:
    places = readable_places(person, found)
    verdict, pairs = judge_set([set_piece(one.example, number=number) for one in places], fasten=found.fasten)
    return {
        "set": found,
        "verdict": verdict,
        "verdict_words": VERDICT_WORDS[verdict],
        "together": Together(found.together).label.lower(),
        "holder": found.made_by.username,
        "may_change": may_change_set(person, found),
        "pieces": [piece_row(place, person) for place in places],
        "pairs": [
            {
                "first": pair.first,
                "second": pair.second,
                "verdict": pair.verdict,
                "reasons": [
                    {
                        "about": reason.about,
                        "words": reason.words,
                        "mark": MARKS[reason.says],
                        "direction": DIRECTIONS.get(reason.says, "against"),
                        "says": {"for": "speaks for it", "neither": "says little"}.get(
                            DIRECTIONS.get(reason.says, ""), "speaks against it"
                        ),
                    }
                    for reason in pair.reasons
                ],
            }
            for pair in pairs
        ],
    }


def set_piece(example: Example, *, number: int) -> SetPiece:
    """What is compared of an example; what its version says where it is held as one."""
    held = example.held_as.code if example.held_as else ""
    facts = type_of_version(held, number=number) if held else None
    version = facts.versions.get(held) if facts else None
    return SetPiece(
        code=example.code,
        version=held,
        kind=version.kind if version else "",
        year=example.label_year,
        first=version.from_year if version else None,
        last=version.to_year if version else None,
        cut=version.cut if version else "",
        colourway=version.colourway if version else "",
        maker=example.maker.name if example.maker else "",
        size=example.size_mark,
    )
