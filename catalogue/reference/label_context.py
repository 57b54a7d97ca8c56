"""The society's own number forms and makers, as the label reader takes them."""

from catalogue.reference.models import Maker, NumberForm
from catalogue.reference.snapshots import keep_for_state
from identification.label_reading import Context, Form, KnownMaker, context_from

FORM_COLUMNS = ("code", "name", "pattern", "groups", "year_group", "check_rule", "years")
MAKER_COLUMNS = ("code", "name", "kind", "place", "mark", "first_year", "last_year")


def society_rows() -> dict[str, list[dict]]:
    """Number forms and makers as plain rows, as a caller of the reader would give them."""
    return {
        "number_forms": list(NumberForm.objects.order_by("code").values(*FORM_COLUMNS)),
        "makers": list(Maker.objects.order_by("code").values(*MAKER_COLUMNS)),
    }


def society_context(*, garment: str, this_year: int, number: int) -> Context:
    """The reader's context for a label of this society; forms and makers are read once for each state."""
    forms, makers = keep_for_state(("label forms and makers",), forms_and_makers, number=number)
    return Context(this_year, garment=garment, number_forms=forms, makers=makers)


def countries_of_makers(number: int) -> dict[str, str]:
    """By code of each maker whose place names one, the country in which it worked."""
    _, makers = keep_for_state(("label forms and makers",), forms_and_makers, number=number)
    return {maker.code: maker.country for maker in makers if maker.country}


def forms_and_makers() -> tuple[tuple[Form, ...], tuple[KnownMaker, ...]]:
    known = context_from(society_rows(), 1)
    return known.number_forms, known.makers
