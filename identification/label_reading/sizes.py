"""Sizes: the wearer's body, in the systems that labels use.

NATO pairs after two secondary sources (STANAG 2335 not read); United States letters after a private page and the
schedules of GL/PD 07-13A; letters of EN 13402 after two summary tables that differ in the women's L.
Metric figures are centimetres.
"""

import re
from collections.abc import Iterable

from identification.label_reading.context import HEADGEAR, TROUSERS, UPPER, Context
from identification.label_reading.page import Page
from identification.label_reading.repairs import LOOKS_LIKE_FIGURE, as_figures, guesses_in, repairs_in
from identification.label_reading.society_numbers import SIZE_ENDINGS, SIZE_WORD
from identification.label_reading.vocabulary import field, weakest

HEIGHTS, CHESTS, LEGS, HEADS = (140, 220), (60, 150), (50, 110), (48, 68)
CM_PER_INCH = 2.54
D = f"[{LOOKS_LIKE_FIGURE}]"
# Asked behind the first figure: a search that begins with a figure leaps from one to the next.
EDGE = r"(?<![0-9A-Za-z].)(?<![0-9][-/.,].)"
END = r"(?![0-9A-Za-z])(?![-/.,][0-9])"
PAIR = re.compile(f"({D}{EDGE}{D}{{3}}) ?[-/] ?({D}{{4}}){END}")
TRIPLE = re.compile(rf"(\d{EDGE}\d{{1,2}}) ?[-/] ?(\d{{2,3}}) ?[-/] ?(\d{{2,3}}){END}", re.ASCII)
METRIC = re.compile(rf"({D}{EDGE}{D}{{2}}) ?[-/] ?({D}{{2,3}}){END}")
LETTER_WORDS = {
    "xx-small": None,
    "x-small": (74, 84),
    "small": (84, 94),
    "medium": (94, 104),
    "large": (104, 114),
    "x-large": None,
    "xx-large": None,
}
LENGTH_WORDS = {
    "xx-short": None,
    "x-short": (150, 160),
    "short": (160, 170),
    "regular": (170, 180),
    "long": (180, 190),
    "x-long": None,
    "xx-long": None,
}
X = r"(?:XX?|EXTRA(?: EXTRA)?)[- ]?"
GIRTHS = ("small", "large", "medium")
GIRTH = rf"(?:{X})?(?:SMALL|LARGE)|MEDIUM"
LENGTH = rf"(?:{X})?(?:SHORT|LONG)|REGULAR"
US_PAIR = re.compile(rf"(?<![A-Za-z0-9-])({GIRTH}) ?[-/, ] ?({LENGTH})(?![A-Za-z0-9])", re.IGNORECASE | re.ASCII)
US_LETTER = re.compile(rf"(?<![A-Za-z0-9-])({GIRTH})(?![A-Za-z0-9-])", re.IGNORECASE | re.ASCII)
INCHES = re.compile(
    r"([2-6](?<![A-Za-z0-9./-].)[0-9])(?: ?-? ?)(XS|XL|S|R|L|X-SHORT|SHORT|REGULAR|REG|LONG|X-LONG)(?![A-Za-z0-9])",
    re.I | re.A,
)
INCH_LENGTHS = {"xs": "extra short", "s": "short", "r": "regular", "l": "long", "xl": "extra long"}
LETTER = re.compile(r"(?<![A-Za-z0-9./'-])(XXS|XS|S|M|L|XL|XXL|[2-6]XL)(?![A-Za-z0-9./'-])", re.IGNORECASE | re.ASCII)
FIGURE = re.compile(r"([0-9](?<![0-9A-Za-z./-].)[0-9]{0,2})( [0-9]/[0-9])?(?![0-9A-Za-z/%])", re.ASCII)
# Behind a size word, or alone on a line, where a month and a year would have a month that there is none.
RANGE = re.compile(r"([2-6](?<![A-Za-z0-9./-].)[0-9]) ?([-/]) ?([2-6][0-9])(?![A-Za-z0-9%])(?![-/.,][0-9])", re.ASCII)
# Inches of the chest, or numbers of a table: the least and most of what a range is taken for (the project's own).
RANGES_FROM, RANGES_TO, WIDEST_RANGE, HIGHEST_ALONE = 28, 62, 6, 50
EN_LETTERS = ("XS", "S", "M", "L", "XL", "XXL", "3XL", "4XL", "5XL")
EN_MEN = dict(
    zip(
        EN_LETTERS,
        [(78, 86), (86, 94), (94, 102), (102, 110), (110, 118), (118, 129), (129, 141), (141, 154), (154, 166)],
        strict=True,
    )
)
EN_WOMEN = dict(
    zip(
        EN_LETTERS,
        [(74, 82), (82, 90), (90, 98), None, (107, 119), (119, 131), (131, 143), (143, 155), (155, 167)],
        strict=True,
    )
)
# The two summary tables end the women's L at 106 and at 107.
WOMENS_L = [[98, 106], [98, 107]]
UNDERSHIRT_INCHES = {"large": (42, 44)}
RANGES = ("height_cm", "chest_cm", "bust_cm", "waist_cm", "inside_leg_cm")


