"""Whether versions change by proposals alone."""

from urllib.parse import urlencode

from django.conf import settings
from django.db.models import Q
from django.urls import reverse

from catalogue.reference.models import IssueVersion, VersionRecord


def review_is_on() -> bool:
    """By `CATALOGUE_REVIEW`: `yes`, as soon as there is any record, for the first load has nothing to be held against;
    `begun`, once a record in force was approved or looked through; `no`, never.
    """
    if settings.REVIEW == "no":
        return False
    if settings.REVIEW == "yes":
        return VersionRecord.objects.exists()
    reviewed = Q(current_record__standing=VersionRecord.Standing.APPROVED) | Q(passed_record__isnull=False)
    return IssueVersion.objects.filter(reviewed).exists()


def under_review(request) -> bool:
    """The same, asked once for a request."""
    if not hasattr(request, "under_review"):
        request.under_review = review_is_on()
    return request.under_review


def address_to_propose_feature(code: str) -> str:
    """The same of a feature."""
    return f"{reverse('feature_records:begin')}?{urlencode({'feature': code})}"


def address_to_propose_on_question(code: str) -> str:
    """The same of an open question."""
    return f"{reverse('questions:begin')}?{urlencode({'question': code})}"


def address_to_propose_on(table: str, code: str = "") -> str:
    """The same of what versions rest on; without a code of one that is new."""
    asked = f"?{urlencode({'code': code})}" if code else ""
    return reverse("backing:begin", args=[table]) + asked


def address_to_propose(code: str) -> str:
    """Where a change of the version is proposed; the pages of proposals are of a later slice."""
    return f"{reverse('proposals:new')}?{urlencode({'version': code})}"
