"""What this slice knows of a person: what they are told, and what they wrote about pieces."""

from django.db.models import F

from catalogue.accounts.sections import MemberPart, register
from catalogue.review.models import MailWish, Notice, PieceWord, QueueLook
from catalogue.review.notices.rows import notice_rows, notices_for, notices_of

IN_SECTION = 5


def own_notices(member) -> dict | None:
    """The unread ones, or the latest; None for who was never told anything."""
    unread_first = notices_of(member).order_by(F("read_at").desc(nulls_first=True), "-made_at", "-pk")
    found = list(unread_first[: IN_SECTION + 1])
    if not found:
        return None
    new = notices_for(member).filter(read_at__isnull=True).count()
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
