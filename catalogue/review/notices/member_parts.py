"""What this slice knows of a person: what they are told, and what they wrote about pieces."""

from collections.abc import Iterable

from django.db.models import F, QuerySet
from django.urls import reverse
from django.utils.formats import date_format

from catalogue.accounts.sections import MemberPart, register
from catalogue.member_examples.addresses import example_address
from catalogue.member_examples.submitting.steps import address
from catalogue.member_examples.words import DecisionKind
from catalogue.review.models import MailWish, Notice, PieceWord, QueueLook
from catalogue.review.proposals.telling import proposal_row

IN_SECTION = 5


def notices_of(member) -> QuerySet:
    return Notice.objects.filter(member=member).select_related(
        "decision__example", "decision__moderator", "decision__held_as", "word__example", "word__by", "piece__owner",
        "joining__member", "name_request__example", "name_request__by", "name_note__example", "name_note__by",
        "proposal_decision__proposal__version", "proposal_decision__proposal__feature",
        "proposal_decision__proposal__question", "proposal_decision__proposal__scan__source",
        "proposal_decision__by", "proposal_decision__in_place_of",
        "proposal_word__proposal__version", "proposal_word__proposal__feature", "proposal_word__proposal__question",
        "proposal_word__proposal__scan__source",
        "proposal_word__by", "leave__moderator",
        "set_place__example", "set_place__example_set", "set_place__added_by",
        "set_place__example_set__made_by",
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


def set_row(place) -> dict:
    """Leads to the page of the piece, where its owner takes it out."""
    return {
        "code": place.example.code,
        "what": f"Put into the set “{place.example_set.name}”; you may take it out",
        "by": (place.added_by or place.example_set.made_by).username,
        "address": f"{example_address(place.example.code)}#sets",
    }


def example_of(one: Notice):
    for about in (one.decision, one.word, one.name_request, one.name_note, one.set_place):
        if about:
            return about.example
    return one.piece


def piece_address(example, *, own: bool) -> str:
    return address("piece", example.code) if own else reverse("examples_queue:piece", args=[example.code])


def own_notices(member) -> dict | None:
    """The unread ones, or the latest; None for who was never told anything."""
    unread_first = notices_of(member).order_by(F("read_at").desc(nulls_first=True), "-made_at", "-pk")
    found = list(unread_first[: IN_SECTION + 1])
    if not found:
        return None
    new = Notice.objects.filter(member=member, read_at__isnull=True).count()
    return {"rows": notice_rows(found[:IN_SECTION], member), "new": new, "more": len(found) > IN_SECTION}


def exported(member) -> dict:
    return {
        "told": [
            {"about": row["code"], "what": row["what"], "words": row["text"], "on": row["on"]}
            for row in notice_rows(notices_of(member), member)
        ],
        "wrote": [
            {"piece": word.example.code, "words": word.text, "on": word.made_at}
            for word in PieceWord.objects.filter(by=member).select_related("example")
        ],
        "by e-mail": MailWish.objects.filter(member=member).values_list("how", flat=True).first() or "",
    }


def forget(member) -> None:
    """When a member leaves: notices are for nobody now; words stay with the pieces, under no name."""
    Notice.objects.filter(member=member).delete()
    MailWish.objects.filter(member=member).delete()
    QueueLook.objects.filter(moderator=member).delete()


register(
    MemberPart(
        name="notices",
        heading="Notices",
        template="review/notices/own_section.html",
        own=own_notices,
        export=exported,
        forget=forget,
    )
)
