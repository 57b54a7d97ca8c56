"""How each written form of a date reads: EDTF candidates with their first and last day, or why it is none."""

import calendar
import re
from dataclasses import dataclass, field
from functools import lru_cache

from identification.label_reading.context import Context
from identification.label_reading.repairs import as_figures, guesses_in, repairs_in

QUARTER_CODES = {1: 33, 2: 34, 3: 35, 4: 36}
ROMAN = {
    "I": 1, "II": 2, "III": 3, "IV": 4, "V": 5, "VI": 6, "VII": 7, "VIII": 8, "IX": 9, "X": 10, "XI": 11, "XII": 12,
}  # fmt: skip
MONTHS = (
    "january jan januar jänner janvier janv gennaio gen enero ene januari",
    "february feb februar février févr fev febbraio febrero februari",
    "march mar märz mrz mars marzo maart mrt marts",
    "april apr avril avr aprile abril abr",
    "may mai maggio mag mayo mei maj",
    "june jun juni juin giugno giu junio",
    "july jul juli juillet juil luglio lug julio",
    "august aug août aou agosto ago augustus augusti",
    "september sep sept septembre settembre set septiembre",
    "october oct oktober okt octobre ottobre ott octubre",
    "november nov novembre noviembre",
    "december dec dezember dez décembre déc dicembre dic diciembre",
)
MONTH_OF = {word: number for number, words in enumerate(MONTHS, 1) for word in words.split()}
MONTH = "(?P<name>" + "|".join(sorted(MONTH_OF, key=len, reverse=True)) + r")\.?"


@dataclass
class Reading:
    """One place that reads as a date: EDTF candidates with their first and last day, or why it is none."""

    start: int
    end: int
    candidates: list[tuple[str, tuple, tuple]] = field(default_factory=list)
    reasons: set[str] = field(default_factory=set)
    fault: str | None = None
    changed: int = 0
    guessed: bool = False
    settled: bool = True

    @property
    def edtfs(self) -> list[str]:
        if len(self.candidates) == 1:
            return [self.candidates[0][0]]
        return sorted({edtf for edtf, _, _ in self.candidates})


@lru_cache(maxsize=1024)
def years_of(printed: str, earliest: int, latest: int) -> tuple[int, ...]:
    """A printed year, or for two figures every year within bounds that ends in them."""
    figures = as_figures(printed.lstrip("'")).replace("o", "0")
    if len(figures) == 4:
        return (int(figures),)
    return tuple(year for year in range(earliest, latest + 1) if year % 100 == int(figures))


def begin(match: re.Match, context: Context, printed: str) -> tuple[Reading, tuple[int, ...]]:
    """A reading with what its year alone says: repairs, the missing century, a year to come."""
    reading = Reading(*match.span())
    bare = printed.lstrip("'").replace("o", "O")
    if not bare.isdigit():
        reading.changed, reading.guessed = repairs_in(bare), bool(guesses_in(bare))
    if reading.changed:
        reading.reasons.add("letters_in_number")
    years = years_of(printed, context.earliest_year, context.reference_year)
    if len(bare) == 2:
        reading.reasons.add("two_digit_year")
        reading.settled = False
    if not years or min(years) > context.reference_year:
        reading.fault = "future_year"
    return reading, years


def plausible_letters(printed: str) -> bool:
    """At least half of a year is printed in figures, and the rest in letters that look like some."""
    if printed.isdigit():
        return True
    bare = printed.lstrip("'").replace("o", "O")
    return as_figures(bare).isdigit() and 2 * repairs_in(bare) <= len(bare)


@lru_cache(maxsize=4096)
def last_day(year: int, month: int) -> int:
    return calendar.monthrange(year, month)[1] if 1 <= year <= 9999 else 31


def whole_year(year: int, mark: str = "") -> tuple[str, tuple, tuple]:
    return f"{year:04}{mark}", (year, 1, 1), (year, 12, 31)


def whole_month(year: int, month: int, mark: str = "") -> tuple[str, tuple, tuple]:
    return f"{year:04}-{month:02}{mark}", (year, month, 1), (year, month, last_day(year, month))


def whole_quarter(year: int, quarter: int) -> tuple[str, tuple, tuple]:
    last = quarter * 3
    return f"{year:04}-{QUARTER_CODES[quarter]}", (year, last - 2, 1), (year, last, last_day(year, last))


