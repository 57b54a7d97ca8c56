"""Fibre composition: components, sums, and the ways of writing it that need no percent sign.

Regulation (EU) No 1007/2011: names of Annex I, the sum of Art. 9 for each component (Art. 11); 16 CFR 303 for pile and
back, and for fibres added to a place. A code's two letters are no official name and count only beside a percent sign.
"""

import re
from functools import lru_cache
from itertools import accumulate, product

from identification.label_reading.fibre_items import (
    FIELD_WORDS,
    PERCENT,
    SKIPPED,
    TOKEN,
    WORDS_FOR_NUMBERS,
    Item,
    Token,
    name_fibres,
    percent_items,
)
from identification.label_reading.fibre_words import fibre_named, fibre_of_code, phrase_at
from identification.label_reading.page import Page
from identification.label_reading.tables import fibre_words, folded, longest_fibre_phrase
from identification.label_reading.vocabulary import field as answer_field
from identification.label_reading.vocabulary import weakest

WORD_OR_FIGURE = re.compile(r"[^\W_]+")
# Three whole percentages that are rounded may make 101.
MOST_ROUNDED = 101.05
RATIO = re.compile(r"(?<![0-9A-Za-z./-])(\d{1,2}) ?/ ?(\d{1,2})(?: ?/ ?(\d{1,2}))? (?=[^\W\d_])")
EXCEPT = re.compile(
    rf",? ?\bEXCEPT (?P<figure>\d{{1,2}}(?:[.,]\d)?|ONE|TWO|THREE|FOUR|FIVE) ?{PERCENT} ?"
    r"(?P<name>[^\n,;0-9%]{2,40}?) ADDED"
    r" (?:TO|IN|AT) (?P<where>[^\n,;.(]{1,60})",
    re.IGNORECASE,
)


def read_fibres(page: Page) -> dict:
    """The composition by component. A missing percent stays missing; a code with many owners stays open."""
    free = page.free
    if "%" not in free and not re.search(
        rf"{PERCENT}|\b(?:all|pure|reine?|pur[ao]?)\b|\d\d ?/ ?\d\d", free, re.IGNORECASE
    ):
        return nothing()
    added = added_fibres(page)
    items = ratio_items(page) + percent_items(page) + whole_items(page)
    items.sort(key=lambda item: item.start)
    if not items:
        return unsupported(page) if "%" in free else nothing()
    for item in items + added:
        for piece in item.pieces:
            page.claim(*piece)
    claim_field_words(page, min(item.start for item in items))
    return composition(page, items, added)


def nothing(**reason) -> dict:
    return answer_field("absent", components=[], totals=[], **reason)


def unsupported(page: Page) -> dict:
    """Percentages beside words of a script that the list of names lacks."""
    letters = [c for c in page.free if c.isalpha()]
    foreign = sum(not c.isascii() and ord(c) > 0x24F for c in letters)
    if foreign * 2 > len(letters):
        return answer_field("absent", ["language_not_supported"], components=[], totals=[])
    return nothing()


def ratio_items(page: Page) -> list[Item]:
    """`50/50 NYLON/COTTON`: the order of the words gives the order of the numbers (common practice, no source)."""
    items = []
    for match in RATIO.finditer(page.free):
        figures = [int(figure) for figure in match.groups() if figure]
        line_end = page.free.find("\n", match.end())
        rest = page.free[match.end() : line_end if line_end > 0 else len(page.free)]
        tokens = [
            Token("word" if m.lastgroup == "word" else "sign", m.start(), m.end(), m.group())
            for m in TOKEN.finditer(rest)
        ][:24]
        for token in tokens:
            token.start += match.end()
            token.end += match.end()
        name_fibres(tokens)
        names = []
        for token in tokens:
            if token.fibre or (token.kind == "word" and (near := fibre_named(folded(token.text)))):
                token.fibre = token.fibre or near
                names.append(token)
            elif token.kind == "word" and folded(token.text) not in SKIPPED:
                break
            if len(names) == len(figures):
                break
        if len(names) != len(figures):
            continue
        for place, (figure, token) in enumerate(zip(figures, names, strict=True)):
            start = match.start() if place == 0 else token.start
            pieces = [(match.start(), token.end)] if place == 0 else [(token.start, token.end)]
            items.append(Item(start, token.end, figure, token.fibre, figure=match.span(), pieces=pieces))
        page.claim(match.start(), names[-1].end)
    return items


