"""Percentages with the fibres they belong to: which word stands beside which figure, and for which part."""

import re
from dataclasses import dataclass, field

from identification.label_reading.fibre_words import Fibre, fibre_named, fibre_of_code, phrase_at
from identification.label_reading.page import Page
from identification.label_reading.repairs import as_figures, guesses_in, repairs_in
from identification.label_reading.tables import first_words, folded, longest_fibre_phrase

PERCENT = r"(?:%|PER ?CENT\b|PCT\b|PROZENT\b)"
WORDS_FOR_NUMBERS = {"one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "ten": 10}
TOKEN = re.compile(
    rf"(?P<percent>(?<![0-9A-Za-z.,])(?P<figure>[0-9OoDQIl|BSZGT]{{1,3}}|ONE|TWO|THREE|FOUR|FIVE|TEN)"
    rf"(?:[.,](?P<decimals>[0-9]{{1,2}}))? ?{PERCENT})"
    r"|(?P<word>[^\W_](?:[^\W_]|['’](?=[^\W_]))*)|(?P<line>\n)|(?P<sign>[^\w\s])",
    re.IGNORECASE,
)
PERCENT_SIGN = re.compile(PERCENT, re.IGNORECASE)
FIRST_WORD = re.compile(r"[^\W_](?:[^\W_]|['’](?=[^\W_]))*")
MINIMUM = {"minimum", "min", "minimo", "mindestens"}
SKIPPED = {
    "combed",
    "organic",
    "recycled",
    "pure",
    "rein",
    "reine",
    "reines",
    "pur",
    "pura",
    "puro",
    "of",
    "de",
    "et",
    "und",
    "and",
    "e",
    "y",
    "en",
    "og",
    "och",
}
FIELD_WORDS = {
    "composition",
    "content",
    "contents",
    "material",
    "materials",
    "fabric",
    "fibre",
    "fiber",
    "cloth",
    "zusammensetzung",
    "composizione",
    "composicion",
}
PARTS = {
    "outer": "outer", "shell": "outer", "oberstoff": "outer", "exterieur": "outer", "outershell": "outer",
    "aussenstoff": "outer", "esterno": "outer", "exterior": "outer",
    "lining": "lining", "futter": "lining", "doublure": "lining", "fodera": "lining", "forro": "lining",
    "voering": "lining", "foder": "lining", "innenfutter": "lining",
    "pile": "pile", "flor": "pile", "face": "face", "back": "back", "backing": "back", "ruecken": "back",
}  # fmt: skip


@dataclass
class Item:
    """One percentage with the fibre it belongs to."""

    start: int
    end: int
    percent: float
    fibre: Fibre | None
    part: str | None = None
    figure: tuple[int, int] | None = None
    changed: int = 0
    guessed: bool = False
    minimum: bool = False
    pieces: list[tuple[int, int]] = field(default_factory=list)


@dataclass
class Token:
    # Thousands are made of a long label, and few differ from the defaults: these stay with the class until then.
    kind: str
    start: int
    end: int
    text: str
    percent: float = field(default=0, init=False)
    changed: int = field(default=0, init=False)
    guessed: bool = field(default=False, init=False)
    fibre: Fibre | None = field(default=None, init=False)
    part: str | None = field(default=None, init=False)


def tokens_of(page: Page, whole: bool = False) -> list[Token]:
    """Percentages, words, line ends and signs, with every fibre name and part word recognised.

    Lines that can say nothing of a composition give their end alone, unless the `whole` of the page is wanted.
    """
    tokens: list[Token] = []
    lines = page.free.split("\n")
    telling = [True] * len(lines) if whole else telling_lines(lines)
    start = 0
    for line, tells in zip(lines, telling, strict=True):
        end = start + len(line)
        if tells:
            take_tokens(page.free, start, end, tokens)
        if end < len(page.free):
            tokens.append(Token("line", end, end + 1, "\n"))
        start = end + 1
    name_fibres(tokens)
    return tokens


def telling_lines(lines: list[str]) -> list[bool]:
    """Whether each line has a percentage, stands beside one that has, or may name a fibre or a part before all else."""
    of_percents = [("%" in line) or bool(PERCENT_SIGN.search(line)) for line in lines]
    beside = [
        a or b or c for a, b, c in zip([False, *of_percents], of_percents, [*of_percents[1:], False], strict=False)
    ]
    beginnings = first_words()

    def may_be_a_name(line: str) -> bool:
        first = FIRST_WORD.search(line)
        if not first:
            return bool(line)
        word = folded(first.group())
        return word.partition(" ")[0] in beginnings or word in PARTS or fibre_of_code(first.group()) is not None

    return [near or may_be_a_name(line) for near, line in zip(beside, lines, strict=True)]


def take_tokens(free: str, first: int, last: int, tokens: list[Token]) -> None:
    for match in TOKEN.finditer(free, first, last):
        kind, (start, end) = match.lastgroup, match.span()
        token = Token(kind, start, end, match.group())
        if kind == "percent":
            printed = match["figure"]
            if printed.lower() in WORDS_FOR_NUMBERS:
                token.percent = WORDS_FOR_NUMBERS[printed.lower()]
            elif not any(c.isdigit() for c in printed) or not as_figures(printed.replace("o", "O")).isdigit():
                token.kind = "word"
            else:
                printed = printed.replace("o", "O")
                token.percent = float(f"{as_figures(printed)}.{match['decimals'] or 0}")
                token.changed, token.guessed = repairs_in(printed), bool(guesses_in(printed))
        tokens.append(token)


def name_fibres(tokens: list[Token]) -> None:
    """Join the words of a name to one token; mark names and parts."""
    longest, beginnings, place = longest_fibre_phrase(), first_words(), 0
    while place < len(tokens):
        token = tokens[place]
        if token.kind == "word":
            word = folded(token.text)
            begins = word.partition(" ")[0] in beginnings
            if found := longest_name(run_from(tokens, place, 2 * longest), longest) if begins else None:
                token.fibre, length = found
                token.end = tokens[place + length - 1].end
                del tokens[place + 1 : place + length]
            else:
                token.part = PARTS.get(word)
        place += 1


def run_from(tokens: list[Token], place: int, most: int) -> list[Token]:
    """The word there with the words that follow it, and with the signs that may stand within a name."""
    end = place + 1
    while end < len(tokens) and end - place < most:
        follower = tokens[end]
        if follower.kind != "word" and not (follower.kind == "sign" and follower.text in ",/-"):
            break
        end += 1
    return tokens[place:end]


def longest_name(run: list[Token], longest: int) -> tuple[Fibre, int] | None:
    for length in range(len(run), 0, -1):
        words = [token.text for token in run[:length] if token.kind == "word"]
        if (
            len(words) <= longest
            and run[length - 1].kind == "word"
            and (found := phrase_at(words, 0, len(words)))
            and found[1] == len(words)
        ):
            return found[0], length
    return None


def percent_items(page: Page) -> list[Item]:
    if "%" not in page.free and not re.search(PERCENT, page.free, re.IGNORECASE):
        return []
    compares_parts = "(" in page.free and page.may_say(["constitute"])
    tokens = tokens_of(page, whole=compares_parts)
    if compares_parts:
        tokens = drop_ratios_of_parts(tokens)
    lines: list[list[Token]] = [[]]
    for token in tokens:
        if token.kind == "line":
            lines.append([])
        else:
            lines[-1].append(token)
    items: list[Item] = []
    part: str | None = None
    name_above = names_stand_above(lines)
    for number, line in enumerate(lines):
        if any(token.kind == "percent" for token in line):
            following = [] if name_above else next_words(lines, number)
            preceding = lines[number - 1] if number and name_above else []
            part = items_of_line(page, line, preceding, following, items, part)
        elif len(line) <= 2 and line and line[0].part:
            part = line[0].part
            if items or any(t.kind == "percent" for rest in lines[number + 1 : number + 2] for t in rest):
                page.claim(line[0].start, line[-1].end)
    return items


def drop_ratios_of_parts(tokens: list[Token]) -> list[Token]:
    """`(Back constitutes 60% of fabric and pile 40%)` says how the parts compare, and is no composition."""
    kept, place = [], 0
    while place < len(tokens):
        if tokens[place].text == "(":
            close = next((i for i in range(place, len(tokens)) if tokens[i].text == ")"), None)
            if close and any(folded(t.text) in ("constitutes", "constitute") for t in tokens[place:close]):
                place = close + 1
                continue
        kept.append(tokens[place])
        place += 1
    return kept


def names_stand_above(lines: list[list[Token]]) -> bool:
    """Whether, with names and figures on lines of their own, the first is a name and the last a figure."""
    alone = [
        "percent" if line[0].kind == "percent" else "name"
        for line in lines
        if line
        and (all(t.kind in ("percent", "sign") for t in line) or all(is_fibre(t) or t.kind == "sign" for t in line))
    ]
    return bool(alone) and alone[0] == "name" and alone[-1] == "percent"


def next_words(lines: list[list[Token]], number: int) -> list[Token]:
    """The next line, where it holds words alone."""
    rest = lines[number + 1] if number + 1 < len(lines) else []
    return [] if any(token.kind == "percent" for token in rest) else rest


def items_of_line(page, line, preceding, following, items, part) -> str | None:
    percents = [i for i, token in enumerate(line) if token.kind == "percent"]
    name_first = names_come_first(page, line, percents)
    prefix = part_comes_first(line, percents)
    for count, at in enumerate(percents):
        before = line[percents[count - 1] + 1 if count else 0 : at]
        after = line[at + 1 : percents[count + 1] if count + 1 < len(percents) else len(line)]
        if prefix or not count:
            leading = [t for t in before if t.part] if (prefix or not name_first or not count) else []
            if leading and (prefix or not items or not count):
                part = leading[-1].part
        own = before if name_first else after
        if not any(t.kind == "word" for t in own) and len(percents) == 1:
            own = preceding or following
        item = item_of(page, line[at], own, name_first, beside_line=own is following or own is preceding)
        if item is None:
            continue
        item.part = part
        minimum = next((t for t in before + after if folded(t.text) in MINIMUM), None)
        if minimum:
            item.minimum = True
            item.pieces.append((minimum.start, minimum.end))
        named = labelled_part(page, before) if not prefix or not any(t.part for t in before) else None
        if named:
            item.part = part = named[0]
            item.pieces.append(named[1])
        for token in before if prefix else after:
            if token.part:
                item.pieces.append((token.start, token.end))
        if not prefix:
            trailing = [t for t in after if t.part]
            if trailing:
                back = len(items)
                total = item.percent
                item.part = trailing[-1].part
                # A part word behind several fibres belongs to all of them.
                while (
                    back and total < 100 and items[back - 1].part == part and items[back - 1].start > line[0].start - 1
                ):
                    back -= 1
                    total += items[back].percent
                    items[back].part = item.part
        items.append(item)
    return part if prefix else None


def labelled_part(page: Page, before: list[Token]) -> tuple[str, tuple[int, int]] | None:
    """`Sleeves: 80% ...`: a word with a colon names a part; `Material:` names none."""
    words = [t for t in before if t.kind == "word"]
    if len(words) == 1 and before[-1].text in (":",) and not words[0].fibre and not words[0].part:
        word = folded(words[0].text)
        if word not in FIELD_WORDS and fibre_of_code(words[0].text) is None:
            return word, (words[0].start, before[-1].end)
    return None


def part_comes_first(line: list[Token], percents: list[int]) -> bool:
    """Part words lead unless the line ends with one, as each component then has its own behind it."""
    first_part = next((i for i, token in enumerate(line) if token.part), None)
    ends_with_one = any(token.part for token in line[percents[-1] :])
    return first_part is None or first_part < percents[0] or not ends_with_one


def names_come_first(page: Page, line: list[Token], percents: list[int]) -> bool:
    """Whether the names on this line stand before their percentages."""
    before, after = line[: percents[0]], line[percents[-1] + 1 :]
    if any(is_fibre(token) for token in after[:4] if token.kind == "word"):
        return False
    words = [t for t in before if t.kind == "word" and not t.part]
    if words and (is_fibre(words[-1]) or fibre_named(folded(words[-1].text))):
        return True
    rest = [t for t in after if t.kind == "word" and not t.part and folded(t.text) not in MINIMUM]
    return bool(words) and not rest


def is_fibre(token: Token) -> bool:
    return bool(token.fibre) or (token.kind == "word" and fibre_of_code(token.text) is not None)


def item_of(page: Page, percent: Token, own: list[Token], name_first: bool, beside_line: bool) -> Item | None:
    """The percentage with its fibre: a known name within three words, else the nearest word as an unknown one."""
    words = [t for t in own if t.kind == "word" and not t.part and folded(t.text) not in MINIMUM]
    if name_first:
        words = words[::-1]
    words = [t for t in words if folded(t.text) not in SKIPPED] or words
    base = Item(percent.start, percent.end, percent.percent, None, figure=(percent.start, percent.end))
    base.changed, base.guessed = percent.changed, percent.guessed
    base.pieces = [(percent.start, percent.end)]
    if not words or percent.percent > 100 and not any(t.fibre for t in words[:1]):
        return None
    for token in words[:3]:
        if token.fibre:
            return joined(base, token, token.fibre, same_fibre(words, token))
    first = words[0]
    if code := fibre_of_code(first.text):
        return joined(base, first, code)
    if repaired := fibre_named(folded(first.text)):
        return joined(base, first, repaired)
    if beside_line or sum(not c.isascii() and ord(c) > 0x24F for c in first.text) * 2 > len(first.text):
        return None
    return joined(base, first, None)


def same_fibre(words: list[Token], token: Token) -> list[Token]:
    """The same fibre in further languages beside the name: `polyester/poliéster`."""
    return [t for t in words if t is not token and t.fibre and set(t.fibre.names) & set(token.fibre.names)]


def joined(item: Item, token: Token, fibre: Fibre | None, others=()) -> Item:
    item.fibre = fibre
    if fibre:
        narrowed = set(fibre.names)
        for other in others:
            narrowed &= set(other.fibre.names)
            item.pieces.append((other.start, other.end))
        if narrowed and narrowed != set(fibre.names):
            item.fibre = Fibre(tuple(sorted(narrowed)))
    item.pieces.append((token.start, token.end))
    item.start, item.end = min(item.start, token.start), max(item.end, token.end)
    return item
