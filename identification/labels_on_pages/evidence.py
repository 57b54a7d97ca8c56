"""What of a reading may be used: what was read plainly, and what a person has confirmed."""

from dataclasses import dataclass, field, replace

from catalogue.reference.numbers import bare_number
from identification.engine.label_witness import LabelSeen
from identification.label_reading.context import SERIAL
from identification.label_reading.contracts import signed_in
from identification.label_reading.reading import edtf_bounds
from identification.label_reading.said_of_states import Signs
from identification.labels_on_pages.explained import Piece, sentence, visible
from identification.labels_on_pages.words import (
    date_words,
    fibre_text,
    is_open_which,
    size_words,
    symbol_words,
)

NONE_OF_THESE = "none"
YES = "yes"
ASKED = ("ambiguous", "corrected")
# Confirmed for the sake of what stands on the label: they tell of no version.
OF_NO_VERSION = {"size": "Size", "fibres": "Fibres", "care": "Care"}


@dataclass(frozen=True)
class Question:
    """One thing to confirm: what is printed, and what it may be."""

    name: str
    title: str
    printed: str
    options: tuple[tuple[str, str], ...]
    chosen: str
    starts: tuple[int, ...] = ()


@dataclass(frozen=True)
class Evidence:
    """`seen` for the engine, the numbers as printed, and what was left out until somebody confirms it. `contract`: the
    one whose year is taken, where the label prints none; `contract_number`: the only one on it. `years_differ`: the
    labels of one piece give different years, so that none is used."""

    seen: LabelSeen
    numbers: tuple[str, ...] = ()
    contract: str = ""
    open: tuple[str, ...] = ()
    years_differ: bool = False
    contract_number: str = ""
    signs: Signs = field(default_factory=Signs)


def questions_of(answer: dict, given: dict[str, str]) -> list[Question]:
    """Everything on the label that was repaired or has several readings, with what was chosen so far."""
    found = []
    date = answer["date"]
    if date["status"] in ASKED:
        readings = [date["edtf"]] if date.get("edtf") else date.get("candidates", [])
        found.append(question("confirm-date", "Date", date, [(one, date_words(one)) for one in readings], given))
    for name, title in (("stock_number", "Stock number"), ("contract", "Contract"), ("maker", "Maker")):
        reading = answer[name]
        if reading["status"] in ASKED:
            values = [reading["value"]] if reading.get("value") else reading.get("values") or reading.get("candidates")
            options = [(str(one), str(one)) for one in values or []]
            found.append(question(f"confirm-{name}", title, reading, options, given))
    for place, number in enumerate(answer["numbers"]):
        if number["status"] in ASKED and number["role"] != "size" and place == first_of(answer, place):
            options = [(one, one) for one in readings_of_number(number)]
            asked = question(f"confirm-number-{place}", "Number", number, options, given)
            together = [one for at, one in enumerate(answer["numbers"]) if first_of(answer, at) == place]
            printed = " and ".join(dict.fromkeys(visible(one["as_printed"]) for one in together))
            starts = tuple(one["span"][0] for one in together)
            found.append(replace(asked, printed=printed, starts=starts))
    for name, title in OF_NO_VERSION.items():
        reading = answer[name]
        if reading["status"] in ASKED:
            options = [(str(place), words) for place, words in enumerate(readings_of(name, reading))]
            found.append(question(f"confirm-{name}", title, reading, options, given))
    return [one for one in found if len(one.options) > 1]


def readings_of_number(number: dict) -> list[str]:
    """What it may be; of different numbers of one form all of them."""
    return number.get("values") or ([number["value"]] if number["value"] else number.get("candidates", []))


def first_of(answer: dict, place: int) -> int:
    """The place of the number with which this one is asked about: the first of those that it stands open among."""
    number = answer["numbers"][place]
    if "values" not in number:
        return place
    same = [number[key] for key in ("form", "values")] + [number.get("label_no")]
    return next(
        at
        for at, one in enumerate(answer["numbers"])
        if "values" in one and [one["form"], one["values"], one.get("label_no")] == same
    )


