"""Stock numbers: thirteen figures since 30 September 1974, eleven before, local ones with letters.

Structure 4 + 2 + 7 after the brochure of AC/135 and two Navy training courses; the end of the eleven-figure number
after a dictionary entry of the US Department of Defense. No check figure exists.
"""

import re

from identification.label_reading.page import Page
from identification.label_reading.repairs import (
    LOOKS_LIKE_FIGURE,
    MOST_REPAIRS,
    as_figures,
    guesses_in,
    repairs_in,
    true_figures,
)
from identification.label_reading.tables import class_titles, codifiers
from identification.label_reading.vocabulary import field, weakest

SYSTEM_ENDED = "1974-09-30"
D = f"[{LOOKS_LIKE_FIGURE}]"
SEP = r"(?: ?[-/.] ?| )?"
# Asked behind the first figure: a search that begins with a figure leaps from one to the next.
BEFORE = r"(?:(?<![0-9A-Za-z].)|(?<=[NF]SN.))(?<![0-9][-/.].)"
AFTER = r"(?![0-9ODQIl|BSZGT])(?!-[0-9])"
WORD = re.compile(
    r"(?:(?:N\.?S\.?N\.?|F\.?S\.?N\.?|NIIN|NATO STOCK (?:NO|NUMBER|NR)|FEDERAL STOCK (?:NO|NUMBER)"
    r"|(?:NATO )?STOCK (?:NO|NUMBER|NR)|STOCK|VERS(?:ORGUNGS)?\.?-?(?:NUMMER|NR)|ITEM (?:NO|NUMBER))\.?"
    r" ?[:#-]? ?|\(7001\) ?)$",
    re.IGNORECASE | re.ASCII,
)
ENDINGS = ("n", "no", "number", "nr", "stock", "nummer", "(7001)")
NSN = re.compile(f"({D}{BEFORE}{D}{{3}})({SEP})({D}{{2}})({SEP})({D}{{3}})({SEP})({D}{{4}}){AFTER}")
FSN = re.compile(f"({D}{BEFORE}{D}{{3}})({SEP})({D}{{3}})({SEP})({D}{{4}}){AFTER}")
LOCAL = re.compile(rf"(\d{BEFORE}\d{{3}})-([A-Z]{{2}})-?([A-Z0-9]{{3}})-?([A-Z0-9]{{4}})(?![0-9A-Za-z])", re.I | re.A)
LETTER_IN_SEVENTH = re.compile(rf"(\d{BEFORE}\d{{3}})-(\d{{2}})-([A-Z]\d{{2}})-(\d{{4}})(?![0-9A-Za-z])", re.I | re.A)
ITEM = re.compile(rf"(\d{BEFORE}\d)(-| ?)(\d{{3}})(-| ?)(\d{{4}})(?![0-9A-Za-z])(?!-[0-9])", re.ASCII)
RUN = re.compile(rf"{D}{BEFORE}{D}{{0,15}}(?:(?: ?[-/.] ?| ){D}{{1,16}}){{0,8}}(?![0-9A-Za-z])", re.ASCII)


class Found:
    """One number found: where it stands, what it reads as, and how sure that is."""

    def __init__(self, start: int, end: int, kind, value, status="read", reasons=(), **keys):
        self.start, self.end, self.kind, self.value = start, end, kind, value
        self.status, self.reasons, self.keys = status, list(reasons), keys


def read_stock_number(page: Page) -> dict:
    """The label's stock number. Two different ones are listed and none is chosen."""
    found = numbers_on(page)
    if not found:
        return field("absent")
    usable = [number for number in found if number.status != "invalid"] or found[:1]
    for number in usable:
        claim_with_word(page, number.start, number.end)
    first = usable[0]
    place = page.printed(first.start, first.end)
    different = list(dict.fromkeys(number.value or tuple(number.keys.get("candidates", ())) for number in usable))
    if len(different) == 1:
        best = min(usable, key=lambda number: number.status != "read")
        answer = field(best.status, best.reasons, kind=best.kind, value=best.value, **best.keys)
        return answer | page.printed(best.start, best.end)
    kinds = {number.kind for number in usable}
    values = list(dict.fromkeys(number.value for number in usable if number.value))
    candidates = list(dict.fromkeys(c for number in usable for c in number.keys.get("candidates", ())))
    keys = {"kind": kinds.pop() if len(kinds) == 1 else None, "value": None, "values": values}
    if candidates:
        keys["candidates"] = sorted(candidates)
    if len(values) > 1 and len({value.replace("-", "")[-7:] for value in values}) == 1 and same_length(values):
        keys["same_item"] = False
    reasons = {"two_numbers", *(reason for number in usable for reason in number.reasons)}
    return field("ambiguous", reasons, **keys) | place


