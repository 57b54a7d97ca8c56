"""Who may open which proposal: a draft its author alone, what was sent every member."""

from django.http import Http404

from catalogue.accounts.models import Member
from catalogue.reference.models import GarmentType, IssueVersion
from catalogue.reference.nearest import no_such_record, record_or_nearest, version_names
from catalogue.review.models import Proposal
from catalogue.review.proposals.words import ProposalState

MISSING = "There is no such proposal."


def proposal_for_reader(person: Member, number: int) -> Proposal:
    rows = Proposal.objects.select_related(
        "by", "garment_type", "version", "other", "feature", "question", "scan__source", "based_on__version"
    )
    found = rows.filter(pk=number).first()
    if found is None or found.state == ProposalState.DRAFT and found.by_id != person.pk:
        raise Http404(MISSING)
    return found


def proposal_of_author(person: Member, number: int) -> Proposal:
    """404 for everybody else, also for what others may read: it is not theirs to write."""
    found = proposal_for_reader(person, number)
    if found.by_id != person.pk:
        raise Http404(MISSING)
    return found


def version_to_propose_on(code: str) -> IssueVersion:
    found = IssueVersion.objects.select_related("garment_type", "current_record").filter(code=code).first()
    if found is None:
        raise no_such_record("version", "version", code, version_names().items())
    return found


def type_to_propose_in(code: str) -> GarmentType:
    return record_or_nearest(GarmentType.objects.all(), "garment type", "type", code[:80], "name")
