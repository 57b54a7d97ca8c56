"""What this slice keeps of a person: that they looked a record through stays, as every decision."""

from catalogue.accounts.sections import MemberPart, register
from catalogue.review.models import RecordLook


def exported(member) -> list[dict]:
    rows = RecordLook.objects.filter(by=member).select_related("record__version").order_by("pk")
    return [
        {
            "version": one.record.version.code,
            "record": one.record.number,
            "passed": one.passed,
            "reason": one.reason,
            "on": one.made_at,
        }
        for one in rows
    ]


register(MemberPart(name="looked_through", heading="Records looked through", export=exported))