class Found:
    def __init__(
        self, start: int, end: int, system: str | None, statuses: Iterable[str], reasons: Iterable[str], **keys
    ):
        self.start, self.end, self.system = start, end, system
        self.status, self.reasons, self.keys = weakest(statuses), set(reasons), keys


def read_size(page: Page, context: Context) -> dict:
    """The size printed first; another system on the label is named as agreeing or not."""
    found: list[Found] = []
    taken = bytearray(len(page.free))
    for reader in (nato_pairs, triples, metric_pairs, us_pairs, us_letters, inches, letters, heads, ranges, figures):
        for size in reader(page, context):
            if taken.find(1, size.start, size.end) < 0:
                taken[size.start : size.end] = b"\1" * (size.end - size.start)
                found.append(size)
    if not found:
        return field("absent")
    found.sort(key=lambda size: size.start)
    for size in found:
        page.claim(size.start - len(word_before(page, size.start)), size.end)
    strong = [size for size in found if size.system and size.status != "invalid"] or found
    first = strong[0]
    status, reasons, keys = first.status, set(first.reasons), dict(first.keys)
    for other in strong[1:]:
        match agreement(first, other):
            case False:
                keys.setdefault("disagrees_with", other.system)
                reasons.add("sizes_differ")
                status = weakest([status, "conflict"])
            case True:
                keys.setdefault("agrees_with", other.system)
    return field(status, reasons, system=first.system, **keys) | page.printed(first.start, first.end)


def word_before(page: Page, start: int) -> str:
    """`NATO SIZE:` or the like, directly before, in any of the languages."""
    if not page.may_end(start, SIZE_ENDINGS):
        return ""
    line = max(page.free.rfind("\n", 0, start) + 1, start - 30)
    before = page.free[line:start]
    word = SIZE_WORD.search(before)
    if not word:
        return ""
    leading = re.search(r"(?:NATO|US|U\.S\.|EU|UK) ?$", before[: word.start()], re.IGNORECASE)
    return before[leading.start() if leading else word.start() :]


def agreement(one: Found, other: Found) -> bool | None:
    """Whether two readings give the same ranges; None where they have no dimension in common."""
    shared = [key for key in RANGES if one.keys.get(key) and other.keys.get(key)]
    if not shared:
        same = one.system == other.system and one.keys.get("mark") != other.keys.get("mark")
        return False if same and one.system else None
    return all(meet(one.keys[key], other.keys[key]) for key in shared)


