"""Tables of the review of the reference."""

from catalogue.review.models.seals import RecordSeal

__all__ = ["RecordSeal"]
