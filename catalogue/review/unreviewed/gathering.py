"""What waits to be looked through, by garment type; in a number of queries that does not grow with it."""

from django.db.models import Count, F, Prefetch, Q, QuerySet

from catalogue.reference.models import GarmentType, IssueVersion
from catalogue.reference.words import UNREVIEWED
from catalogue.review.models import RecordLook

WAITING, PASSED = "waiting", "passed"
LISTS = {WAITING: "Not reviewed", PASSED: "Looked through"}
NOT_PROPOSED = Q(current_record__standing__in=UNREVIEWED, retired_why="")
IS_PASSED = Q(passed_record=F("current_record"))


def listed(type_code: str, which: str) -> QuerySet:
    """Versions of a type whose record nobody proposed, not yet looked through or looked through."""
    rows = IssueVersion.objects.filter(NOT_PROPOSED, garment_type__code=type_code)
    rows = rows.filter(IS_PASSED) if which == PASSED else rows.exclude(IS_PASSED)
    looks = Prefetch("current_record__looks", RecordLook.objects.select_related("by"))
    cells = Count("current_record__cells__state__feature", distinct=True)
    return (
        rows.select_related("current_record__written_by")
        .prefetch_related(looks)
        .annotate(features=cells)
        .order_by("position", "code")
    )


def types() -> list[dict]:
    """Every garment type with how many of its records wait, and how many were looked through."""
    of_versions = {
        row["garment_type_id"]: row
        for row in IssueVersion.objects.filter(NOT_PROPOSED)
        .order_by()
        .values("garment_type_id")
        .annotate(all=Count("pk"), passed=Count("pk", filter=IS_PASSED))
    }
    nothing = {"all": 0, "passed": 0}
    return [
        {"code": one.code, "name": one.name, "passed": row["passed"], "waiting": row["all"] - row["passed"]}
        for one in GarmentType.objects.order_by("position", "code")
        if (row := of_versions.get(one.pk, nothing))["all"]
    ]


def row_of(version: IssueVersion) -> dict:
    record = version.current_record
    looks = list(record.looks.all())
    return {
        "record": record.pk,
        "number": record.number,
        "code": version.code,
        "name": version.name,
        "by": record.written_by.username if record.written_by else "",
        "by_hand": record.standing == "written",
        "made_at": record.made_at,
        "why": record.why,
        "features": version.features,
        "look": looks[-1] if looks else None,
    }
