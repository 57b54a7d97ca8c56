"""Dates as labels write them, stored as EDTF (ISO 8601-2): read whole, or with every reading listed.

Forms and separators are common practice, no source. Two figures alone are a date beside a date word only; the century
comes from counting which years fit, never from a pivot.
"""

import re

from identification.label_reading.context import Context
from identification.label_reading.date_forms import MONTH, MONTH_OF, READERS, Reading
from identification.label_reading.page import TAKEN, Page, near

DATE_WORD = (
    r"(?:DATE OF (?:MANUFACTURE|MFR|MFG|MAKE|MAKING)|(?:MFG|MFD|MFR|PROD(?:UCTION)?)\.? ?DATE|MANUFACTURED(?: IN| ON)?"
    r"|MFD|MFG|MFR|DOM|DATED?|YEAR(?: OF (?:MANUFACTURE|MAKE))?|MADE(?: IN)?|PRODUCED(?: IN)?|HERGESTELLT(?: IN)?"
    r"|HERSTELL(?:UNGS)?(?:DATUM|JAHR)|BAUJAHR|DATUM|JAHR|FABRIQUÉ(?: EN)?|ANN[ÉE]E"
    r"|DATE DE FABRICATION|ANNO|DATA|AÑO|FECHA|ÅR|JAAR)"
)
WORD_BEFORE = re.compile(rf"(?<![A-Za-zÀ-ÿ]){DATE_WORD}\.? ?[:=]? ?$", re.IGNORECASE)
DATE_ENDINGS = (
    *("date", "manufacture", "make", "making", "mfd", "mfg", "mfr", "dom", "in", "on", "en", "ed", "year", "made"),
    *("hergestellt", "datum", "jahr", "annee", "anno", "data", "fecha", "jaar"),
)
OTHER_NUMBER_BEFORE = re.compile(
    r"(?:\b(?:TEL|TELEPHONE|PHONE|FAX|BOX|PATENT|PATENTED|RN|CA|WPL|LOT|NO|NOS|NR|MODEL|PATTERN|PAT|PATT|STYLE|ART|ARTICLE|TYPE|SPEC|SPECIFICATION"
    r"|CUTTING|BATCH|FY|FISCAL YEAR"
    r"|SIZE|ORDER|SER|SERIAL|CODE|REF|ITEM|CLASS|MIL|ISO|EN|DIN|OF"
    r"|EST|ESTABLISHED|SINCE|FOUNDED|SEIT|DEPUIS|COPYRIGHT)\.?|#|©|\(C\)) ?[:-]? ?$",
    re.IGNORECASE,
)
SPECIFICATION_NUMBER = (
    r"MIL-[A-Z]{1,4}-[0-9]{2,6}[A-Z]{0,2}(?:/[0-9]{1,3}[A-Z]?)?|GL/PD[ -][0-9]{2}-[0-9]{2}[A-Z]?|A-A-[0-9]{3,6}[A-Z]?"
    r"|[A-Z]{1,3}-[A-Z]-[0-9]{2,5}[A-Z]?|DEF STAN [0-9]{2}-[0-9]{1,3}|UK/SC/[0-9]{3,5}[A-Z]?"
)
SPECIFICATION_WORD = r"SPEC(?:IFICATION|N)?S?\b\.?"
# A specification, or a pattern of somebody, on the line before a year: dated so, if no word of making is between.
SPECIFICATION_BEFORE = re.compile(
    rf"(?<![A-Za-z0-9-])(?:{SPECIFICATION_WORD}|PATT(?:ERN|\.)? OF\b|{SPECIFICATION_NUMBER})"
    r"(?P<between>[^\n]{0,30}?)$",
    re.IGNORECASE,
)
SPECIFICATION_BEHIND = re.compile(rf",? ?(?:{SPECIFICATION_WORD}|{SPECIFICATION_NUMBER})(?![A-Za-z0-9])", re.IGNORECASE)
DATED_ONLY = re.compile(r"DATED?\.? ?[:=]? ?", re.IGNORECASE)
MAKING = re.compile(r"\b(?:MANUF|MFD|MFG|MFR|MADE|MAKE|MAKING|PROD|HERG|HERST|BAUJ|FABR)", re.IGNORECASE)
PATTERN_BEHIND = re.compile(r" PATT(?:ERN)?\.? ?(?=\n|$| / )", re.IGNORECASE)
OTHER_ENDINGS = (
    *(
        "rn",
        "ca",
        "wpl",
        "lot",
        "no",
        "nos",
        "nr",
        "model",
        "pat",
        "patt",
        "pattern",
        "style",
        "art",
        "article",
        "type",
    ),
    *("spec", "cation", "cutting", "batch", "fy", "year", "size", "order", "ser", "serial", "code", "ref", "item"),
    *("tel", "phone", "fax", "box", "patent", "patented"),
    *("class", "mil", "iso", "en", "din", "of", "est", "ished", "since", "founded", "seit", "depuis", "right", "(c)"),
)
# The figures of a year with what may be misprinted in it: the first two decide whether it is a year at all.
Y4 = r"(?:[1Il|]9[0-9ODQIl|BSZGT]{2}|2[0OoDQ][0-9ODQIl|BSZGT]{2}|1[0-8][0-9]{2})"
Y = rf"(?P<year>{Y4}|'?[0-9ODQIl|BSZGT]{{2}})"
START = r"(?<![0-9A-Za-zÀ-ÿ])(?<![0-9][-/.,])(?<![A-Za-z][-/])"
STOP = r"(?![0-9A-Za-zÀ-ÿ])(?![-/.,][0-9A-Za-z])"
CIRCA = r"(?P<circa>(?:CIRCA|CA\.?|C\.?|ABOUT|APPROX\.?|UM|ENV\.?|~) ?)?"
PATTERNS = {
    "decade": re.compile(
        rf"(?=[0-9Il|cauev~]){START}{CIRCA}(?P<year>1[89][0-9]|20[0-9])0(?:'?S|ER)(?![0-9A-Za-z])", re.I | re.A
    ),
    "years": re.compile(rf"(?=[12]){START}(?P<year>{Y4}) ?[-/] ?(?P<later>(?:19|20)\d\d){STOP}", re.A),
    "iso": re.compile(
        rf"(?=[0-9Il|]){START}(?P<year>{Y4})(?P<mark>[-/.])(?P<month>\d{{1,2}})(?:(?P=mark)(?P<day>\d{{1,2}}))?{STOP}",
        re.A,
    ),
    "day": re.compile(
        rf"(?=[0-9]){START}(?P<first>\d{{1,2}})(?P<mark>[-/. ])(?P<second>\d{{1,2}})(?P=mark){Y}{STOP}", re.A
    ),
    "roman_day": re.compile(
        rf"(?=[0-9]){START}(?P<first>\d{{1,2}})[-/. ]{{1,2}}(?P<roman>XI{{0,2}}|IX|I?V|VI{{0,3}}|I{{1,3}})"
        rf"[-/. ]{{1,2}}{Y}{STOP}",
        re.A,
    ),
    "named_day": re.compile(
        rf"(?=[0-9]){START}(?P<day>\d{{1,2}})\.?(?:ST|ND|RD|TH)?[-/ ]?{MONTH}[-/ ,]{{0,2}}{Y}{STOP}", re.I
    ),
    "day_named": re.compile(rf"{START}{MONTH} (?P<day>\d{{1,2}})(?:ST|ND|RD|TH)?,? (?P<year>{Y4}){STOP}", re.I),
    "named": re.compile(rf"{START}{CIRCA}{MONTH}[-/ ,]{{0,2}}{Y}{STOP}", re.I),
    "quarter": re.compile(
        rf"{START}(?:Q ?(?P<q>[0-9])|(?P<q2>[0-9])(?:Q|\. ?QUARTAL|(?:ST|ND|RD|TH)? (?:QTR|QUARTER))"
        r"|(?:QTR|QUARTER) (?P<q3>[0-9]))"
        rf"[-/ ,]{{0,2}}{Y}{STOP}",
        re.I | re.A,
    ),
    "week": re.compile(
        rf"{START}(?:(?:WK|WEEK|KW)\.? ?(?P<week>\d{{1,2}})|(?P<week2>\d{{1,2}})\. ?KW)[-/ ,.]{{0,2}}{Y}{STOP}",
        re.I | re.A,
    ),
    "roman": re.compile(
        rf"(?=[IVX]){START}(?P<roman>XI{{0,2}}|IX|I?V|VI{{0,3}}|I{{1,3}})(?:[-/.] ?{Y}| (?P<year4>{Y4})){STOP}", re.A
    ),
    "month": re.compile(rf"(?=[0-9]){START}(?P<first>\d{{1,2}})(?P<mark> ?[-/.] ?| ){Y}{STOP}", re.A),
    "year": re.compile(
        rf"(?=[0-9Il|cauev~]){START}{CIRCA}(?P<year>{Y4})(?P<doubt> ?\?)?(?![0-9A-Za-zÀ-ÿ])(?![-/.,][0-9A-Za-z])",
        re.I | re.A,
    ),
    "two": re.compile(
        rf"(?=[0-9ODQIl|BSZGTcauev~']){START}{CIRCA}(?P<year>'?[0-9ODQIl|BSZGT]{{2}}){STOP}", re.I | re.A
    ),
}