def same_length(values: list[str]) -> bool:
    return len({len(value) for value in values}) == 1


def word_before(page: Page, start: int) -> re.Match | None:
    """The field word, as `NSN:`, directly before a number on its line."""
    if not page.may_end(start, ENDINGS):
        return None
    line = max(page.free.rfind("\n", 0, start) + 1, start - 40)
    return WORD.search(page.free[line:start])


def claim_with_word(page: Page, start: int, end: int) -> None:
    word = word_before(page, start)
    page.claim(start - len(word.group()) if word else start, end)


def numbers_on(page: Page) -> list[Found]:
    """Every number on the page, best pattern first, in the order printed."""
    found: list[Found] = []
    taken = bytearray(len(page.free))

    def offer(number: Found | None) -> None:
        if number and taken.find(1, number.start, number.end) < 0:
            taken[number.start : number.end] = b"\1" * (number.end - number.start)
            found.append(number)

    if len(page.free) < 5 or sum(map(str.isdigit, page.free)) < 5:
        return []
    for reader in (read_thirteen, read_local, read_eleven, read_item):
        for number in reader(page):
            offer(number)
    if not found:
        for number in read_broken(page):
            offer(number)
    return sorted(found, key=lambda number: number.start)


def read_thirteen(page: Page):
    for match in NSN.finditer(page.free):
        supply_class, first, country, _, middle, _, last = match.groups()
        printed = supply_class + country + middle + last
        separated = bool(first)
        if true_figures(printed) < (6 if separated else 9):
            continue
        # No supply class begins with a nought: figures in such groups are some other number.
        if supply_class[0] == "0" and not word_before(page, match.start()):
            continue
        if country.isalpha() and not set(country) <= set("OIl"):
            value = f"{supply_class}-{country}-{middle}-{last}".upper()
            yield local(match, value, as_figures(supply_class))
            continue
        yield thirteen(page, match, as_figures(printed), printed, country)


def thirteen(page: Page, match: re.Match, figures: str, printed: str, country: str) -> Found:
    changed = repairs_in(printed)
    keys = {"characters_changed": changed} if changed else {}
    if changed > MOST_REPAIRS:
        return Found(*match.span(), None, None, "invalid", ["too_many_repairs"], **keys)
    value = f"{figures[:4]}-{figures[4:6]}-{figures[6:9]}-{figures[9:]}"
    reasons, statuses = repairs_of(page, match, changed)
    if guesses_in(country):
        keys["candidates"] = [value]
        return Found(*match.span(), None, None, "ambiguous", ["letters_in_number"], **keys)
    codifier = codifiers().get(figures[4:6])
    if codifier is None:
        reasons.append("unknown_country_code")
        statuses.append("unconfirmed")
    class_remarks(figures[:4], reasons, statuses)
    bare = len(match.group()) == 13
    if bare and not changed and passes_ean(figures) and "(7001)" not in page.free[max(0, match.start() - 7) :]:
        reasons.append("also_valid_retail_barcode")
    return Found(
        *match.span(),
        "NSN",
        value,
        weakest(statuses),
        reasons,
        supply_class=figures[:4],
        class_title=class_titles().get(figures[:4]),
        country_code=figures[4:6],
        country=codifier and codifier.country,
        alpha3=codifier and codifier.alpha3,
        item_number=figures[4:],
        **keys,
    )


def repairs_of(page: Page, match: re.Match, changed: int) -> tuple[list[str], list[str]]:
    reasons, statuses = [], ["read"]
    if changed:
        reasons.append("letters_in_number")
        statuses.append("corrected")
    if page.converted(*match.span()):
        reasons.append("non_latin_digits")
        statuses.append("corrected")
    return reasons, statuses


def class_remarks(supply_class: str, reasons: list[str], statuses: list[str]) -> None:
    if supply_class[:2] not in ("83", "84"):
        reasons.append("not_a_garment_class")
    elif supply_class not in class_titles():
        reasons.append("unknown_supply_class")
        statuses.append("unconfirmed")


