"""One label's text in, structured evidence out: what each field reads, and everything that no field claims."""

import re
import unicodedata
from collections.abc import Mapping

from identification.label_reading.care import read_care
from identification.label_reading.consistency import compare, consistency, date_field
from identification.label_reading.context import Context
from identification.label_reading.contracts import read_contract
from identification.label_reading.date_forms import Reading, last_day
from identification.label_reading.dates import dates_on
from identification.label_reading.fibres import caution_words, read_fibres
from identification.label_reading.made_in import read_made_in
from identification.label_reading.makers import read_makers
from identification.label_reading.near_numbers import read_near_numbers
from identification.label_reading.page import TAKEN, Page, page_of
from identification.label_reading.persons import persons_on, service_numbers
from identification.label_reading.sizes import read_size
from identification.label_reading.society_numbers import (
    claim_society_numbers,
    open_where_two,
    read_society_numbers,
    years_in_use,
)
from identification.label_reading.specifications import read_specification
from identification.label_reading.stock_numbers import read_stock_number
from identification.label_reading.vocabulary import field

LIMIT = 4000
# No piece carries more, and each costs some work however short it is (the project's own figure).
MOST_LABELS = 24
FIELDS = ("stock_number", "contract", "date", "size", "fibres", "care", "specification")
# What may stand on a label several times, each with its place.
LISTS = ("numbers", "near_numbers", "repairs", "persons", "cautions")
ORDER = ("label", *FIELDS, "maker", "made_in", *LISTS, "consistency")
EMPTY: dict[str, dict] = {"date": {"edtf": None}, "fibres": {"components": [], "totals": []}, "care": {"symbols": []}}
NOTHING_SAID: Mapping[int, bool] = {}
PARTING = re.compile(r"(?m)^[ \t]*[-\u2010-\u2015\u2212\ufe58\ufe63\uff0d]{3,}[ \t]*\r?$")
UNCLAIMED = re.compile(f"[^{TAKEN}\n]+")
# What `says_anything` finds in ASCII.
SAYS = re.compile(r"[0-9A-Za-z$+<=>^`~]")
ASCII_LETTER = re.compile("[A-Za-z]")
RIGHT_TO_LEFT = ("R", "AL")
SCRIPT_OF_NAME = {"CJK": "Han", "HIRAGANA": "Hiragana", "KATAKANA": "Katakana", "HANGUL": "Hangul"}


def read_label(text: str, context: Context, *, said: Mapping[int, bool] = NOTHING_SAID) -> dict:
    """Everything that a label's text says, as DEVELOPERS.md (What the label reader returns) names it.

    Never raises on any text. More than 4,000 characters, or more than 24 labels in one text, are refused before
    anything is tried. `said`: by the place where a repaired or open number begins, whether a person has confirmed it;
    one that was set aside founds no conflict. What has several readings lists them all and chooses none; what no field
    claims stands in `label.unread`, in order.
    """
    if len(text) > LIMIT:
        return absent(field("refused", ["too_long"], unread=[], count=0, removed=0, length=len(text), limit=LIMIT))
    parts = label_parts(text)
    if len(parts) > MOST_LABELS:
        keys = {"count": len(parts), "removed": 0, "length": len(text), "limit": MOST_LABELS}
        return absent(field("refused", ["too_many_labels"], unread=[], **keys))
    if len(parts) < 2:
        return read_one(text, 0, len(text), context, said)
    return merged(text, [read_one(text, start, end, context, said) for start, end in parts], said)


def absent(label: dict) -> dict:
    """An answer in which no field is there."""
    fields = {name: field("absent", **EMPTY.get(name, {})) for name in (*FIELDS, "maker", "made_in")}
    answer = {"label": label, **fields, "consistency": field("read")}
    return {key: answer.get(key, []) for key in ORDER}


def label_parts(text: str) -> list[tuple[int, int]]:
    """Where each label's text stands: a line of three or more hyphens parts two."""
    cuts = [match.span() for match in PARTING.finditer(text)]
    starts = [0, *(end for _, end in cuts)]
    ends = [*(start for start, _ in cuts), len(text)]
    return [(start, end) for start, end in zip(starts, ends, strict=True) if text[start:end].strip()]


def read_one(text: str, start: int, end: int, context: Context, said: Mapping[int, bool]) -> dict:
    page = page_of(text, start, end)
    if not page.text.strip():
        return absent(field("absent", {"empty", *removals(page)}, unread=[], count=1, removed=removed(page)))
    answer: dict = {}
    answer["specification"] = read_specification(page, context)
    society = without_service_numbers(page, read_society_numbers(page, context))
    claim_society_numbers(page, society, sizes=False)
    answer["contract"] = read_contract(page, context)
    answer["stock_number"] = read_stock_number(page)
    answer["care"] = read_care(page)
    answer["fibres"] = read_fibres(page)
    answer["maker"], answer["repairs"], makers = read_makers(page, context)
    answer["made_in"] = read_made_in(page, context)
    answer["size"] = read_size(page, context)
    claim_society_numbers(page, society, sizes=True)
    near = read_near_numbers(page, context, lettered=True)
    dates = dates_on(page, context)
    answer["date"] = date_field(dates, page)
    answer["numbers"] = open_where_two([number for _, _, number in society])
    answer["size"] = society_size(answer["size"], answer["numbers"])
    answer["persons"] = persons_on(page, context)
    answer["cautions"] = [{"kind": "asbestos"} | page.printed(*place) for place in caution_words(page.text)]
    answer["consistency"] = compare(answer, dates, makers, answer["numbers"], said)
    remark_years(answer)
    near += read_near_numbers(page, context, lettered=False)
    answer["near_numbers"] = sorted(near, key=lambda one: one["span"])
    answer["label"] = label_facts(page, answer)
    return {key: answer[key] for key in ORDER}


