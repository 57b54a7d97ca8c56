"""Fields that several tables of the reference share."""

from django.core.exceptions import ValidationError
from django.db import DEFAULT_DB_ALIAS, models
from django.db.models.functions import Lower

from catalogue.reference.codes import LONGEST, alike, validate_code
from catalogue.reference.own_drawings import DrawingFault, read_drawing
from catalogue.reference.uncertain_dates import fault_in_date
from identification.label_reading.said_of_states import FORM, label_says_of


def validate_uncertain_date(text: str) -> None:
    if fault := fault_in_date(text):
        raise ValidationError(f"Not a date that can be read: {fault}.")


def validate_drawing(text: str) -> None:
    try:
        read_drawing(text)
    except DrawingFault as fault:
        raise ValidationError(str(fault)) from fault


def validate_label_says(text: str) -> None:
    try:
        label_says_of(text)
    except ValueError as fault:
        raise ValidationError(f"Write {FORM}; but {fault}.") from fault


class CodeField(models.CharField):
    """A society's own short name of a record, as it stands in addresses and spreadsheets."""

    def __init__(self, *args, **kwargs):
        kwargs.setdefault("max_length", LONGEST)
        kwargs.setdefault("validators", [validate_code])
        super().__init__(*args, **kwargs)


class CodesApart(models.UniqueConstraint):
    """No two codes that differ in capitals only. Made by `codes_apart`.

    The table holds what `lower` of the database sees: on SQLite the letters a to z. A form is held to all that the
    import takes for one code.
    """

    def deconstruct(self):
        """A migration needs the rule of the table only."""
        _, args, kwargs = super().deconstruct()
        return "django.db.models.UniqueConstraint", args, kwargs

    def validate(self, model, instance, exclude=None, using=DEFAULT_DB_ALIAS):
        within = [f.name for f in self.expressions[1:]]
        if "code" in (exclude or ()) or any(getattr(instance, f"{name}_id") is None for name in within):
            return
        others = model._default_manager.using(using).exclude(pk=instance.pk)
        others = others.filter(**{name: getattr(instance, f"{name}_id") for name in within})
        for code in others.exclude(code=instance.code).values_list("code", flat=True):
            if alike(code) == alike(instance.code):
                raise ValidationError({"code": self.violation_error_message % {"code": code}})


def codes_apart(*within: str) -> CodesApart:
    """Codes stand once whatever their capitals, as the import compares them; `within`: only among rows of one such."""
    return CodesApart(
        Lower("code"),
        *within,
        name="%(class)s_codes_apart",
        violation_error_message="There is %(code)s already; a code stands once, whatever its capitals.",
    )


def hold_to_one_name(name: str) -> None:
    """Raise ValidationError, for a model's `clean`, where the spreadsheets would read it as several names."""
    if ";" in name:
        raise ValidationError({"name": "A semicolon parts names in the spreadsheets. Write each name in a row."})


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
