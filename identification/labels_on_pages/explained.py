"""A label as written, with each piece that was read marked in its place and explained in plain words."""

import unicodedata
from dataclasses import dataclass, field

from identification.label_reading import Context, Form
from identification.label_reading.context import title_of_form
from identification.label_reading.number_patterns import groups_of
from identification.label_reading.page import BIDI_CONTROLS
from identification.labels_on_pages.words import (
    REASON_WORDS,
    STATUS_WORDS,
    date_words,
    fibre_text,
    is_open_which,
    size_words,
    symbol_words,
)

MADE_IN = "Made in"
TITLES = {
    "stock_number": "Stock number",
    "contract": "Contract",
    "date": "Date",
    "size": "Size",
    "fibres": "Fibres",
    "care": "Care",
    "specification": "Specification",
    "maker": "Maker",
    "made_in": MADE_IN,
}
# How a piece is underlined in the text, so that it can be told without colour.
LINES = {"invalid": "wrong", "conflict": "wrong", "ambiguous": "open", "unconfirmed": "open", "corrected": "repaired"}


@dataclass
class Piece:
    """One piece of the text: where it stands, what it is, and what it says."""

    start: int
    end: int
    printed: str
    title: str
    status: str
    lines: list[str]
    number: int = 0
    more: list[str] = field(default_factory=list)
    settled: str = ""

    @property
    def line(self) -> str:
        return LINES.get(self.status, "plain")

    @property
    def status_words(self) -> str:
        return self.settled or STATUS_WORDS.get(self.status, "")


@dataclass
class Segment:
    """A run of the text as given: plain, or a piece."""

    text: str
    piece: Piece | None = None


def pieces_of(answer: dict, context: Context) -> list[Piece]:
    """Every piece that was read, in the order in which it stands, numbered from 1."""
    found: list[Piece] = []
    labels = answer.get("labels") or [answer]
    for place, one in enumerate(labels, 1):
        of_it = pieces_of_one(one, context)
        if len(labels) > 1:
            for each in of_it:
                each.title = f"Label {place}, {each.title[:1].lower()}{each.title[1:]}"
        found += of_it
    found.sort(key=lambda p: (p.start, -p.end))
    apart: list[Piece] = []
    for one in found:
        if apart and one.start < apart[-1].end:
            apart[-1].more.append(f"{one.title}: {' '.join(one.lines)}")
            continue
        one.number = len(apart) + 1
        apart.append(one)
    return apart


def pieces_of_one(one: dict, context: Context) -> list[Piece]:
    """What was read on one label."""
    found: list[Piece] = []
    for name, title in TITLES.items():
        reading = one[name]
        if "span" in reading:
            found.append(piece(reading, title, MEANINGS[name](reading)))
        found += [piece(reading | other, title, ["Another one."]) for other in reading.get("others", ())]
    forms = {form.code: form for form in context.number_forms}
    sizes = [one["size"].get("span")]
    found += [
        piece(number, title_of(number), number_lines(number, forms))
        for number in one["numbers"]
        if number["role"] != "size" or number["span"] not in sizes
    ]
    found += [near_piece(near, forms) for near in one["near_numbers"]]
    found += [piece(repair | {"status": "read"}, "Mark of a repair", repair_lines(repair)) for repair in one["repairs"]]
    found += [
        piece(person | {"status": "read"}, *(PERHAPS_NAME if person.get("perhaps") else PERSON))
        for person in one["persons"]
    ]
    found += [piece(caution | {"status": "read"}, "Caution", CAUTION) for caution in one["cautions"]]
    return found


def piece(reading: dict, title: str, lines: list[str]) -> Piece:
    reasons = reading.get("reasons") or ([reading["reason"]] if "reason" in reading else [])
    start, end = reading["span"]
    words = [REASON_WORDS[reason] for reason in reasons]
    return Piece(start, end, visible(reading["as_printed"]), title, reading["status"], [*lines, *words])


