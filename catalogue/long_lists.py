"""Long lists in pages."""

from collections.abc import Sequence

from django.core.paginator import Page, Paginator


def page_of(asked: str | None, rows: Sequence, size: int) -> tuple[Page, str]:
    """The page asked for; and, when there is no such page, what was asked, so that the reader is told."""
    page = Paginator(rows, size).get_page(asked)
    return page, "" if not asked or asked == str(page.number) else asked[:20]
