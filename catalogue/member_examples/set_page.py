"""Sets of pieces: what people say of them, and what comparing their dates, cuts, prints, makers and sizes says."""

from django.db.models import Count

from catalogue.member_examples.addresses import example_address, set_address
from catalogue.member_examples.filters import visible_to
from catalogue.member_examples.gates import is_member, is_moderator, readable_pieces
from catalogue.member_examples.models import Example, ExampleSet
from catalogue.member_examples.set_rules import VERDICT_WORDS, Says, SetPiece, judge_set
from catalogue.member_examples.titles import title_of
from catalogue.member_examples.words import Together
from catalogue.reference.snapshots import type_of_version

MARKS = {Says.FOR: "+", Says.AGAINST: "−", Says.STRONGLY_AGAINST: "−", Says.NOTHING: "·"}
DIRECTIONS = {Says.FOR: "for", Says.NOTHING: "neither"}


def sets_context(person) -> dict:
    visible = visible_to(person if is_member(person) else None, moderator=is_moderator(person)).order_by()
    rows = (
        ExampleSet.objects.filter(examples__in=visible)
        .annotate(pieces=Count("examples"))
        .filter(pieces__gte=2)
        .order_by("code")
    )
    return {
        "rows": [
            {
                "name": row.name,
                "code": row.code,
                "address": set_address(row.code),
                "pieces": row.pieces,
                "together": Together(row.together).label.lower(),
            }
            for row in rows
        ]
    }


def set_context(person, found: ExampleSet, *, number: int) -> dict:
    pieces = readable_pieces(person, found)
    verdict, pairs = judge_set([set_piece(one, number=number) for one in pieces], fasten=found.fasten)
    return {
        "set": found,
        "verdict": verdict,
        "verdict_words": VERDICT_WORDS[verdict],
        "together": Together(found.together).label.lower(),
        "holder": found.made_by.username,
        "pieces": [{"code": one.code, "title": title_of(one), "address": example_address(one.code)} for one in pieces],
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
        "hidden": found.examples.count() - len(pieces),
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