NEEDED = {
    "decade": ("0s", "0'", "0er"),
    "years": "-/",
    "iso": "-/.",
    "day": "-/. ",
    "month": "-/. ",
    "roman_day": "ivx",
    "quarter": "q",
    "week": ("wk", "week", "kw"),
    "roman": "ivx",
}
# How far before the month's name such a date may begin: `31.st MAR`, `APPROX. MAR`.
NAMED = {"named_day": 6, "day_named": 0, "named": 8}
DIGIT = re.compile(r"\d")
WORD = re.compile(r"[^\W\d_]+")
# The names of months by their first letters, in small letters: few places of a text have any.
MONTH_BEGINS = re.compile("|".join(sorted({name[:3] for name in MONTH_OF})))


def dates_on(page: Page, context: Context) -> list[Reading]:
    """Every date on what is still free of the page, claimed, in the order printed."""
    found: list[Reading] = []
    if not DIGIT.search(page.free):
        return found
    folded = page.folded()
    months = [match.start() for match in MONTH_BEGINS.finditer(folded)]
    if months and MONTH_OF.keys().isdisjoint(WORD.findall(folded)):
        months = []
    for kind, pattern in PATTERNS.items():
        # A quick look whether what the form needs is there at all keeps long texts fast.
        if kind in NEEDED and not any(word in folded for word in NEEDED[kind]):
            continue
        if kind in NAMED:
            matches = near(pattern, page.free, months, NAMED[kind]) if months else ()
        else:
            matches = pattern.finditer(page.free)
        for match in matches:
            if "\0" in page.free[match.start() : match.end()]:
                continue
            word = word_before(page, match.start())
            if not word and (of_another_number(page, match.start()) or of_a_pattern(page, match.end())):
                continue
            if of_a_specification(page, match, word):
                continue
            beside = bool(word) or context.field_hint == "date"
            if kind == "two" and found and not beside:
                continue
            reading = READERS[kind](match, context, beside, page)
            if reading:
                if page.converted(*match.span()):
                    reading.reasons.add("non_latin_digits")
                found.append(reading)
                page.claim(match.start() - len(word), match.end())
    return sorted(found, key=lambda reading: reading.start)


