"""What the forms of a draft write on: the version of a proposal, or one of the two that a split makes."""

from dataclasses import dataclass, replace

from catalogue.reference.facts import TypeFacts, VersionFacts
from catalogue.reference.models import GarmentType, IssueVersion
from catalogue.review.models import Proposal
from catalogue.review.proposals import rules
from catalogue.review.proposals.composing import bare_version
from catalogue.review.proposals.rules import Rows
from catalogue.review.proposals.standing import rows_of_version
from catalogue.review.proposals.subjects import is_split, stands_now


@dataclass(frozen=True)
class Written:
    """`code`: of the version; `version`: that which it changes or, in a split, divides; None for one that is new.
    `base`: its rows as they stood; `rows`: those that are wanted otherwise; `whole`: all as they would be.

    `today`: its rows as they stand now, which is `base` until somebody changes them. `other_today`: every row of
    another that is shown beside them: of a merge the one that goes, as it stands now, of a split the other of the two
    as it is written. `labels`: what the two are called beside a row; empty where there is one alone.
    """

    garment_type: GarmentType
    version: IssueVersion | None
    code: str
    base: Rows
    rows: Rows
    today: Rows
    other_today: Rows
    labels: tuple[str, str] = ("", "")
    is_second: bool = False

    @property
    def whole(self) -> Rows:
        return {**self.base, **self.rows}

    @property
    def moved(self) -> Rows:
        """The rows that others changed since `base` was read, as they stood then."""
        return {key: rules.row_of(self.base, key) for key in rules.changed_rows(self.base, self.today)}

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
        return part_of(proposal, second, stands_now(proposal))
    labels = ("", "")
    if proposal.other:
        labels = (f"Today, {proposal.version.code}", f"Today, {proposal.other.code}")
    return Written(
        garment_type=proposal.garment_type,
        version=proposal.version,
        code=proposal.about_code,
        base=proposal.base,
        rows=proposal.rows,
        today=stands_now(proposal),
        other_today=rows_of_version(proposal.other) if proposal.other else {},
        labels=labels,
    )


def part_of(proposal: Proposal, second: bool, stands: Rows) -> Written:
    """One of the two versions that a split makes, beside the divided version, which `stands` so now, and the other."""
    own, others = (rules.second_of, rules.first_of) if second else (rules.first_of, rules.second_of)
    codes = (proposal.second_code, proposal.new_code) if second else (proposal.new_code, proposal.second_code)
    return Written(
        garment_type=proposal.garment_type,
        version=proposal.version,
        code=codes[0],
        base=own(proposal.base),
        rows=own(proposal.rows),
        today=own(stands),
        other_today=others({**proposal.base, **proposal.rows}),
        labels=(f"Today, {proposal.version.code}", f"As written, {codes[1]}"),
        is_second=second,
    )


def both_of(proposal: Proposal) -> tuple[Written, Written]:
    """The two versions that a split makes, on the rows on which it was written."""
    return part_of(proposal, False, proposal.base), part_of(proposal, True, proposal.base)
