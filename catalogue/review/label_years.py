"""Which years the label of a version's piece may bear, and which a change of its dates would leave outside. Pure."""

from catalogue.reference.uncertain_dates import year_span
from catalogue.review.proposals.rules import Rows, row_of
from identification.engine import KIND_GROUPS

Span = tuple[int | None, int | None]


def label_span(kind: str, first: int | None, last: int | None) -> Span:
    """The years that a label of such a version may bear; what was altered may have a label of long before."""
    return None if KIND_GROUPS[kind] == "altered" else first, last


def gap(year: int, first: int | None, last: int | None) -> int:
    """Years by which it lies outside; an end that is not known bounds nothing."""
    return max(first - year if first else 0, year - last if last else 0, 0)


def span_of_rows(rows: Rows) -> Span:
    """The same of a version that is read as rows, or proposed as such."""
    date, kind = str(row_of(rows, "date")), str(row_of(rows, "kind"))
    return label_span(kind, *year_span(date)) if date else (None, None)


def newly_outside(year: int, now: Span, then: Span) -> bool:
    """Whether a label's year lies within today's dates and would lie outside those that are proposed."""
    return bool(gap(year, *then)) and not gap(year, *now)
