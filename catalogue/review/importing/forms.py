"""What the proposals of an import are decided with."""

from django import forms

from catalogue.review.fields import decision_field, reason_field
from catalogue.review.proposals.words import DecisionOn

DECISIONS = [
    (DecisionOn.APPROVED, "Approve those that are ticked; what changes identification or dates takes two people"),
    (DecisionOn.RETURNED, "Return them with a question"),
    (DecisionOn.DECLINED, "Decline them"),
]


class TogetherForm(forms.Form):
    """One decision and one reason for all that are ticked."""

    decision = decision_field(DECISIONS)
    reason = reason_field("Reason, or question", reader="author", page="proposal")
