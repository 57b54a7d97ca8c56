"""Tables of reviewing: notices and threads, who looks at a piece now, the seals of records, the reference's health."""

from catalogue.review.models.examples_queue import MailWish, Notice, PieceWord, QueueLook
from catalogue.review.models.health import ErrorRateTaken, TypeHealth
from catalogue.review.models.seals import RecordSeal

__all__ = ["ErrorRateTaken", "MailWish", "Notice", "PieceWord", "QueueLook", "RecordSeal", "TypeHealth"]
