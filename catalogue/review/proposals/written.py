"""What the forms of a draft write on: the version of a proposal, or one of the two that a split makes."""

from dataclasses import dataclass, replace

from catalogue.reference.facts import TypeFacts, VersionFacts
from catalogue.reference.models import GarmentType, IssueVersion
from catalogue.review.models import Proposal
from catalogue.review.proposals import rules
from catalogue.review.proposals.composing import bare_version
from catalogue.review.proposals.rules import Rows
from catalogue.review.proposals.subjects import is_split


@dataclass(frozen=True)
class Written:
    """`code`: of the version; `version`: that which it changes or, in a split, divides; None for one that is new.
    `base`: its rows as they stood; `rows`: those that are wanted otherwise; `whole`: all as they would be.

    `other_base`: every row of another that is shown beside them: of a merge the one that goes, of a split the other of
    the two as it is written. `labels`: what the two are called beside a row; empty where there is one alone.
    """

    garment_type: GarmentType
    version: IssueVersion | None
    code: str
    base: Rows
    rows: Rows
    other_base: Rows
    labels: tuple[str, str] = ("", "")
    is_second: bool = False

    @property
    def whole(self) -> Rows:
        return {**self.base, **self.rows}

    def as_rows(self, rows: Rows) -> Rows:
        """Rows of this version as those of the proposal."""
        return rules.as_second(rows) if self.is_second else rows

    def known_in(self, home: TypeFacts) -> VersionFacts:
        """What the reference knows of it already, under its code; of one that is new nothing."""
        known = home.known(self.version.code) if self.version else None
        return replace(known, code=self.code) if known else bare_version(self.code)


def written_of(proposal: Proposal, *, second: bool = False) -> Written:
    """`second`: of a split the second version that it makes."""
    if is_split(proposal):
        return part_of(proposal, second)
    labels = ("", "")
    if proposal.other:
        labels = (f"Today, {proposal.version.code}", f"Today, {proposal.other.code}")
    return Written(
        garment_type=proposal.garment_type,
        version=proposal.version,
        code=proposal.about_code,
        base=proposal.base,
        rows=proposal.rows,
        other_base=proposal.other_base,
        labels=labels,
    )


def part_of(proposal: Proposal, second: bool) -> Written:
    """One of the two versions that a split makes, beside the divided version and the other one."""
    own, others = (rules.second_of, rules.first_of) if second else (rules.first_of, rules.second_of)
    codes = (proposal.second_code, proposal.new_code) if second else (proposal.new_code, proposal.second_code)
    return Written(
        garment_type=proposal.garment_type,
        version=proposal.version,
        code=codes[0],
        base=own(proposal.base),
        rows=own(proposal.rows),
        other_base=others({**proposal.base, **proposal.rows}),
        labels=(f"Today, {proposal.version.code}", f"As written, {codes[1]}"),
        is_second=second,
    )


def both_of(proposal: Proposal) -> tuple[Written, Written]:
    """The two versions that a split makes."""
    return part_of(proposal, False), part_of(proposal, True)
