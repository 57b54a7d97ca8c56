"""In which country the label says that the piece was made: `MADE IN OSTREVALD`.

Countries are those of the list of stock number codes, by name or by its three letters, and those in which makers that
the society knows worked. Another word is kept as printed and is unconfirmed. The country of a stock number is another
thing: it says who catalogued the piece.
"""

import re
from functools import cache

from identification.label_reading.context import Context
from identification.label_reading.page import Page
from identification.label_reading.tables import codifiers
from identification.label_reading.vocabulary import field

# Common practice, no source: the words of eight languages.
MADE = re.compile(
    r"(?<![^\W_])(?:MADE IN|MANUFACTURED IN|PRODUCED IN|PRODUCT OF|HERGESTELLT IN|FABRIQU[\u00c9E] (?:EN|AUX?)"
    r"|(?:HECHO|FABRICADO) EN|(?:FABBRICATO|PRODOTTO) IN|(?:GEMAAKT|VERVAARDIGD) IN|TILLVERKAD I|FREMSTILLET I)"
    r" ?[:.]? ?(?:the )?(?P<where>[^\W\d_][^\n/,;()0-9%]{1,40})",
    re.IGNORECASE,
)
BEGINNINGS = ("made", "manufactured", "produ", "prodotto", "fab", "hecho", "herg", "gemaakt", "verv", "till", "frem")
# Short forms and parts that labels print, each with the name in the list.
OTHER_NAMES = {
    "usa": "United States", "u.s.a.": "United States", "u.s.a": "United States", "us": "United States",
    "uk": "United Kingdom", "u.k.": "United Kingdom", "great britain": "United Kingdom", "england": "United Kingdom",
    "scotland": "United Kingdom", "wales": "United Kingdom", "west germany": "Germany", "holland": "Netherlands",
}  # fmt: skip
# Behind these words it is no country that follows, but who made it.
ENDS = re.compile(r" (?:by|for|from|par|von|durch|por|da)(?![^\W_])", re.IGNORECASE)


def read_made_in(page: Page, context: Context) -> dict:
    """The country, or all of them where several stand on the label. The words stay unclaimed, so that nothing else
    that may stand on their line is lost."""
    found: list[tuple[int, int, str, bool]] = []
    for match in MADE.finditer(page.free) if page.may_say(BEGINNINGS) else ():
        printed = ENDS.split(match["where"])[0].rstrip(" .-\0")
        known, length = country_at(printed, context)
        end = match.start("where") + (length or len(printed))
        found.append((match.start("where"), end, known or printed, bool(known)))
    if not found:
        return field("absent")
    place = page.printed(*found[0][:2])
    values = list(dict.fromkeys(value for _, _, value, _ in found))
    if len(values) > 1:
        return field("ambiguous", {"two_countries"}, value=None, values=values) | place
    if not found[0][3]:
        return field("unconfirmed", {"unknown_country"}, value=values[0]) | place
    return field("read", value=values[0]) | place


def country_at(printed: str, context: Context) -> tuple[str, int]:
    """The known country that the words begin with, the longest name first, and how long it is as printed."""
    folded = printed.casefold()
    known = countries() | {one.country.casefold(): one.country for one in context.makers if one.country}
    for length in range(min(len(folded), len(printed)), 1, -1):
        if not folded[length : length + 1].isalnum() and (name := known.get(folded[:length])):
            return name, length
    return "", 0


@cache
def countries() -> dict[str, str]:
    names = {one.country.casefold(): one.country for one in codifiers().values() if one.country}
    letters = {one.alpha3.casefold(): one.country for one in codifiers().values() if one.alpha3 and one.country}
    return letters | names | OTHER_NAMES
