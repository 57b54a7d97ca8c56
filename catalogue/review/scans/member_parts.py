"""What this slice keeps of a person: scans stay when they leave, as the proposals do that brought them, without the
name."""

from contextlib import suppress

from catalogue.accounts.names import without_name
from catalogue.accounts.sections import MemberPart, register
from catalogue.member_examples.photographs import keeping
from catalogue.member_examples.photographs.limits import SIZES
from catalogue.reference.models import ReferenceState, SourceScan
from catalogue.review.models import Proposal
from catalogue.review.proposals.words import ProposalState


def scans_of(member):
    return SourceScan.objects.filter(proposal__by=member).select_related("source", "proposal")


def exported(member) -> list[dict]:
    return [
        {
            "number": one.pk,
            "source": one.source.code,
            "proposal": one.proposal.pk,
            "shows": one.shows or one.proposal.rows.get("shows", ""),
            "shown": one.shown,
            "put in on": one.made_at,
        }
        for one in scans_of(member)
    ]


def exported_files(member):
    """The largest stored size of each that is kept."""
    for one in scans_of(member).exclude(key=""):
        with suppress(OSError):
            yield f"scan-{one.pk}.webp", keeping.read(one.key, SIZES[0])


def forget(member) -> None:
    """Their name as whose a scan is goes, from the scan and from a proposal that nobody has approved; what was approved
    is sealed."""
    scans = list(scans_of(member))
    for one in scans:
        one.credit = without_name(one.credit, member.username)
        one.save(update_fields=["credit"])
        credit = one.proposal.rows.get("credit", "")
        if credit and one.proposal.state not in (ProposalState.APPROVED, ProposalState.REVOKED):
            rows = one.proposal.rows | {"credit": without_name(credit, member.username)}
            Proposal.objects.filter(pk=one.proposal.pk).update(rows=rows)
    if scans:
        ReferenceState.mark_changed()


register(MemberPart(name="scans", heading="Scans of sources", export=exported, files=exported_files, forget=forget))
