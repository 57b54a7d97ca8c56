"""What the page of a split shows beside that of any proposal: today's record with those of the two, all three drawn,
and which pieces go where."""

from dataclasses import replace

from django.urls import reverse

from catalogue.member_examples.queries import evidence_of
from catalogue.reference.addresses import address_of
from catalogue.reference.changes import changes
from catalogue.reference.facts import TypeFacts, VersionFacts
from catalogue.review.models import Proposal
from catalogue.review.proposals import rules
from catalogue.review.proposals.composing import bare_version, with_rows
from catalogue.review.proposals.divided import Divided
from catalogue.review.proposals.merge_page import SHOWN_PIECES, cell_beside, piece_link, seen_on, settled_words, when_of
from catalogue.review.proposals.split_checks import divided
from catalogue.review.proposals.standing import Rows
from catalogue.review.proposals.subjects import codes_of_split
from catalogue.review.proposals.words import FEATURE, ProposalState
from catalogue.review.proposals.written import both_of


def split_context(proposal: Proposal, home: TypeFacts, stands: Rows, *, waits: bool) -> dict:
    """`stands`: the divided version as it is now, for both; of a proposal that was decided, as it was."""
    found = divided(proposal, stands, evidence_of(home.code)) if waits else None
    when = when_of(proposal, moved=waits and bool(rules.changed_rows(proposal.base, stands)))
    return {
        "beside": beside_of_split(proposal, home, when),
        "parts": pages_of_draft(proposal),
        "made": [{"code": code, "address": made_address(proposal, code)} for code in codes_of_split(proposal)],
        "split_drawn": drawn_split(proposal, home, when),
        "going": pieces_that_would_go(proposal, home, found) if found else pieces_that_went(proposal),
        "labels_outside": labels_outside_of_both(found) if found else [],
    }


def pages_of_draft(proposal: Proposal, here: str = "") -> list[dict]:
    """The four pages on which a split is written, two for either version. `here`: the address of that which is open."""
    first, second = codes_of_split(proposal)
    pages = {
        "edit": f"{first}: names, dates; grounds",
        "edit_profile": f"{first}: features",
        "edit_second": f"{second}: names, dates",
        "edit_profile_second": f"{second}: features",
    }
    found = [
        {"address": reverse(f"proposals:{name}", args=[proposal.pk]), "words": said} for name, said in pages.items()
    ]
    return [one | {"here": one["address"] == here} for one in found]


def made_address(proposal: Proposal, code: str) -> str:
    """Of a version that an approved split made; empty before."""
    there = proposal.state in (ProposalState.APPROVED, ProposalState.REVOKED)
    return address_of("version", code) if there else ""


def beside_of_split(proposal: Proposal, home: TypeFacts, when: str) -> list[dict]:
    """Every row in which either of the two is otherwise than the divided version: of that, the first, the second."""
    names = {code: feature.name for code, feature in home.features.items()}
    first, second = both_of(proposal)
    code = proposal.version.code
    keys = [key for key in dict.fromkeys((*first.whole, *second.whole)) if key in first.rows or key in second.rows]
    return [
        {
            "name": rules.row_words(key, names),
            "cells": [
                cell_beside(key, first.base, home, f"{code}, {when}"),
                *(
                    cell_beside(key, one.whole, home, one.code if key in one.rows else f"{one.code}: as {code}")
                    | {"changed": key in one.rows}
                    for one in (first, second)
                ),
            ],
        }
        for key in keys
    ]


def parts_of_split(proposal: Proposal, home: TypeFacts) -> tuple[VersionFacts, VersionFacts]:
    """The two versions as they would be, or were made."""
    first, second = (with_rows(home, replace(one.known_in(home), became=()), one.whole) for one in both_of(proposal))
    return first, second


def drawn_split(proposal: Proposal, home: TypeFacts, when: str) -> dict | None:
    """All three with what either changes marked, and the difference of the two in words; None where no feature is
    touched."""
    first, second = parts_of_split(proposal, home)
    keys = (key for one in both_of(proposal) for key in one.rows if key.startswith(FEATURE))
    changed = frozenset(key.removeprefix(FEATURE) for key in keys)
    if not changed:
        return None
    code = proposal.version.code
    known = home.known(code) or bare_version(code)
    before = replace(with_rows(home, known, both_of(proposal)[0].base), code=f"{code}, {when}")
    return {
        "homes": [home] * 3,
        "versions": [before, first, second],
        "differing": changed,
        "notes": changes(home, first, second).notes,
    }


def labels_outside_of_both(found: Divided) -> list[dict]:
    """Pieces whose label lies within the dates of today and outside those of where they would go, `to`. Those that
    would be nowhere are told with what becomes of the pieces, and not twice."""
    far = [(one.outside, one.piece.code, one.to) for one in found.followers if one.outside is not None]
    return [piece_link(code) | {"year": year, "to": to} for year, code, to in sorted(far)]


def pieces_that_would_go(proposal: Proposal, home: TypeFacts, found: Divided) -> dict:
    doubtful = [
        piece_link(one.piece.code)
        | {
            "to": one.to,
            "or_as_well": one.or_as_well,
            "otherwise": True,
            "words": seen_on(one.piece, one.against, home),
            "outside": one.outside,
        }
        for one in found.followers
        if one.is_doubtful
    ]
    nowhere = [
        piece_link(one.piece.code) | {"words": seen_on(one.piece, one.seen, home), "year": one.year}
        for one in found.nowhere
    ]
    sorts = [sort_of_pieces(code, [one.piece.code for one in found.to(code)]) for code in codes_of_split(proposal)]
    return listed(sorts, doubtful, nowhere)


def pieces_that_went(proposal: Proposal) -> dict | None:
    """None where nothing was written."""
    approved = proposal.decisions.filter(kind="approved").first()
    if approved is None:
        return None
    revoked = proposal.decisions.filter(kind="revoked").first()
    followed = list(approved.followed.select_related("example", "after", "settled_by"))
    doubtful = [
        piece_link(one.example.code)
        | {"to": one.after.code, "words": one.doubt, "settled": settled_words(one, revoked)}
        for one in followed
        if one.doubt
    ]
    sorts = [
        sort_of_pieces(code, [one.example.code for one in followed if one.after.code == code])
        for code in codes_of_split(proposal)
    ]
    return listed(sorts, doubtful, [])


def sort_of_pieces(code: str, pieces: list[str]) -> dict:
    """The pieces that go to one of the two, the first of them by name."""
    shown = [piece_link(one) for one in pieces[:SHOWN_PIECES]]
    return {"code": code, "number": len(pieces), "pieces": shown, "more": len(pieces) - len(shown)}


def listed(sorts: list[dict], doubtful: list[dict], nowhere: list[dict]) -> dict:
    return {
        "sorts": sorts,
        "number": sum(one["number"] for one in sorts),
        "doubtful": doubtful[:SHOWN_PIECES],
        "doubts": len(doubtful),
        "more_doubtful": max(0, len(doubtful) - SHOWN_PIECES),
        "nowhere": nowhere[:SHOWN_PIECES],
        "lost": len(nowhere),
        "more_nowhere": max(0, len(nowhere) - SHOWN_PIECES),
    }
