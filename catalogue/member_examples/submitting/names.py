"""Names of wearers: found in the texts of a piece and masked word by word before it is sent. What happens when
somebody asks for it later stands in `removing_names`.

A masked name stands in the text as MASK. Nothing on the site leads back from it, unless the owner lets the moderators
see the plain name.
"""

import re
from collections.abc import Callable, Collection, Iterable, Mapping
from dataclasses import dataclass
from hashlib import sha256
from typing import Any
from unicodedata import normalize

from django.db import transaction
from django.db.models import QuerySet

from catalogue.accounts.models import Member
from catalogue.member_examples.actions.refusals import NotDone
from catalogue.member_examples.models import Example, HiddenName
from catalogue.member_examples.submitting.drafting import refuse_closed, touch
from catalogue.member_examples.words import AttributedBy, NameOnLabel
from catalogue.member_examples.written_once import write_anew
from catalogue.reference.label_context import society_context
from catalogue.reference.models import ReferenceState
from identification.label_reading import MASKED_NAME as MASK
from identification.label_reading import read_label

ANY_YEAR = 9999  # no date matters where names are looked for
WORD = re.compile(r"\S+")
# Typed as one another.
APOSTROPHES, HYPHENS = "'’‘ʼ`´′", "-‐‑‒–−"
LEAST_SIGNS = 2
EXAMPLES_TEXTS = {
    "provenance": "Provenance",
    "repairs": "Repairs",
    "note": "Note",
    "sold_as": "What the seller called it",
    "contract": "Contract number",
    "size_mark": "Size mark",
    "venue": "Where it was seen",
    "begun_grounds": "Grounds of what it is, begun",
}


@dataclass(frozen=True)
class Place:
    """A field in which owners write about a piece. `kind` begins the keys of its texts; `written_once`: the table
    refuses changes, so a row is written anew."""

    kind: str
    rows: Callable[[Example], QuerySet]
    field: str
    title: Callable[[Any], str]
    written_once: bool = False


OWNERS_PLACES = (
    Place("label", lambda e: e.labels.all(), "text", lambda one: f"{one.get_kind_display()}: text"),
    Place("remark", lambda e: e.labels.all(), "remark", lambda one: f"{one.get_kind_display()}: remark"),
    Place("place", lambda e: e.labels.all(), "place", lambda one: f"{one.get_kind_display()}: where it is"),
    Place("part", lambda e: e.alterations.all(), "part", lambda one: "Altered part"),
    Place("traces", lambda e: e.alterations.all(), "traces", lambda one: f"Traces: {one.part}"),
    Place("caption", lambda e: e.photographs.all(), "caption", lambda one: f"Caption of “{one.get_view_display()}”"),
    Place("method", lambda e: e.measurements.filter(by=e.owner_id), "method", lambda one: "How it was measured"),
    Place(
        "seen",
        lambda e: e.observations.filter(observer=e.owner_id).select_related("feature"),
        "note",
        lambda one: f"Note on {one.feature.name.lower()}",
        written_once=True,
    ),
    Place(
        "grounds",
        lambda e: e.attributions.filter(by=AttributedBy.MEMBER, member=e.owner_id),
        "grounds",
        lambda one: "Grounds of what it is",
        written_once=True,
    ),
)


@dataclass(frozen=True)
class Text:
    """A text of a piece. `key` names it in a form, `mark` tells whether it is still the same text."""

    key: str
    title: str
    text: str

    @property
    def mark(self) -> str:
        return sha256(self.text.encode()).hexdigest()[:12]

    @property
    def words(self) -> list[tuple[int, str, bool]]:
        """The words with their numbers, and whether each may be of a name; what is masked already is no word."""
        # What is only perhaps a name has been asked about where a label was read.
        places = [place for place in places_of_names(self.text) if not place.perhaps]
        return [
            (number, match.group(), any(match.start() < one.end and one.start < match.end() for one in places))
            for number, match in enumerate(WORD.finditer(self.text))
            if MASK not in match.group()
        ]

    @property
    def number_likely(self) -> int:
        """How many words look like those of a name."""
        return sum(likely for _, _, likely in self.words)


@dataclass(frozen=True)
class NamePlace:
    """Where the reader of labels takes words for those of a person, or `perhaps` so."""

    start: int
    end: int
    printed: str
    perhaps: bool


