"""Names of persons on a label: personal data. What is told as a name is flagged as one; any other word that nobody
knows, alone on its line, is perhaps one, and asked about. Forms of names: common practice, no source."""

import re
from collections.abc import Iterable

from identification.label_reading.context import Context
from identification.label_reading.page import TAKEN, Page, near
from identification.label_reading.tables import fibre_words, folded, label_words

# Capital letters of the Latin, Greek and Cyrillic alphabets, in brackets of a pattern.
CAPITALS = "A-ZÀ-ÖØ-ÞΆ-ΏΑ-Ϋ\u0400-\u042f"
LETTER = r"[^\W\d_]"
NUMBER_WORD = r"(?:(?:SERVICE|ARMY|REGT\.?) )?(?:NO\.? ?)?"
NAME_WORD = re.compile(
    r"(?<![^\W_])(?:SURNAME|NAME|NAMN|NAVN|NOMBRE|NOM|NOME|NAAM|ISSUED TO|PROPERTY OF|OWNER|WEARER|SERVICE NO\.?"
    r"|REGT\.? NO\.?|RANK(?: AND NAME)?)"
    r"(?: ?(?:OF WEARER|AND INITIALS|& INITIALS))? ?"
    # Behind a colon whatever is written; without one, or on the next line, only what looks like a name.
    rf"(?:[:.] ?(?P<said>[^\n]{{2,60}})|[:.]? ?\n? ?(?P<who>(?-i:(?:[{CAPITALS}](?:\. ?| )){{0,3}}"
    rf"[{CAPITALS}](?:{LETTER}|['-]){{2,30}}(?: [{CAPITALS}](?:{LETTER}|['-]){{1,30}}){{0,2}}))"
    rf"(?:,? ?{NUMBER_WORD}[0-9]{{4,9}})? ?(?=\n|$))",
    re.IGNORECASE,
)
# However it is written: `belongs to john smith`.
BELONGS = re.compile(
    r"(?<![^\W_])(?:BELONGS? TO|BELONGING TO|WORN BY|OWNED BY) ?:? (?P<who>[^\n\0,;]{2,60})", re.IGNORECASE
)
# A number that an army gave to one person, which what stands before it tells.
SERVICE_NUMBER = re.compile(
    r"(?<![^\W_])(?:(?:SERVICE|SERV|ARMY|REGTL?|REGIMENTAL)\.? ?(?:NO|NR|NUMBER)\.?|ASN) ?:? ?"
    r"(?P<who>(?:[A-Z]{1,3}[-/ ]?)?[0-9](?:[0-9]|[ -](?=[0-9])){3,11})(?![0-9])",
    re.IGNORECASE,
)
SERVICE_BEGINS = re.compile("serv|army|reg|asn")
# What a blank form says between its dots, where nobody wrote anything.
OF_A_FORM = frozenset({"no", "nr", "number", "rank", "name", "date", "unit", "size", "initials", "and"})
NAME_BEGINS = re.compile("surname|name|namn|navn|nom|naam|issued|property|owner|wearer|service|regt|rank")
BELONGS_BEGINS = re.compile("belong|worn by|owned by")
# Behind a rank or a title every capitalised word is of the name, first names and initials too. Abbreviations and ranks
# that are words of labels and colours as well (`Lt Green`, `COL. OLIVE`) take only a word that nobody knows.
TITLES = ("mr", "miss", "ms", "dr", "pte", "cpl", "sgt", "lt", "capt", "maj", "col", "warden", "w/o", "gnr", "spr",
          "tpr", "dvr", "rfn", "bdr", "cadet", "priv", "corp", "serg", "lieut", "frau", "herr",
          "prof", "rev", "sir")  # fmt: skip
