"""What the caller knows about a label: its piece, the years in question, the society's own numbers and makers."""

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from functools import cached_property, lru_cache

from identification.label_reading.number_patterns import Compiled, FaultyPattern, compiled
from identification.label_reading.page import PLAIN_LETTERS
from identification.label_reading.tables import folded

EARLIEST_YEAR = 1900
MOST_FORMS = 60
TROUSERS = frozenset({"trousers", "over-trousers", "overtrousers", "shorts", "breeches"})
HEADGEAR = frozenset({"cap", "hat", "hood", "beret", "helmet"})
UPPER = frozenset(
    {"jacket", "coat", "smock", "blouse", "shirt", "pullover", "waistcoat", "vest", "liner", "parka", "tunic"}
)


SERIAL = "serial"


def title_of_form(name: str, code: str) -> str:
    """What a number of a form is called: the form's name up to a colon."""
    return name.split(":")[0].strip() or code


@dataclass(frozen=True)
class Form:
    """How a service wrote one kind of number: pattern, groups, check rule and years in use, as data."""

    code: str
    name: str
    pattern: str
    groups: str = ""
    year_group: int | None = None
    check_rule: str = ""
    years: str = ""
    # The kind of version whose pieces alone carry such numbers, if there is one.
    of_kind: str = ""

    @property
    def title(self) -> str:
        return title_of_form(self.name, self.code)

    @cached_property
    def role(self) -> str:
        """What the number is, by the first word of its name: size, contract, serial, else a stock number."""
        words = set(re.findall(r"[a-z]+", self.name.lower().split(":")[0]))
        return next((word for word in ("size", "contract", SERIAL) if word in words), "stock number")


@dataclass(frozen=True)
class KnownMaker:
    """A maker that the society knows: what stands on its labels, and when it worked. `repairs`: a depot or workshop
    that marks what it mended or altered and makes nothing."""

    code: str
    name: str
    marks: tuple[str, ...]
    first_year: int | None = None
    last_year: int | None = None
    two_figure_year: bool = False
    country: str = ""
    repairs: bool = False


@dataclass(frozen=True)
class Context:
    """`reference_year` is given and not looked up, so that the same text reads the same for ever."""

    reference_year: int
    earliest_year: int = EARLIEST_YEAR
    garment: str = ""
    who: str = ""
    standard: str = ""
    country: str = ""
    field_hint: str = ""
    number_forms: tuple[Form, ...] = ()
    makers: tuple[KnownMaker, ...] = ()
    # The society's own vocabulary, folded: its garments, colours, parts, places. Such a word is no person's name.
    words: frozenset[str] = frozenset()

    @cached_property
    def ready_forms(self) -> tuple[tuple[Form, Compiled], ...]:
        """The first 60 forms, the longest pattern first; one whose pattern cannot be read is passed over."""
        found = []
        for form in sorted(self.number_forms[:MOST_FORMS], key=lambda form: -len(form.pattern)):
            try:
                found.append((form, compiled(form.pattern)))
            except (FaultyPattern, re.error):
                continue
        return tuple(found)

    @cached_property
    def owners(self) -> dict[str, KnownMaker]:
        """Whose each maker's mark is, by its capitals, the longest mark first."""
        found: dict[str, KnownMaker] = {}
        for maker in self.makers:
            for mark in maker.marks:
                found.setdefault(mark.translate(PLAIN_LETTERS).upper(), maker)
        return {mark: found[mark] for mark in sorted(found, key=len, reverse=True)}

    @cached_property
    def small_marks(self) -> list[tuple[str, str]]:
        return [(mark, mark.lower()) for mark in self.owners]

    def marks_in(self, folded: str) -> tuple[re.Pattern, dict[str, KnownMaker]]:
        """One pattern for the marks that a text in small letters may hold, the longest first, and all their owners."""
        there = tuple(mark for mark, small in self.small_marks if small in folded)
        return pattern_of(there), self.owners

    @cached_property
    def single_marks(self) -> tuple[tuple[str, KnownMaker], ...]:
        """Marks of one word long enough to be known again with a letter wrong."""
        return tuple(
            (mark.translate(PLAIN_LETTERS).lower(), maker)
            for maker in self.makers
            for mark in maker.marks
            if len(mark) > 5 and " " not in mark
        )


NOTHING = re.compile(r"(?!)")
# What a maker is called that mends and alters, in the society's own words for its kind.
REPAIRS_ONLY = re.compile(r"\b(?:depot|repair)", re.IGNORECASE)


@lru_cache(maxsize=256)
def pattern_of(marks: tuple[str, ...]) -> re.Pattern:
    known = "|".join(re.escape(mark) for mark in marks)
    return re.compile(rf"(?<![^\W_])(?:{known})(?![^\W_])", re.IGNORECASE) if marks else NOTHING


