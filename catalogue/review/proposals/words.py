"""The fixed words of proposals. Imports nothing of ours, so that the tables can use them."""

from django.db import models


class ProposalKind(models.TextChoices):
    CHANGE = "change", "Change"
    NEW = "new", "New version"
    RETIRE = "retire", "Retirement"
    MERGE = "merge", "Merge"
    SPLIT = "split", "Split"
    FEATURE = "feature", "Feature"
    QUESTION = "question", "Open question"
    SCAN = "scan", "Scan of a source"
    BACKING = "backing", "What versions rest on"


class ProposalState(models.TextChoices):
    DRAFT = "draft", "Draft"
    OPEN = "open", "Waiting"
    RETURNED = "returned", "Returned with a question"
    APPROVED = "approved", "Approved"
    DECLINED = "declined", "Declined"
    WITHDRAWN = "withdrawn", "Withdrawn"
    REVOKED = "revoked", "Approved, then revoked"


class Weight(models.TextChoices):
    """How many people have to decide, its author never counted."""

    SMALL = "small", "Small: one person decides"
    WEIGHTY = "weighty", "Changes identification or dates: two people decide"


class DecisionOn(models.TextChoices):
    AGREED = "agreed", "Agreed to, one more is needed"
    APPROVED = "approved", "Approved"
    RETURNED = "returned", "Returned with a question"
    DECLINED = "declined", "Declined"
    UNDO_AGREED = "undo_agreed", "Agreed to revoke it, one more is needed"
    REVOKED = "revoked", "Revoked"


# What the first of two writes, by what the second does.
FIRST_OF_TWO = {DecisionOn.APPROVED: DecisionOn.AGREED, DecisionOn.REVOKED: DecisionOn.UNDO_AGREED}
DECIDERS_NEEDED = {Weight.SMALL: 1, Weight.WEIGHTY: 2}
# The fields of a version that a proposal may change, in the order of the pages, with what a row of each is called.
FIELD_WORDS = {
    "name": "Name",
    "other_names": "Names used by members",
    "kind": "Kind",
    "cut": "Cut",
    "colourway": "Colourway",
    "issuer": "Given out by",
    "date": "Dates",
    "certainty": "How sure",
    "continues": "Continues or imitates",
    "made_from": "Made from",
    "makers": "Makers",
    "stock_numbers": "Stock numbers",
    "passes_for": "May be taken for",
    "rarity": "How rare",
    "abundance": "Relative number of pieces",
    "piece_seen": "A member has seen a piece",
    "hazard_kind": "Kind of hazard",
    "hazard": "Hazard in words",
    "restrictions": "What the law may restrict",
    "reason": "Why it was made or changed",
    "note": "Note",
    "sources": "Sources for the version",
    "contradicting_sources": "Sources against the version",
    "sizes": "Size table",
    "retired": "Retired because",
    "became": "Became",
}
# Of these the rows that stand in no order: kept sorted by their codes or words.
UNORDERED = ("makers", "passes_for", "restrictions")
FEATURE = "feature:"
# Before any of these: of the second of the two versions that a split makes.
SECOND = "second:"
# A row of a proposal about a feature: one of its states.
STATE = "state:"