def segments_of(text: str, pieces: list[Piece]) -> list[Segment]:
    """The whole text in runs; together they are what can be seen of the text as given."""
    segments, place = [], 0
    for one in pieces:
        if one.start > place:
            segments.append(Segment(visible(text[place : one.start])))
        segments.append(Segment(visible(text[one.start : one.end]), one))
        place = one.end
    return [*segments, Segment(visible(text[place:]))] if place < len(text) else segments


def visible(text: str) -> str:
    """Without control characters, and without those that would show letters in another order than they stand in."""
    if text.isascii() and text.replace("\n", " ").isprintable():
        return text
    return "".join(c for c in text if c in "\n\t" or (c not in BIDI_CONTROLS and unicodedata.category(c) != "Cc"))


PERSON = (
    "Perhaps a person",
    ["May name a person. That is personal data: it is not kept here, and you need not pass it on."],
)
PERHAPS_NAME = (
    "Perhaps a name",
    ["No word that the society knows. If it is a person’s name, that is personal data: you need not pass it on."],
)
CAUTION = ["Asbestos: do not open, shake, wash or wear it. Local law applies, and licensed people."]


def sentence(words: str) -> str:
    """With a capital, and all else as it is: `°C` stays."""
    return words[:1].upper() + words[1:]


def stock_number_lines(reading: dict) -> list[str]:
    lines = []
    if reading.get("values") and not reading.get("value"):
        return [f"Read as {' and '.join(reading['values'])}."]
    if reading.get("candidates"):
        lines.append(f"Perhaps {' or '.join(reading['candidates'])}.")
    if reading.get("value") and reading["value"] != reading.get("as_printed"):
        lines.append(f"Read as {reading['value']}.")
    if reading.get("class_title"):
        lines.append(f"Class {reading['supply_class']}: {reading['class_title']}.")
    if reading.get("country"):
        lines.append(f"Catalogued by {reading['country']}, which says nothing of where it was made.")
    if reading.get("kind") == "FSN":
        lines.append("The eleven-figure form, replaced on 30 September 1974.")
    if reading.get("kind") == "NSN":
        lines.append("The thirteen-figure form, in use since 30 September 1974.")
    return lines


def contract_lines(reading: dict) -> list[str]:
    lines = [f"Read as {reading['value']}."] if reading.get("value") not in (None, reading.get("as_printed")) else []
    if reading.get("instrument_name"):
        lines.append(f"{sentence(reading['instrument_name'])}.")
    if reading.get("fiscal_year"):
        signed = f"{date_words(reading['award_from'])} to {date_words(reading['award_to'])}"
        lines.append(f"Fiscal year {reading['fiscal_year']}, signed {signed}: not made before, perhaps years later.")
    elif reading.get("candidates"):
        lines.append(f"Perhaps {' or '.join(str(one) for one in reading['candidates'])}.")
    return lines


def date_lines(reading: dict) -> list[str]:
    if reading.get("edtf"):
        return [f"{sentence(date_words(reading['edtf']))}."]
    if reading.get("candidates"):
        return [f"Perhaps {' or '.join(date_words(one) for one in reading['candidates'])}."]
    return []


def fibre_lines(reading: dict) -> list[str]:
    lines = [
        f"{sentence(fibre_text(component))}{together(total)}."
        for component, total in zip(reading["components"], reading["totals"], strict=True)
        if component["fibres"]
    ]
    if is_open_which(reading):
        lines.append("They differ, and the label does not say of which part: outside and lining, or two labels?")
    if reading.get("candidates"):
        lines.append(f"Perhaps {' or '.join(', '.join(one) for one in reading['candidates'])}.")
    if reading.get("missing") and not lines:
        lines.append(f"Together {100 - reading['missing']:g} %.")
    return lines


def together(total: float | None) -> str:
    """What the percentages of one cloth make, where it is not a hundred; an added fibre stands outside it."""
    return "" if total in (None, 100) else f": together {total:g} %"


def care_lines(reading: dict) -> list[str]:
    words = "; ".join(symbol_words(symbol) for symbol in reading["symbols"])
    return [f"{sentence(words)}."] if words else []


