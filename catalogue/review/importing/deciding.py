"""Several proposals of one import decided at once, each by a decision of its own."""

from collections.abc import Sequence
from dataclasses import dataclass, field

from catalogue.accounts.models import Member
from catalogue.accounts.roles import REVIEW_REFERENCE, may
from catalogue.member_examples.actions import NotDone
from catalogue.review.models import Proposal, ReferenceImport
from catalogue.review.proposals.actions import decide_on_proposal
from catalogue.review.proposals.words import DecisionOn

MOST_AT_ONCE = 200


@dataclass
class Decided:
    """How many decisions of each kind were written, and why none was on others, in words."""

    made: dict[str, int] = field(default_factory=dict)
    left: list[str] = field(default_factory=list)


def decide_together(
    *, of: ReferenceImport, sendings: Sequence[tuple[int, int]], decider: Member, decision: str, reason: str
) -> Decided:
    """`sendings`: numbers of proposals of the import, each with the sending that was looked at. Each is decided as on
    its own page, in a transaction of its own; what clashes, was changed or is one's own is left out and named.
    """
    if not may(decider, REVIEW_REFERENCE):
        raise NotDone("Only moderators decide on proposals.")
    if not sendings:
        raise NotDone("Tick the proposals first.")
    if len(sendings) > MOST_AT_ONCE:
        raise NotDone(f"At most {MOST_AT_ONCE} proposals at once.")
    known = Proposal.objects.select_related("version", "feature", "garment_type", "by").filter(brought_in=of)
    found = known.in_bulk([number for number, _ in sendings])
    decided = Decided()
    for number, sending in sendings:
        if number not in found:
            decided.left.append(f"{number}: not a proposal of this import")
            continue
        one = found[number]
        try:
            made = decide_on_proposal(proposal=one, decider=decider, decision=decision, reason=reason, sending=sending)
        except NotDone as refusal:
            decided.left.append(f"{one.about_code}: {refusal}")
        else:
            words = DecisionOn(made.kind).label.lower()
            decided.made[words] = decided.made.get(words, 0) + 1
    return decided