def meet(one: list[float], other: list[float]) -> bool:
    """Equal ranges, or a single figure within the other's range."""
    if one[0] == one[1] or other[0] == other[1]:
        return one[0] <= other[1] + 0.5 and other[0] <= one[1] + 0.5
    return abs(one[0] - other[0]) <= 1 and abs(one[1] - other[1]) <= 1


def repaired(page: Page, match: re.Match) -> tuple[list[str], set[str], dict]:
    """Statuses, reasons and keys that letters among the figures bring."""
    printed = "".join(match.groups())
    statuses, reasons, keys = ["read"], set(), {}
    if changed := repairs_in(printed):
        reasons.add("letters_in_number")
        statuses.append("ambiguous" if guesses_in(printed) else "corrected")
        keys["characters_changed"] = changed
    if page.converted(*match.span()):
        reasons.add("non_latin_digits")
        statuses.append("corrected")
    return statuses, reasons, keys


def nato_pairs(page: Page, context: Context):
    for match in PAIR.finditer(page.free):
        printed = "".join(match.groups())
        if repairs_in(printed) > 4:
            continue
        statuses, reasons, keys = repaired(page, match)
        left, right = as_figures(match.group(1)), as_figures(match.group(2))
        on_legs = context.garment in TROUSERS
        legs = [int(left[:2]), int(left[2:])]
        first = legs if on_legs else carried(left, below=40)
        second = carried(right, below=50)
        names = ("inside_leg_cm", "waist_cm") if on_legs else ("height_cm", "chest_cm")
        fault = fault_in(left, first, LEGS if on_legs else HEIGHTS) or fault_in(right, second, CHESTS)
        if fault and are_years(left, right) and not word_before(page, match.start()):
            continue
        if fault:
            keys |= dict.fromkeys(names)
            yield Found(*match.span(), "nato_pair", [*statuses, "invalid"], reasons | {fault}, **keys)
            continue
        keys |= {names[0]: first, names[1]: second}
        if reasons and "ambiguous" in statuses:
            keys |= dict.fromkeys(names) | {"candidates": [first, second]}
        if not on_legs and first[1] - first[0] >= 20:
            statuses.append("ambiguous")
            reasons.add("height_span")
            keys |= {"height_cm": None, "candidates": [first]}
        if not context.garment:
            statuses.append("ambiguous")
            keys["remark"] = (
                "Read as for a jacket; on trousers the left pair is the inside leg and the right the waist."
            )
        yield Found(*match.span(), "nato_pair", statuses, reasons, **keys)


def carried(figures: str, below: int) -> list[int]:
    """Two two-figure numbers with their hundreds: `8494` is 84 to 94, `9505` 95 to 105, `9000` as height 190 to 200."""
    plain = 100 if below == 40 else 0
    low, high = (int(part) + plain + (100 if int(part) < below else 0) for part in (figures[:2], figures[2:]))
    if high <= low and not plain:
        high += 100
    return [low, high]


def are_years(left: str, right: str) -> bool:
    """`1939-1945`: nobody's height and chest, but two years one after the other."""
    return left < right and all(year[:2] in ("19", "20") for year in (left, right))


def fault_in(figures: str, found: list[int], within: tuple[int, int]) -> str | None:
    if figures[2:] <= figures[:2] and not within[0] <= found[1] <= within[1] or found[1] <= found[0]:
        return "range_runs_backwards"
    return None if within[0] <= found[0] and found[1] <= within[1] else "range_not_plausible"


def triples(page: Page, context: Context):
    """Three numbers on trousers: leg, waist and seat (from memory, no source read)."""
    if context.garment not in TROUSERS:
        return
    for match in TRIPLE.finditer(page.free):
        leg, waist, seat = map(int, match.groups())
        if LEGS[0] <= leg <= LEGS[1] and CHESTS[0] <= waist <= CHESTS[1] and waist <= seat <= 160:
            keys = {"inside_leg_cm": [leg, leg], "waist_cm": [waist, waist], "seat_cm": [seat, seat]}
            yield Found(*match.span(), "leg_waist_seat", ["read"], (), **keys)


