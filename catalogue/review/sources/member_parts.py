"""What this slice keeps of a person: sources stay when they leave, as what they decided does."""

from catalogue.accounts.sections import MemberPart, register
from catalogue.review.models import SourceAddition


def exported(member) -> list[dict]:
    return [
        {"source": one.code, "title": one.title, "on": one.made_at, "taken back because": one.reason}
        for one in SourceAddition.objects.filter(by=member)
    ]


register(MemberPart(name="sources", heading="Sources that you added", export=exported))