def without_service_numbers(page: Page, numbers: list[tuple[int, int, dict]]) -> list[tuple[int, int, dict]]:
    """A soldier's number may have as many figures as a form of the society's; what breaks the form's rule is his."""
    if not any("check_rule_broken" in reasons_of(number) for *_, number in numbers):
        return numbers
    persons = service_numbers(page)
    return [one for one in numbers if one[:2] not in persons or "check_rule_broken" not in reasons_of(one[2])]


def reasons_of(number: dict) -> set[str]:
    return {number.get("reason"), *number.get("reasons", ())}


def removed(page: Page) -> int:
    return page.controls_removed + page.bidi_removed


def removals(page: Page) -> set[str]:
    counts = {"control_characters_removed": page.controls_removed, "bidi_controls_removed": page.bidi_removed}
    return {reason for reason, count in counts.items() if count}


def society_size(size: dict, numbers: list[dict]) -> dict:
    """A size in a form of the society's own is read, where no general system reads that very place."""
    own = next((n for n in numbers if n["role"] == "size"), None)
    if not own or size.get("system") or (size["status"] != "absent" and size.get("span") != own["span"]):
        return size
    kept = {key: own[key] for key in ("value", "values", "form", "as_printed", "span") if key in own}
    reasons = {own[key] for key in ("reason",) if key in own} | set(own.get("reasons", ()))
    return field(own["status"], reasons, system="society", **kept)


def remark_years(answer: dict) -> None:
    """A number whose form was not in use in the label's year gets a remark: forms were used up and copied."""
    edtf = answer["date"].get("edtf") or ""
    year = int(edtf[:4]) if re.fullmatch(r"\d{4}.*", edtf) else None
    for number in answer["numbers"]:
        first, last = years_in_use(number.pop("years_in_use", ""))
        if year is None or not ((first and year < first) or (last and year > last)):
            continue
        reasons = {number["reason"], *number.get("reasons", ())} if "reason" in number else set()
        kept = {key: value for key, value in number.items() if key not in ("status", "reason", "reasons")}
        renewed = field(number["status"], reasons | {"outside_years_in_use"}, **kept)
        number.clear()
        number.update(renewed)


def label_facts(page: Page, answer: dict) -> dict:
    reasons = removals(page)
    found = any(answer[name]["status"] != "absent" or answer[name].get("reason") for name in FIELDS)
    # What is only nearly a number was not understood.
    found = found or any(answer[name] for name in LISTS if name != "near_numbers")
    found = found or any(answer[name]["status"] != "absent" for name in ("maker", "made_in"))
    script, direction = script_of(page.text)
    facts = {"unread": unread(page), "count": 1, "removed": removed(page), "direction": direction, "script": script}
    facts["escaped_on_output"] = True
    if not found:
        return field("absent", reasons | {"nothing_recognised"}, **facts)
    return field("read", reasons, **facts)


def unread(page: Page) -> list[str]:
    """What no field claims, as given, in order: the pieces of each line left and right of what was claimed."""
    pieces = []
    for match in UNCLAIMED.finditer(page.free):
        piece = page.given[page.starts[match.start()] : page.ends[match.end() - 1]].strip()
        if SAYS.search(piece) if piece.isascii() else says_anything(piece):
            pieces.append(piece if piece.isprintable() else without_controls(piece))
    return pieces


def says_anything(piece: str) -> bool:
    """Whether a letter, a figure or a symbol stands in it."""
    return any(c.isalnum() or unicodedata.category(c)[0] not in "PZC" and c != "|" for c in piece)


def without_controls(piece: str) -> str:
    return "".join(c for c in piece if unicodedata.category(c) != "Cc").strip()


def script_of(text: str) -> tuple[str | None, str]:
    """The main script by its Unicode name, and the direction of most of its letters."""
    if text.isascii():
        return "Latin" if ASCII_LETTER.search(text) else None, "ltr"
    letters = [c for c in text if c.isalpha()]
    if not letters:
        return None, "ltr"
    ascii_letters = sum(c.isascii() for c in letters)
    if 2 * ascii_letters >= len(letters):
        return "Latin", "ltr"
    counts: dict[str, int] = {}
    backwards = 0
    for letter in letters:
        name = unicodedata.name(letter, "UNKNOWN").split()[0].split("-")[0]
        counts[name] = counts.get(name, 0) + 1
        backwards += unicodedata.bidirectional(letter) in RIGHT_TO_LEFT
    name = max(sorted(counts), key=counts.__getitem__)
    return SCRIPT_OF_NAME.get(name, name.capitalize()), "rtl" if 2 * backwards > len(letters) else "ltr"


