"""Label reading: the text of a garment's label in, evidence with its place and its doubts out. Pure Python."""

from identification.label_reading.context import (
    Context,
    FaultyContext,
    Form,
    KnownMaker,
    context_from,
    form_of,
    maker_known,
)
from identification.label_reading.persons import MASKED_NAME
from identification.label_reading.reading import FIELDS, LIMIT, read_label
from identification.label_reading.vocabulary import REASONS, STATUSES

__all__ = [
    "FIELDS",
    "LIMIT",
    "MASKED_NAME",
    "REASONS",
    "STATUSES",
    "Context",
    "FaultyContext",
    "Form",
    "KnownMaker",
    "context_from",
    "form_of",
    "maker_known",
    "read_label",
]