def whole_items(page: Page) -> list[Item]:
    """`ALL COTTON`, `PURE NEW WOOL`: one fibre, so 100 (Art. 7)."""
    items = []
    if not page.may_say(("all ", "pure ", "rein ", "reine ", "pur ", "pura ", "puro ")):
        return items
    for match in re.finditer(r"(?<![^\W_])(all|pure|reine?|pur[ao]?) (?=[^\W\d_])", page.free, re.IGNORECASE):
        line_end = page.free.find("\n", match.end())
        rest = page.free[match.end() : line_end if line_end > 0 else len(page.free)][:60]
        words = [m for m in TOKEN.finditer(rest) if m.lastgroup == "word"][:4]
        found = phrase_at([m.group() for m in words], 0, longest_fibre_phrase())
        if not found or re.match(r"(?: ?\d| ?%|[/&+])", rest[words[found[1] - 1].end() :]):
            continue
        end = match.end() + words[found[1] - 1].end()
        items.append(Item(match.start(), end, 100, found[0], pieces=[(match.start(), end)]))
    return items


def added_fibres(page: Page) -> list[Item]:
    """`except 5% spandex added to waistband`: it stands outside the hundred (16 CFR 303.23)."""
    items = []
    for match in EXCEPT.finditer(page.free) if page.may_say(["except"]) else ():
        fibre = fibre_named(folded(match["name"])) or fibre_of_code(match["name"].strip())
        if not fibre or len(fibre.names) > 1:
            continue
        printed = match["figure"].lower()
        percent = float(WORDS_FOR_NUMBERS.get(printed, 0) or printed.replace(",", "."))
        where = f"added: {match['where'].strip().lower()}"
        items.append(Item(*match.span(), percent, fibre, part=where, pieces=[match.span()]))
        page.claim(*match.span())
    return items


def claim_field_words(page: Page, start: int) -> None:
    line = page.free.rfind("\n", 0, start) + 1
    before = page.free[line:start]
    words = re.findall(r"[^\W\d_]+", before)
    if words and all(folded(word) in FIELD_WORDS for word in words):
        page.claim(line, start)


def composition(page: Page, items: list[Item], added: list[Item]) -> dict:
    components = parted(page, items)
    statuses, reasons, bad, missing = ["read"], set(), [], None
    open_items = [item for item in items if item.fibre and len(item.fibre.names) > 1]
    unknown = [item for item in items if item.fibre is None]
    for item in items:
        judge(page, item, statuses, reasons, bad)
    totals = []
    for component in components:
        total = round(sum(item.percent for item in component), 2)
        totals.append(int(total) if total == int(total) else total)
        fault = sum_fault(component, total)
        if fault and fault not in ("guessed", "unknown"):
            reasons.add(fault)
            if fault == "sum_not_100":
                statuses.append("invalid")
                missing = missing if missing is not None else tidy_number(100 - total)
    keys: dict = {"components": [], "totals": []}
    if not open_items:
        known = [[item for item in component if item.fibre] for component in components]
        keys["components"] = [as_component(component) for component in known if component]
        keys["totals"] = [total for total, component in zip(totals, known, strict=True) if component]
    else:
        keys["candidates"] = candidates(items)
    if unknown and not keys["components"]:
        keys["totals"] = []
    for item in added:
        keys["components"].append(as_component([item]))
        keys["totals"].append(None)
        reasons.add("added_fibre_outside_sum")
    if missing is not None:
        keys["missing"] = missing
    if any(item.guessed for item in items) and totals and all(total == 100 for total in totals):
        keys["support"] = "sum_is_100"
    changed = sum(item.changed + (item.fibre.changed if item.fibre else 0) for item in items)
    if changed:
        keys["characters_changed"] = changed
    # An error in one word or figure is shown alone; else the whole composition is what was read.
    place = bad[0] if bad and "invalid" not in statuses else (
        min(start for item in items + added for start, _ in item.pieces),
        max(end for item in items + added for _, end in item.pieces),
    )  # fmt: skip
    further = [item for item in unknown if not (place[0] <= item.start and item.end <= place[1])]
    if further:
        keys["others"] = [page.printed(item.start, item.end) for item in further]
    if any("asbestos fibre" in item.fibre.names for item in items if item.fibre):
        keys["caution"] = "asbestos"
    return answer_field(weakest(statuses), reasons, **keys) | page.printed(*place)


