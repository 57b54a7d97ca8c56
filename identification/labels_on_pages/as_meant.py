"""A label as it is read in the end: again with each thing that only the reading tells."""

from collections.abc import Mapping
from dataclasses import dataclass

from django.utils import timezone

from catalogue.reference.facts import TypeFacts
from catalogue.reference.label_context import society_context
from identification.label_reading import Context, read_label
from identification.label_reading.reading import PARTING
from identification.label_reading.two_labels import second_label_begins
from identification.labels_on_pages.evidence import YES, questions_of, said_of
from identification.labels_on_pages.named_garment import types_named

# What parts two labels in one text.
PARTING_LINE = "---\n"
# Garment classes of the reference whose name is not the reader's word.
GARMENT_WORDS = {"pullover": "smock", "waistcoat": "waistcoat"}


@dataclass(frozen=True)
class AsMeant:
    """`text`: with a line of hyphens at `parted`, where the second of two labels begins; `garments`: the types that it
    names, `narrowing` those of them that come first, none where a type was chosen."""

    text: str
    answer: dict
    known: Context
    one_label: bool
    parted: int | None = None
    garments: tuple[TypeFacts, ...] = ()
    narrowing: tuple[TypeFacts, ...] = ()

    @property
    def is_unreadable(self) -> bool:
        """Nothing was typed, or more than is read."""
        label = self.answer["label"]
        return label["status"] == "refused" or label.get("reason") == "empty"


def context_for(garments, number: int) -> Context:
    """The reader's context for a label of one of these garment types, if they are of one kind."""
    kinds = {GARMENT_WORDS.get(facts.garment_class, facts.garment_class) for facts in garments}
    garment = kinds.pop() if len(kinds) == 1 else ""
    return society_context(garment=garment, this_year=timezone.localdate().year, number=number)


def read_as_meant(
    form: Mapping[str, str], text: str, types: Mapping[str, TypeFacts], chosen: TypeFacts | None, number: int
) -> AsMeant:
    """`form`: as it was sent, with what was said of the label. The text may turn out to be two labels and to name a
    garment; and what was confirmed counts, since what is not confirmed contradicts nothing."""
    known = context_for([chosen] if chosen else [], number)
    one_label = form.get("one-label") == YES
    text = PARTING.sub("", text) if one_label else text
    answer = read_label(text, known)
    first = AsMeant(text, answer, known, one_label)
    if first.is_unreadable:
        return first
    parted = None if one_label else second_label_begins(text, answer, known)
    if parted is not None:
        text = f"{text[:parted]}{PARTING_LINE}{text[parted:]}"
        answer = read_label(text, known)
    garments = tuple(types_named(types.values(), answer["label"]["unread"]))
    narrowing = () if chosen else garments
    if narrowing:
        # The same size is of another girth on trousers.
        known = context_for(narrowing, number)
        answer = read_label(text, known)
    if said := said_of(answer, questions_of(answer, form)):
        answer = read_label(text, known, said=said)
    return AsMeant(text, answer, known, one_label, parted, garments, narrowing)
