"""One version becomes two: begun as a proposal, written by the decision that approves it, undone by a newer one."""

from collections.abc import Sequence

from django.db import transaction

from catalogue.accounts.models import Member
from catalogue.member_examples.actions import NotDone
from catalogue.member_examples.actions.refusals import refuse
from catalogue.member_examples.queries import read_evidence
from catalogue.reference.models import IssueVersion
from catalogue.review.models import Decision, Proposal
from catalogue.review.proposals import rules
from catalogue.review.proposals.actions.drafting import refuse_strangers
from catalogue.review.proposals.actions.followers import let_follow, settle_doubts, take_back
from catalogue.review.proposals.actions.merging import write_further
from catalogue.review.proposals.merged import after_merge
from catalogue.review.proposals.split_checks import divided, reason_not_to_call_them
from catalogue.review.proposals.standing import Rows, make_version, rows_of_version
from catalogue.review.proposals.subjects import codes_of_split, rows_of_split
from catalogue.review.proposals.words import ProposalKind, ProposalState, Weight

# A version that is made stands in force, and became nothing.
OF_THE_DIVIDED = ("retired", "became")


@transaction.atomic
def begin_split(*, by: Member, version: IssueVersion, codes: Sequence[str], names: Sequence[str]) -> Proposal:
    """A draft in which two versions, both with the record of today to begin with, take the place of one. One's own that
    was not written on yet is gone on with."""
    refuse_strangers(by, Weight.WEIGHTY)
    if version.retired_why:
        raise NotDone(f"{version.code} is retired already: only versions that are in force are split.")
    codes, names = [code.strip() for code in codes], [name.strip() for name in names]
    refuse(reason_not_to_call_them(codes))
    if not all(names):
        raise NotDone("Both versions need a name.")
    base = rules.for_both(rows_of_version(version))
    mine = by.proposals.filter(kind=ProposalKind.SPLIT, state=ProposalState.DRAFT, revision=0)
    rows = rules.changed_rows(base, {**base, "name": names[0], **rules.as_second({"name": names[1]})})
    begun = mine.filter(version=version, new_code=codes[0], second_code=codes[1]).first()
    if begun and begun.base == base:
        begun.rows = rows  # the names may be others now
        begun.save(update_fields=["rows"])
        return begun
    return Proposal.objects.create(
        kind=ProposalKind.SPLIT,
        by=by,
        garment_type=version.garment_type,
        version=version,
        new_code=codes[0],
        second_code=codes[1],
        based_on=version.current_record,
        base=base,
        rows=rows,
        weight=Weight.WEIGHTY,
    )


def make_both(proposal: Proposal, now: Rows) -> list[IssueVersion]:
    """The rows of the two; what they say of themselves comes with their records."""
    return [
        make_version(proposal.garment_type, code, rows)
        for code, rows in zip(codes_of_split(proposal), rows_of_split(proposal, now), strict=True)
    ]


def rows_of_divided(proposal: Proposal) -> Rows:
    """What an approved split writes of the version that it divides."""
    return {"retired": proposal.grounds, "became": list(codes_of_split(proposal))}


def finish_split(decision: Decision, now: Rows, deciders: Sequence[Member]) -> None:
    """After the record that retires the divided version: the records of the two, and its pieces follow. `now`: rows of
    the divided version before, for both."""
    proposal = decision.proposal
    found = divided(proposal, now)
    versions = {one.code: one for one in IssueVersion.objects.filter(code__in=codes_of_split(proposal))}
    for code, whole in zip(codes_of_split(proposal), rows_of_split(proposal, now), strict=True):
        own = {key: value for key, value in whole.items() if key not in OF_THE_DIVIDED}
        said = rules.changed_rows({}, own)
        write_further(decision, versions[code], said, why=proposal.grounds, is_new=True)
    first, second = codes_of_split(proposal)
    words = f"{proposal.version.code} was split into {first} and {second}: proposal {proposal.pk}."
    let_follow(decision, found.followers, deciders, f"{words} {proposal.grounds}")


def refuse_split_moved_on(approved: Decision) -> None:
    """Raises NotDone in words where one of the two is in force no more, so that nothing can go back."""
    for one in approved.further.select_related("record__version"):
        if one.record.version.retired_why:
            raise NotDone(f"{one.record.version.code} was retired since: revoke that first.")


def undo_split(decision: Decision, approved: Decision, deciders: Sequence[Member]) -> None:
    """After the record that brings the divided version back: the two are retired and lead to it, and all of their
    pieces go back; of those that somebody decided on since, or that came since, the doubtful wait."""
    proposal = decision.proposal
    code = proposal.version.code
    words = f"The split of {code} was revoked: proposal {proposal.pk}."
    made = [one.record.version for one in approved.further.select_related("record__version")]
    for version in made:
        gone = {"retired": f"{words} {decision.reason}", "became": [code]}
        write_further(decision, version, gone, why=decision.reason)
    take_back(decision, approved, deciders, f"{words} {decision.reason}")
    settle_doubts(approved, decision.by)
    stands = rows_of_version(proposal.version)
    pieces = read_evidence(proposal.garment_type.code).pieces
    for version in made:
        followers = after_merge(pieces, stays=code, goes=version.code, before=stands, merged=stands)
        let_follow(decision, followers, deciders, words)