def one_of_years(first: int, last: int) -> tuple[str, tuple, tuple]:
    """One of the years, in EDTF a set of which one is meant (ISO 8601-2, level 2)."""
    mark = "," if last == first + 1 else ".."
    return f"[{first}{mark}{last}]", (first, 1, 1), (last, 12, 31)


def one_day(year: int, month: int, day: int) -> tuple[str, tuple, tuple] | None:
    if not 1 <= month <= 12 or not 1 <= day <= last_day(year, month):
        return None
    return f"{year:04}-{month:02}-{day:02}", (year, month, day), (year, month, day)


def circa_mark(match: re.Match) -> str:
    named = match.re.groupindex
    if "circa" in named and match["circa"]:
        return "~"
    return "?" if "doubt" in named and match["doubt"] else ""


def read_decade(match, context, beside, page) -> Reading:
    decade = int(match["year"])
    reading = Reading(
        *match.span(), [(f"{decade}X{circa_mark(match)}", (decade * 10, 1, 1), (decade * 10 + 9, 12, 31))]
    )
    if decade * 10 > context.reference_year:
        reading.fault = "future_year"
    return reading


def read_year(match, context, beside, page) -> Reading | None:
    printed = match["year"]
    if not plausible_letters(printed) or (
        printed[:2] in ("10", "11", "12", "13", "14", "15", "16", "17", "18") and not beside
    ):
        return None
    reading, years = begin(match, context, printed)
    if years[0] < context.earliest_year and not beside:
        return None
    reading.candidates = [whole_year(year, circa_mark(match)) for year in years]
    return reading


def read_two(match, context, beside, page) -> Reading | None:
    printed = match["year"]
    known_maker_says_so = match.start() in page.two_figure_years
    if not (beside or known_maker_says_so) or not plausible_letters(printed):
        return None
    reading, years = begin(match, context, printed)
    if known_maker_says_so and not beside:
        first, last = page.two_figure_years[match.start()]
        years = tuple(year for year in years if first <= year <= last)
        if not years:
            return None
    reading.candidates = [whole_year(year, circa_mark(match)) for year in years]
    return reading


def read_month(match, context, beside, page) -> Reading | None:
    printed, mark = match["year"], match["mark"].strip()
    slash = mark == "/"
    alone = page.alone_on_line(*match.span())
    if not plausible_letters(printed) or (repairs_in(printed) and not (beside or alone)):
        return None
    if len(printed.lstrip("'")) == 2 and not slash and not (beside or (mark and alone)):
        return None
    if not mark and not beside:
        return None
    number = int(match["first"])
    reading, years = begin(match, context, printed)
    if not 1 <= number <= 12:
        if not (beside or alone) or len(printed) == 4 and not beside and not slash:
            return None
        reading.fault = "month_out_of_range"
        return reading
    reading.candidates = [whole_month(year, number) for year in years]
    # A quarter is one bare figure; nobody writes it with a nought before it.
    if number <= 4 and len(match["first"]) == 1:
        reading.candidates += [whole_quarter(year, number) for year in years]
        reading.reasons.add("month_or_quarter")
    return reading


def read_iso(match, context, beside, page) -> Reading | None:
    printed, month, day = match["year"], int(match["month"]), match["day"]
    if not plausible_letters(printed):
        return None
    reading, (year, *_) = begin(match, context, printed)
    if day is None:
        if not 1 <= month <= 12:
            later = year - year % 100 + month
            if later == year + 1 and len(match["month"]) == 2:
                reading.candidates = [one_of_years(year, later)]
                return reading
            if later > year and match["mark"] == "-" and (beside or page.alone_on_line(*match.span())):
                return between_years(reading, year, later, context)
            reading.fault = "month_out_of_range"
            return reading
        reading.candidates = [whole_month(year, month)]
        return reading
    if not 1 <= month <= 12:
        reading.fault = "month_out_of_range"
    elif found := one_day(year, month, int(day)):
        reading.candidates = [found]
    else:
        reading.fault = "no_such_day"
    return reading


def read_years(match, context, beside, page) -> Reading | None:
    """Two whole years: those of a war or of a contract as often as of making, so made in one of them."""
    printed, later = match["year"], int(match["later"])
    if not printed.isdigit() or not context.earliest_year <= int(printed) < later:
        return None
    if not (beside or page.alone_on_line(*match.span())):
        return None
    reading, _ = begin(match, context, printed)
    return between_years(reading, int(printed), later, context)


