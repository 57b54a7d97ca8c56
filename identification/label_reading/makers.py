"""Makers that the society knows, by what stands on their labels."""

import re

from identification.label_reading.context import Context, KnownMaker
from identification.label_reading.fibre_words import likeness
from identification.label_reading.page import Page
from identification.label_reading.repairs import spellings
from identification.label_reading.vocabulary import field, weakest

# Of six signs at least.
LONG_WORD = re.compile(r"[^\W_](?=\S{5})(?:[^\W_]|[.&'-](?=[^\W_]))*\.?")
# Where a mark stands, whose it is, and why it has to be confirmed.
Mark = tuple[int, int, KnownMaker, str | None]
# Behind a maker's name: it mended or altered the piece. Common practice, no source.
REPAIRED = re.compile(r" ?[:,(-]? ?(?:REP(?:AIR(?:ED|S)?)?|ALTERED|RECONDITIONED)(?![^\W_])[.)]{0,2}", re.IGNORECASE)


def read_makers(page: Page, context: Context) -> tuple[dict, list[dict], list[KnownMaker]]:
    """The known makers whose mark stands on the label, and apart from them the marks of repairs and depots. A mark read
    with a repair of its letters waits for a person to confirm it."""
    found: list[Mark] = []
    if context.makers:
        pattern, owners = context.marks_in(page.folded())
        for match in pattern.finditer(page.free):
            if maker := owners.get(match.group().upper()):
                found.append((*match.span(), maker, None))
    if not found and context.makers:
        found = repaired_marks(page, context)
    found.sort(key=lambda item: item[:2])
    repairs = [
        {"value": mark[2].name, "code": mark[2].code} | page.printed(mark[0], repair_ends(page, mark))
        for mark in found
        if is_repair(page, mark)
    ]
    made = [mark for mark in found if not is_repair(page, mark)]
    for mark in found:
        page.claim(mark[0], repair_ends(page, mark))
    if not made:
        return field("absent"), repairs, []
    note_two_figure_years(page, made)
    makers = list(dict.fromkeys(maker for _, _, maker, _ in made))
    reasons = {reason for *_, reason in made if reason}
    status = weakest(["corrected"] if reasons else ["read"])
    keys = {"value": makers[0].name, "code": makers[0].code}
    if len(makers) > 1:
        keys = {"value": None, "values": [maker.name for maker in makers], "codes": [maker.code for maker in makers]}
        others = [mark for mark in made if mark[2] is not makers[0]]
        keys |= {"others": [page.printed(*mark[:2]) for mark in others]}
    start, end = made[0][:2]
    return field(status, reasons, **keys) | page.printed(start, end), repairs, makers


def is_repair(page: Page, mark: Mark) -> bool:
    """A depot's mark, or any maker's that says it repaired."""
    return mark[2].repairs or repair_ends(page, mark) > mark[1]


def repair_ends(page: Page, mark: Mark) -> int:
    """Where the mark ends, with the word behind it that says it is one of a repair."""
    told = REPAIRED.match(page.text, mark[1])
    return told.end() if told else mark[1]


def repaired_marks(page: Page, context: Context) -> list[Mark]:
    """A single-word mark with figures for letters in it, or one letter off: the one best, well ahead of the next."""
    found, known = [], {}
    for match in LONG_WORD.finditer(page.free):
        word = match.group().lower()
        if len(word) >= 6 and word not in known:
            known[word] = repaired_mark(word, context.single_marks)
        if repaired := known.get(word):
            found.append((*match.span(), *repaired))
    return found


def repaired_mark(word: str, marks: list[tuple[str, KnownMaker]]) -> tuple[KnownMaker, str] | None:
    """The one maker whose mark the word is, with figures read as letters or at most a letter off."""
    spelt = spellings(word)
    for mark, maker in marks:
        if mark in spelt:
            return maker, "digits_in_word"
    # A word half as long again is less than 80 of 100 like, whatever its letters.
    near = [
        (likeness(word, mark), maker)
        for mark, maker in marks
        if 2 * len(word) <= 3 * len(mark) and 2 * len(mark) <= 3 * len(word)
    ]
    best, maker = max(near, key=lambda pair: pair[0], default=(0, None))
    others = [score for score, other in near if other is not maker]
    return (maker, "spelling_repaired") if best >= 90 and all(score <= best - 10 for score in others) else None


def note_two_figure_years(page: Page, found: list) -> None:
    """A maker whose mark carries a two-figure year: a figure behind the mark, or alone on a line, may be one."""
    for _, end, maker, _ in found:
        if not maker.two_figure_year:
            continue
        years = (maker.first_year or 0, maker.last_year or 9999)
        behind = re.match(r",? ?'?([0-9]{2})(?![0-9A-Za-z/.-])", page.free[end:])
        if behind:
            page.two_figure_years[end + behind.start(1)] = years
        for match in re.finditer(r"(?m)^ ?'?([0-9]{2}) ?$", page.free):
            page.two_figure_years.setdefault(match.start(1), years)
