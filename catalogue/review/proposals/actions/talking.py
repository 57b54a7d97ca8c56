"""The thread of a proposal, and who is told."""

from uuid import UUID

from django.db import transaction
from django.db.models import Q

from catalogue.accounts.models import Member
from catalogue.accounts.roles import PROPOSE_CHANGES, may
from catalogue.member_examples.actions import NotDone
from catalogue.review.deputies.standing_in import with_deputies
from catalogue.review.models import Decision, Proposal, ProposalWord
from catalogue.review.notices.telling import tell
from catalogue.review.proposals.words import ProposalState
from catalogue.review.words import LONGEST


@transaction.atomic
def write_word_on_proposal(*, proposal: Proposal, by: Member, text: str, token: UUID) -> ProposalWord:
    """A word in the thread of a proposal that was sent, by any member; the same token again is the same word."""
    if not may(by, PROPOSE_CHANGES) or (proposal.state == ProposalState.DRAFT and proposal.by_id != by.pk):
        raise NotDone("There is no such proposal.")
    if proposal.state == ProposalState.DRAFT:
        raise NotDone("Send the proposal first; nobody else can read it yet.")
    if not text.strip():
        raise NotDone("Write something first.")
    said, new = ProposalWord.objects.get_or_create(
        sent_once=token, defaults={"proposal": proposal, "by": by, "text": text.strip()[:LONGEST]}
    )
    if not new:
        if (said.by_id, said.proposal_id) != (by.pk, proposal.pk):
            raise NotDone("This was sent already.")
        return said
    for member in people_of(proposal, but=by):
        tell(member, proposal_word=said)
    return said


def people_of(proposal: Proposal, *, but: Member) -> list[Member]:
    """Its author, and everybody who has decided on it, had it done in their place, or written in its thread; of those
    who are away the deputies too."""
    decided = Decision.objects.filter(proposal=proposal).values("by")
    wrote = ProposalWord.objects.filter(proposal=proposal).values("by")
    places = Decision.objects.filter(proposal=proposal, in_place_of__isnull=False).values("in_place_of")
    found = Member.objects.filter(Q(pk__in=decided) | Q(pk__in=places) | Q(pk__in=wrote))
    others = [one for one in found.order_by("pk") if one.pk != proposal.by_id]
    told = {one.pk: one for one in [*with_deputies(others), proposal.by]}
    return [one for one in told.values() if one.pk != but.pk]
