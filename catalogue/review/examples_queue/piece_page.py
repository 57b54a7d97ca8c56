"""The one screen on which a piece is decided."""

from dataclasses import dataclass
from datetime import datetime

from django.db.models import prefetch_related_objects

from catalogue.member_examples import rules
from catalogue.member_examples.comparing import Beside
from catalogue.member_examples.example_page import (
    alteration_row,
    attributions,
    condition_notes,
    decisions,
    labels,
    looks,
    pictures,
)
from catalogue.member_examples.models import Example
from catalogue.member_examples.submitting.names import names_for
from catalogue.member_examples.titles import title_of
from catalogue.member_examples.words import DecisionKind, ExampleState
from catalogue.reference.facts import TypeFacts, VersionFacts
from catalogue.reference.snapshots import type_facts
from catalogue.review.examples_queue.doubts import doubts_of
from catalogue.review.examples_queue.gathering import Claim, claims_of, effects_as, known_of
from catalogue.review.examples_queue.likely_duplicates import likely_duplicates
from catalogue.review.examples_queue.rank import age_words, waiting_words
from catalogue.review.models import PieceWord

EARLIER = 12


@dataclass(frozen=True)
class LaidBeside:
    """Beside which version's record a piece is laid, and what it is claimed to be."""

    facts: TypeFacts | None
    version: VersionFacts | None
    claimed: VersionFacts | None
    claim: Claim


def laid_beside(example: Example, *, considered: str, type_code: str, number: int) -> LaidBeside:
    """`considered`: a version's code, empty for the claimed one; `type_code`: a garment type for a piece without."""
    facts, version, claim = known_of(example, claims_of(Example.objects.filter(pk=example.pk)), number)
    if facts is None and type_code:
        facts = type_facts(type_code, number=number)
        version = facts.versions.get(claim.version) if facts else None
    return LaidBeside(facts, facts.versions.get(considered, version) if facts else None, version, claim)


def piece_context(person, example: Example, beside: LaidBeside, *, number: int, now: datetime) -> dict:
    """Everything the screen shows."""
    facts, version = beside.facts, beside.version
    prefetch_related_objects([example], "alterations__features", "alterations__added_by", "alterations__confirmed_by")
    alterations = list(example.alterations.all())
    groups, tally, observers = looks(example, facts, version, alterations)
    rows = [row for group in groups for row in group["rows"]]
    return {
        "example": example,
        "title": title_of(example),
        "facts": facts,
        "version": version,
        "claim": beside.claim,
        "claimed": beside.claimed,
        "number": number,
        "age": (waiting_words if example.state == ExampleState.SUBMITTED else age_words)(
            example.submitted_at or example.made_at, now
        ),
        "pictures": pictures(example, unmasked=True),
        "labels": labels(example, unmasked=True),
        "alterations": [alteration_row(example, one, person) for one in alterations],
        "condition_notes": condition_notes(example),
        "plain_names": [one.name for one in names_for(example, moderator=True) if one.name],
        "groups": groups,
        "odd": [group for one in groups if (group := only(one, plainly=False))["rows"]],
        "plain": [group for one in groups if (group := only(one, plainly=True))["rows"]],
        "plain_rows": sum(row["compared"].beside == Beside.AGREES for row in rows),
        "tally": tally if version else {},
        "observers": observers,
        "disputed": [row for row in rows if row["compared"].beside == Beside.DISPUTED],
        "attributions": attributions(example),
        "decisions": decisions(example),
        "doubts": doubts_of(example),
        "effects": effects_as(example, facts, version, number=number) if version else None,
        "duplicates": likely_duplicates(example),
        "earlier": earlier_of(example),
        "words": words_of(example),
        "waits": example.state == ExampleState.SUBMITTED,
        "is_own": example.owner_id == person.pk,
        "may_open_again": example.owner_id != person.pk and example.state in rules.MOVES[DecisionKind.REOPENED][0],
    }


def only(group: dict, *, plainly: bool) -> dict:
    """The rows of a group that agree with the record, or the others."""
    rows = [row for row in group["rows"] if (row["compared"].beside == Beside.AGREES) == plainly]
    return group | {"rows": rows}


def earlier_of(example: Example) -> dict:
    """The owner's other pieces that were sent, the latest first, and what became of all of them."""
    others = Example.objects.filter(owner=example.owner_id).exclude(pk=example.pk).exclude(state=ExampleState.DRAFT)
    rows = list(others.select_related("garment_type", "held_as").prefetch_related("alterations"))
    rows.sort(key=lambda one: (one.submitted_at, one.pk), reverse=True)
    fates = {state.label.lower(): sum(one.state == state for one in rows) for state in ExampleState}
    return {
        "fates": {words: many for words, many in fates.items() if many},
        "rows": [{"example": one, "title": title_of(one)} for one in rows[:EARLIER]],
        "more": max(0, len(rows) - EARLIER),
    }


def words_of(example: Example) -> list[PieceWord]:
    return list(PieceWord.objects.filter(example=example).select_related("by"))
