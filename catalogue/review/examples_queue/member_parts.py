"""What this slice knows of a person: what they are told, and what they wrote about pieces."""

from collections.abc import Iterable

from django.db.models import F, QuerySet
from django.urls import reverse

from catalogue.accounts.sections import MemberPart, register
from catalogue.member_examples.submitting.steps import address
from catalogue.member_examples.words import DecisionKind
from catalogue.review.models import MailWish, Notice, PieceWord, QueueLook
from catalogue.review.proposals.telling import proposal_row

IN_SECTION = 5


def notices_of(member) -> QuerySet:
    return Notice.objects.filter(member=member).select_related(
        "decision__example", "decision__moderator", "decision__held_as", "word__example", "word__by",
        "proposal_decision__proposal__version", "proposal_decision__by", "proposal_word__proposal__version",
        "proposal_word__by",
    )  # fmt: skip


def notice_rows(notices: Iterable[Notice], member) -> list[dict]:
    """Each with what happened, who did it, the words and where it leads."""
    return [notice_row(one, member) for one in notices]


def notice_row(one: Notice, member) -> dict:
    if one.about_proposal:
        return proposal_row(one)
    about = one.decision or one.word
    example = about.example
    thread = reverse("examples_queue:thread", args=[example.code])
    own = example.owner_id == member.pk
    return {
        "code": example.code,
        "new": one.read_at is None,
        "on": one.made_at,
        "what": DecisionKind(one.decision.decision).label if one.decision else "A word about it",
        "held_as": one.decision.held_as.name if one.decision and one.decision.held_as else "",
        "by": one.decision.moderator.username if one.decision else one.word.by.username,
        "text": one.decision.reason if one.decision else one.word.text,
        "address": address("piece", example.code) if own else reverse("examples_queue:piece", args=[example.code]),
        "thread": thread,
        "asks": bool(one.decision and one.decision.decision == DecisionKind.RETURNED or one.word),
    }


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
        "by e-mail": MailWish.objects.filter(member=member).exists(),
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
        template="review/examples_queue/own_section.html",
        own=own_notices,
        export=exported,
        forget=forget,
    )
)