def places_of_names(text: str) -> list[NamePlace]:
    """Every place of a name in a text: an offer to the member, who decides."""
    number = ReferenceState.current_number()
    # The society's own makers and numbers are none, whatever they look like.
    answer = read_label(text, society_context(garment="", this_year=ANY_YEAR, number=number))
    labels = answer.get("labels") or [answer]
    return [
        NamePlace(*one["span"], one["as_printed"], one.get("perhaps", False))
        for label in labels
        for one in label["persons"]
    ]


def texts_of(example: Example) -> list[Text]:
    """Every text of the piece in which a name could stand and that its owner wrote, but for empty ones."""
    found = []
    for place in OWNERS_PLACES:
        rows = place.rows(example)
        found += [Text(f"{place.kind}-{one.pk}", place.title(one), getattr(one, place.field)) for one in rows]
    found += [Text(f"example-{name}", title, getattr(example, name)) for name, title in EXAMPLES_TEXTS.items()]
    return [one for one in found if one.text.strip()]


def masked(text: str, numbers: Iterable[int]) -> tuple[str, list[str]]:
    """The text with these words masked, and the names taken out. Words that stand side by side are one name; signs
    around a word stay where they are."""
    wanted = set(numbers)
    spans: list[tuple[int, int]] = []
    last = -2
    for number, match in enumerate(WORD.finditer(text)):
        if number not in wanted or MASK in match.group():
            continue
        start, end = bare_span(match)
        if number == last + 1 and spans and "\n" not in text[spans[-1][1] : start]:
            spans[-1] = (spans[-1][0], end)
        else:
            spans.append((start, end))
        last = number
    names = [text[start:end] for start, end in spans]
    for start, end in reversed(spans):
        text = text[:start] + MASK + text[end:]
    return text, names


def bare_span(match: re.Match) -> tuple[int, int]:
    """Without brackets, commas and full stops around it; all of it where it is nothing else."""
    inner = re.search(r"\w(?:.*\w)?", match.group(), re.DOTALL)
    return (match.start() + inner.start(), match.start() + inner.end()) if inner else match.span()


def without_names(
    text: str, *, keep_names: bool = False, keep: Collection[str] = (), struck: Iterable[str] = ()
) -> str:
    """The text with all that may name a person masked; what is masked already stays as it is. `keep_names`: what is
    told as a name stays. `keep`: of what is only perhaps one, the words that the member knows to be none. `struck`:
    words that the member strikes out, whatever the reader and the ticks say of them."""
    spans = [
        (one.start, one.end)
        for one in places_of_names(text)
        if MASK not in one.printed and not (one.printed in keep if one.perhaps else keep_names)
    ]
    # Both are looked for in the text as it was: a word struck out may be what tells the reader of the name beside it.
    for start, end in reversed(joined(spans + spans_of(struck, text))):
        text = text[:start] + MASK + text[end:]
    return text


def spans_of(names: Iterable[str], text: str) -> list[tuple[int, int]]:
    """Where the names stand in the text, as `pattern_of` looks for them; none within what is masked already."""
    pattern = pattern_of(names)
    already = [match.span() for match in re.finditer(re.escape(MASK), text)]
    return [
        match.span()
        for match in (pattern.finditer(text) if pattern else ())
        if not any(match.start() < end and start < match.end() for start, end in already)
    ]


def joined(spans: Iterable[tuple[int, int]]) -> list[tuple[int, int]]:
    """The spans in the order of the text, those that overlap as one."""
    found: list[tuple[int, int]] = []
    for start, end in sorted(spans):
        if found and start < found[-1][1]:
            found[-1] = (found[-1][0], max(end, found[-1][1]))
        else:
            found.append((start, end))
    return found


