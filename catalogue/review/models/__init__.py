"""Tables of reviewing: who is told what, what is asked and answered, who looks at a piece now, the seals of records."""

from catalogue.review.models.examples_queue import MailHow, MailWish, Notice, PieceWord, QueueLook
from catalogue.review.models.seals import RecordSeal

__all__ = ["MailHow", "MailWish", "Notice", "PieceWord", "QueueLook", "RecordSeal"]
