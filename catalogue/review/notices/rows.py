"""A member's notices as their page and their mails show them: what happened, who did it, where it leads."""

from collections.abc import Iterable

from django.db.models import Q, QuerySet
from django.urls import reverse
from django.utils.formats import date_format

from catalogue.accounts.roles import ADMIT_MEMBERS, REVIEW_EXAMPLES, may
from catalogue.member_examples.addresses import example_address
from catalogue.member_examples.submitting.steps import address
from catalogue.member_examples.titles import altered_words
from catalogue.member_examples.words import DecisionKind
from catalogue.reference.addresses import address_of
from catalogue.review.models import Notice
from catalogue.review.proposals.telling import proposal_row
from catalogue.review.proposals.words import ProposalState


def notices_for(member) -> QuerySet:
    """What a member was told, without what only those read who moderate or admit, where they do so no more."""
    told = Notice.objects.filter(member=member)
    if not may(member, REVIEW_EXAMPLES):
        told = told.filter(piece__isnull=True)
        for about in ("name_request", "word"):
            told = told.filter(Q(**{f"{about}__isnull": True}) | Q(**{f"{about}__example__owner": member}))
    return told if may(member, ADMIT_MEMBERS) else told.filter(joining__isnull=True)


def notices_of(member) -> QuerySet:
    """The same with all that their rows say. Joined as far as SQLite joins, which is 64 tables; the rest is fetched
    where there is any."""
    fetched = notices_for(member).prefetch_related("alteration__example", "alteration__added_by")
    return fetched.select_related(
        "decision__example", "decision__moderator", "decision__held_as", "word__example", "word__by", "piece__owner",
        "joining__member", "name_request__example", "name_request__by", "name_note__example", "name_note__by",
        "proposal_decision__proposal__version", "proposal_decision__proposal__feature",
        "proposal_decision__proposal__question", "proposal_decision__proposal__scan__source",
        "proposal_decision__by", "proposal_decision__in_place_of",
        "proposal_word__proposal__version", "proposal_word__proposal__feature", "proposal_word__proposal__question",
        "proposal_word__proposal__scan__source",
        "proposal_word__by", "leave__moderator",
        "set_place__example", "set_place__example_set", "set_place__added_by",
        "set_place__example_set__made_by", "view_decision__view__question", "view_decision__by",
        "proposal__version", "proposal__feature", "proposal__question", "proposal__scan__source", "proposal__by",
        "reference_import__by", "view__question", "view__by", "source_added__source", "source_added__by",
        "source_added__taken_back_by",
    )  # fmt: skip


def notice_rows(notices: Iterable[Notice], member) -> list[dict]:
    """Each with what happened, who did it, the words and where it leads."""
    return [notice_row(one, member) for one in notices]


def notice_row(one: Notice, member) -> dict:
    """`asks`: an answer is expected in the thread of the piece."""
    if one.about_proposal:
        return proposal_row(one)
    example = example_of(one)
    own = example is not None and example.owner_id == member.pk
    row = {"code": example.code if example else "", "new": one.read_at is None, "on": one.made_at, "held_as": ""}
    row |= {"asks": False, "thread": "", "text": "", "address": piece_address(example, own=own) if example else ""}
    if one.decision:
        made = one.decision
        row |= {"what": DecisionKind(made.decision).label, "by": made.moderator.username, "text": made.reason}
        row |= {"held_as": made.held_as.name if made.held_as else "", "asks": made.decision == DecisionKind.RETURNED}
    elif one.word:
        row |= {"what": "A word about it", "by": one.word.by.username, "text": one.word.text, "asks": True}
    elif one.piece:
        again = f", for the {one.sending}. time" if one.sending > 1 else ""
        row |= {"what": f"Sent{again}, and waits for a moderator", "by": one.piece.owner.username}
    elif one.name_request:
        asked = one.name_request
        row |= {"what": "Somebody asks for a name to be removed", "by": asked.by.username, "text": asked.words}
        row |= {"address": reverse("member_examples:names", args=[example.code])}
    elif one.leave:
        row |= leave_row(one.leave)
    elif one.set_place:
        row |= set_row(one.set_place)
    elif one.alteration:
        row |= altered_row(one.alteration)
    elif one.view_decision:
        row |= view_row(one.view_decision)
    elif one.proposal:
        row |= waiting_row(one)
    elif one.reference_import:
        row |= import_row(one.reference_import)
    elif one.view:
        row |= told_row(one.view)
    elif one.source_added:
        row |= source_row(one.source_added)
    elif one.name_note:
        row |= {"what": "A name was removed at somebody's request", "by": one.name_note.by.username}
    else:
        row |= {"code": "Request to join", "what": "Somebody asks to join", "by": one.joining.member.username}
        row |= {"address": reverse("accounts:decide", args=[one.joining_id])}
    if row["asks"]:
        row["thread"] = reverse("examples_queue:thread", args=[example.code])
    return row


