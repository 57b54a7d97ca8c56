"""The demo society's records count as looked through, but those of one garment type, which show how the others were."""

from django.db import transaction

from catalogue.accounts.models import Member
from catalogue.reference.models import IssueVersion
from catalogue.review.models import RecordLook
from catalogue.review.unreviewed.actions import pass_records
from catalogue.review.unreviewed.gathering import NOT_PROPOSED

LEFT_TO_DO = "HAT"


@transaction.atomic
def load_demo_looks() -> int:
    """How many were looked through; none where any was before."""
    if RecordLook.objects.exists():
        return 0
    rows = IssueVersion.objects.filter(NOT_PROPOSED).exclude(garment_type__code=LEFT_TO_DO)
    done = pass_records(
        records=list(rows.values_list("current_record", flat=True)),
        by=Member.objects.get(username="Dunlin"),
        reason="Compared with the society's card index, card by card.",
    )
    return len(done.codes)