def metric_pairs(page: Page, context: Context):
    for match in METRIC.finditer(page.free):
        if repairs_in(match[1] + match[2]) > 2:
            continue
        height, girth = (int(as_figures(part)) for part in match.groups())
        plausible = HEIGHTS[0] <= height <= HEIGHTS[1] and 50 <= girth <= CHESTS[1]
        statuses, reasons, keys = repaired(page, match)
        if not plausible:
            if word_before(page, match.start()) and not keys:
                yield Found(*match.span(), "height_chest", ["invalid"], {"range_not_plausible"})
            continue
        name = "waist_cm" if context.garment in TROUSERS else "chest_cm"
        system = "height_waist" if context.garment in TROUSERS else "height_chest"
        ranges = {"height_cm": [height, height], name: [girth, girth]}
        if "ambiguous" in statuses:
            ranges = {"height_cm": None, name: None, "candidates": [[height, girth]]}
        yield Found(*match.span(), system, statuses, reasons, **keys, **ranges)


def word_form(printed: str) -> str:
    """`XX-large` for `Extra Extra Large`, in lower case with a hyphen."""
    word = re.sub(r"extra", "x", printed.lower())
    letters = re.match(r"[x -]*", word).group()
    return "x" * letters.count("x") + ("-" if "x" in letters else "") + word[len(letters) :]


def in_inches(range_cm) -> list[int] | None:
    return [round(end / CM_PER_INCH) for end in range_cm] if range_cm else None


def us_pairs(page: Page, context: Context):
    for match in US_PAIR.finditer(page.free) if page.may_say(GIRTHS) else ():
        girth, length = map(word_form, match.groups())
        yield us_size(match, girth, length, context)


def us_letters(page: Page, context: Context):
    for match in US_LETTER.finditer(page.free) if page.may_say(GIRTHS) else ():
        if page.alone_on_line(*match.span()) or word_before(page, match.start()):
            yield us_size(match, word_form(match.group(1)), None, context)


def us_size(match: re.Match, girth: str, length: str | None, context: Context) -> Found:
    """A letter counts with its table: that of coats and jackets, and one row for undershirts."""
    system = "us_letter_length" if length else "us_letter"
    keys: dict = {"mark": f"{girth} {length}" if length else girth}
    if context.garment == "undershirt":
        known = UNDERSHIRT_INCHES.get(girth)
        keys |= {"chest_in": list(known) if known else None, "chest_cm": None}
        return Found(
            *match.span(), system, ["read" if known else "unconfirmed"], () if known else {"size_not_in_table"}, **keys
        )
    chest, height = LETTER_WORDS[girth], LENGTH_WORDS.get(length) if length else None
    applies = context.garment in UPPER - {"shirt", "pullover", "vest"}
    if not applies:
        keys |= {"chest_cm": None, "height_cm": None, "chest_in": None, "height_in": None}
        status, reasons = ("unconfirmed", {"size_not_in_table"}) if context.garment else ("ambiguous", ())
        keys["remark"] = "What the letters mean depends on the kind of garment."
        return Found(*match.span(), system, [status], reasons, **keys)
    known = chest and (height or not length)
    keys |= {"chest_cm": list(chest) if chest else None, "chest_in": in_inches(chest)}
    if length:
        keys |= {"height_cm": list(height) if height else None, "height_in": in_inches(height)}
    return Found(
        *match.span(), system, ["read" if known else "unconfirmed"], () if known else {"size_not_in_table"}, **keys
    )


def inches(page: Page, context: Context):
    for match in INCHES.finditer(page.free):
        if not page.alone_on_line(*match.span()) and not word_before(page, match.start()):
            continue
        chest = int(match.group(1))
        if not 28 <= chest <= 60:
            continue
        word = re.sub(r"x-", "x", match.group(2).lower())
        short = word[:2] if word.startswith("x") else word[0]
        keys = {"chest_in": [chest, chest], "length": INCH_LENGTHS[short]}
        cm = round(chest * CM_PER_INCH, 1)
        yield Found(*match.span(), "inches", ["read"], (), chest_cm=[cm, cm], **keys)


