"""What a proposal is about, a version, a feature, an open question, a scan or what versions rest on: how it stands
now, what its rows are called and say, whether they can be, and what keeps them from being decided."""

from collections.abc import Mapping

from catalogue.reference.facts import TypeFacts
from catalogue.review.backing import standing as backing
from catalogue.review.features import rows as feature_rows
from catalogue.review.features import standing as features
from catalogue.review.models import Proposal
from catalogue.review.proposals import composing, rules
from catalogue.review.proposals.standing import Known, Rows, check_rows, rows_of_version
from catalogue.review.proposals.words import SECOND, ProposalKind, ProposalState
from catalogue.review.questions import standing as questions
from catalogue.review.scans import standing as scans

NOT_OF_VERSIONS = (ProposalKind.FEATURE, ProposalKind.QUESTION, ProposalKind.SCAN, ProposalKind.BACKING)


def is_of_feature(proposal: Proposal) -> bool:
    return proposal.kind == ProposalKind.FEATURE


def is_of_question(proposal: Proposal) -> bool:
    return proposal.kind == ProposalKind.QUESTION


def is_of_scan(proposal: Proposal) -> bool:
    return proposal.kind == ProposalKind.SCAN


def is_of_backing(proposal: Proposal) -> bool:
    return proposal.kind == ProposalKind.BACKING


def is_of_version(proposal: Proposal) -> bool:
    return proposal.kind not in NOT_OF_VERSIONS


def is_split(proposal: Proposal) -> bool:
    return proposal.kind == ProposalKind.SPLIT


def codes_of_split(proposal: Proposal) -> tuple[str, str]:
    """Of the two versions that a split makes."""
    return proposal.new_code, proposal.second_code


def rows_of_split(proposal: Proposal, base: Rows) -> tuple[Rows, Rows]:
    """The whole rows of the two versions that a split makes. `base`: those of the divided version, for both."""
    whole = {**base, **proposal.rows}
    return rules.first_of(whole), rules.second_of(whole)


def sort_of(proposal: Proposal) -> str:
    if is_of_backing(proposal):
        return backing.backing_of(proposal.backing).sort
    sorts = {ProposalKind.FEATURE: "feature", ProposalKind.QUESTION: "question", ProposalKind.SCAN: "scan"}
    return sorts.get(proposal.kind, "version")


def stands_now(proposal: Proposal) -> Rows:
    """Every row as the tables have it; none of what is to be made."""
    if is_of_backing(proposal):
        return backing.rows_of(proposal.backing, proposal.backing_code)
    if is_of_question(proposal):
        return questions.rows_of(proposal.question)
    if is_of_scan(proposal):
        return scans.rows_of(proposal.scan)
    if is_of_feature(proposal):
        return features.rows_of(proposal.feature) if proposal.feature else {}
    rows = rows_of_version(proposal.version) if proposal.version else {}
    return rules.for_both(rows) if is_split(proposal) else rows


def check(proposal: Proposal, rows: Rows, base: Rows) -> None:
    """Raises NotDone in words where `rows` on `base` could not be."""
    if is_of_backing(proposal):
        return backing.check_rows(proposal.backing, proposal.backing_code, rows, base)
    if is_of_question(proposal):
        questions.check_rows(rows, proposal.question)
    elif is_of_scan(proposal):
        scans.check_rows(rows)
    elif is_of_feature(proposal):
        features.check_rows(rows, base, proposal.feature, proposal.about_code)
    elif is_split(proposal):
        known = Known(proposal.garment_type, to_be=codes_of_split(proposal))
        for own in (rules.first_of(rows), rules.second_of(rows)):
            check_rows(own, known, None)
    else:
        check_rows(rows, Known(proposal.garment_type), proposal.version)


def reason_not_to_touch(proposal: Proposal, now: Rows) -> str | None:
    """Why nothing can come of it any more: its version was retired meanwhile, its new feature is there already."""
    if is_of_backing(proposal):
        return backing.reason_not_to_touch(proposal.backing, proposal.backing_code, new=bool(proposal.new_code))
    if is_of_question(proposal):
        return None
    if is_of_scan(proposal):
        return scans.reason_not_to_show(proposal.scan, proposal.rows, waits=proposal.state == ProposalState.OPEN)
    if is_of_feature(proposal):
        return None if proposal.feature else features.reason_not_to_call_it(proposal.new_code)
    return rules.reason_not_to_touch(name=proposal.version.name, kind=proposal.kind, rows=proposal.rows, now=now)


def row_name(proposal: Proposal, key: str, names: Mapping[str, str]) -> str:
    """What a row is called. `names`: of features by code."""
    if is_of_backing(proposal):
        return backing.row_name(proposal.backing, key)
    if is_of_question(proposal):
        return questions.FIELD_WORDS[key]
    if is_of_scan(proposal):
        return scans.FIELD_WORDS[key]
    if is_split(proposal) and key not in ("retired", "became"):  # which are of the divided version
        code = proposal.second_code if key.startswith(SECOND) else proposal.new_code
        return f"{code}: {rules.row_words(key.removeprefix(SECOND), names)}"
    return feature_rows.row_name(key) if is_of_feature(proposal) else rules.row_words(key, names)


def row_in_words(proposal: Proposal, key: str, rows: Rows, home: TypeFacts) -> str:
    """What a row of `rows`, a whole state, says; empty where it says nothing."""
    value = rules.row_of(rows, key)
    if is_of_backing(proposal):
        return backing.row_in_words(key, value)
    if is_of_question(proposal):
        return questions.row_in_words(key, value)
    if is_of_scan(proposal):
        return scans.row_in_words(key, value)
    if is_of_feature(proposal):
        return feature_rows.row_in_words(key, value, rows)
    return composing.row_in_words(key.removeprefix(SECOND), value, home)


def is_small(proposal: Proposal, key: str, before: Rows, after: Rows) -> bool:
    if is_of_question(proposal):
        return key in rules.SMALL_OF_QUESTION
    if is_of_scan(proposal):
        return True
    if is_of_backing(proposal):
        return False
    if is_of_feature(proposal):
        return bool(proposal.base) and key in rules.SMALL_OF_FEATURE
    return rules.is_small(key, rules.row_of(before, key), rules.row_of(after, key))
