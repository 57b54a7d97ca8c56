"""Everything that changes a proposal. Each refuses with `NotDone`, in words for the person who asked; then nothing was
written."""

from catalogue.member_examples.actions import NotDone
from catalogue.review.proposals.actions.deciding import decide_on_proposal, revoke_approval
from catalogue.review.proposals.actions.drafting import (
    begin_change,
    begin_feature,
    begin_new_feature,
    begin_new_version,
    begin_on_backing,
    begin_on_question,
    begin_prefilled,
    discard_draft,
    save_draft,
    send_proposal,
    settle_clashes,
    withdraw_proposal,
)
from catalogue.review.proposals.actions.merging import begin_merge
from catalogue.review.proposals.actions.splitting import begin_split
from catalogue.review.proposals.actions.talking import write_word_on_proposal

__all__ = [
    "NotDone",
    "begin_change",
    "begin_feature",
    "begin_merge",
    "begin_new_feature",
    "begin_new_version",
    "begin_on_backing",
    "begin_on_question",
    "begin_prefilled",
    "begin_split",
    "decide_on_proposal",
    "discard_draft",
    "revoke_approval",
    "save_draft",
    "send_proposal",
    "settle_clashes",
    "withdraw_proposal",
    "write_word_on_proposal",
]