def merged(text: str, labels: list[dict], said: Mapping[int, bool]) -> dict:
    """Several labels of one piece: what one has is kept with its number, what two have must agree."""
    answer: dict = {}
    differing: set[str] = set()
    for name in (*FIELDS, "maker", "made_in"):
        answer[name] = merged_field(name, labels)
        if answer[name].get("reason") == "two_labels_differ":
            differing.add(name)
    for name in LISTS:
        answer[name] = [item | {"label_no": n} for n, label in enumerate(labels, 1) for item in label[name]]
    answer["label"] = merged_facts(labels)
    own = next((label["consistency"] for label in labels if label["consistency"]["status"] == "conflict"), None)
    if differing:
        answer["consistency"] = consistency([("two_labels_differ", differing)])
    else:
        answer["consistency"] = compare_merged(answer, said) if own is None else own
    return {key: answer[key] for key in ORDER} | {"labels": labels}


def saying(name: str, reading: dict):
    """What a field says, for comparing two labels; places and prints do not count."""
    if name in ("stock_number", "contract", "maker", "made_in", "specification"):
        return reading.get("value") or tuple(reading.get("values", ()))
    if name == "date":
        return reading.get("edtf") or tuple(reading.get("candidates") or ())
    left_out = {"as_printed", "span", "status", "reason", "reasons", "characters_changed", "remark"}
    return repr(sorted((key, value) for key, value in reading.items() if key not in left_out))


def merged_field(name: str, labels: list[dict]) -> dict:
    there = [(number, label[name]) for number, label in enumerate(labels, 1) if label[name]["status"] != "absent"]
    if not there:
        return dict(next((label[name] for label in labels if label[name].get("reason")), labels[0][name]))
    sound = [(number, reading) for number, reading in there if reading["status"] != "invalid"] or there[:1]
    number, first = sound[0]
    if name == "maker" or all(saying(name, reading) == saying(name, first) for _, reading in sound):
        return dict(first) | {"label_no": number}
    values = [saying(name, reading) for _, reading in sound]
    values = [value for value in dict.fromkeys(values) if isinstance(value, str)]
    if name in ("size", "fibres", "care"):
        values = [reading["as_printed"] for _, reading in sound]
    keys = {"value": None, "values": values} | EMPTY.get(name, {})
    return field("conflict", {"two_labels_differ"}, **keys, label_no=number) | {
        key: first[key] for key in ("as_printed", "span") if key in first
    }


def merged_facts(labels: list[dict]) -> dict:
    facts = [label["label"] for label in labels]
    reasons = {
        r for fact in facts for r in (fact.get("reason"), *fact.get("reasons", ())) if r and r.endswith("_removed")
    }
    keys = {
        "unread": [piece for fact in facts for piece in fact["unread"]],
        "count": len(labels),
        "removed": sum(fact["removed"] for fact in facts),
        "direction": facts[0].get("direction", "ltr"),
        "script": facts[0].get("script"),
        "escaped_on_output": True,
    }
    if all(fact["status"] == "absent" for fact in facts):
        return field("absent", reasons | {"nothing_recognised"}, **keys)
    return field("read", reasons, **keys)


def compare_merged(answer: dict, said: Mapping[int, bool]) -> dict:
    """The merged fields against one another: a date on one label, a number on the other."""
    date = answer["date"]
    readings = []
    for edtf in [date["edtf"]] if date.get("edtf") else date.get("candidates") or []:
        bounds = edtf_bounds(edtf)
        if bounds:
            reading = Reading(0, 0, [(edtf, *bounds)])
            reading.settled = "two_digit_year" not in (date.get("reason"), *date.get("reasons", ()))
            readings.append(reading)
    return compare(answer, readings, [], answer["numbers"], said)


def edtf_bounds(edtf: str) -> tuple[tuple, tuple] | None:
    """First and last day of the EDTF forms that this reader writes."""
    bare = edtf.rstrip("~?")
    if match := re.fullmatch(r"(\d{3})X", bare):
        return (int(match[1]) * 10, 1, 1), (int(match[1]) * 10 + 9, 12, 31)
    if match := re.fullmatch(r"(\d{4})(?:-(\d\d))?(?:-(\d\d))?", bare):
        year, month, day = (int(part) if part else None for part in match.groups())
        if month and month > 32:
            month = (month - 33) * 3 + 1
            return (year, month, 1), (year, month + 2, last_day(year, month + 2))
        low, high = month or 1, month or 12
        return (year, low, day or 1), (year, high, day or last_day(year, high))
    ends = re.findall(r"\d{4}(?:-\d\d-\d\d)?", bare)
    bounds = [edtf_bounds(end) for end in ends]
    return (bounds[0][0], bounds[-1][1]) if bounds and all(bounds) else None
