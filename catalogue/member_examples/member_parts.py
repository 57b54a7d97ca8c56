"""What this slice knows of a person: their pieces and sets, on their page, in their export, and when they leave."""

from catalogue.accounts.sections import MemberPart, register
from catalogue.member_examples.sets import own_sets
from catalogue.member_examples.submitting.own_pieces import exported, exported_files, forget_drafts, latest

register(
    MemberPart(
        name="pieces",
        heading="Your pieces",
        template="member_examples/submitting/own_section.html",
        own=latest,
        export=exported,
        files=exported_files,
        forget=forget_drafts,
    )
)
register(
    MemberPart(
        name="sets",
        heading="Your sets",
        template="member_examples/sets/own_section.html",
        own=own_sets.latest,
        export=own_sets.exported,
        forget=own_sets.forget,
    )
)