def confirmed_number(answer: dict, place: int, chosen: dict[str, str]) -> str:
    """The value of one of the numbers, if it may be used; of several that were open the one that was chosen."""
    number = answer["numbers"][place]
    value = confirmed(number, f"confirm-number-{first_of(answer, place)}", chosen)
    return value if "values" not in number or value in number["candidates"] else ""


def said_of(answer: dict, questions: list[Question]) -> dict[int, bool]:
    """By the place where a repaired or open number begins, whether a person confirmed it, as the reader takes it. Until
    somebody answers it counts for nothing."""
    chosen = {one.name: one.chosen for one in questions}
    asked = {one.name for one in questions}
    said = {
        answer[name]["span"][0]: bool(confirmed(answer[name], f"confirm-{name}", chosen))
        for name in ("stock_number", "contract")
        if f"confirm-{name}" in asked
    }
    return said | {
        number["span"][0]: bool(confirmed_number(answer, place, chosen))
        for place, number in enumerate(answer["numbers"])
        if f"confirm-number-{first_of(answer, place)}" in asked
    }


def readings_of(name: str, reading: dict) -> list[str]:
    """What such a piece may say, in words."""
    if name == "fibres":
        if reading.get("candidates"):
            return [", ".join(one) for one in reading["candidates"]]
        return ["; ".join(fibre_text(one) for one in reading["components"])] if reading["components"] else []
    if name == "care":
        return [sentence("; ".join(symbol_words(one) for one in reading["symbols"]))] if reading["symbols"] else []
    return [] if reading["status"] == "ambiguous" else [size_words(reading)]


def question(name: str, title: str, reading: dict, options: list, given: dict[str, str]) -> Question:
    every = (*options, (NONE_OF_THESE, "None of these, or cannot tell"))
    chosen = given.get(name, "")
    chosen = chosen if chosen in dict(every) else ""
    return Question(name, title, visible(reading["as_printed"]), every, chosen, (reading["span"][0],))


def settle(pieces: list[Piece], questions: list[Question]) -> None:
    """Each piece that was asked about says what the person answered, in place of asking for it."""
    answered = {start: one for one in questions if one.chosen for start in one.starts}
    for piece in pieces:
        if one := answered.get(piece.start):
            none = one.chosen == NONE_OF_THESE
            piece.settled = "set aside by you" if none else f"confirmed by you: {dict(one.options)[one.chosen]}"


def evidence_of(answer: dict, questions: list[Question], sewn: str = "") -> Evidence:
    """Numbers, years and makers to weigh. A repaired or open reading counts only once somebody has confirmed it.
    `sewn`: how the label is sewn in, as the engine takes it."""
    chosen = {one.name: one.chosen for one in questions}
    left = [
        f"{one.title.lower()} {one.printed}"
        for one in questions
        if not one.chosen and one.title not in OF_NO_VERSION.values()
    ]
    numbers = []
    if value := confirmed(answer["stock_number"], "confirm-stock_number", chosen):
        numbers.append(value)
    years = years_of(answer["date"], chosen)
    contracts = contract_years(answer, chosen)
    # Of two contracts neither says when; a date that is printed and open stands in the way of both.
    signed = contracts[0] if len(set(contracts)) == 1 and answer["date"]["status"] in ("absent", "invalid") else None
    for place, number in enumerate(answer["numbers"]):
        value = confirmed_number(answer, place, chosen)
        if value and number["role"] == "stock number":
            numbers.append(value)
    makers = makers_of(answer, chosen)
    return Evidence(
        LabelSeen(
            numbers=tuple(dict.fromkeys(bare_number(one) for one in numbers)),
            years=years,
            makers=tuple(makers),
            contract=signed[0] if signed else None,
            sewn=sewn,
            country=country_of(answer, makers),
            repairs=repairs_of(answer),
            serials=serials_of(answer, chosen),
        ),
        tuple(dict.fromkeys(numbers)),
        signed[1] if signed else "",
        tuple(left),
        answer["date"].get("reason") == "two_labels_differ",
        the_only([value for _, value in contracts]),
        signs_of(answer, chosen),
    )


