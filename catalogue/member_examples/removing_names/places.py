"""Every table in which a name may stand that was written about a piece. Later slices add theirs at the start.

A table that is not named here keeps the name: a test looks through every column of the database.
"""

import re
from collections.abc import Callable, Collection, Iterable, Iterator
from dataclasses import dataclass
from unicodedata import normalize

from django.contrib.admin.models import LogEntry
from django.contrib.contenttypes.models import ContentType
from django.db.models import CharField, Model, QuerySet, TextField

from catalogue.member_examples.models import (
    Alteration,
    Attribution,
    Example,
    ExampleDecision,
    ExampleSet,
    Label,
    Measurement,
    NameRequest,
    Observation,
    Photograph,
)
from catalogue.member_examples.submitting.names import APOSTROPHES, EXAMPLES_TEXTS, HYPHENS, MASK, pattern_of, without
from catalogue.reference import models as reference_models

# A word with what may stand within it or behind it.
NEAR_WORD = re.compile(rf"\w+(?:[{re.escape(APOSTROPHES + HYPHENS)}]\w+)*(?:[{re.escape(APOSTROPHES)}](?!\w))?")
LEAST_NEAR = 4  # of a shorter word too many others are near
MOST_ENDING, MOST_NEAR = 2, 12


@dataclass(frozen=True)
class Place:
    """Texts of a piece in one table. `written_once`: the table refuses changes, so a row is written anew."""

    title: str
    rows: Callable[[Example], QuerySet]
    fields: tuple[str, ...]
    written_once: bool = False


def set_log(example: Example) -> QuerySet:
    """What the back office noted of the sets of a piece while sets were written there: it repeats their names."""
    kind = ContentType.objects.get_for_model(ExampleSet)
    numbers = [str(pk) for pk in ExampleSet.with_dissolved.filter(examples=example).values_list("pk", flat=True)]
    return LogEntry.objects.filter(content_type=kind, object_id__in=numbers)


def of(model: type[Model]) -> Callable[[Example], QuerySet]:
    return lambda example: model._base_manager.filter(example=example)


PLACES: list[Place] = [
    Place("the record of the piece", lambda e: Example.objects.filter(pk=e.pk), tuple(EXAMPLES_TEXTS)),
    Place("labels", of(Label), ("text", "remark", "place")),
    Place("alterations", of(Alteration), ("part", "traces")),
    Place("photographs' captions and credits", of(Photograph), ("caption", "credit")),
    Place("how it was measured", of(Measurement), ("method", "typed")),
    Place("observations", of(Observation), ("note",), written_once=True),
    Place("grounds of what it is held to be", of(Attribution), ("grounds",), written_once=True),
    Place("reasons of decisions", of(ExampleDecision), ("reason",), written_once=True),
    Place("sets it is in", lambda e: ExampleSet.with_dissolved.filter(examples=e), ("name", "grounds")),
    Place("the back office's log of sets", set_log, ("object_repr", "change_message")),
    Place("requests to remove a name", of(NameRequest), ("words",)),
]


def register(place: Place) -> None:
    """A later slice keeps texts of pieces too. The same place twice is one."""
    if place.title not in {one.title for one in PLACES}:
        PLACES.append(place)


@dataclass(frozen=True)
class Found:
    """One text with the name in it."""

    place: Place
    row: Model
    field: str
    cleaned: str


def found_in(example: Example, pattern: re.Pattern | None) -> Iterator[Found]:
    """Every text of the piece in which a name stands, with the text as it would be without."""
    for place in PLACES if pattern else []:
        for row in place.rows(example):
            for field in place.fields:
                text, number = without(pattern, getattr(row, field))
                if number:
                    yield Found(place, row, field, text[: row._meta.get_field(field).max_length])


def near_in(example: Example, names: Iterable[str]) -> list[str]:
    """Words of the piece's texts that are nearly the name, or one word of it, and that `found_in` leaves: in another
    case or number, with a hyphen or an apostrophe within, or with one sign more, less or otherwise."""
    pattern = pattern_of(names)
    wanted = {bare(word) for name in names for word in name.split()}
    wanted = {word for word in wanted if len(word) >= LEAST_NEAR}
    near: dict[str, None] = {}
    for place in PLACES if wanted else []:
        for row in place.rows(example):
            for field in place.fields:
                left, _ = without(pattern, getattr(row, field))
                near |= dict.fromkeys(word for word in words_of(left) if is_near(bare(word), wanted))
    return list(near)[:MOST_NEAR]


def words_of(text: str) -> Iterator[str]:
    for match in NEAR_WORD.finditer(text.replace(MASK, " ")):
        yield match.group()


def bare(word: str) -> str:
    return "".join(filter(str.isalnum, normalize("NFKD", word).casefold()))


def is_near(word: str, wanted: Collection[str]) -> bool:
    return any(
        word == name or (word.startswith(name) and len(word) - len(name) <= MOST_ENDING) or one_sign_apart(word, name)
        for name in wanted
    )


def one_sign_apart(one: str, other: str) -> bool:
    """Whether one sign more, less or otherwise makes one word of the other."""
    if abs(len(one) - len(other)) > 1:
        return False
    short, long = sorted((one, other), key=len)
    at = next((place for place, (a, b) in enumerate(zip(short, long, strict=False)) if a != b), len(short))
    return short[at:] == long[at + 1 :] or short[at + 1 :] == long[at + 1 :]


def elsewhere(pattern: re.Pattern | None) -> list[str]:
    """Records of the reference in whose texts a name stands too. They are an author's to change, by the back office,
    and what is sealed or kept as history stays: so they are only told, at most a dozen."""
    told: list[str] = []
    for model in vars(reference_models).values() if pattern else ():
        if not (isinstance(model, type) and issubclass(model, Model)) or model._meta.abstract:
            continue
        fields = [f.name for f in model._meta.concrete_fields if isinstance(f, CharField | TextField) and not f.choices]
        for row in model.objects.only("pk", *fields).iterator() if fields else ():
            if any(pattern.search(getattr(row, name) or "") for name in fields):
                told.append(f"{model._meta.verbose_name} {getattr(row, 'code', row.pk)}")
                if len(told) == 12:
                    return told
    return told
