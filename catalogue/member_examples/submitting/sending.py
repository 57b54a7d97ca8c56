"""Sending a piece to the moderators, with what the site's own identification makes of it at that time."""

import uuid

from django.db import transaction
from django.utils import timezone

from catalogue.accounts.models import Member
from catalogue.member_examples import rules
from catalogue.member_examples.actions import add_engines_attribution, submit_example
from catalogue.member_examples.actions.refusals import NotDone, refuse_strangers
from catalogue.member_examples.models import Example
from catalogue.member_examples.submitting.advice import Known, Opinion, adviser
from catalogue.member_examples.submitting.answers import altered_on, answers_of, last_looks
from catalogue.member_examples.submitting.drafting import hold_what_was_begun
from catalogue.member_examples.submitting.pictures import clear_taken_out
from catalogue.member_examples.words import ExampleState, NameOnLabel
from catalogue.reference.models import IssueVersion, ReferenceState
from catalogue.reference.snapshots import type_facts


def reason_not_to_send(example: Example) -> str | None:
    """Why it cannot be sent now, in words for its owner."""
    refusal = rules.reason_not_to_send(
        state=example.state,
        looks=example.observations.count(),
        photographs=example.photographs.count(),
        labels=example.labels.count(),
    )
    if refusal is None and example.name_on_label == NameOnLabel.NOT_LOOKED:
        return "Say first whether a wearer's name is to be seen on it."
    return refusal


def known_of(example: Example) -> Known:
    return Known(
        maker=example.maker.code if example.maker else "",
        size=example.size_mark,
        year=example.label_year,
        code=example.code,
    )


def opinion_of(example: Example, member: Member) -> Opinion | None:
    """What the identification makes of what the member saw on the piece."""
    if example.garment_type is None:
        return None
    number = ReferenceState.current_number()
    facts = type_facts(example.garment_type.code, number=number)
    if facts is None:
        return None
    answers = answers_of(last_looks(example, member), facts, altered_on(example))
    return adviser().opinion(facts, answers, known_of(example), number)


@transaction.atomic
def send(*, example: Example, member: Member, token: uuid.UUID) -> Example:
    """Send the piece, once however often it is tapped. Raises NotDone with the reason where it cannot go."""
    refuse_strangers(example, member)
    example.refresh_from_db()
    if example.sent_once == token and example.state == ExampleState.SUBMITTED:
        return example
    if refusal := reason_not_to_send(example):
        raise NotDone(refusal)
    hold_what_was_begun(example=example, member=member)
    opinion = opinion_of(example, member)
    sent = submit_example(example=example, member=member, token=token)
    if opinion:
        add_engines_attribution(
            example=sent,
            version=IssueVersion.objects.filter(code=opinion.version).first() if opinion.version else None,
            held=opinion.held,
            grounds=grounds_of(opinion),
            chance=opinion.chance,
        )
    clear_taken_out(sent, before=timezone.now())
    return sent


def grounds_of(opinion: Opinion) -> str:
    """`Fell smock, Pattern 76. Pocket flap: pointed (strongly for it) …`"""
    told = "; ".join(f"{one.name}: {one.answer} ({one.word})" for one in opinion.reasons[:8])
    return f"{opinion.title}. {opinion.why}" + (f" {told}." if told else "")
