"""What this slice keeps of a person: views stay when they leave, without their name."""

from django.db.models.functions import Length

from catalogue.accounts.sections import MemberPart, register
from catalogue.reference.models import QuestionView, ReferenceState

FORMER = "a former member"


def exported(member) -> list[dict]:
    rows = (
        QuestionView.objects.filter(by=member)
        .select_related("question")
        .order_by("question__code", Length("letter"), "letter")
    )
    return [
        {
            "question": one.question.code,
            "letter": one.letter,
            "holder": one.holder,
            "text": one.text,
            "on": one.made_at,
            "said not to be the holder's": one.disowned,
            "taken out because": one.taken_out,
        }
        for one in rows
    ]


def forget(member) -> None:
    """Their name as the holder goes, whoever wrote the view down; a holder that they cited stays, and what is kept
    ready says no more that they wrote it down."""
    held = QuestionView.objects.filter(holder__iexact=member.username).update(holder=FORMER)
    if held or QuestionView.objects.filter(by=member).exists():
        ReferenceState.mark_changed()


register(MemberPart(name="views", heading="Views on open questions", export=exported, forget=forget))
