"""The patterns in which a society writes down its numbers, made ready for searching.

`9` is one figure, `9{a-b}` a to b figures, `A` one capital letter; brackets mark the groups, a backslash makes the next
sign literal, all else stands for itself. ` / ` stands for a new line, as in label texts written out.
"""

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import lru_cache

from identification.label_reading.repairs import LOOKS_LIKE_FIGURE

TOKEN = re.compile(r"\\(.)|9\{(\d{1,2})-(\d{1,2})\}|( / )|(.)", re.DOTALL)


class FaultyPattern(ValueError):
    """A pattern that cannot be read; the words say why."""


BEFORE = r"(?<![0-9A-Za-z])(?<![0-9A-Za-z][-/.])"
# The same, asked behind the first figure: a search that begins with a figure leaps from one to the next.
BEFORE_FIRST = r"(?<![0-9A-Za-z].)(?<![0-9A-Za-z][-/.].)"
AFTER = r"(?![0-9A-Za-z])(?![-/.][0-9A-Za-z])"


@dataclass(frozen=True)
class Compiled:
    """A form's pattern twice: as printed, and with look-alike letters where figures belong.

    `needed` stands in every such number, in small letters. Each match has a group for each pair of brackets, and one
    for each figure or letter that stands outside them: `figure_groups` tells of each whether figures belong there,
    `bracketed` whether it is one that the society's groups count. `template` is what is printed between the groups,
    with None for each group.
    """

    exact: re.Pattern
    loose: re.Pattern | None
    needed: str
    figure_groups: tuple[bool, ...]
    bracketed: tuple[bool, ...]
    template: tuple[str | None, ...]

    @property
    def own_count(self) -> int:
        """How many groups the society's form has."""
        return sum(self.bracketed)

    def own_groups(self, groups: Iterable[str]) -> list[str]:
        """Of all groups of a match those in brackets, which a form's rule and its year count."""
        return [group for group, counted in zip(groups, self.bracketed, strict=True) if counted]

    def normal_form(self, groups: list[str]) -> str:
        """The number as its pattern writes it, whatever spaces and dashes were printed. `groups`: all of a match."""
        left = iter(groups)
        return "".join([next(left, "") if part is None else part for part in self.template])


@lru_cache(maxsize=512)
def compiled(pattern: str) -> Compiled:
    """Raises FaultyPattern, or re.error."""
    exact = re.compile(bounded(expression(pattern, "0-9"), "0-9"), re.I | re.A)
    loose = None
    if figures_in(pattern) >= 3:
        loose = re.compile(bounded(expression(pattern, LOOKS_LIKE_FIGURE), LOOKS_LIKE_FIGURE), re.A)
    parts = list(parts_of_match(pattern))
    figures, bracketed = (tuple(part[at] for part in parts) for at in (0, 1))
    return Compiled(exact, loose, needed_in(pattern), figures, bracketed, tuple(template_of(pattern)))


def bounded(expression: str, figure: str) -> str:
    """The expression where no letter or figure stands before or behind."""
    first = re.match(rf"\(?{re.escape(f'[{figure}]')}(?!{{)", expression)
    if not first:
        return f"{BEFORE}{expression}{AFTER}"
    return f"{first.group()}{BEFORE_FIRST}{expression[first.end() :]}{AFTER}"


def needed_in(pattern: str) -> str:
    """The longest run of signs that every number of this form has as they are."""
    runs = [""]
    for literal, _, _, _, sign in TOKEN.findall(pattern):
        if literal or (sign and sign not in "9A ()-/."):
            runs[-1] += literal or sign
        elif not sign or sign not in "()":
            runs.append("")
    return max(runs, key=len).lower()


def groups_of(pattern: str) -> list[str]:
    """What stands within each pair of brackets."""
    return re.findall(r"\(([^()]*)\)", re.sub(r"\\.", "", pattern))


def figures_of_groups(pattern: str) -> list[tuple[int, int] | None]:
    """Of each pair of brackets how many figures stand in it at least and at most; None where other signs do as well."""
    found: list[tuple[int, int] | None] = []
    for group in groups_of(pattern):
        parts = re.findall(r"9(?:\{(\d+)-(\d+)\})?", group)
        only = bool(group) and not re.sub(r"9(?:\{\d+-\d+\})?", "", group)
        sums = [sum(int(part[end] or 1) for part in parts) for end in (0, 1)]
        found.append((sums[0], sums[1]) if only else None)
    return found


def parts_of_match(pattern: str) -> Iterator[tuple[bool, bool]]:
    """Of each group of a match whether figures belong there, and whether it is in brackets."""
    inside = opened = False
    for _, low, _, _, sign in TOKEN.findall(pattern):
        figures = bool(low) or sign == "9"
        if opened:  # a group begins as it goes on; an empty pair of brackets holds no figures
            yield figures, True
        elif not inside and (figures or sign == "A"):
            yield figures, False
        opened = sign == "("
        inside = (inside or opened) and sign != ")"


def template_of(pattern: str) -> Iterator[str | None]:
    inside = False
    for literal, low, _, new_line, sign in TOKEN.findall(pattern):
        if sign == "(":
            inside = True
            yield None
        elif sign == ")":
            inside = False
        elif not inside:
            yield None if low or sign in ("9", "A") else literal or new_line or sign


def figures_in(pattern: str) -> int:
    """How many figures a number of this form has at least."""
    bare = re.sub(r"\\.", "", pattern)
    return len(re.findall(r"9", re.sub(r"9\{\d+-\d+\}", "9", bare)))


def expression(pattern: str, figure: str) -> str:
    """The regular expression of a pattern, with a group for each pair of brackets and for each figure or letter outside
    them. Bounded repeats only, so that reading time stays linear."""
    parts, depth = [], 0

    def varies(signs: str) -> str:
        return signs if depth else f"({signs})"

    for literal, low, high, new_line, sign in TOKEN.findall(pattern):
        if literal:
            parts.append(re.escape(literal))
        elif low:
            if not 1 <= int(low) <= int(high) <= 20:
                raise FaultyPattern(f"9{{{low}-{high}}} does not run upward within 1 to 20")
            parts.append(varies(f"[{figure}]{{{low},{high}}}"))
        elif new_line:
            parts.append(r"(?: ?\n ?| ?/ ?)")
        elif sign == "9":
            parts.append(varies(f"[{figure}]"))
        elif sign == "A":
            parts.append(varies("[A-Z]"))
        elif sign in "()":
            depth += 1 if sign == "(" else -1
            if depth not in (0, 1):
                raise FaultyPattern("brackets must open and close, and not lie within one another")
            parts.append(sign)
        elif sign == " ":
            parts.append(" ?")
        elif sign in "-/.":
            parts.append(f" ?{re.escape(sign)} ?")
        else:
            parts.append(re.escape(sign))
    if depth:
        raise FaultyPattern("a bracket is not closed")
    return "".join(parts)
