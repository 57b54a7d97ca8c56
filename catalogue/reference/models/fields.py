"""Fields that several tables of the reference share."""

from django.core.exceptions import ValidationError
from django.db import models

from catalogue.reference.codes import LONGEST, validate_code
from catalogue.reference.own_drawings import DrawingFault, read_drawing
from catalogue.reference.uncertain_dates import fault_in_date


def validate_uncertain_date(text: str) -> None:
    if fault := fault_in_date(text):
        raise ValidationError(f"Not a date that can be read: {fault}.")


def validate_drawing(text: str) -> None:
    try:
        read_drawing(text)
    except DrawingFault as fault:
        raise ValidationError(str(fault)) from fault


class CodeField(models.CharField):
    """A society's own short name of a record, as it stands in addresses and spreadsheets."""

    def __init__(self, *args, **kwargs):
        kwargs.setdefault("max_length", LONGEST)
        kwargs.setdefault("validators", [validate_code])
        super().__init__(*args, **kwargs)


class UncertainDateField(models.CharField):
    """A date in EDTF; empty where nothing is known."""

    def __init__(self, *args, **kwargs):
        kwargs.setdefault("max_length", 40)
        kwargs.setdefault("blank", True)
        kwargs.setdefault("default", "")
        kwargs.setdefault("validators", [validate_uncertain_date])
        kwargs.setdefault("help_text", "1966, 1966-03, 1966~ about, 1964? uncertain, 1971/1986, .. for an open end")
        super().__init__(*args, **kwargs)


def one_of(field: str, choices: type[models.TextChoices], *, or_empty: bool = False) -> models.CheckConstraint:
    """The table holds no word outside the list, whoever writes to it."""
    values = [*choices.values, *([""] if or_empty else [])]
    words = f"The {field.replace('_', ' ')} is none of the words that the society uses."
    condition = models.Q(**{f"{field}__in": values})
    return models.CheckConstraint(
        condition=condition, name=f"%(class)s_{field}_is_known", violation_error_message=words
    )
