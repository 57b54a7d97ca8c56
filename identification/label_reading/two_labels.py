"""Whether a text that nothing parts is that of two labels, and where the second begins.

Two makers beside two stock numbers, each pair in its own stretch of lines, are two labels: one label may name a second
number or a second firm, but hardly both, one after the other. Ours, no source. `read_label` itself parts nothing that
the writer did not; whoever shows the reading offers this and asks.
"""

from collections.abc import Iterable

from identification.label_reading.context import Context
from identification.label_reading.page import page_of

Mark = tuple[int, str, str]


def second_label_begins(text: str, answer: dict, context: Context) -> int | None:
    """The place of the line with which a second label begins, or None where the text is one label or already parted."""
    if answer.get("labels") or answer["label"]["status"] != "read":
        return None
    marks = sorted(identities(text, answer, context))
    for cut in range(1, len(marks)):
        first, second = marks[:cut], marks[cut:]
        if one_label(first) and one_label(second) and differ(first, second):
            return line_between(text, answer, first[-1][0], second[0][0])
    return None


def identities(text: str, answer: dict, context: Context) -> Iterable[Mark]:
    """Place, kind and value of each thing on the label that one label has once: its maker and its stock number."""
    pattern, owners = context.marks_in(page_of(text).folded())
    repairs = [tuple(one["span"]) for one in answer["repairs"]]
    for match in pattern.finditer(text):
        maker = owners.get(match.group().upper())
        if maker and not maker.repairs and not any(start <= match.start() < end for start, end in repairs):
            yield match.start(), "maker", maker.code
    for number in answer["numbers"]:
        if number["role"] == "stock number":
            printed = number.get("candidates") or [number["as_printed"]]
            yield number["span"][0], "number", number["value"] or printed[0]
    stock = answer["stock_number"]
    if "span" in stock:
        values = stock.get("values") or [stock.get("value") or stock["as_printed"]]
        places = [text.find(value) for value in values]
        places[0] = stock["span"][0]
        yield from ((place, "number", value) for place, value in zip(places, values, strict=True) if place >= 0)


def one_label(marks: list[Mark]) -> bool:
    """Whether these are one maker and one number, each as often as it stands."""
    makers, numbers = ({value for _, kind, value in marks if kind == name} for name in ("maker", "number"))
    return len(makers) == 1 and len(numbers) == 1


def differ(first: list[Mark], second: list[Mark]) -> bool:
    return {mark[1:] for mark in first}.isdisjoint(mark[1:] for mark in second)


def line_between(text: str, answer: dict, last: int, begun: int) -> int | None:
    """The beginning of the line, after the first label's last mark, where the second begins: behind an empty line, else
    behind the lines that only say a date or a size. None where both stand on one line."""
    starts = [place + 1 for place, sign in enumerate(text) if sign == "\n" and last < place < begun]
    if not starts:
        return None
    empty = [start for start in starts if not text[start : text.find("\n", start) + 1].strip()]
    if empty:
        return text.find("\n", empty[-1]) + 1
    said = [tuple(answer[name]["span"]) for name in ("date", "size") if "span" in answer[name]]
    said += [tuple(one["span"]) for one in answer["date"].get("others", ())]
    for start in starts:
        end = text.find("\n", start)
        line = text[start:end].strip()
        if not any(start <= begin and until <= end and text[begin:until] == line for begin, until in said):
            return start
    return starts[-1]
