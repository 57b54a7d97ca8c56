"""Numbers and dates of specifications and patterns: never the date of making."""

import re

from identification.label_reading.context import Context
from identification.label_reading.dates import DATE_WORD, dates_on
from identification.label_reading.page import TAKEN, Page
from identification.label_reading.vocabulary import field

NUMBER = (
    r"MIL-[A-Z]{1,4}-[0-9]{2,6}[A-Z]{0,2}(?:/[0-9]{1,3}[A-Z]?)?|GL/PD[ -][0-9]{2}-[0-9]{2}[A-Z]?|A-A-[0-9]{3,6}[A-Z]?"
    r"|[A-Z]{1,3}-[A-Z]-[0-9]{2,5}[A-Z]?|DEF STAN [0-9]{2}-[0-9]{1,3}|UK/SC/[0-9]{3,5}[A-Z]?"
)
SPECIFICATION = re.compile(
    rf"(?<![A-Za-z0-9-])(?:(?:SPEC(?:IFICATION)?S?\.?(?: ?(?:NO|NR)\.?)? ?[:#]? ?)?(?P<number>{NUMBER})"
    r"|SPEC(?:IFICATION)?\.?(?: ?(?:NO|NR)\.?)? ?[:#]? ?"
    r"(?P<worded>(?=[A-Z/-]{0,12}[0-9])[A-Z0-9][A-Z0-9/-]{2,20}))(?![A-Za-z0-9])",
    re.IGNORECASE | re.ASCII,
)
PATTERN_DATE = re.compile(
    r"(?<![A-Za-z0-9])(?:SPEC(?:IFICATION)?|PATT(?:ERN|\.)?|PAT\.) ?(?:DATED?|OF) ?[:]? ?", re.IGNORECASE | re.ASCII
)
DATED = re.compile(rf",? ?(?:{DATE_WORD}|DTD)\.? ?[:]? ?", re.IGNORECASE)


def read_specification(page: Page, context: Context) -> dict:
    """Number as printed, and the ISO date behind it where one stands there and is settled."""
    match = SPECIFICATION.search(page.free)
    if match:
        name = "number" if match["number"] else "worded"
        start, end = match.span(name)
        page.claim(*match.span())
        keys = {"value": page.printed(start, end)["as_printed"], "date": date_behind(page, match.end(), context)}
        return field("read", (), **keys) | page.printed(start, end)
    match = PATTERN_DATE.search(page.free)
    if not match:
        return field("absent")
    found = first_date(page, match.end(), context)
    if not found:
        return field("absent")
    page.claim(match.start(), found.end)
    return field("read", (), value=None, date=settled(found)) | page.printed(found.start, found.end)


def date_behind(page: Page, end: int, context: Context) -> str | None:
    word = DATED.match(page.free, end) or re.compile(rf" ?\n ?{DATED.pattern}", re.IGNORECASE).match(page.free, end)
    if not word:
        # A whole day directly behind the number on its line is the specification's own date.
        following = re.match(r",? ", page.free[end:])
        found = first_date(page, end + following.end(), context) if following else None
        if not found or not re.fullmatch(r"\d{4}-\d\d-\d\d", settled(found) or ""):
            return None
        page.claim(end, found.end)
        return settled(found)
    found = first_date(page, word.end(), context)
    if not found:
        return None
    page.claim(word.start(), found.end)
    return settled(found)


def first_date(page: Page, start: int, context: Context):
    """The date that begins exactly there, read as in a date field."""
    line_end = page.free.find("\n", start)
    line_end = len(page.free) if line_end < 0 else line_end
    only = Page(page.given, page.text, page.starts, page.ends, foreign_digits=page.foreign_digits)
    only.free = TAKEN * start + page.free[start:line_end] + TAKEN * (len(page.free) - line_end)
    worded = Context(context.reference_year, context.earliest_year, country=context.country, field_hint="date")
    return next((found for found in dates_on(only, worded) if found.start == start), None)


def settled(found) -> str | None:
    return found.edtfs[0] if len(found.edtfs) == 1 and not found.fault and not found.guessed else None
