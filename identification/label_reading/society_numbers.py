"""The society's own numbers: ledger and stores numbers, contracts, sizes and serials, by forms that are data.

A form's pattern: `9` one figure, `9{a-b}` a to b figures, `A` one capital letter, brackets mark the groups, a backslash
makes the next sign literal, all else stands for itself. ` / ` stands for a new line, as in label texts written out.
"""

import re
from dataclasses import dataclass
from functools import lru_cache

from identification.label_reading.check_rules import NotUnderstood, keeps_rule
from identification.label_reading.context import Context, Form
from identification.label_reading.page import Page
from identification.label_reading.repairs import (
    LOOKS_LIKE_FIGURE,
    MOST_REPAIRS,
    as_figures,
    guesses_in,
    repairs_in,
)
from identification.label_reading.vocabulary import field, weakest

SIZE_WORD = re.compile(r"(?:SIZE|SZ|GR(?:ÖSSE|OSSE)?|TAILLE|TALLA|TAGLIA|MAAT|STORLEK|STR)\.? ?[:#]? ?$", re.IGNORECASE)
ROLE_WORDS = {
    "contract": re.compile(r"CONTRACT\.?(?: ?(?:NO|NR|NUMBER)\.?)? ?[:#]? ?$", re.IGNORECASE),
    "stock number": re.compile(r"(?:STOCK|STORES|LEDGER)(?: ?(?:NO|NR|NUMBER)\.?)? ?[:#]? ?$", re.IGNORECASE),
    "size": SIZE_WORD,
}
MOST_FORMS = 60
TOKEN = re.compile(r"\\(.)|9\{(\d{1,2})-(\d{1,2})\}|( / )|(.)", re.DOTALL)


class FaultyPattern(ValueError):
    """A pattern that cannot be read; the words say why."""


@dataclass(frozen=True)
class Compiled:
    """A form's pattern twice: as printed, and with look-alike letters where figures belong."""

    exact: re.Pattern
    loose: re.Pattern | None
    figures: int


@lru_cache(maxsize=512)
def compiled(pattern: str) -> Compiled:
    """Raises FaultyPattern."""
    exact = re.compile(f"(?<![0-9A-Za-z])(?<![0-9A-Za-z][-/.]){expression(pattern, '0-9')}{AFTER}", re.I | re.A)
    figures = figures_in(pattern)
    loose = None
    if figures >= 3:
        loosely = expression(pattern, LOOKS_LIKE_FIGURE)
        loose = re.compile(f"(?<![0-9A-Za-z])(?<![0-9A-Za-z][-/.]){loosely}{AFTER}", re.A)
    return Compiled(exact, loose, figures)


AFTER = r"(?![0-9A-Za-z])(?![-/.][0-9A-Za-z])"


def figures_in(pattern: str) -> int:
    """How many figures a number of this form has at least."""
    bare = re.sub(r"\\.", "", pattern)
    return len(re.findall(r"9", re.sub(r"9\{\d+-\d+\}", "9", bare)))


def expression(pattern: str, figure: str) -> str:
    """The regular expression of a pattern. Bounded repeats only, so that reading time stays linear."""
    parts, depth = [], 0
    for literal, low, high, new_line, sign in TOKEN.findall(pattern):
        if literal:
            parts.append(re.escape(literal))
        elif low:
            if not 1 <= int(low) <= int(high) <= 20:
                raise FaultyPattern(f"9{{{low}-{high}}} does not run upward within 1 to 20")
            parts.append(f"[{figure}]{{{low},{high}}}")
        elif new_line:
            parts.append(r"(?: ?\n ?| ?/ ?)")
        elif sign == "9":
            parts.append(f"[{figure}]")
        elif sign == "A":
            parts.append("[A-Z]")
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


def read_society_numbers(page: Page, context: Context) -> list[tuple[int, int, dict]]:
    """Every number of the society's forms, in the order printed: where it stands, and what its groups mean."""
    found: list[tuple[int, int, dict]] = []
    taken = bytearray(len(page.free))
    forms = sorted(context.number_forms[:MOST_FORMS], key=lambda form: -len(form.pattern))
    for repaired in (False, True):
        for form in forms:
            try:
                ready = compiled(form.pattern)
            except (FaultyPattern, re.error):
                continue
            pattern = ready.loose if repaired else ready.exact
            for match in pattern.finditer(page.free) if pattern else ():
                if taken.find(1, *match.span()) >= 0:
                    continue
                if len(match.group()) < 4 and not stands_for_itself(page, match, form):
                    continue
                answer = number_of(page, match, form, context)
                if answer:
                    taken[match.start() : match.end()] = b"\1" * (match.end() - match.start())
                    found.append((*match.span(), answer))
    return sorted(found, key=lambda item: item[:2])


