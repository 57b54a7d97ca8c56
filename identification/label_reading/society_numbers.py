"""The society's own numbers: ledger and stores numbers, contracts, sizes and serials, by forms that are data."""

import re
from functools import lru_cache

from identification.label_reading.check_rules import NotUnderstood, keeps_rule
from identification.label_reading.context import Context, Form
from identification.label_reading.date_forms import years_of
from identification.label_reading.number_patterns import Compiled
from identification.label_reading.page import Page
from identification.label_reading.repairs import MOST_REPAIRS, as_figures, guesses_in, repairs_in
from identification.label_reading.vocabulary import field, weakest

SIZE_WORD = re.compile(
    r"(?:SIZE|SZ|GR(?:ÖSSE|OSSE)?|TAILLE|TALLA|TAGLIA|MAAT|STORLEK|STR)\.?(?: ?(?:NO|NR)\b\.?)? ?[:#]? ?$",
    re.IGNORECASE,
)
SIZE_ENDINGS = ("size", "sz", "gr", "osse", "taille", "talla", "taglia", "maat", "storlek", "str", "no", "nr")
# `SIZE 21 1/2` is no size number 21 with a remark, nor `SIZE 4/5` a 4. Behind ` / ` begins what stood on the next line,
# and a longer number is one of its own.
GOES_ON = re.compile(r"[0-9]| ?/(?! )| / ?(?=[0-9]{1,2}(?![-/0-9A-Za-z]))| [0-9]{1,2}(?:/[0-9]+)?(?![-/0-9])")
ROLE_WORDS = {
    "contract": re.compile(r"CONTRACT\.?(?: ?(?:NO|NR|NUMBER)\.?)? ?[:#]? ?$", re.IGNORECASE),
    "stock number": re.compile(r"(?:STOCK|STORES|LEDGER)(?: ?(?:NO|NR|NUMBER)\.?)? ?[:#]? ?$", re.IGNORECASE),
    "size": SIZE_WORD,
}


def read_society_numbers(page: Page, context: Context) -> list[tuple[int, int, dict]]:
    """Every number of the society's forms, in the order printed: where it stands, and what its groups mean."""
    found: list[tuple[int, int, dict]] = []
    taken = bytearray(len(page.free))
    folded = page.free.lower()
    forms = [(form, ready) for form, ready in context.ready_forms if ready.needed in folded]
    for repaired in (False, True):
        for form, ready in forms:
            pattern = ready.loose if repaired else ready.exact
            for match in pattern.finditer(page.free) if pattern else ():
                if taken.find(1, *match.span()) >= 0:
                    continue
                if len(match.group()) < 4 and not stands_for_itself(page, match, form):
                    continue
                answer = number_of(page, match, form, ready, context)
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
    if form.role != "size" or not page.may_end(match.start(), SIZE_ENDINGS):
        return False
    line = max(page.free.rfind("\n", 0, match.start()) + 1, match.start() - 30)
    follows = GOES_ON.match(page.text[match.end() : match.end() + 8])
    return bool(SIZE_WORD.search(page.free[line : match.start()])) and not follows


def number_of(page: Page, match: re.Match, form: Form, ready: Compiled, context: Context) -> dict | None:
    """One number as evidence, or nothing where it would take a guess to call it one."""
    groups = match.groups()
    of_figures = list(zip(groups, ready.figure_groups, strict=True))
    in_figures = [as_figures(group) if figures else group.upper() for group, figures in of_figures]
    changed = sum(repairs_in(group) for group, figures in of_figures if figures and not group.isdigit())
    if changed and sum(c.isdigit() for group in groups for c in group) < max(changed, 2):
        return None
    own = ready.own_groups(in_figures)
    reasons, statuses = set(), ["read"]
    keys: dict = {
        "form": form.code,
        "name": form.name,
        "role": form.role,
        "groups": own,
        "years_in_use": form.years,
    }
    if changed:
        reasons.add("letters_in_number")
        statuses.append("corrected")
        keys["characters_changed"] = changed
    if page.converted(*match.span()):
        reasons.add("non_latin_digits")
        statuses.append("corrected")
    value = ready.normal_form(in_figures)
    if changed > MOST_REPAIRS:
        reasons.add("too_many_repairs")
        statuses.append("invalid")
    else:
        rule_remarks(form, own, reasons, statuses)
    if form.year_group and form.year_group <= len(own):
        if changed and guesses_in(ready.own_groups(groups)[form.year_group - 1]):
            statuses.append("ambiguous")
            keys["candidates"] = [value]
        keys |= year_of(form, own[form.year_group - 1], context)
        if keys.get("years") == []:
            reasons.add("outside_years_in_use")
    status = weakest(statuses)
    if status == "ambiguous":
        keys |= open_year(keys)
    keys["value"] = None if status == "ambiguous" or "too_many_repairs" in reasons else value
    return field(status, reasons, **keys) | page.printed(*match.span())


def open_year(number: dict) -> dict:
    """The year of a number that is open: none is chosen, the one that it would be is listed."""
    return {"year": None, "years": [number["year"]]} if number.get("year") else {}


def open_where_two(numbers: list[dict]) -> list[dict]:
    """Different numbers of one form on one label: which of them it is for stays open, and each names all of them."""
    values: dict[str, list[str]] = {}
    for one in numbers:
        if one["status"] != "invalid":
            own = one["value"] or one["candidates"][0]
            values.setdefault(one["form"], [])
            values[one["form"]] += [own] if own not in values[one["form"]] else []
    return [
        one if one["status"] == "invalid" or len(values[one["form"]]) < 2 else opened(one, values[one["form"]])
        for one in numbers
    ]


def opened(number: dict, values: list[str]) -> dict:
    reasons = {"two_numbers", *([number["reason"]] if "reason" in number else ()), *number.get("reasons", ())}
    keys = {key: value for key, value in number.items() if key not in ("status", "reason", "reasons")}
    candidates = [number["value"]] if number["value"] else number["candidates"]
    keys |= {"value": None, "values": values, "candidates": candidates} | open_year(number)
    return field("ambiguous", reasons, **keys)


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


@lru_cache(maxsize=512)
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
    last = min(last or context.reference_year, context.reference_year)
    fitting = list(years_of(figures, first or context.earliest_year, last))
    return {"year": fitting[0]} if len(fitting) == 1 else {"year": None, "years": fitting}
