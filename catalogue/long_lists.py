"""Long lists in pages."""

import re
from collections.abc import Sequence

from django.core.paginator import Page, Paginator


def page_of(asked: str | None, rows: Sequence, size: int) -> tuple[Page, str]:
    """The page asked for; and, when there is no such page, what was asked, so that the reader is told. What lies before
    the first page leads there, what lies after the last to the last."""
    pages = Paginator(rows, size)
    page = pages.get_page(1 if asked and re.fullmatch(r"\s*(-\s*\d+|0+)\s*", asked) else asked)
    return page, "" if not asked or asked == str(page.number) else asked[:20]
