"""United States contract numbers and the fiscal year in them.

Positions after FAR 4.1603, letters I and O after DFARS 204.1603, the years' starts after 31 U.S.C. 1020 as amended by
P.L. 93-344 s. 501. The fiscal year is that of the signature: never a date of making.
"""

import re

from identification.label_reading.context import Context
from identification.label_reading.page import Page
from identification.label_reading.repairs import ALIKE, as_figures, guesses_in, repairs_in
from identification.label_reading.vocabulary import field, weakest

INSTRUMENTS = {
    "A": "blanket agreement",
    "B": "invitation for bids",
    "C": "contract",
    "D": "indefinite-delivery contract",
    "F": "order",
    "G": "basic ordering agreement",
    "H": "agreement",
    "L": "lease",
    "P": "purchase order",
    "V": "purchase order",
    "Q": "quotation request",
    "U": "quotation request",
    "R": "request for proposals",
}
SOLICITATIONS = frozenset("BQRU")
# Fiscal years in which an office's letters were used, as far as known. The agency of the first began on 1 January 1962
# (its own history) and ended with 1976, within fiscal 1977; the rest is known from memory only, no source, so two years
# more pass wherever it is "about". They fix the century; a year in none of them is told, and gives no bound.
YEARS_OF_OFFICE = (
    *(("DSA", 1962, 1977), ("DLA", 1977, 1997), ("SPM", 2000, 2015), ("SPE", 2011, None), ("SP", 1993, None)),
    ("", 1954, None),
)
OFFICE = (
    r"(?:DSA[- ]?[0-9OIl]{3}|DLA[- ]?[0-9OIl]{3}|SP[0OME][A-Z0-9]{3}"
    r"|[A-Z][A-Z0-9]{5})"
)
YEAR = r"[0-9ODQIl|BSZGT]{2}"
MODERN = re.compile(
    rf"(?<![A-Za-z0-9-])({OFFICE})-({YEAR})-([A-Z0])-([A-Z0-9]{{1,8}})(?![A-Za-z0-9])", re.IGNORECASE | re.ASCII
)
SPACED = re.compile(
    rf"(?<![A-Za-z0-9-])((?:DSA|DLA)[- ]?[0-9OIl]{{3}}|SP[0OME][A-Z0-9]{{3}})[- ]?({YEAR})[- ]?([A-Z])[- ]?"
    r"([A-Z0-9]{4,8})(?![A-Za-z0-9])",
    re.ASCII,
)
BARE = re.compile(
    r"(?<![A-Za-z0-9-])((?:DSA|DLA)[0-9]{3}|SP[0OME][A-Z0-9]{3}|(?:W[0-9]|[NM][0-9]{2}|FA[0-9])[A-Z0-9]{3,4})"
    r"([0-9]{2})([A-Z])([A-Z0-9]{4,8})(?![A-Za-z0-9-])",
    re.ASCII,
)
INVITATION = re.compile(r"(?<![A-Za-z0-9-])(QM)[- ]?(\d{2})-(\d{3})-(\d{2})-(\d{1,6})(?![A-Za-z0-9-])", re.I | re.A)
DEPOT = re.compile(
    r"(?<![A-Za-z0-9-])((?:DA|QM)[- ]?\d{2}-\d{3}(?:-QM)?(?:\([A-Z0-9-]{1,8}\))?)-(\d{1,6})(-[A-Z]-?\d{2})?"
    r"(?![A-Za-z0-9-])",
    re.IGNORECASE | re.ASCII,
)
WORD = re.compile(r"(?:CONTRACT|CONTR?|VERTRAG)\.?(?: ?(?:NO|NR|NUMBER|#)\.?)? ?[:#-]? ?$", re.IGNORECASE)


def read_contract(page: Page, context: Context) -> dict:
    """The label's contract number with its fiscal year. Two different ones are listed and none is chosen."""
    found, taken, folded = [], [], page.folded()
    for pattern, reader, needed in (
        (INVITATION, read_invitation, ("qm",)),
        (MODERN, read_modern, ("-",)),
        (BARE, read_modern, ("dsa", "dla", "sp", "w", "m", "n", "fa")),
        (SPACED, read_modern, ("dsa", "dla", "sp")),
        (DEPOT, read_depot, ("da", "qm")),
    ):
        for match in pattern.finditer(page.free) if any(words in folded for words in needed) else ():
            if any(match.start() < end and start < match.end() for start, end in taken):
                continue
            answer = reader(page, match, context)
            if answer:
                taken.append(match.span())
                found.append((match.span(), answer))
    found.sort(key=lambda item: item[0])
    usable = [item for item in found if item[1]["status"] != "invalid"] or found[:1]
    for (start, end), _ in usable:
        line = max(page.free.rfind("\n", 0, start) + 1, start - 40)
        word = WORD.search(page.free[line:start])
        page.claim(start - len(word.group()) if word else start, end)
    if not usable:
        return field("absent")
    (place, first), others = usable[0], usable[1:]
    if all(other["value"] == first["value"] for _, other in others):
        return first | page.printed(*place)
    values = list(dict.fromkeys(answer["value"] for _, answer in usable if answer["value"]))
    keys = {"value": None, "values": values, "fiscal_year": None}
    return field("ambiguous", {"two_numbers"}, **keys) | page.printed(*place)


