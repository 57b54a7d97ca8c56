"""What the slices know of a person, one import a slice: sections of pages, parts of the export."""

from catalogue.accounts import member_parts as accounts_parts
from catalogue.member_examples import member_parts as member_examples_parts
from catalogue.review.deputies import member_parts as deputies_parts
from catalogue.review.notices import member_parts as notices_parts
from catalogue.review.proposals import member_parts as proposals_parts
from catalogue.review.questions import member_parts as questions_parts
from catalogue.review.scans import member_parts as scans_parts
from catalogue.review.sources import member_parts as sources_parts
from catalogue.review.unreviewed import member_parts as unreviewed_parts

__all__ = [
    "accounts_parts",
    "deputies_parts",
    "member_examples_parts",
    "notices_parts",
    "proposals_parts",
    "questions_parts",
    "scans_parts",
    "sources_parts",
    "unreviewed_parts",
]