def letters(page: Page, context: Context):
    for match in LETTER.finditer(page.free):
        if not page.alone_on_line(*match.span()) and not word_before(page, match.start()):
            continue
        letter = match.group(1).upper()
        letter = "XXL" if letter == "2XL" else letter
        if "13402" not in context.standard:
            keys = {
                "mark": letter,
                "remark": "A letter has no meaning without its table: give the standard or the country.",
            }
            yield Found(*match.span(), "letter", ["ambiguous"], (), **keys)
            continue
        keys = {"mark": letter, "who": context.who or None}
        name = "bust_cm" if context.who == "women" else "chest_cm"
        table = EN_WOMEN if context.who == "women" else EN_MEN
        if context.who not in ("men", "women"):
            yield Found(*match.span(), "en13402_letter", ["ambiguous"], (), chest_cm=None, bust_cm=None, **keys)
        elif letter not in table:
            yield Found(*match.span(), "en13402_letter", ["unconfirmed"], {"size_not_in_table"}, **{name: None}, **keys)
        elif table[letter] is None:
            keys |= {name: None, "candidates": WOMENS_L}
            yield Found(*match.span(), "en13402_letter", ["ambiguous"], {"sources_differ"}, **keys)
        else:
            yield Found(*match.span(), "en13402_letter", ["read"], (), **{name: list(table[letter])}, **keys)


def heads(page: Page, context: Context):
    """On headgear a figure alone on its line is the girth of the head: whole centimetres, or inches with a fraction."""
    if context.garment not in HEADGEAR:
        return
    alone = [
        match
        for match in FIGURE.finditer(page.free)
        if page.alone_on_line(*match.span()) or word_before(page, match.start())
    ]
    in_inches_too = False
    for match in alone:
        girth, fraction = int(match.group(1)), match.group(2)
        if fraction and fraction[-1] != "0" and 19 <= girth <= 26:
            in_inches_too = True
            inches_round = girth + int(fraction[1]) / int(fraction[3])
            yield Found(*match.span(), "head_inches", ["read"], (), head_in=[inches_round, inches_round])
    for match in alone:
        girth = int(match.group(1))
        # A figure that may be the maker's two-figure year is no girth where the size is printed otherwise.
        perhaps_year = match.start() in page.two_figure_years and not re.search(
            r"(?<!\d)(?:19|20)\d\d(?!\d)", page.free
        )
        if not match.group(2) and HEADS[0] <= girth <= HEADS[1] and not (in_inches_too and perhaps_year):
            statuses = ["ambiguous"] if perhaps_year else ["read"]
            yield Found(*match.span(), "head_girth", statuses, (), head_cm=[girth, girth])


def ranges(page: Page, context: Context):
    """`SIZE 38-40`, or `38-40` alone on its line: kept as printed, since no table is known that says of what."""
    for match in RANGE.finditer(page.free):
        low, high = int(match[1]), int(match[3])
        if not RANGES_FROM <= low < high <= RANGES_TO or high - low > WIDEST_RANGE:
            continue
        alone = high <= HIGHEST_ALONE and context.field_hint != "date" and page.alone_on_line(*match.span())
        if alone or word_before(page, match.start()):
            yield Found(*match.span(), None, ["unconfirmed"], {"size_not_in_table"}, mark=match.group())


def figures(page: Page, context: Context):
    """A bare figure behind a size word: it has no meaning without the table of its time, so it is kept as printed."""
    for match in FIGURE.finditer(page.free):
        if word_before(page, match.start()):
            mark = re.sub(r" +", " ", match.group())
            yield Found(*match.span(), None, ["unconfirmed"], {"size_not_in_table"}, mark=mark)