def signs_of(answer: dict, chosen: dict[str, str]) -> Signs:
    """What states of features may be known by. Of a size only how it is written counts, so that a letter does, whose
    table is not known."""
    size, fibres, stock = answer["size"], answer["fibres"], answer["stock_number"]
    letter = size["status"] == "ambiguous" and size.get("system") == "letter"
    sizes = [size.get("form") or size.get("system")] if letter or is_taken(size, "confirm-size", chosen) else []
    sizes += [
        number["form"]
        for place, number in enumerate(answer["numbers"])
        if number["role"] == "size" and is_taken(number, f"confirm-number-{place}", chosen)
    ]
    cloths = []
    if is_taken(fibres, "confirm-fibres", chosen):
        cloths = [{one["name"]: one.get("percent") for one in part["fibres"]} for part in outer_cloth(fibres)]
    country = stock.get("country") if is_taken(stock, "confirm-stock_number", chosen) else ""
    return Signs(tuple(dict.fromkeys(one for one in sizes if one)), tuple(cloths), country or "")


def outer_cloth(fibres: dict) -> list[dict]:
    """The composition of the outer cloth: the first one; none where the label gives two and does not say of what."""
    return [] if is_open_which(fibres) else fibres["components"][:1]


def is_taken(reading: dict, name: str, chosen: dict[str, str]) -> bool:
    """Whether it was read plainly, or a person has confirmed the repair; never where several readings are open."""
    if reading["status"] == "corrected":
        return chosen.get(name, "") not in ("", NONE_OF_THESE)
    return reading["status"] == "read"


def confirmed(reading: dict, name: str, chosen: dict[str, str]) -> str:
    """The value that may be used, or nothing. A broken check rule is shown, and its number still looked up."""
    if reading["status"] in ASKED:
        value = chosen.get(name, "")
        return "" if value == NONE_OF_THESE else value
    return reading.get("value") or ""


def the_only(values: list[str]) -> str:
    return values[0] if len(set(values)) == 1 else ""


def contract_years(answer: dict, chosen: dict[str, str]) -> list[tuple[int, str]]:
    """The years in which contracts on the label were signed, with their numbers: bounds, never dates of making."""
    found = [(one, confirmed_number(answer, place, chosen)) for place, one in enumerate(answer["numbers"])]
    found.append((answer["contract"], confirmed(answer["contract"], "confirm-contract", chosen)))
    return [(year, value) for reading, value in found if value and (year := signed_in(reading))]


def years_of(date: dict, chosen: dict[str, str]) -> tuple[int, int] | None:
    edtf = date.get("edtf") if date["status"] not in ASKED else chosen.get("confirm-date", "")
    bounds = edtf_bounds(edtf) if edtf and edtf != NONE_OF_THESE else None
    return (bounds[0][0], bounds[1][0]) if bounds else None


def country_of(answer: dict, makers: list[str]) -> str:
    """The country of making that is printed, unless a known maker is: it says where, and would count twice."""
    return "" if makers or answer["made_in"]["status"] != "read" else answer["made_in"]["value"]


def serials_of(answer: dict, chosen: dict[str, str]) -> tuple[str, ...]:
    """Forms of the serials on it: of a kind of version they tell the form, not the number. One that breaks its rule was
    never given out."""
    kept = [
        number["form"]
        for place, number in enumerate(answer["numbers"])
        if number["role"] == SERIAL and number["status"] != "invalid" and confirmed_number(answer, place, chosen)
    ]
    return tuple(dict.fromkeys(kept))


def makers_of(answer: dict, chosen: dict[str, str]) -> list[str]:
    found = []
    for one in answer.get("labels") or [answer]:
        reading = one["maker"]
        if reading["status"] == "corrected" and chosen.get("confirm-maker") in ("", NONE_OF_THESE, None):
            continue
        found += reading.get("codes") or ([reading["code"]] if reading.get("code") else [])
    return list(dict.fromkeys(found))


def repairs_of(answer: dict) -> tuple[str, ...]:
    """Depots and workshops whose mark of a repair stands on any of the labels."""
    return tuple(dict.fromkeys(one["code"] for one in answer["repairs"]))