def passes_ean(figures: str) -> bool:
    """The retail bar code's check (GS1 General Specifications): weights 1 and 3 by turns, a sum that ends in 0."""
    return sum(int(figure) * (3 if place % 2 else 1) for place, figure in enumerate(figures)) % 10 == 0


def local(match: re.Match, value: str, supply_class: str) -> Found:
    reasons, statuses = ["local_number_not_nsn"], ["read"]
    class_remarks(supply_class, reasons, statuses)
    return Found(
        *match.span(),
        "local",
        value,
        weakest(statuses),
        reasons,
        supply_class=supply_class,
        class_title=class_titles().get(supply_class),
        country_code=None,
        country=None,
        alpha3=None,
    )


def read_local(page: Page):
    for pattern in (LOCAL, LETTER_IN_SEVENTH):
        for match in pattern.finditer(page.free):
            yield local(match, "-".join(match.groups()).upper(), match.group(1))


def read_eleven(page: Page):
    for match in FSN.finditer(page.free):
        supply_class, _, middle, _, last = match.groups()
        printed = supply_class + middle + last
        bare = not re.search(r"[-/.]", match.group())
        if true_figures(printed) < (9 if bare else 6):
            continue
        figures = as_figures(printed)
        if bare and figures[:2] not in ("83", "84") and not word_before(page, match.start()):
            continue
        changed = repairs_in(printed)
        keys = {"characters_changed": changed} if changed else {}
        if changed > MOST_REPAIRS:
            yield Found(*match.span(), None, None, "invalid", ["too_many_repairs"], **keys)
            continue
        reasons, statuses = repairs_of(page, match, changed)
        class_remarks(figures[:4], reasons, statuses)
        yield Found(
            *match.span(),
            "FSN",
            f"{figures[:4]}-{figures[4:7]}-{figures[7:]}",
            weakest(statuses),
            reasons,
            supply_class=figures[:4],
            class_title=class_titles().get(figures[:4]),
            country_code=None,
            country=None,
            alpha3=None,
            item_number=figures[4:],
            possible_nsn=f"{figures[:4]}-00-{figures[4:7]}-{figures[7:]}",
            system_ended=SYSTEM_ENDED,
            **keys,
        )


def read_item(page: Page):
    """Nine-figure item numbers alone: hyphens after the second and fifth figure, or a field word before."""
    for match in ITEM.finditer(page.free):
        code, first, middle, second, last = match.groups()
        if not (first == second == "-") and not word_before(page, match.start()):
            continue
        codifier = codifiers().get(code)
        reasons, statuses = repairs_of(page, match, 0)
        if codifier is None:
            reasons.append("unknown_country_code")
            statuses.append("unconfirmed")
        yield Found(
            *match.span(),
            "item_numbers_only",
            code + middle + last,
            weakest(statuses),
            reasons,
            supply_class=None,
            class_title=None,
            country_code=code,
            country=codifier and codifier.country,
            alpha3=codifier and codifier.alpha3,
            item_number=code + middle + last,
            values=[code + middle + last],
        )


def read_broken(page: Page):
    """What looks like a stock number and is none: a wrong count of figures, or separators in wrong places."""
    for match in RUN.finditer(page.free):
        if match.end() - match.start() < 7:
            continue
        groups = re.split(r" ?[-/.] ?| ", match.group())
        tight = len(groups) > 1 and " " not in match.group()
        printed = "".join(groups)
        if len(printed) < 7 or repairs_in(printed) > MOST_REPAIRS or true_figures(printed) < 7:
            continue
        word = word_before(page, match.start())
        looks_like_it = (len(groups[0]) == 4 and len(groups) > 2) or as_figures(printed)[:2] in ("83", "84")
        if not word and not (tight and len(groups) > 2) and not (looks_like_it and len(printed) >= 12):
            continue
        count = len(printed)
        if count == 13 or count == 11 and [len(g) for g in groups][:2] != [4, 2]:
            if len(groups) > 1:
                yield Found(*match.span(), None, None, "invalid", ["bad_grouping"], digits_found=count)
        elif word and count >= 9 or looks_like_it and 10 <= count <= 16:
            yield Found(*match.span(), None, None, "invalid", ["wrong_digit_count"], digits_found=count)
