"""What the page of a merge shows beside that of any proposal: both records of today with the merged one, and what
becomes of the pieces."""

from catalogue.member_examples.addresses import example_address
from catalogue.member_examples.queries import evidence_of
from catalogue.reference.addresses import address_of
from catalogue.reference.facts import TypeFacts
from catalogue.review.models import Proposal
from catalogue.review.proposals import rules
from catalogue.review.proposals.composing import row_in_words
from catalogue.review.proposals.merged import Follower, after_merge
from catalogue.review.proposals.standing import Rows, rows_of_version

SHOWN_PIECES = 24


def merge_context(proposal: Proposal, home: TypeFacts, stands: Rows, *, waits: bool) -> dict:
    """`stands`: the version that stays, as it is now; of a proposal that was decided, as it was."""
    other = rows_of_version(proposal.other) if waits else proposal.other_base
    return {
        "other_address": address_of("version", proposal.other.code),
        "other_changed": waits and rules.other_changed(proposal.other_base, other),
        "beside": beside(proposal, home),
        "pieces": pieces_that_would(proposal, home, stands) if waits else pieces_that_did(proposal),
    }


def beside(proposal: Proposal, home: TypeFacts) -> list[dict]:
    """Every row in which the two differ or which the merge changes: of the one that stays, of the other, merged."""
    names = {code: feature.name for code, feature in home.features.items()}
    base, other = proposal.base, proposal.other_base
    merged = {**base, **proposal.rows}
    keys = [key for key in dict.fromkeys((*base, *other, *merged)) if key not in ("retired", "became")]
    return [
        {
            "name": rules.row_words(key, names),
            "stays": row_in_words(key, rules.row_of(base, key), home),
            "goes": row_in_words(key, rules.row_of(other, key), home),
            "merged": row_in_words(key, rules.row_of(merged, key), home),
            "changed": key in proposal.rows,
        }
        for key in keys
        if rules.row_of(base, key) != rules.row_of(other, key) or key in proposal.rows
    ]


def pieces_that_would(proposal: Proposal, home: TypeFacts, stands: Rows) -> dict:
    followers = after_merge(
        evidence_of(home.code).pieces,
        stays=proposal.version.code,
        goes=proposal.other.code,
        before=stands,
        merged={**stands, **proposal.rows},
    )
    doubtful = [piece_row(one, home) for one in followers if one.against]
    return counted([one for one in followers if one.moves], doubtful)


def piece_row(one: Follower, home: TypeFacts) -> dict:
    """A doubtful piece, with what was seen on it otherwise."""
    seen = [home.features[code] for code in one.against if code in home.features]
    words = "; ".join(f"{feature.name}: {feature.label_of(one.piece.states[feature.code])}" for feature in seen)
    return {"code": one.piece.code, "address": example_address(one.piece.code), "words": words}


def pieces_that_did(proposal: Proposal) -> dict | None:
    """None where nothing was written."""
    approved = proposal.decisions.filter(kind="approved").first()
    if approved is None:
        return None
    followed = list(approved.followed.select_related("example", "settled_by"))
    doubtful = [
        {
            "code": one.example.code,
            "address": example_address(one.example.code),
            "words": one.doubt,
            "settled": one.settled_by.username if one.settled_by else "",
        }
        for one in followed
        if one.doubt
    ]
    return counted([one for one in followed if one.attribution_id], doubtful)


def counted(moving: list, doubtful: list[dict]) -> dict:
    shown = doubtful[:SHOWN_PIECES]
    return {"moving": len(moving), "doubtful": shown, "more": len(doubtful) - len(shown), "number": len(doubtful)}
