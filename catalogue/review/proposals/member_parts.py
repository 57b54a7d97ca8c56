"""What this slice keeps of a person: proposals, decisions and words stay when they leave; drafts go."""

from catalogue.accounts.sections import MemberPart, register
from catalogue.review.models import Decision, Proposal, ProposalWord, ReferenceImport
from catalogue.review.proposals.actions import discard_draft
from catalogue.review.proposals.words import ProposalState


def exported(member) -> dict:
    return {
        "proposed": [
            {"number": one.pk, "kind": one.kind, "state": one.state, "rows": one.rows, "grounds": one.grounds}
            for one in Proposal.objects.filter(by=member).order_by("pk")
        ],
        "imported": [
            {"number": one.pk, "because": one.because, "on": one.made_at}
            for one in ReferenceImport.objects.filter(by=member)
        ],
        "decided": [
            {
                "proposal": one.proposal_id,
                "what": one.kind,
                "in the place of": one.in_place_of.username if one.in_place_of else None,
                "reason": one.reason,
                "on": one.made_at,
            }
            for one in Decision.objects.filter(by=member).select_related("in_place_of")
        ],
        "wrote": [
            {"proposal": one.proposal_id, "words": one.text, "on": one.made_at}
            for one in ProposalWord.objects.filter(by=member)
        ],
    }


def forget(member) -> None:
    """Drafts that nobody else has seen."""
    for draft in Proposal.objects.filter(by=member, state=ProposalState.DRAFT, times_sent=0).select_related("scan"):
        discard_draft(proposal=draft, by=member)


register(MemberPart(name="proposals", heading="Proposals", export=exported, forget=forget))