def word_before(page: Page, start: int) -> str:
    if not page.may_end(start, DATE_ENDINGS):
        return ""
    line = max(page.free.rfind("\n", 0, start) + 1, start - 40)
    word = WORD_BEFORE.search(page.free[line:start])
    return word.group() if word else ""


def of_a_pattern(page: Page, end: int) -> bool:
    """`1944 PATTERN`: the year of a pattern is none of making."""
    return page.free[end : end + 1] == " " and bool(PATTERN_BEHIND.match(page.free, end))


def of_a_specification(page: Page, match: re.Match, word: str) -> bool:
    """`SPECIFICATION FOR COATS 1957`, `DATED 1957 MIL-C-43455`: dated so, and no word of making says otherwise."""
    if word and not DATED_ONLY.fullmatch(word):
        return False
    if word and SPECIFICATION_BEHIND.match(page.text, match.end()):
        return True
    start = match.start() - len(word)
    line = max(page.text.rfind("\n", 0, start) + 1, page.text.rfind(" / ", 0, start) + 1, start - 80)
    before = SPECIFICATION_BEFORE.search(page.text[line:start])
    if not before:
        return False
    # What another field has read between them parts the two.
    return TAKEN not in page.free[line + before.start("between") : start] and not MAKING.search(before["between"])


def of_another_number(page: Page, start: int) -> bool:
    """`RN`, `LOT` and the like directly before: the figures are another number's."""
    if not page.speaks_before(start):
        return False
    if not page.may_end(start, OTHER_ENDINGS) and "#" not in page.free[max(0, start - 4) : start]:
        return False
    return bool(OTHER_NUMBER_BEFORE.search(page.free[max(0, start - 20) : start].split("\n")[-1]))
