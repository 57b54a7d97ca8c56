"""Saving a draft from a page, the same for whatever a proposal is about."""

from catalogue.member_examples.actions import NotDone
from catalogue.review.models import Proposal
from catalogue.review.proposals.actions import save_draft


def first_of_draft(found: Proposal) -> dict[str, object]:
    """What the fields beside the rows show first."""
    return {"grounds": found.grounds, "cites": " ".join(found.sources), "revision": found.revision}


def saved(request, found: Proposal, form, wanted: dict) -> bool:
    """Whether the draft was saved; why not stands in the form, which has `revision`, and `grounds` and `cites` unless
    another page of the draft asks for them."""
    given = form.cleaned_data
    try:
        save_draft(
            proposal=found,
            by=request.user,
            revision=given["revision"],
            wanted=wanted,
            grounds=given.get("grounds", found.grounds),
            sources=given.get("cites", found.sources),
        )
    except NotDone as refusal:
        form.add_error(None, str(refusal))
        return False
    return True
