"""The society's own number forms, makers and vocabulary, as the label reader takes them."""

from dataclasses import replace

from catalogue.reference.models import (
    Colourway,
    Cut,
    Feature,
    FeatureState,
    GarmentType,
    Issuer,
    IssueVersion,
    Maker,
    NumberForm,
    TypeName,
    VersionName,
)
from catalogue.reference.snapshots import keep_for_state
from identification.label_reading import Context, Form, context_from
from identification.label_reading.context import SERIAL

FORM_COLUMNS = ("code", "name", "pattern", "groups", "year_group", "check_rule", "years", "of_kind")
MAKER_COLUMNS = ("code", "name", "kind", "place", "mark", "first_year", "last_year")


# Where the society's vocabulary stands.
NAMED = (
    *((model, "name") for model in (GarmentType, TypeName, IssueVersion, VersionName, Colourway, Cut, Feature)),
    *((FeatureState, "label"), (NumberForm, "name"), (Issuer, "code"), (Issuer, "name"), (Issuer, "place")),
    *((Maker, "name"), (Maker, "place"), (Maker, "mark")),
)


def society_rows() -> dict[str, list]:
    """Number forms, makers and vocabulary as plain rows, as a caller of the reader would give them."""
    first, *others = (model.objects.order_by().values_list(column) for model, column in NAMED)
    return {
        "words": [text for (text,) in first.union(*others)],
        "number_forms": list(NumberForm.objects.order_by("code").values(*FORM_COLUMNS)),
        "makers": list(Maker.objects.order_by("code").values(*MAKER_COLUMNS)),
    }


def society_context(*, garment: str, this_year: int, number: int) -> Context:
    """The reader's context for a label of this society; forms and makers are read once for each state."""
    known = keep_for_state(("label forms and makers",), known_to_society, number=number)
    return replace(known, reference_year=this_year, garment=garment)


def countries_of_makers(number: int) -> dict[str, str]:
    """By code of each maker whose place names one, the country in which it worked."""
    known = keep_for_state(("label forms and makers",), known_to_society, number=number)
    return {maker.code: maker.country for maker in known.makers if maker.country}


def serial_forms(number: int) -> dict[str, Form]:
    """By code the forms of serials that pieces of one kind of version alone carry."""
    known = keep_for_state(("label forms and makers",), known_to_society, number=number)
    return {form.code: form for form in known.number_forms if form.of_kind and form.role == SERIAL}


def known_to_society() -> Context:
    return context_from(society_rows(), 1)