@transaction.atomic
def mask_words(
    *, example: Example, member: Member, ticked: Mapping[str, tuple[str, Iterable[int]]], for_moderators: bool
) -> int:
    """Mask words of the piece's texts. `ticked`: the text's mark and the numbers of its words, by the text's key.

    The same name elsewhere in the piece's texts is masked as well. Returns how many were taken out; raises NotDone
    where a text was changed meanwhile.
    """
    refuse_closed(example, member)
    texts = {one.key: one for one in texts_of(example)}
    names: list[str] = []
    for key, (mark, numbers) in ticked.items():
        numbers = list(numbers)
        if not numbers:
            continue
        if key not in texts or texts[key].mark != mark:
            raise NotDone("A text was changed meanwhile. Look at the words again and tick them anew.")
        text, found = masked(texts[key].text, numbers)
        write_text(example, key, text)
        names += found
    if not names:
        return 0
    example.refresh_from_db()
    remove_from_texts(example, names)
    for name in dict.fromkeys(names):
        HiddenName.objects.create(example=example, by=member, name=name[:200] if for_moderators else "")
    Example.objects.filter(pk=example.pk).update(name_on_label=NameOnLabel.MASKED)
    touch(example)
    example.refresh_from_db()
    return len(names)


def write_text(example: Example, key: str, text: str) -> None:
    kind, _, which = key.partition("-")
    if kind == "example":
        setattr(example, which, text[: Example._meta.get_field(which).max_length])
        example.save(update_fields=[which])
        return
    place = next(one for one in OWNERS_PLACES if one.kind == kind)
    row = place.rows(example).get(pk=which)
    text = text[: row._meta.get_field(place.field).max_length]
    if place.written_once:
        write_anew(row, {place.field: text})
        return
    setattr(row, place.field, text)
    row.save()  # a label's bare text follows its text


def pattern_of(names: Iterable[str]) -> re.Pattern | None:
    """Any of the names as whole words, capitals or not, however the words are spaced, their accents are encoded, and
    whichever apostrophe or hyphen is in them."""
    wanted = {normalize("NFC", " ".join(name.split())) for name in names if len(name.strip()) >= LEAST_SIGNS}
    if not wanted:
        return None
    one = "|".join(spaced(name) for name in sorted(wanted, key=lambda name: (-len(name), name)))
    return re.compile(rf"(?<!\w)(?:{one})(?!\w)", re.IGNORECASE)


def spaced(name: str) -> str:
    """A name as a pattern: any space between its words, none needed behind a full stop (`A.Brandt`)."""
    words = name.split(" ")
    gaps = [r"\s*" if word.endswith(".") else r"\s+" for word in words[:-1]] + [""]
    return "".join("".join(map(any_way, word)) + gap for word, gap in zip(words, gaps, strict=True))


def any_way(sign: str) -> str:
    """One sign of a name as a pattern: as one code or with its accent apart; any apostrophe, any hyphen."""
    alike = next((signs for signs in (APOSTROPHES, HYPHENS) if sign in signs), "")
    ways = alike or {sign, normalize("NFD", sign)}
    return f"(?:{'|'.join(re.escape(way) for way in sorted(ways))})" if len(ways) > 1 else re.escape(sign)


def without(pattern: re.Pattern | None, text: str) -> tuple[str, int]:
    """The text with the names masked, and how many there were; what is masked already is left alone."""
    if pattern is None:
        return text, 0
    parts, found = [], 0
    for part in text.split(MASK):
        cleaned, number = pattern.subn(MASK, part)
        parts.append(cleaned)
        found += number
    return MASK.join(parts), found


def remove_from_texts(example: Example, names: Iterable[str]) -> int:
    """Mask the names wherever they stand in what the owner wrote. Returns in how many texts they stood."""
    pattern, changed = pattern_of(names), 0
    for one in texts_of(example) if pattern else []:
        text, number = without(pattern, one.text)
        if number:
            write_text(example, one.key, text)
            changed += 1
    return changed


@transaction.atomic
def say_about_names(*, example: Example, member: Member, said: str) -> None:
    """What the owner says of wearers' names: none, masked, or one that is still to be masked by the moderators."""
    refuse_closed(example, member)
    if said not in (NameOnLabel.NONE, NameOnLabel.MASKED, NameOnLabel.TO_MASK):
        raise NotDone("Say whether a wearer's name is to be seen.")
    if said == NameOnLabel.MASKED and not example.hidden_names.exists():
        raise NotDone("Nothing is masked yet: tick the words, or blur the place in the photograph.")
    Example.objects.filter(pk=example.pk).update(name_on_label=said)
    touch(example)
    example.refresh_from_db()


def names_for(example: Example, *, moderator: bool) -> list[HiddenName]:
    """The notes of what was made unreadable; the plain names for moderators only."""
    rows = list(example.hidden_names.all())
    if not moderator:
        for row in rows:
            row.name = ""
    return rows
