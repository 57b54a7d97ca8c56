"""Numbers and dates of specifications and patterns: never the date of making."""

import re

from identification.label_reading.context import Context
from identification.label_reading.dates import MAKING, SPECIFICATION_NUMBER, SPECIFICATION_WORD, dates_on
from identification.label_reading.page import TAKEN, Page
from identification.label_reading.vocabulary import field

SPECIFICATION = re.compile(
    rf"(?<![A-Za-z0-9-])(?:(?:SPEC(?:IFICATION)?S?\.?(?: ?(?:NO|NR)\.?)? ?[:#]? ?)?(?P<number>{SPECIFICATION_NUMBER})"
    r"|SPEC(?:IFICATION)?\.?(?: ?(?:NO|NR)\.?)? ?[:#]? ?"
    r"(?P<worded>(?=[A-Z/-]{0,12}[0-9])[A-Z0-9][A-Z0-9/-]{2,20}))(?![A-Za-z0-9])",
    re.IGNORECASE | re.ASCII,
)
PATTERN_DATE = re.compile(
    r"(?<![A-Za-z0-9])(?:SPEC(?:IFICATION|\.)?|PATT(?:ERN|\.)?|PAT\.) ?(?:DATED?|OF) ?[:]? ?", re.IGNORECASE | re.ASCII
)
# Words of making, such as MFD, begin a date of its own.
DATED = re.compile(r",? ?(?:DATED?|DTD|DATUM|DU|VOM)\.? ?[:]? ?", re.IGNORECASE)
DATED_BEFORE = re.compile(r"(?<![A-Za-z])(?:DATED|DTD)\.? ?[:]? ?", re.IGNORECASE)
NAMED_ONLY = re.compile(rf"(?<![A-Za-z0-9]){SPECIFICATION_WORD}", re.IGNORECASE)
# How far behind the word its year may stand.
WITHIN = 30
BEGINS = re.compile(r"(?<![A-Za-z0-9/.-])[A-Za-z0-9]")


def read_specification(page: Page, context: Context) -> dict:
    """Number as printed, and the ISO date behind it where one stands there and is settled."""
    match = SPECIFICATION.search(page.free)
    if match:
        name = "number" if match["number"] else "worded"
        start, end = match.span(name)
        page.claim(*match.span())
        dated = date_behind(page, match.end(), context) or date_before(page, match.start(), context)
        keys = {"value": page.printed(start, end)["as_printed"], "date": dated}
        return field("read", (), **keys) | page.printed(start, end)
    match = PATTERN_DATE.search(page.free)
    found = first_date(page, match.end(), context) if match else None
    if match and found:
        page.claim(match.start(), found.end)
        return field("read", (), value=None, date=settled(found)) | page.printed(found.start, found.end)
    return year_of_named(page, context)


def year_of_named(page: Page, context: Context) -> dict:
    """`SPECIFICATION FOR COATS 1957`: a specification by its name, with its year behind it on the line."""
    for word in NAMED_ONLY.finditer(page.free):
        line = re.match(r"[^\n\0]*?(?= / |\n|\0|$)", page.free[word.end() :]).group()[:WITHIN]
        for begins in BEGINS.finditer(line):
            found = first_date(page, word.end() + begins.start(), context)
            if not found or not in_full(page, found):
                continue
            if MAKING.search(line[: begins.start()]):
                break
            page.claim(*word.span())
            page.claim(found.start, found.end)
            return field("read", (), value=None, date=settled(found)) | page.printed(found.start, found.end)
    return field("absent")


def in_full(page: Page, found) -> bool:
    """Whether it is settled, and its year printed in four figures."""
    return bool(settled(found) and re.search(r"\d{4}", page.text[found.start : found.end]))


def date_behind(page: Page, end: int, context: Context) -> str | None:
    word = DATED.match(page.free, end) or re.compile(rf" ?\n ?{DATED.pattern}", re.IGNORECASE).match(page.free, end)
    if not word:
        # A day or a year directly behind the number on its line is the specification's own date.
        following = re.match(r",? ", page.free[end:])
        found = first_date(page, end + following.end(), context) if following else None
        if not found or not in_full(page, found):
            return None
        page.claim(end, found.end)
        return settled(found)
    found = first_date(page, word.end(), context)
    if not found:
        return None
    page.claim(word.start(), found.end)
    return settled(found)


def date_before(page: Page, start: int, context: Context) -> str | None:
    """`DATED 12 MARCH 1957 MIL-C-43455`: on its line directly before the number, behind the word."""
    line = max(page.free.rfind("\n", 0, start) + 1, start - 40)
    for word in DATED_BEFORE.finditer(page.free, line, start):
        found = first_date(page, word.end(), context)
        if found and not page.free[found.end : start].strip(" ,:"):
            page.claim(word.start(), found.end)
            return settled(found)
    return None


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