def read_modern(page: Page, match: re.Match, context: Context) -> dict | None:
    printed_office, year, letter, serial = match.groups()
    office = re.sub(r"[- ]", "", printed_office).upper()
    letter = letter.upper()
    if "-" not in match.group() and letter not in INSTRUMENTS:
        return None
    if not any(c.isdigit() for c in year) or len(office) != 6:
        return None
    serial = serial.upper()
    forbidden = sum(part.upper().count(c) for part in (office, serial) for c in "IO") + sum(c in "OI" for c in year)
    office, serial = without_forbidden(office), without_forbidden(serial)
    reasons, status = set(), "read"
    other_letters = repairs_in(year) - sum(c in "OI" for c in year)
    if forbidden:
        reasons.add("letter_not_allowed")
        status = "corrected"
    if other_letters:
        reasons.add("letters_in_number")
        status = "corrected"
    if page.converted(*match.span()):
        reasons.add("non_latin_digits")
        status = "corrected"
    changed = {"characters_changed": forbidden + other_letters} if forbidden + other_letters else {}
    if len(serial) < 4:
        keys = {"office": office, "instrument": letter, "serial": serial}
        return field("invalid", reasons | {"serial_too_short"}, value=None, **keys, **changed)
    keys = {
        "office": office,
        "instrument": letter,
        "instrument_name": INSTRUMENTS.get(letter),
        "serial": serial,
        **changed,
    }
    if letter in SOLICITATIONS:
        reasons.add("solicitation_not_contract")
    years = years_that_fit(office, int(as_figures(year)), context)
    if letter in "OI0":
        # No contract has these letters there; O may be a D or a Q, and nothing says which.
        keys |= {"instrument": None, "instrument_name": None}
        close = [f"{office}-{as_figures(year)}-{c}-{serial}" for c in "DQ"] if letter != "I" else []
        return field("ambiguous", reasons | {"letter_not_allowed"}, value=None, candidates=close, **keys)
    if guesses_in(year):
        keys |= {"fiscal_year": None, "candidates": years}
        return field("ambiguous", reasons | {"letters_in_number"}, value=None, **keys)
    value = f"{office}-{as_figures(year)}-{letter}-{serial}"
    if not set(years) & set(years_of_office(office, context)):
        keys |= {"fiscal_year": None, "candidates": years}
        return field(weakest(["unconfirmed", status]), reasons | {"office_of_other_years"}, value=value, **keys)
    if len(years) != 1:
        keys |= {"fiscal_year": None, "candidates": years}
        return field("ambiguous", reasons | {"two_digit_year"}, value=value, **keys)
    return field(status, reasons, value=value, **keys, **fiscal(years[0]))


def without_forbidden(part: str) -> str:
    return part.replace("O", ALIKE["O"]).replace("I", ALIKE["I"])


def years_that_fit(office: str, two_figures: int, context: Context) -> list[int]:
    """Years that end in these figures while such offices wrote contracts; wider where none would fit."""
    within = [y for y in years_of_office(office, context) if y % 100 == two_figures]
    return within or [y for y in range(1954, context.reference_year + 2) if y % 100 == two_figures]


def years_of_office(office: str, context: Context) -> range:
    """The fiscal years in which an office of these letters wrote contracts, as far as known."""
    start, end = next((start, end) for prefix, start, end in YEARS_OF_OFFICE if office.startswith(prefix))
    latest = context.reference_year + 1
    return range(start, min(end or latest, latest) + 1)


def fiscal(year: int) -> dict:
    """First and last day of a United States fiscal year; the summer quarter of 1976 belongs to none."""
    start = f"{year - 1}-07-01" if year <= 1976 else f"{year - 1}-10-01"
    end = f"{year}-06-30" if year <= 1976 else f"{year}-09-30"
    known = {"fiscal_year": year, "award_from": start, "award_to": end}
    return known | ({"latest": "1976-09-30"} if year == 1976 else {})


def read_invitation(page: Page, match: re.Match, context: Context) -> dict | None:
    """A quartermaster depot's invitation carries its fiscal year before the serial (decision B-124790)."""
    letters, district, depot, year, serial = match.groups()
    if not 40 <= int(year) <= 62:
        return None
    value = f"{letters.upper()}-{district}-{depot}-{year}-{serial}"
    keys = {"form": "quartermaster", "office": None, "instrument": None, "instrument_name": None, "serial": serial}
    return field("read", {"solicitation_not_contract"}, value=value, **keys, **fiscal(1900 + int(year)))


def read_depot(page: Page, match: re.Match, context: Context) -> dict:
    """A depot's contract form: often without a year, about 1960-64 with one behind a letter at the end."""
    office, serial, ending = match.groups()
    value = re.sub(r"^(DA|QM)[- ]?", r"\1-", match.group().upper())
    keys = {"value": value, "form": "quartermaster", "office": None, "serial": serial}
    if ending:
        letter, year = re.sub(r"-", "", ending).upper()[0], int(ending[-2:])
        keys |= {"instrument": letter, "instrument_name": INSTRUMENTS.get(letter)}
        return field("read", (), **keys, **fiscal(1900 + year))
    keys |= {"instrument": None, "instrument_name": None, "fiscal_year": None, "award_from": None, "award_to": None}
    return field("read", {"no_year_in_number"}, **keys)


def signed_in(reading: dict) -> int | None:
    """The year in which the contract of this reading was signed, also of one to be confirmed; None for other numbers.
    `reading`: the field `contract` of an answer, or one of its `numbers`."""
    if reading.get("role") == "contract":
        years = reading.get("years") or ()
        return reading.get("year") or (years[0] if len(years) == 1 else None)
    award = reading.get("award_from")
    return int(award[:4]) if award else None


def years_of_contracts(answer: dict) -> set[int]:
    """The years in which contracts on the label were signed, of those that were read without a guess: bounds, never
    dates of making. `answer`: what `read_label` gave."""
    readings = (*answer["numbers"], answer["contract"])
    return {year for one in readings if one["status"] == "read" and (year := signed_in(one))}
