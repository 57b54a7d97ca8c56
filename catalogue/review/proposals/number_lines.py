"""Stock numbers as an author writes them, a number a line, with what belongs to it behind it."""

import re
from collections.abc import Iterable, Mapping

from catalogue.reference.facts import years_in_words

HELP = (
    "A number a line; behind it, with ; between, whatever is known of it. Such as: 8415-61-002; form NUM; 1971–1979; "
    "sources S03 S11; against S07; misprint of 8415-61-020; note on the second contract."
)
BETWEEN = re.compile(r"(?<!\\);")
YEARS = re.compile(r"(?:(from|until) )?(\d{4})(?:\s*[–-]\s*(\d{4}))?")
NOT_UNDERSTOOD = (
    "“{}” in the line of {} is not understood: years as 1971–1979, from 1971 or until 1979; form, sources, against, "
    "misprint of or note with what it is."
)


class NotUnderstood(ValueError):
    """A line that cannot be read, in words."""


def as_lines(numbers: Iterable[Mapping]) -> str:
    """As they are read again by `from_lines`: a note's further lines stand indented below."""
    return "\n".join(as_line(one) for one in numbers)


def as_line(one: Mapping) -> str:
    note = "\n  ".join(one["note"].splitlines())
    parts = [
        escaped(one["number"]),
        f"form {one['form']}" if one["form"] else "",
        years_in_words(one["first_year"], one["last_year"]),
        f"sources {' '.join(one['sources'])}" if one["sources"] else "",
        f"against {' '.join(one['against'])}" if one["against"] else "",
        f"misprint of {escaped(one['misprint_of'])}" if one["misprint_of"] else "",
        f"note {note}" if note else "",
    ]
    return "; ".join(part for part in parts if part)


def escaped(text: str) -> str:
    return text.replace(";", "\\;")


def from_lines(text: str) -> list[dict[str, object]]:
    """The numbers that were written. Raises NotUnderstood with the words for whoever wrote them."""
    lines: list[str] = []
    for line in text.splitlines():
        if line[:1] in (" ", "\t") and lines:
            lines[-1] += f"\n{line.strip()}"
        elif line.strip():
            lines.append(line.strip())
    return [from_line(line) for line in lines]


def from_line(line: str) -> dict[str, object]:
    number, *parts = BETWEEN.split(line)
    found: dict[str, object] = {
        "number": number.strip().replace("\\;", ";"), "form": "", "first_year": None, "last_year": None,
        "misprint_of": "", "note": "", "sources": [], "against": [],
    }  # fmt: skip
    while parts:
        written = parts.pop(0).lstrip()
        part = written.strip()
        word, _, rest = written.partition(" ")
        if word.casefold() == "note":  # it goes on to the end of the line, whatever stands in it
            found["note"] = ";".join([rest, *parts]).strip()
            break
        found |= read_part(part, word.casefold(), rest.strip(), str(found["number"]))
    return found


def read_part(part: str, word: str, rest: str, number: str) -> dict[str, object]:
    """One of the things that are said of a number."""
    if not part:
        return {}
    if word == "form" and rest and " " not in rest:
        return {"form": rest}
    if word in ("sources", "source", "against") and rest:
        return {"against" if word == "against" else "sources": list(dict.fromkeys(rest.split()))}
    if word == "misprint" and rest.startswith("of ") and rest[3:].strip():
        return {"misprint_of": rest[3:].strip().replace("\\;", ";")}
    years = YEARS.fullmatch(part.casefold())
    if years is None or (years[1] and years[3]):
        raise NotUnderstood(NOT_UNDERSTOOD.format(part[:60], number[:40]))
    first, last = int(years[2]), int(years[3] or years[2])
    return {"first_year": None if years[1] == "until" else first, "last_year": None if years[1] == "from" else last}