def judge(page: Page, item: Item, statuses: list[str], reasons: set[str], bad: list[tuple[int, int]]) -> None:
    if item.changed:
        reasons.add("letters_in_number")
        statuses.append("ambiguous" if item.guessed else "corrected")
        bad.append(item.figure)
    if item.fibre is None:
        reasons.add("unknown_fibre")
        statuses.append("unconfirmed")
        bad.append((item.start, item.end))
    elif len(item.fibre.names) > 1:
        reasons.add("abbreviation_ambiguous")
        statuses.append("ambiguous")
        bad.append((item.start, item.end))
    elif item.fibre.reason:
        reasons.add(item.fibre.reason)
        statuses.append("corrected")
        bad.append((item.start, item.end))
    if item.figure and page.converted(*item.figure):
        reasons.add("non_latin_digits")
        statuses.append("corrected")
    if item.minimum:
        reasons.add("minimum_declared")


def sum_fault(component: list[Item], total: float) -> str | None:
    if any(item.minimum for item in component):
        return None
    if any(item.guessed for item in component) and total != 100:
        return "guessed"
    if not any(item.fibre for item in component):
        return "unknown"
    if abs(total - 100) < 0.05:
        return None
    if len(component) >= 3 and total in (99, 101) and all(item.percent == int(item.percent) for item in component):
        return "sum_rounded"
    return "sum_not_100"


def parted(page: Page, items: list[Item]) -> list[list[Item]]:
    """Components in printed order: a new part begins one, and so does what follows a full hundred, or would go beyond
    it and is a cloth of its own."""
    components: list[list[Item]] = []
    for place, item in enumerate(items):
        last = components[-1] if components else None
        total = sum(i.percent for i in last or ())
        full = last and abs(total - 100) < 0.05
        beyond = last and total + item.percent > MOST_ROUNDED and is_apart(page, last[-1], items[place:])
        if last is None or last[0].part != item.part or full or beyond:
            components.append([item])
        else:
            last.append(item)
    unlike: list[list[Item]] = []
    for component in components:
        said = [(item.part, item.fibre and item.fibre.names, item.percent) for item in component]
        if said not in [[(i.part, i.fibre and i.fibre.names, i.percent) for i in other] for other in unlike]:
            unlike.append(component)
    return unlike


def is_apart(page: Page, before: Item, items: list[Item]) -> bool:
    """Whether something else is printed between, as a date, or what follows makes a hundred by itself. `80% wool, 30%
    cotton` is one cloth with a wrong figure."""
    words = [folded(word) for word in WORD_OR_FIGURE.findall(page.text[before.end : items[0].start])]
    if any(word not in SKIPPED | FIELD_WORDS for word in words):
        return True
    return any(abs(total - 100) < 0.05 for total in accumulate(item.percent for item in items))


def tidy_number(number: float) -> int | float:
    number = round(number, 2)
    return int(number) if number == int(number) else number


def as_component(items: list[Item]) -> dict:
    fibres = [{"name": item.fibre.names[0], "percent": tidy_number(item.percent)} for item in items]
    return {"part": items[0].part, "fibres": fibres}


def candidates(items: list[Item], most: int = 24) -> list[list[str]]:
    """Every composition that the codes allow, each in alphabetical order."""
    choices = [[f"{name} {tidy_number(item.percent)}" for name in item.fibre.names] for item in items if item.fibre]
    found = []
    for number, chosen in enumerate(product(*choices)):
        if number >= most:
            break
        found.append(sorted(chosen))
    return sorted(found)


@lru_cache(maxsize=1)
def asbestos_words() -> re.Pattern:
    known = [word for word, names in fibre_words().items() if names == ("asbestos fibre",)] + ["asbestos"]
    pattern = "|".join(sorted({re.escape(word) for word in known}, key=len, reverse=True))
    return re.compile(rf"(?<![^\W_])(?:{pattern})(?![^\W_])", re.IGNORECASE)


def caution_words(text: str) -> list[tuple[int, int]]:
    """Where a word for asbestos stands, in any of the languages, with or without a percentage."""
    return [match.span() for match in asbestos_words().finditer(text)]