def maker_known(
    *,
    code: str,
    name: str,
    mark: str,
    kind: str = "",
    first_year=None,
    last_year=None,
    others: Iterable[str] = (),
) -> KnownMaker:
    """A maker from its record: marks are its name, the capitals of its `mark`, and its first word if no other's."""
    marks = {name.upper()} | {m.strip() for m in re.findall(r"[A-ZÀ-Þ][A-ZÀ-Þ&.' -]{2,}[A-ZÀ-Þ.]", mark)}
    first_word = name.split()[0].upper() if name.split() else ""
    if len(first_word) >= 5 and first_word not in {other.split()[0].upper() for other in others if other.split()}:
        marks.add(first_word)
    return KnownMaker(
        code,
        name,
        tuple(sorted(marks - {""}, key=len, reverse=True)),
        first_year,
        last_year,
        two_figure_year="two-figure year" in mark,
        repairs=bool(REPAIRS_ONLY.search(kind)),
    )


def with_countries(makers: Iterable[tuple[KnownMaker, str]]) -> tuple[KnownMaker, ...]:
    """Makers, each given with its place, and the country that it lies in: the last part, `Vessenholt, Ostrevald
    (mainland)`. A last part that is itself a town of another maker's place leads on: `Gullhavne Road, Dunsallow` lies
    where `Dunsallow, Oskervane` does. Nothing where a place has one part alone."""
    rows = [(maker, parts_of_place(place)) for maker, place in makers]
    towns = {parts[0]: parts[-1] for _, parts in rows if len(parts) > 1}
    found = []
    for maker, parts in rows:
        country, passed = parts[-1] if len(parts) > 1 else "", set()
        while country in towns and country not in passed:
            passed.add(country)
            country = towns[country]
        found.append(replace(maker, country=country))
    return tuple(found)


def parts_of_place(place: str) -> list[str]:
    return [part.strip() for part in re.sub(r"\([^()]*\)", "", place).split(",") if part.strip()]


class FaultyContext(ValueError):
    """What the caller gave as knowledge cannot be used; the words say which key and why."""


def context_from(given: Mapping | None, this_year: int) -> Context:
    """A context out of plain data. Unknown keys are passed over. Raises FaultyContext on a value of the wrong kind."""
    if given is None:
        given = {}
    if not isinstance(given, Mapping):
        raise FaultyContext("context must be an object")
    years = {"reference_year": this_year, "earliest_year": EARLIEST_YEAR}
    for key in years:
        value = given.get(key)
        if value is not None:
            if isinstance(value, bool) or not isinstance(value, int) or not 1 <= value <= 9999:
                raise FaultyContext(f"{key} must be a year of 1 to 9999")
            years[key] = value
    words = {key: text_of(given, key) for key in ("garment", "who", "standard", "country", "field_hint")}
    words |= {key: words[key].casefold() for key in ("garment", "who", "field_hint")}
    return Context(
        **years,
        **words,
        number_forms=tuple(form_of(row) for row in objects(given, "number_forms")),
        makers=with_countries((maker_of(row), text_of(row, "place")) for row in objects(given, "makers")),
        words=words_in(texts(given, "words")),
    )


def words_in(texts: Iterable[str]) -> frozenset[str]:
    """Every word of these texts, folded, and without a plural's s as well."""
    words = {word for text in texts for word in folded(text).split()}
    return frozenset(words | {word.removesuffix("s") for word in words if len(word) > 4})


def texts(given: Mapping, key: str) -> list[str]:
    value = given.get(key)
    if value is None:
        return []
    if not isinstance(value, list) or not all(isinstance(one, str) for one in value):
        raise FaultyContext(f"{key} must be a list of texts")
    return value


def text_of(given: Mapping, key: str, default: str = "") -> str:
    value = given.get(key)
    if value is None:
        return default
    if not isinstance(value, str):
        raise FaultyContext(f"{key} must be a text")
    return value.strip()


def objects(given: Mapping, key: str) -> list[Mapping]:
    value = given.get(key)
    if value is None:
        return []
    if not isinstance(value, list) or not all(isinstance(row, Mapping) for row in value):
        raise FaultyContext(f"{key} must be a list of objects")
    return value


def whole(row: Mapping, key: str) -> int | None:
    value = row.get(key)
    if value in (None, ""):
        return None
    if isinstance(value, str) and value.isascii() and value.isdigit() and len(value) < 6:
        return int(value)
    if isinstance(value, int) and not isinstance(value, bool):
        return value
    raise FaultyContext(f"{key} must be a whole number")


def form_of(row: Mapping) -> Form:
    """A row of number_forms.csv, or the same keys in JSON. Raises FaultyContext."""
    code, pattern = text_of(row, "form") or text_of(row, "code"), text_of(row, "pattern")
    if not code or not pattern:
        raise FaultyContext("each of number_forms needs a form and a pattern")
    return Form(
        code,
        text_of(row, "name"),
        pattern,
        text_of(row, "groups"),
        whole(row, "year_group"),
        text_of(row, "check_rule"),
        text_of(row, "years"),
        text_of(row, "of_kind"),
    )


def maker_of(row: Mapping) -> KnownMaker:
    code, name = text_of(row, "maker") or text_of(row, "code"), text_of(row, "name")
    if not code or not name:
        raise FaultyContext("each of makers needs a code and a name")
    return maker_known(
        code=code,
        name=name,
        mark=text_of(row, "mark"),
        kind=text_of(row, "kind"),
        first_year=whole(row, "first_year"),
        last_year=whole(row, "last_year"),
    )