SURE_TITLES = (
    "MR|MRS|MISS|MS|DR|PTE|CPL|L/CPL|SGT|S/SGT|SGT-MAJ|CAPT|MAJ|WARDEN|GNR|SPR|TPR|DVR|RFN|BDR|W/O(?=\\.? ?[A-Z]\\.)|"
    "Mr|Mrs|Miss|Ms|Dr|Pte|Cpl|L/Cpl|Sgt|S/Sgt|Sgt-Maj|Capt|Maj|Warden|Gnr|Spr|Tpr|Dvr|Rfn|Bdr|W/O(?=\\.? [A-Z])|"
    "Corporal|Sergeant|Lieutenant|Prof|Rev|Sir|Frau|Herr"
)
UNSURE_TITLES = (
    "LT|2/LT|COL|LT-COL|W/O|CORPORAL|SERGEANT|LIEUTENANT|CAPTAIN|MAJOR|COLONEL|PRIVATE|CADET|"
    "Lt|2/Lt|Col|Lt-Col|Captain|Major|Colonel|Private|Cadet"
)
LETTERS = rf"[{CAPITALS}](?:{LETTER}|['’-]){{1,30}}"
INITIAL = rf"[{CAPITALS}](?:\.|(?![\w'’-]))"
PARTICLE = r"(?:van|von|de|der|den|du|la|le|zu|af|av)"
TITLE = re.compile(
    rf"(?<![^\W_])(?:(?:{SURE_TITLES})|(?P<unsure>{UNSURE_TITLES}))(?:\. ?| )"
    rf"(?P<who>(?:{INITIAL} ?){{0,3}}(?:{PARTICLE} ){{0,2}}{LETTERS}"
    rf"(?: (?:{PARTICLE} ){{0,2}}(?:{LETTERS}|{INITIAL})){{0,3}})"
)
# A surname with initials and a service number on a line of its own, as issued kit is marked.
ROLL = re.compile(
    rf"(?m)(?:^| / ) ?(?P<before>[0-9]{{4,9}},? )?(?P<surname>{LETTERS}),? (?P<initials>(?:[{CAPITALS}]\.? ?){{1,3}}?)"
    rf"(?P<behind>,? ?(?:NO\.? ?)?[0-9]{{4,9}}(?: [A-Z]{{2,5}})?)? ?(?=\n|$| / )"
)
# What stands where the site has masked a name; beside it stands the rest of one that was masked in part.
MASKED_NAME = "[name]"
BESIDE = re.compile(
    rf"(?P<before>{LETTERS}) (?={re.escape(MASKED_NAME)})"
    rf"|(?<={re.escape(MASKED_NAME)} )(?P<behind>(?:{INITIAL} ?){{0,3}}{LETTERS}(?: {LETTERS}){{0,2}})"
)
ANY_TITLE = re.compile(rf"{SURE_TITLES}|{UNSURE_TITLES}")
# Words of a sentence that stand before a name.
NO_NAMES = frozenset({"by", "from", "for", "of", "to", "the", "said", "and", "with", "belonged", "worn", "bought"})
LEAST_DIGITS = 6  # of a number that tells a name even where the initials have no full stops
INITIALS = re.compile(
    rf"(?m)^ ?(?P<who>(?:[{CAPITALS}]\. ?){{1,3}}[{CAPITALS}](?:{LETTER}|['-]){{2,30}})(?: ?[0-9]{{0,8}}) ?$"
)
# A service number stands before or behind the name.
NUMBER_BEHIND = re.compile(
    rf"(?:,? ?{NUMBER_WORD}|(?: / ?| ?\n ?)NO\.? ?)(?P<number>[0-9]{{4,9}})(?![-/0-9A-Za-z])", re.IGNORECASE
)
NUMBER = re.compile(r"(?<![-/0-9A-Za-z])(?P<number>[0-9]{4,9})(?![-/0-9A-Za-z])")
NUMBER_BEFORE = re.compile(r"(?<![-/0-9A-Za-z])(?P<number>[0-9]{4,9}),? ?$")
# What stands between fields, line ends and strokes: up to three words and a number.
SEGMENT = re.compile(rf"[^{TAKEN}\n;,]+")
STROKE = re.compile(r" / ")
CAPITALISED = rf"[{CAPITALS}](?:{LETTER}|['-](?={LETTER}))*\.?"
PERHAPS = re.compile(
    rf" *(?:(?:[A-Z]{{1,3}}[-/])?[0-9](?:[0-9]| (?=[0-9])){{3,11}} )?"
    rf"(?P<words>{CAPITALISED}(?:(?: |(?<=\.)){CAPITALISED}){{0,3}})(?: [0-9]{{3,9}})? *"
)
LEAST_LETTERS, LONGEST = 3, 80


def persons_on(page: Page, context: Context) -> list[dict]:
    """Words that may be a person's name or service number, `perhaps` where only nobody knows what else they are. They
    stay in `unread` too: they are flagged, not understood."""
    found: list[tuple[int, int, bool]] = []
    folded_text = page.folded()
    named = near(NAME_WORD, page.free, [begin.start() for begin in NAME_BEGINS.finditer(folded_text)])
    belonging = near(BELONGS, page.free, [begin.start() for begin in BELONGS_BEGINS.finditer(folded_text)])
    numbered = near(SERVICE_NUMBER, page.free, [begin.start() for begin in SERVICE_BEGINS.finditer(folded_text)])
    for start, end in rolled_names(page, context):
        add(found, start, end, False)
    if any(title in folded_text for title in TITLES):
        for start, end in titled_names(page, context):
            add(found, *with_number(page, start, end), False)
    if MASKED_NAME in page.free:
        for start, end in beside_masked(page, context):
            add(found, start, end, False)
    for matches in (named, numbered, belonging, INITIALS.finditer(page.free) if "." in folded_text else ()):
        for match in matches:
            start, end = match.span("said" if match.groupdict().get("said") else "who")
            if "\0" in page.free[start:end].strip("\0") or is_blank(page.free[start:end]):
                continue
            add(found, *with_number(page, start, start + len(page.free[start:end].rstrip("\0 "))), False)
    for start, end in perhaps_names(page, context):
        add(found, start, end, True)
    return [page.printed(start, end) | ({"perhaps": True} if perhaps else {}) for start, end, perhaps in sorted(found)]


