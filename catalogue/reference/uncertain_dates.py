"""Dates as historians write them (EDTF, ISO 8601-2): `1966~` about, `1964?` uncertain, `1971/1986`, `..` open."""

import re
from calendar import monthrange

MONTHS = [
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
]
ONE_DATE = re.compile(r"(\d{4})(?:-(\d{2}))?(?:-(\d{2}))?([~?%]?)", re.ASCII)

# As people write it and as `in_words` does: `14 May 2020`, `May 2020`, `about 1966?`.
WRITTEN = re.compile(
    rf"(?P<about>(?:about|ca\.?|c\.) )?(?:(?:(?P<day>\d{{1,2}})(?:\.|st|nd|rd|th)? )?"
    rf"(?P<month>{'|'.join(f'{name}|{name[:3]}' for name in MONTHS)}|sept)\.?,? )?(?P<year>\d{{4}})(?P<doubt>\?)?",
    re.ASCII | re.IGNORECASE,
)
YEARS = re.compile(r"(\d{2})(\d{2}) ?[-–] ?(\d{2}(?:\d{2})?)", re.ASCII)
BETWEEN = re.compile(r" ?– ?| - | to ", re.IGNORECASE)

UNREADABLE = "a date is written 1966, 1966-03, 1966~ (about), 1964? (uncertain) or 1971/1986, with .. for an open end"
NO_SUCH_DAY = "there is no such day or month"
BACKWARD = "the date ends before it begins"
# What would be right, by what is wrong.
DATES_THAT_ARE = {
    UNREADABLE: UNREADABLE.removeprefix("a date is written "),
    NO_SUCH_DAY: "a month and a day that there are",
    BACKWARD: "a date that does not end before it begins",
}


def fault_in_date(text: str) -> str | None:
    """What is wrong with `text` as an uncertain date, in words, or None.

    Accepted: a year, year-month or day, each with ~ (about), ? (uncertain) or % (both), and an interval of two
    of them, where .. stands for an open end.
    """
    ends = text.split("/")
    if len(ends) > 2 or not all(end == ".." or ONE_DATE.fullmatch(end) for end in ends) or text == "../..":
        return UNREADABLE
    if any(bad_month_or_day(end) for end in ends if end != ".."):
        return NO_SUCH_DAY
    first, last = year_span(text)
    if first and last and first > last:
        return BACKWARD
    return None


def bad_month_or_day(end: str) -> bool:
    year, month, day, _ = ONE_DATE.fullmatch(end).groups()
    if month and not 1 <= int(month) <= 12:
        return True
    return bool(day) and not 1 <= int(day) <= monthrange(int(year), int(month))[1]


def year_span(text: str) -> tuple[int | None, int | None]:
    """First and last year; None at an open end. `text` has been checked."""
    ends = text.split("/")
    years = [int(end[:4]) if end != ".." else None for end in ends]
    return years[0], years[-1]


def in_words(text: str) -> str:
    """`1957-09/1966~` as "September 1957 – about 1966", `1952/1958` as "1952–58", `1989~/..` as "from about 1989"."""
    if not text:
        return ""
    first, _, last = text.partition("/")
    if not last:
        return one_in_words(first)
    if last == "..":
        return f"from {one_in_words(first)}"
    if first == "..":
        return f"until {one_in_words(last)}"
    if first.isdigit() and last.isdigit():
        return first if first == last else f"{first}–{last[2:] if first[:2] == last[:2] else last}"
    return f"{one_in_words(first)} – {one_in_words(last)}"


def as_typed(text: str) -> str:
    """EDTF of a date as people write it, or as `in_words` does: `14 May 2020`, `about 2019`, `1952–58`, `from 1989`.
    What reads as none of these is given back as it is, to be told by `fault_in_date`."""
    words = " ".join(text.split())
    if fault_in_date(words) is None:
        return words
    if years := YEARS.fullmatch(words):
        century, first, last = years.groups()
        return f"{century}{first}/{last if len(last) == 4 else century + last}"
    begin, _, rest = words.partition(" ")
    if begin.casefold() in ("from", "since", "until") and (end := one_typed(rest)):
        return f"../{end}" if begin.casefold() == "until" else f"{end}/.."
    ends = [one_typed(end) for end in BETWEEN.split(words)]
    return "/".join(ends) if len(ends) <= 2 and all(ends) else words


def one_typed(text: str) -> str:
    match = WRITTEN.fullmatch(text.strip())
    if match is None:
        return text if ONE_DATE.fullmatch(text) else ""
    parts = [match["year"]]
    if match["month"]:
        parts.append(f"{[name[:3].casefold() for name in MONTHS].index(match['month'][:3].casefold()) + 1:02d}")
    if match["day"]:
        parts.append(f"{int(match['day']):02d}")
    mark = {(False, False): "", (True, False): "~", (False, True): "?", (True, True): "%"}
    return "-".join(parts) + mark[bool(match["about"]), bool(match["doubt"])]


def one_in_words(text: str) -> str:
    match = ONE_DATE.fullmatch(text)
    if not match:
        return text
    year, month, day, mark = match.groups()
    parts = [str(int(day))] if day else []
    parts += [MONTHS[int(month) - 1]] if month else []
    date = " ".join([*parts, year])
    return {"": date, "~": f"about {date}", "?": f"{date}?", "%": f"about {date}?"}[mark]
