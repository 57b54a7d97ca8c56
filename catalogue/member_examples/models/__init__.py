"""Tables of members' pieces: what each is, what was seen on it and what people hold it to be."""

from catalogue.member_examples.models.attributions import Attribution, ExampleDecision
from catalogue.member_examples.models.examples import Example
from catalogue.member_examples.models.hidden_names import HiddenName, NameRequest
from catalogue.member_examples.models.histories import KeptHistories
from catalogue.member_examples.models.numbers import LastNumber
from catalogue.member_examples.models.observations import Observation
from catalogue.member_examples.models.particulars import Alteration, Label, Measurement
from catalogue.member_examples.models.photographs import Photograph
from catalogue.member_examples.models.sets import ExampleInSet, ExampleSet, KeptOutOfSet
from catalogue.member_examples.models.shades import ShadePair

__all__ = [
    "Alteration",
    "Attribution",
    "Example",
    "ExampleDecision",
    "ExampleInSet",
    "ExampleSet",
    "HiddenName",
    "KeptHistories",
    "KeptOutOfSet",
    "Label",
    "LastNumber",
    "Measurement",
    "NameRequest",
    "Observation",
    "Photograph",
    "ShadePair",
]
