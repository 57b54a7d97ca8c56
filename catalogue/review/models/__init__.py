"""Tables of reviewing: who is told what, what is asked and answered, who looks at a piece now."""

from catalogue.review.models.examples_queue import MailWish, Notice, PieceWord, QueueLook

__all__ = ["MailWish", "Notice", "PieceWord", "QueueLook"]