def add(found: list[tuple[int, int, bool]], start: int, end: int, perhaps: bool) -> None:
    if all(end <= other[0] or other[1] <= start for other in found):
        found.append((start, end, perhaps))


def titled_names(page: Page, context: Context) -> Iterable[tuple[int, int]]:
    """What stands behind a rank or a title, and the service number before it."""
    for match in TITLE.finditer(page.free):
        words = match["who"].split(" ")
        named = [place for place, word in enumerate(words) if len(word.rstrip(".")) > 1 and word[0].isupper()]
        if match["unsure"] and named[0] == 0 and not may_be_name(words[0], context):
            continue
        # In capitals, what follows the first word may be the label's own again; in a sentence, what follows the second.
        sure = named[:1] if match["who"].isupper() else named[:2]
        for place in named[len(sure) :]:
            if not may_be_name(words[place], context):
                words = words[:place]
                break
        line = page.free.rfind("\n", 0, match.start()) + 1
        if before := NUMBER_BEFORE.search(page.free, max(line, match.start() - 16), match.start()):
            yield before.span("number")
        yield match.start("who"), match.start("who") + len(" ".join(words))


def service_numbers(page: Page) -> set[tuple[int, int]]:
    """Where a number stands that a name told as one, or its own heading, tells for a person's."""
    found = {match.span("who") for match in SERVICE_NUMBER.finditer(page.text)}
    for match in (*TITLE.finditer(page.text), *INITIALS.finditer(page.text), *NAME_WORD.finditer(page.text)):
        before = NUMBER_BEFORE.search(page.text, max(0, match.start() - 16), match.start())
        if match["who"]:
            behind = NUMBER_BEHIND.match(page.text, match.end("who"))
        else:
            behind = NUMBER.search(page.text, *match.span("said"))
        found |= {number.span("number") for number in (before, behind) if number}
    return found


def rolled_names(page: Page, context: Context) -> Iterable[tuple[int, int]]:
    """A surname, initials and a service number, with the number, though that may read as one of the society's too."""
    for match in ROLL.finditer(page.text):
        numbers = [match[name] for name in ("before", "behind") if match[name]]
        told = "." in match["initials"] or any(sum(map(str.isdigit, one)) >= LEAST_DIGITS for one in numbers)
        start, end = match.span("surname")
        if numbers and told and TAKEN not in page.free[start:end] and may_be_name(match["surname"], context):
            first = "before" if match["before"] else "surname"
            yield match.start(first), match.end("behind" if match["behind"] else "initials")


def beside_masked(page: Page, context: Context) -> Iterable[tuple[int, int]]:
    """Words beside a masked name that nobody knows; a rank stays."""
    for match in BESIDE.finditer(page.free):
        words = match[match.lastgroup]
        no_name = words.casefold() in NO_NAMES or ANY_TITLE.fullmatch(words)
        if not no_name and may_be_name(words, context):
            yield match.span(match.lastgroup)


def with_number(page: Page, start: int, end: int) -> tuple[int, int]:
    """The name with the service number that stands beside it on its line."""
    if behind := NUMBER_BEHIND.match(page.free, end):
        end = behind.end()
    line = max(page.free.rfind("\n", 0, start) + 1, start - 16)
    before = NUMBER_BEFORE.search(page.free[line:start])
    return (line + before.start() if before else start), end


def is_blank(written: str) -> bool:
    """Whether nobody wrote anything: nothing but dots, strokes, and the words that the form itself prints."""
    return {word.casefold() for word in re.findall(r"[^\W_]+", written)} <= OF_A_FORM


def perhaps_names(page: Page, context: Context) -> Iterable[tuple[int, int]]:
    """One to four capitalised words that stand by themselves and that nobody knows, with a number beside them."""
    for whole in SEGMENT.finditer(page.free):
        start = whole.start()
        for part in STROKE.split(whole.group()):
            match = PERHAPS.fullmatch(part) if len(part) <= LONGEST else None
            if match and may_be_name(match["words"], context):
                blank = len(part) - len(part.lstrip())
                yield start + blank, start + len(part.rstrip())
            start += len(part) + 3


def may_be_name(words: str, context: Context) -> bool:
    """Whether none of the words is of a label's, or of the society's, and one is long enough for a name."""
    apart = [folded(word) for word in re.findall(r"[^\W\d_]+(?:['-][^\W\d_]+)*", words)]
    long = [word for word in apart if len(word.replace(" ", "")) >= LEAST_LETTERS]
    return bool(long) and not any(is_known(word, context) for word in apart if len(word) > 1)


def is_known(word: str, context: Context) -> bool:
    known = (label_words(), context.words, fibre_words())
    return any(piece in words for piece in {word, *word.split()} for words in known)