def specification_lines(reading: dict) -> list[str]:
    dated = f", dated {date_words(reading['date'])}" if reading.get("date") else ""
    return [f"A specification{dated}. Its date is not the date of making."]


def maker_lines(reading: dict) -> list[str]:
    return [f"{' and '.join(reading.get('values') or [reading['value']])}."]


def made_in_lines(reading: dict) -> list[str]:
    return [f"{' and '.join(reading.get('values') or [reading['value']])}: where it was made."]


def repair_lines(reading: dict) -> list[str]:
    return [f"{reading['value']} mended or altered the piece: it did not make it."]


def size_lines(reading: dict) -> list[str]:
    return [size_words(reading), *([reading["remark"]] if reading.get("remark") else [])]


MEANINGS = {
    "stock_number": stock_number_lines,
    "contract": contract_lines,
    "date": date_lines,
    "size": size_lines,
    "fibres": fibre_lines,
    "care": care_lines,
    "specification": specification_lines,
    "maker": maker_lines,
    "made_in": made_in_lines,
}


def near_piece(near: dict, forms: dict[str, Form]) -> Piece:
    """What is nearly a number of the society's: what is wrong with it, and what it may have been."""
    titles = " or ".join(dict.fromkeys(small(title_of(reading)) for reading in near["readings"]))
    lines = [near_words(reading, forms[reading["form"]]) for reading in near["readings"]]
    start, end = near["span"]
    return Piece(start, end, visible(near["as_printed"]), f"Nearly a {titles}", near["status"], lines)


def near_words(reading: dict, form: Form) -> str:
    """`A stores number has 2 figures in part 3 (running number of the pattern), here are 3. Misread? …`."""
    said = f"A {small(title_of(reading))} "
    if reading["reason"] == "bad_grouping":
        said += "has other signs between its figures."
    else:
        least, most = reading["digits_of_form"]
        wanted = f"{least} figure{'' if least == 1 else 's'}" if least == most else f"{least} to {most} figures"
        meaning = meanings_of(form)[reading["group"] - 1] if reading["group"] else ""
        part = f" in part {reading['group']}{f' ({meaning})' if meaning else ''}" if reading["group"] else ""
        verb = "is" if reading["digits_found"] == 1 else "are"
        said += f"has {wanted}{part}, here {verb} {reading['digits_found']}. Misread?"
    return f"{said} Perhaps {' or '.join(reading['candidates'])}." if reading["candidates"] else said


def small(words: str) -> str:
    return words[:1].lower() + words[1:]


def meanings_of(form: Form) -> list[str]:
    """What each group of a form means, in the society's own words; as many as the pattern has groups."""
    said = [part.strip().lstrip("0123456789 ") for part in form.groups.split(";")]
    return said + [""] * (len(groups_of(form.pattern)) - len(said))


def title_of(number: dict) -> str:
    return title_of_form(number["name"], number["form"])


def year_words(number: dict) -> str:
    """What the year in a number says: that of a contract is the earliest in which the piece was made, that
    of any other number is not weighed."""
    if number["role"] == "contract":
        return f"Signed in {number['year']}: the piece was not made before, perhaps years later."
    return f"The year in it is {number['year']}. It is not taken for the year of making."


def number_lines(number: dict, forms: dict[str, Form]) -> list[str]:
    """What each group of a society's number means, in the society's own words."""
    lines = []
    if number.get("candidates") and number["candidates"] != [number["as_printed"]]:
        lines.append(f"Perhaps {' or '.join(number['candidates'])}.")
    elif number["value"] and number["value"] != number["as_printed"]:
        lines.append(f"Read as {number['value']}.")
    meanings = meanings_of(forms[number["form"]])
    pairs = [f"{group}: {meaning}" for group, meaning in zip(number["groups"], meanings, strict=False) if meaning]
    if pairs and (number["value"] or "values" in number):
        lines.append(f"{'; '.join(pairs)}.")
    if number.get("year"):
        lines.append(year_words(number))
    return lines
