"""What the page of a merge shows beside that of any proposal: both records of today with the merged one, and what
becomes of the pieces."""

from collections.abc import Iterable

from catalogue.member_examples.addresses import example_address
from catalogue.member_examples.evidence import PieceSeen
from catalogue.member_examples.queries import evidence_of
from catalogue.reference.addresses import address_of
from catalogue.reference.facts import TypeFacts
from catalogue.review.models import Decision, FollowedPiece, Proposal
from catalogue.review.proposals import rules
from catalogue.review.proposals.composing import row_in_words
from catalogue.review.proposals.merged import Follower, after_merge
from catalogue.review.proposals.standing import Rows, rows_of_version
from catalogue.review.proposals.words import ProposalState

SHOWN_PIECES = 24


def merge_context(proposal: Proposal, home: TypeFacts, stands: Rows, *, waits: bool) -> dict:
    """`stands`: the version that stays, as it is now; of a proposal that was decided, as it was."""
    other = rows_of_version(proposal.other) if waits else proposal.other_base
    changed = waits and rules.other_changed(proposal.other_base, other)
    return {
        "other_address": address_of("version", proposal.other.code),
        "other_changed": changed,
        "beside": beside(proposal, home, moved=waits and (bool(rules.changed_rows(proposal.base, stands)) or changed)),
        "pieces": pieces_that_would(proposal, home, stands) if waits else pieces_that_did(proposal),
    }


def beside(proposal: Proposal, home: TypeFacts, *, moved: bool) -> list[dict]:
    """Every row in which the two differ or which the merge changes: of the one that stays, of the other, merged.
    `moved`: whether either was changed since it was written."""
    when = when_of(proposal, moved=moved)
    stays, goes = proposal.version.code, proposal.other.code
    names = {code: feature.name for code, feature in home.features.items()}
    base, other = proposal.base, proposal.other_base
    merged = {**base, **proposal.rows}
    keys = [key for key in dict.fromkeys((*base, *other, *merged)) if key not in ("retired", "became")]
    return [
        {
            "name": rules.row_words(key, names),
            "cells": [
                cell_beside(key, base, home, f"{stays}, {when}"),
                cell_beside(key, other, home, f"{goes}, {when}"),
                cell_beside(key, merged, home, "Merged" if key in proposal.rows else f"Merged: as {stays}")
                | {"changed": key in proposal.rows},
            ],
        }
        for key in keys
        if rules.row_of(base, key) != rules.row_of(other, key) or key in proposal.rows
    ]


def when_of(proposal: Proposal, *, moved: bool) -> str:
    """Of which time the rows are on which a proposal was written. `moved`: whether others changed them since."""
    if proposal.state in (ProposalState.APPROVED, ProposalState.REVOKED):
        return "before"
    return "when it was written" if moved else "today"


def cell_beside(key: str, rows: Rows, home: TypeFacts, label: str) -> dict:
    return {"label": label, "words": row_in_words(key, rules.row_of(rows, key), home)}


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
    return piece_link(one.piece.code) | {"words": seen_on(one.piece, one.against, home)}


def piece_link(code: str) -> dict:
    return {"code": code, "address": example_address(code)}


def seen_on(piece: PieceSeen, features: Iterable[str], home: TypeFacts) -> str:
    """What was seen on a piece of these features, in words."""
    known = [home.features[code] for code in features if code in home.features]
    return "; ".join(f"{feature.name}: {feature.label_of(piece.states[feature.code])}" for feature in known)


def settled_words(one: FollowedPiece, revoked: Decision | None) -> str:
    """How a doubt went: somebody looked at the piece, or the decision that made it doubtful was revoked."""
    if one.settled_by is None:
        return ""
    if revoked and one.settled_at >= revoked.made_at:
        return "no longer doubtful since this was revoked"
    return f"looked at by {one.settled_by.username}"


def pieces_that_did(proposal: Proposal) -> dict | None:
    """None where nothing was written."""
    approved = proposal.decisions.filter(kind="approved").first()
    if approved is None:
        return None
    revoked = proposal.decisions.filter(kind="revoked").first()
    followed = list(approved.followed.select_related("example", "settled_by"))
    doubtful = [
        piece_link(one.example.code) | {"words": one.doubt, "settled": settled_words(one, revoked)}
        for one in followed
        if one.doubt
    ]
    return counted([one for one in followed if one.attribution_id], doubtful)


def counted(moving: list, doubtful: list[dict]) -> dict:
    shown = doubtful[:SHOWN_PIECES]
    return {"moving": len(moving), "doubtful": shown, "more": len(doubtful) - len(shown), "number": len(doubtful)}