def leave_row(leave) -> dict:
    until = f"{date_format(leave.begins, 'j F Y')} until {date_format(leave.ends, 'j F Y')}"
    return {
        "code": "Standing in",
        "what": f"You stand in from {until}",
        "by": leave.moderator.username,
        "address": f"{reverse('accounts:my_page')}#away",
    }


def view_row(made) -> dict:
    """Leads to the question, whose history keeps the reason."""
    question = made.view.question
    return {
        "code": f"Question {question.code}",
        "what": f"Your view {made.view.letter} was {'taken out' if made.taken_out else 'put back'}",
        "by": made.by.username,
        "text": made.reason,
        "address": f"{address_of('open_question', question.code)}#taken-out",
    }


def told_row(view) -> dict:
    """Leads to the question, where the member says whether it is theirs."""
    return {
        "code": f"Question {view.question.code}",
        "what": f"View {view.letter} was entered as yours; you may say that it is not",
        "by": view.by.username if view.by else "",
        "text": view.text,
        "address": f"{address_of('open_question', view.question.code)}#yours-{view.letter}",
    }


def waiting_row(one: Notice) -> dict:
    """Of one that was decided since, only that it was sent."""
    again = f", for the {one.sending}. time" if one.sending > 1 else ""
    waits = one.proposal.state == ProposalState.OPEN
    return {
        "code": f"Proposal {one.proposal_id} ({one.proposal.about_code})",
        "what": f"Sent{again}{', and waits for a decision' if waits else ''}",
        "by": one.proposal.by.username,
        "text": one.proposal.grounds,
        "address": reverse("proposals:proposal", args=[one.proposal_id]),
    }


def import_row(made) -> dict:
    return {
        "code": f"Import {made.pk}",
        "what": "Its proposals were sent, and wait for a decision",
        "by": made.by.username,
        "text": made.because,
        "address": reverse("imports:together", args=[made.pk]),
    }


def what_of_source(added) -> str:
    return "It was taken back" if added.taken_back_at else "It was added to the list"


def source_row(added) -> dict:
    """One that was taken back has no page any more: the list of those that were added keeps why."""
    listed = reverse("sources:added")
    return {
        "code": f"Source {added.code}",
        "what": what_of_source(added),
        "by": (added.taken_back_by or added.by).username,
        "text": added.reason or added.title,
        "address": address_of("source", added.source.code) if added.source else listed,
    }


def set_row(place) -> dict:
    """Leads to the page of the piece, where its owner takes it out."""
    return {
        "code": place.example.code,
        "what": f"Put into the set “{place.example_set.name}”; you may take it out",
        "by": (place.added_by or place.example_set.made_by).username,
        "address": f"{example_address(place.example.code)}#sets",
    }


def altered_row(alteration) -> dict:
    """Leads to the page of the piece, where its owner confirms it."""
    return {
        "code": alteration.example.code,
        "what": f"Seen as altered: {altered_words([alteration])}; it counts once you or a moderator confirm it",
        "by": alteration.added_by.username,
        "address": f"{example_address(alteration.example.code)}#altered",
    }


def example_of(one: Notice):
    for about in (one.decision, one.word, one.name_request, one.name_note, one.set_place, one.alteration):
        if about:
            return about.example
    return one.piece


def piece_address(example, *, own: bool) -> str:
    return address("piece", example.code) if own else reverse("examples_queue:piece", args=[example.code])
