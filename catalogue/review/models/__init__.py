"""Tables of reviewing: who is told what, what is asked and answered, who looks at a piece now, the seals of records,
proposals, the decisions on them and what followed, views taken out, added sources, the health of the reference."""

from catalogue.review.models.examples_queue import MailHow, MailWish, Notice, PieceWord, QueueLook
from catalogue.review.models.features import FeatureRecord
from catalogue.review.models.following import FollowedPiece, FurtherRecord
from catalogue.review.models.health import ErrorRateTaken, TypeHealth
from catalogue.review.models.leaves import Leave
from catalogue.review.models.looks import RecordLook
from catalogue.review.models.proposals import Decision, Proposal, ProposalWord, ReferenceImport
from catalogue.review.models.questions import ViewDecision
from catalogue.review.models.seals import DecisionSeal, RecordSeal
from catalogue.review.models.sources import SourceAddition

__all__ = [
    "Decision",
    "DecisionSeal",
    "ErrorRateTaken",
    "FeatureRecord",
    "FollowedPiece",
    "FurtherRecord",
    "Leave",
    "MailHow",
    "MailWish",
    "Notice",
    "PieceWord",
    "Proposal",
    "ProposalWord",
    "QueueLook",
    "RecordLook",
    "RecordSeal",
    "ReferenceImport",
    "SourceAddition",
    "TypeHealth",
    "ViewDecision",
]