def between_years(reading: Reading, first: int, later: int, context: Context) -> Reading:
    if later > context.reference_year:
        reading.fault = "future_year"
    else:
        reading.candidates = [one_of_years(first, later)]
    return reading


def read_day(match, context, beside, page) -> Reading | None:
    printed = match["year"]
    if match["mark"] == " " and not beside or not plausible_letters(printed):
        return None
    first, second = int(match["first"]), int(match["second"])
    reading, years = begin(match, context, printed)
    orders = {(first, second), (second, first)}
    if context.country:
        orders = {(second, first)} if context.country.upper() in ("USA", "PHL") else {(first, second)}
    found = [one_day(year, month, day) for year in years for day, month in sorted(orders)]
    reading.candidates = sorted({candidate for candidate in found if candidate})
    if not reading.candidates and not reading.fault:
        months = [month for _, month in orders]
        reading.fault = "no_such_day" if any(1 <= month <= 12 for month in months) else "month_out_of_range"
    if len({edtf[4:] for edtf, _, _ in reading.candidates}) > 1:
        reading.reasons.add("day_month_order")
    return reading


def read_roman_day(match, context, beside, page) -> Reading | None:
    if not plausible_letters(match["year"]):
        return None
    reading, years = begin(match, context, match["year"])
    found = [one_day(year, ROMAN[match["roman"]], int(match["first"])) for year in years]
    reading.candidates = [candidate for candidate in found if candidate]
    if not reading.candidates and not reading.fault:
        reading.fault = "no_such_day"
    return reading


def read_named(match, context, beside, page) -> Reading | None:
    printed, name = match["year"], match["name"].lower()
    if not plausible_letters(printed) or len(printed) == 2 and repairs_in(printed) and not beside:
        return None
    day = match["day"] if "day" in match.re.groupindex else None
    if (
        len(printed.lstrip("'")) == 2
        and not day
        and not beside
        and not page.alone_on_line(*match.span())
        and len(name) > 9
    ):
        return None
    reading, years = begin(match, context, printed)
    month = MONTH_OF[name]
    if not day:
        reading.candidates = [whole_month(year, month, circa_mark(match)) for year in years]
        return reading
    found = [one_day(year, month, int(day)) for year in years]
    reading.candidates = [candidate for candidate in found if candidate]
    if not reading.candidates and not reading.fault:
        reading.fault = "no_such_day"
    return reading


def read_quarter(match, context, beside, page) -> Reading | None:
    number = int(match["q"] or match["q2"] or match["q3"])
    if not plausible_letters(match["year"]):
        return None
    reading, years = begin(match, context, match["year"])
    if number not in QUARTER_CODES:
        reading.fault = "month_out_of_range"
        return reading
    reading.candidates = [whole_quarter(year, number) for year in years]
    return reading


def read_roman(match, context, beside, page) -> Reading | None:
    """Roman I to IV before a year is a quarter, V to XII a month."""
    printed, number = match["year"] or match["year4"], ROMAN[match["roman"]]
    if repairs_in(printed) or len(printed) == 2 and not (beside or page.alone_on_line(*match.span())):
        return None
    reading, years = begin(match, context, printed)
    make = whole_quarter if number <= 4 else whole_month
    reading.candidates = [make(year, number) for year in years]
    return reading


def read_week(match, context, beside, page) -> Reading | None:
    """A week has no EDTF of its own: it is the interval from its Monday to its Sunday (ISO 8601)."""
    week = int(match["week"] or match["week2"])
    if not plausible_letters(match["year"]):
        return None
    reading, years = begin(match, context, match["year"])
    for year in years:
        try:
            monday, sunday = (calendar.datetime.date.fromisocalendar(year, week, day) for day in (1, 7))
        except ValueError:
            continue
        reading.candidates.append((f"{monday}/{sunday}", monday.timetuple()[:3], sunday.timetuple()[:3]))
    if not reading.candidates and not reading.fault:
        reading.fault = "no_such_day"
    return reading


READERS = {
    "decade": read_decade,
    "years": read_years,
    "iso": read_iso,
    "day": read_day,
    "roman_day": read_roman_day,
    "named_day": read_named,
    "day_named": read_named,
    "named": read_named,
    "quarter": read_quarter,
    "week": read_week,
    "roman": read_roman,
    "month": read_month,
    "year": read_year,
    "two": read_two,
}
