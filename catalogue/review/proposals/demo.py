"""The demo society's proposals: one in every state, made by the same actions as on the pages, and never twice.

What was approved leaves the reference as the demo's files have it, so that they can be read in again: it was approved
and later changed back, or revoked.
"""

from collections.abc import Mapping, Sequence
from uuid import NAMESPACE_URL, uuid5

from django.db import transaction

from catalogue.accounts.models import Member
from catalogue.reference.models import IssueVersion
from catalogue.review.models import Proposal
from catalogue.review.proposals.actions import (
    begin_change,
    decide_on_proposal,
    revoke_approval,
    save_draft,
    send_proposal,
    write_word_on_proposal,
)


@transaction.atomic
def load_demo_proposals() -> int:
    """How many were made; none where there is any proposal already."""
    if Proposal.objects.exists():
        return 0
    hand = Hand()
    other = "Called otherwise in a newsletter that was withdrawn."
    # Open: small, weighty with one who agreed, and one that a moderator wrote.
    hand.sent("Turnstone", "OVT-73", {"other_names": ["storm trousers"]}, "Members of the harbour branch say so.")
    half = hand.sent("Plover", "CAP-61", {"date": "1961/1973"}, "No label after 1973 has turned up.", ["S13"])
    hand.decides(half, "Dunlin", "approved", "The dated labels end there.")
    hand.says(half, "Curlew", "I have a cap with a label of 1974, but I cannot read its last figure.")
    hand.sent(
        "Dunlin", "HAT-74L", {"reason": "Summer hat for the fell stations"}, "The fells alone are too little said."
    )
    # Returned with a question.
    asked = hand.sent(
        "Sanderling", "TRO-94", {"note": "The knee patch is cut from the same cloth."}, "Seen on my pair."
    )
    hand.decides(asked, "Whimbrel", "returned", "On how many pieces? Please send in one that shows it.")
    # Declined.
    declined = hand.sent("Plover", "LIN-67", {"kind": "trial"}, "So few are known.", ["S07"])
    hand.decides(declined, "Dunlin", "declined", "The report on the flood names it as issued; few is not a trial.")
    # Approved, and changed back by a later one that was approved as well.
    named = hand.sent("Godwit", "COA-63C", {"other_names": ["winter coat"]}, "Two sellers and a member call it so.")
    hand.decides(named, "Dunlin", "approved", "Heard it myself.")
    back = hand.sent("Ruff", "COA-63C", {"other_names": []}, other)
    hand.decides(back, "Whimbrel", "approved", "The name belongs to another coat.")
    # Approved by two, then revoked by two.
    dated = hand.sent("Plover", "OVT-73", {"date": "1972/2009"}, "A label seems to read 1972.", ["S08"])
    for name in ("Dunlin", "Whimbrel"):
        hand.decides(dated, name, "approved", "The figure can be read so.")
    for name in ("Whimbrel", "Dunlin"):
        hand.revokes(dated, name, "The label was cleaned: it reads 1977.")
    return Proposal.objects.count()


class Hand:
    """Does as the people of the demo would."""

    def __init__(self):
        self.people = {one.username: one for one in Member.objects.admitted()}
        self.versions = {one.code: one for one in IssueVersion.objects.select_related("garment_type")}

    def sent(
        self, by: str, version: str, rows: Mapping[str, object], grounds: str, sources: Sequence[str] = ()
    ) -> Proposal:
        person, of = self.people[by], self.versions[version]
        of.refresh_from_db()
        made = begin_change(by=person, version=of)
        made = save_draft(
            proposal=made, by=person, revision=made.revision, wanted=made.base | rows, grounds=grounds, sources=sources
        )
        return send_proposal(proposal=made, by=person)

    def decides(self, proposal: Proposal, by: str, decision: str, reason: str) -> None:
        decide_on_proposal(
            proposal=proposal, decider=self.people[by], decision=decision, reason=reason, sending=proposal.times_sent
        )

    def revokes(self, proposal: Proposal, by: str, reason: str) -> None:
        revoke_approval(proposal=proposal, decider=self.people[by], reason=reason, sending=proposal.times_sent)

    def says(self, proposal: Proposal, by: str, text: str) -> None:
        token = uuid5(NAMESPACE_URL, f"demo-word-{proposal.pk}-{by}")
        write_word_on_proposal(proposal=proposal, by=self.people[by], text=text, token=token)
