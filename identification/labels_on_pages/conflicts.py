"""What does not go with a label's year: numbers out of use, by their record or their form, and makers not at work."""

from functools import partial

from catalogue.reference.facts import years_in_words
from catalogue.reference.label_context import society_context
from catalogue.reference.numbers import bare_number
from identification.engine.label_witness import LEEWAY, LabelSeen
from identification.label_reading import read_label
from identification.label_reading.society_numbers import years_in_use
from identification.labels_on_pages.allowed import Carried, numbers_on_record

Years = tuple[int | None, int | None]
ANY_YEAR = 9999  # no date is read here
EXPLAINED = "An old label used up, a misreading, a copy, or the label of another piece?"


def label_conflicts(printed: tuple[str, ...], seen: LabelSeen, number: int) -> list[str]:
    """A sentence for each number and each maker that does not go with the year, with the years in which it would; then
    what may be behind it."""
    found = number_conflicts(printed, seen, number) + maker_conflicts(seen, number)
    return [*found, EXPLAINED] if found else []


def maker_conflicts(seen: LabelSeen, number: int) -> list[str]:
    """Makers that did not work in the label's year, as far as their years are on record."""
    if not seen.possible_years:
        return []
    known = {one.code: one for one in society_context(garment="", this_year=ANY_YEAR, number=number).makers}
    apart = [known[code] for code in seen.makers if code in known]
    return [
        f"{one.name} worked {years_in_words(one.first_year, one.last_year)}; {said_by_label(seen)}."
        for one in apart
        if outside((one.first_year, one.last_year), seen)
    ]


def number_conflicts(printed: tuple[str, ...], seen: LabelSeen, number: int) -> list[str]:
    """A sentence for each number on the label that was not in use in its year, with the years in which it was.

    What is on record of the number itself goes before the years of its form: a form was used up on some patterns long
    after it had ended. `printed`: the numbers as they stand on the label. Nothing where the label tells no year.
    """
    if not seen.possible_years:
        return []
    on_record = [one for rows in numbers_on_record(number).values() for one in rows]
    found = []
    for text in dict.fromkeys(printed):
        known = [one for one in on_record if one.bare == bare_number(text)]
        if said := conflict_on_record(text, known, seen) or conflict_of_form(text, known, seen, number):
            found.append(said)
    return found


def conflict_on_record(text: str, known: list[Carried], seen: LabelSeen) -> str:
    dated = [(one.first_year, one.last_year) for one in known if one.first_year or one.last_year]
    if not dated or any(not outside(years, seen) for years in dated):
        return ""
    spans = " and ".join(dict.fromkeys(years_in_words(*years) for years in dated))
    return f"Number {text} is on record for {spans}; {said_by_label(seen)}."


def conflict_of_form(text: str, known: list[Carried], seen: LabelSeen, number: int) -> str:
    """Only where nothing is on record of the years of the number itself."""
    if any(one.first_year or one.last_year for one in known):
        return ""
    context = society_context(garment="", this_year=ANY_YEAR, number=number)
    forms = {form.code: form for form in context.number_forms}
    read = {one["form"] for one in read_label(text, context)["numbers"]} | {one.form for one in known}
    spans = [years_in_use(forms[code].years) for code in read if code in forms]
    if not spans or not all(map(partial(outside, seen=seen), spans)):
        return ""
    return f"Numbers written as {text} were in use {years_in_words(*spans[0])}; {said_by_label(seen)}."


def outside(years: Years, seen: LabelSeen) -> bool:
    """Whether the label lies outside these years, the leeway of a year on each side allowed for."""
    first, last = years
    earliest, latest = seen.possible_years
    return bool((first and latest < first - LEEWAY) or (last and earliest > last + LEEWAY))


def said_by_label(seen: LabelSeen) -> str:
    if seen.years:
        return f"the label says {years_in_words(*seen.years)}"
    return f"its contract is of {seen.contract}, and it was made in that year or later"