def claim_society_numbers(page: Page, numbers: list[tuple[int, int, dict]], sizes: bool) -> None:
    """What the society's forms have read is claimed, with its field word: the sizes among them, or all the others."""
    for start, end, number in numbers:
        if (number["role"] == "size") != sizes:
            continue
        line = max(page.free.rfind("\n", 0, start) + 1, start - 40)
        word = ROLE_WORDS.get(number["role"]) if page.speaks_before(start) else None
        before = word.search(page.free[line:start]) if word else None
        page.claim(start - len(before.group()) if before else start, end)


def stands_for_itself(page: Page, match: re.Match, form: Form) -> bool:
    """A very short number counts alone on its line, or behind its field word."""
    if page.alone_on_line(*match.span()):
        return True
    if form.role != "size" or not page.speaks_before(match.start()):
        return False
    line = max(page.free.rfind("\n", 0, match.start()) + 1, match.start() - 30)
    # `SIZE 21 1/2` is no size number 21 with a remark.
    follows = re.match(r" ?[0-9/]", page.text[match.end() : match.end() + 2])
    return bool(SIZE_WORD.search(page.free[line : match.start()])) and not follows


def number_of(page: Page, match: re.Match, form: Form, context: Context) -> dict | None:
    """One number as evidence, or nothing where it would take a guess to call it one."""
    groups = match.groups()
    in_figures = [as_figures(g) if figures_group(form, i, g) else g.upper() for i, g in enumerate(groups, 1)]
    changed = sum(repairs_in(g) for i, g in enumerate(groups, 1) if figures_group(form, i, g))
    true = sum(c.isdigit() for g in groups for c in g)
    if changed and true < max(changed, 2):
        return None
    reasons, statuses = set(), ["read"]
    keys: dict = {
        "form": form.code,
        "name": form.name,
        "role": form.role,
        "groups": in_figures,
        "years_in_use": form.years,
    }
    if changed:
        reasons.add("letters_in_number")
        statuses.append("corrected")
        keys["characters_changed"] = changed
    if page.converted(*match.span()):
        reasons.add("non_latin_digits")
        statuses.append("corrected")
    value = normal_form(form.pattern, in_figures)
    if changed > MOST_REPAIRS:
        reasons.add("too_many_repairs")
        statuses.append("invalid")
    else:
        rule_remarks(form, in_figures, reasons, statuses)
    if form.year_group and form.year_group <= len(groups):
        if changed and guesses_in(groups[form.year_group - 1]):
            statuses.append("ambiguous")
            keys["candidates"] = [value]
        keys |= year_of(form, in_figures[form.year_group - 1], context)
    status = weakest(statuses)
    keys["value"] = None if status == "ambiguous" or "too_many_repairs" in reasons else value
    return field(status, reasons, **keys) | page.printed(*match.span())


def figures_group(form: Form, number: int, text: str) -> bool:
    """Whether the pattern wants figures in that group."""
    groups = groups_of(form.pattern)
    return number <= len(groups) and groups[number - 1].startswith("9")


@lru_cache(maxsize=256)
def groups_of(pattern: str) -> list[str]:
    """What stands within each pair of brackets."""
    return re.findall(r"\(([^()]*)\)", re.sub(r"\\.", "", pattern))


def rule_remarks(form: Form, groups: list[str], reasons: set[str], statuses: list[str]) -> None:
    try:
        kept = keeps_rule(form.check_rule, groups)
    except NotUnderstood:
        reasons.add("check_rule_not_understood")
        statuses.append("unconfirmed")
        return
    if not kept:
        reasons.add("check_rule_broken")
        statuses.append("invalid")


def normal_form(pattern: str, groups: list[str]) -> str:
    """The number as its pattern writes it, whatever spaces and dashes were printed."""
    parts, left, inside = [], list(groups), False
    for literal, low, _, new_line, sign in TOKEN.findall(pattern):
        if sign == "(":
            inside = True
            parts.append(left.pop(0) if left else "")
        elif sign == ")":
            inside = False
        elif not inside and not low:
            parts.append(literal or new_line or sign)
    return "".join(parts)


def years_in_use(years: str) -> tuple[int | None, int | None]:
    """First and last year of an EDTF interval of years; an open or missing end is None."""
    first, _, last = years.partition("/")
    ends = [re.match(r"(\d{4})", end) for end in (first, last or first)]
    return tuple(int(end.group(1)) if end else None for end in ends)


def year_of(form: Form, figures: str, context: Context) -> dict:
    """The year in a number: years in use that end in its figures; one left is read, more are listed."""
    if not figures.isdecimal():
        return {"year": None}
    if len(figures) == 4:
        return {"year": int(figures)}
    first, last = years_in_use(form.years)
    span = range(first or context.earliest_year, min(last or context.reference_year, context.reference_year) + 1)
    fitting = [year for year in span if year % 100 == int(figures)]
    return {"year": fitting[0]} if len(fitting) == 1 else {"year": None, "years": fitting}
