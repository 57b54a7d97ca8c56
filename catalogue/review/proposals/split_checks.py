"""A split against what stands: whether it could be, and which accepted pieces would go where."""

from collections.abc import Sequence

from catalogue.member_examples.actions.refusals import refuse
from catalogue.member_examples.dated import years_on_labels
from catalogue.member_examples.evidence import Evidence
from catalogue.member_examples.queries import read_evidence
from catalogue.reference.models import Feature
from catalogue.reference.plurals import some_of
from catalogue.review.models import Proposal
from catalogue.review.proposals import rules
from catalogue.review.proposals.divided import Divided, Nowhere, after_split
from catalogue.review.proposals.standing import Rows, ancestors_by_code, reason_not_to_call_it
from catalogue.review.proposals.subjects import codes_of_split, rows_of_split


def reason_not_to_call_them(codes: Sequence[str]) -> str | None:
    if codes[0].lower() == codes[1].lower():
        return f"The two versions need a code each; both are called {codes[0]}."
    return next((fault for code in codes if (fault := reason_not_to_call_it(code))), None)


def refuse_split(proposal: Proposal, now: Rows) -> None:
    """Raises NotDone in words where the split could not be. `now`: the rows of the divided version, for both."""
    codes = codes_of_split(proposal)
    refuse(reason_not_to_call_them(codes))
    refuse(
        rules.reason_not_to_split(
            code=proposal.version.code,
            both=codes,
            rows=rows_of_split(proposal, now),
            above=ancestors_by_code(),
        )
    )
    refuse(words_of_nowhere(proposal, divided(proposal, now)))


def divided(proposal: Proposal, now: Rows, evidence: Evidence | None = None) -> Divided:
    """Which pieces would go where; read afresh where no `evidence` is given."""
    return after_split(
        (evidence or read_evidence(proposal.garment_type.code)).pieces,
        code=proposal.version.code,
        before=rules.first_of(now),
        both=codes_of_split(proposal),
        rows=rows_of_split(proposal, now),
        years=years_on_labels(proposal.version.code),
    )


def words_of_nowhere(proposal: Proposal, found: Divided) -> str | None:
    """Why pieces would be nowhere, by what is seen on the first or by the years on the labels of all; None where each
    has a place."""
    if not found.nowhere:
        return None
    if by_year := [one for one in found.nowhere if one.year is not None]:
        return words_of_years_nowhere(proposal, by_year)
    one, more = found.nowhere[0], len(found.nowhere) - 1
    names = dict(Feature.objects.filter(code__in=one.seen).values_list("code", "name"))
    first, second = codes_of_split(proposal)
    others = f" So would {more} more." if more else ""
    return (
        f"{one.piece.code} is accepted as {proposal.version.code} and would be neither {first} nor {second}: "
        f"{', '.join(names[feature].lower() for feature in one.seen)}.{others} Record in one of the two what is seen "
        "on it, or have it attributed anew first."
    )


def words_of_years_nowhere(proposal: Proposal, found: Sequence[Nowhere]) -> str:
    """Which pieces have a label of a year that neither of the two takes in."""
    named = some_of([f"{one.piece.code} ({one.year})" for one in found])
    are, their = ("is", "The year on its label lies") if len(found) == 1 else ("are", "The years on their labels lie")
    first, second = codes_of_split(proposal)
    it = "it" if len(found) == 1 else "them"
    return (
        f"{named} {are} accepted as {proposal.version.code} and would be neither {first} nor {second}. {their} within "
        f"its dates and outside those of both. Let the dates of one of the two take {it} in, or have {it} attributed "
        "anew first."
    )
