"""Who sees a scan: everybody while it is shown; before that who put it in, and once it was sent moderators, who decide
on it themselves: names on it are not for others."""

from django.http import Http404

from catalogue.accounts.roles import REVIEW_REFERENCE, may
from catalogue.reference.models import SourceScan
from catalogue.review.proposals.words import ProposalState

NOT_THERE = "There is no such scan."


def scan_for_reader(person, **named) -> SourceScan:
    """The scan with that number or key. Raises Http404 where it is not there, or not for this person."""
    row = SourceScan.objects.select_related("source", "proposal__by").filter(**named).exclude(key="").first()
    if row is None or not (row.shown or sees_unshown(person, row)):
        raise Http404(NOT_THERE)
    return row


def once_shown(number: int) -> SourceScan | None:
    """The scan with that number if everybody could see it once, and cannot any more: its address still answers."""
    found = SourceScan.objects.select_related("source").filter(
        pk=number, shown=False, proposal__state__in=(ProposalState.APPROVED, ProposalState.REVOKED)
    )
    return found.first()


def sees_unshown(person, scan: SourceScan) -> bool:
    proposal = scan.proposal
    if not person.is_authenticated:
        return False
    return proposal.by_id == person.pk or (proposal.state != ProposalState.DRAFT and may(person, REVIEW_REFERENCE))
