"""A label's text made ready for reading, with the way back to the characters that were given."""

import re
import unicodedata
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field

BIDI_CONTROLS = frozenset("\u061c\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")
# Invisible joiners: they are no control characters and carry no mark, so they vanish uncounted.
INVISIBLE = frozenset("\u00ad\u200b\u200c\u200d\u2060\ufeff")
LINE_ENDS = frozenset("\n\r\u2028\u2029")
OTHER_SIGNS = {"\u2212": "-", "\u066a": "%", "\uff05": "%", "\ufe6a": "%", "\uff0f": "/", "\u2044": "/", "\u2019": "'"}
# Patterns that ignore case take the dotless and the dotted i, the long s and the Kelvin sign for the plain letters, and
# no list of words has them: so they are these letters from the beginning.
SAME_BUT_FOR_CASE = {"\u0131": "i", "\u0130": "I", "\u017f": "s", "\u212a": "K"}
OTHER_SIGNS |= SAME_BUT_FOR_CASE
PLAIN_LETTERS = str.maketrans(SAME_BUT_FOR_CASE)
TAKEN = "\0"
# Visible ASCII with single spaces and line ends between: most of most labels, and nothing in it to tidy.
PLAIN = re.compile(r"[!-~](?:[!-~]|[ \n](?=[!-~]))+")


@dataclass
class Page:
    """Tidied text; `starts` and `ends` lead from each tidied character back to the text as given.

    Every Unicode dash is `-`, every decimal digit an ASCII digit, every run of spaces one space, every line end one
    `\\n`. Characters that a field has claimed read as NUL in `free`, which no pattern matches.
    """

    given: str
    text: str = ""
    starts: Sequence[int] = field(default_factory=list)
    ends: Sequence[int] = field(default_factory=list)
    controls_removed: int = 0
    bidi_removed: int = 0
    foreign_digits: set[int] = field(default_factory=set)
    free: str = ""
    # Where a known maker's two-figure year may stand, with the years that it worked.
    two_figure_years: dict[int, tuple[int, int]] = field(default_factory=dict)

    def claim(self, start: int, end: int) -> None:
        """These tidied characters belong to a field."""
        self.free = self.free[:start] + TAKEN * (end - start) + self.free[end:]

    def may_say(self, words: Iterable[str]) -> bool:
        """Whether any of these lower-case words is still unclaimed, in any case: a cheap look before a search."""
        folded = self.folded()
        return any(word in folded for word in words)

    def folded(self) -> str:
        """What is unclaimed in small letters, each in its place."""
        return self.free.lower()

    def span(self, start: int, end: int) -> list[int]:
        return [self.starts[start], self.ends[end - 1]]

    def printed(self, start: int, end: int) -> dict:
        """`as_printed` and `span` of tidied characters, in the text as given."""
        first, last = self.span(start, end)
        return {"as_printed": self.given[first:last], "span": [first, last]}

    def converted(self, start: int, end: int) -> bool:
        """Whether digits of another script stand there."""
        return bool(self.foreign_digits) and any(start <= place < end for place in self.foreign_digits)

    def line_around(self, start: int, end: int) -> tuple[int, int]:
        """Start and end of the line, or lines, on which these characters stand."""
        first = self.text.rfind("\n", 0, start) + 1
        last = self.text.find("\n", end)
        return first, len(self.text) if last < 0 else last

    def speaks_before(self, start: int) -> bool:
        """Whether a word or a sign of one, as a colon, stands directly before: a cheap look before a search."""
        before = self.free[max(0, start - 2) : start].rstrip(" ")
        return bool(before) and (before[-1].isalpha() or before[-1] in ".:=#)-©")

    def may_end(self, start: int, endings: tuple[str, ...]) -> bool:
        """Whether what stands directly before ends like one of these lower-case words: a cheap look before a search."""
        before = self.free[max(0, start - 16) : start].rstrip(" .:=#-")
        return before.lower().endswith(endings) or not before.isascii()

    def alone_on_line(self, start: int, end: int) -> bool:
        """Whether nothing else stands on its line; ` / ` parts lines too, as in a label written out in one."""
        # Tidied text has no two spaces beside each other.
        before, after = self.text[max(0, start - 2) : start], self.text[end : end + 2]
        begins = before.rstrip(" ")[-1:] in ("", "\n") or before == "/ " and self.text[max(0, start - 3)] in " \n"
        ends = after.lstrip(" ")[:1] in ("", "\n") or after == " /" and self.text[end + 2 : end + 3] in (" ", "\n", "")
        return begins and ends


def near(pattern: re.Pattern, text: str, places: Iterable[int], before: int = 0) -> Iterator[re.Match]:
    """What `finditer` would find, if every match begins at most so many characters before one of the places."""
    done = 0
    for place in places:
        for start in range(max(done, place - before), place + 1):
            done = start + 1
            if match := pattern.match(text, start):
                yield match
                done = match.end()
                break


def page_of(given: str, start: int = 0, end: int | None = None) -> Page:
    """Tidy `given[start:end]`; places stay those of the whole text."""
    end = len(given) if end is None else end
    piece = given[start:end]
    if piece.isascii() and "  " not in piece and piece.replace("\n", " ").isprintable():
        return Page(given, piece, range(start, end), range(start + 1, end + 1), free=piece)
    page = Page(given)
    out: list[str] = []
    place = start
    while place < end:
        character = given[place]
        if plain := PLAIN.match(given, place, end):
            # The last letter waits: a combining mark may follow it.
            until = plain.end() - 1
            out.extend(given[place:until])
            page.starts.extend(range(place, until))
            page.ends.extend(range(place + 1, until + 1))
            place, character = until, given[until]
        until = place + 1
        # Combining marks go with their base, so that a composed letter leads back to all its characters.
        while until < end and unicodedata.combining(given[until]):
            until += 1
        for tidied in unicodedata.normalize("NFC", given[place:until]) if until > place + 1 else character:
            put(page, out, tidied, place, until)
        place = until
    page.text = page.free = "".join(out)
    return page


def put(page: Page, out: list[str], character: str, start: int, end: int) -> None:
    if " " < character < "\x7f":
        tidied = character
    elif character in LINE_ENDS:
        if out and out[-1] == "\n" and character == "\n" and page.given[start - 1] == "\r":
            page.ends[-1] = end
            return
        tidied = "\n"
    elif character == "\t" or character.isspace() and character not in "\x0b\x0c\x1c\x1d\x1e\x1f\x85":
        tidied = " "
    elif character in BIDI_CONTROLS:
        page.bidi_removed += 1
        return
    elif character in INVISIBLE:
        return
    elif unicodedata.category(character) == "Cc":
        page.controls_removed += 1
        return
    else:
        tidied = other_character(character)
        if tidied.isdigit():
            page.foreign_digits.add(len(out))
    if tidied == " " and out and out[-1] == " ":
        page.ends[-1] = end
        return
    out.append(tidied)
    page.starts.append(start)
    page.ends.append(end)


def other_character(character: str) -> str:
    if character in OTHER_SIGNS:
        return OTHER_SIGNS[character]
    category = unicodedata.category(character)
    if category == "Pd":
        return "-"
    if category == "Nd":
        return str(unicodedata.decimal(character))
    # Full-width letters and marks have a plain twin of the same meaning.
    if "\uff01" <= character <= "\uff5e":
        return chr(ord(character) - 0xFEE0)
    return character
