"""What the page of a retirement shows beside that of any proposal: each accepted piece, and where it goes."""

from catalogue.member_examples.models import Example
from catalogue.member_examples.queries import evidence_of
from catalogue.reference.addresses import address_of
from catalogue.reference.facts import TypeFacts
from catalogue.review.models import Proposal
from catalogue.review.proposals.merge_page import SHOWN_PIECES, piece_link, piece_row, pieces_that_did
from catalogue.review.proposals.retiring import became_of, followers_of_retired, retires


def retire_context(proposal: Proposal, home: TypeFacts, *, waits: bool) -> dict:
    """Nothing for what retires no version, and of what was declined or taken back."""
    if not retires(proposal):
        return {}
    to = [{"code": code, "address": address_of("version", code)} for code in became_of(proposal)]
    return {"leaving": {"to": to} | (that_would(proposal, home) if waits else that_did(proposal))}


def that_would(proposal: Proposal, home: TypeFacts) -> dict:
    accepted = Example.objects.accepted().filter(held_as=proposal.version).order_by("code")
    codes = list(accepted.values_list("code", flat=True))
    followers = followers_of_retired(proposal, evidence_of(home.code))
    doubtful = [piece_row(one, home) for one in followers if one.against]
    return shown(codes, doubtful) | {"nowhere": bool(codes) and not became_of(proposal)}


def that_did(proposal: Proposal) -> dict:
    approved = proposal.decisions.filter(kind="approved").first()
    if approved is None:
        return shown([], []) | {"undecided": True}
    followed = approved.followed.filter(attribution__isnull=False).order_by("example__code")
    counted = pieces_that_did(proposal)
    return shown(list(followed.values_list("example__code", flat=True)), counted["doubtful"]) | {
        "doubts": counted["number"]
    }


def shown(codes: list[str], doubtful: list[dict]) -> dict:
    return {
        "number": len(codes),
        "pieces": [piece_link(code) for code in codes[:SHOWN_PIECES]],
        "more": max(0, len(codes) - SHOWN_PIECES),
        "doubtful": doubtful[:SHOWN_PIECES],
        "doubts": len(doubtful),
    }
