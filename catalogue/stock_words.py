"""What a form says when it cannot take what was typed: our words in place of Django's, for every form of the site, of
the sign-in library and of the back office alike. A form that can say more about its own field says that instead.

A translation would be the usual way, but the site has one language and translations are switched off.
"""

from django.core import validators
from django.db import models as tables
from django.forms import fields, formsets, models

NOT_OFFERED = "“%(value)s” is not one of the choices here. Choose one that is shown."
NUMBER = "Write a number, as 64 or 6.4."
DAY = "Write the day as 2026-05-14."
OF_FIELDS = {
    fields.Field: {"required": "Fill this in."},
    fields.IntegerField: {"invalid": "Write a whole number, in figures."},
    fields.FloatField: {"invalid": NUMBER},
    fields.DecimalField: {"invalid": NUMBER},
    fields.DateField: {"invalid": DAY},
    fields.TimeField: {"invalid": "Write the time as 14:30."},
    fields.DateTimeField: {"invalid": "Write day and time as 2026-05-14 14:30."},
    fields.SplitDateTimeField: {"invalid_date": DAY, "invalid_time": "Write the time as 14:30."},
    fields.FileField: {
        "invalid": "No file arrived. Choose it once more.",
        "missing": "No file arrived. Choose it once more.",
        "empty": "The file is empty. Choose another.",
        "max_length": "The name of the file has %(length)d signs; at most %(max)d can be kept. Rename it.",
        "contradiction": "Choose a file, or tick that there shall be none: not both.",
    },
    fields.ImageField: {"invalid_image": "This file could not be read as a picture. Choose another."},
    fields.URLField: {"invalid": "Write the whole address, as https://example.org/page."},
    fields.ChoiceField: {"invalid_choice": NOT_OFFERED},
    fields.MultipleChoiceField: {"invalid_choice": NOT_OFFERED, "invalid_list": "Choose among those that are shown."},
    fields.MultiValueField: {"invalid": "Fill in every part.", "incomplete": "Fill in every part."},
    fields.UUIDField: {"invalid": "A number of this form did not arrive whole. Open the page anew."},
    fields.JSONField: {"invalid": "This could not be read. Open the page anew."},
    models.InlineForeignKeyField: {"invalid_choice": "This row belongs to another record. Open the page anew."},
    models.ModelChoiceField: {"invalid_choice": NOT_OFFERED},
    models.ModelMultipleChoiceField: {
        "invalid_choice": NOT_OFFERED,
        "invalid_list": "Choose among those that are shown.",
        "invalid_pk_value": "“%(pk)s” is not one of the choices here. Choose one that is shown.",
    },
    formsets.BaseFormSet: {
        "missing_management_form": "A part of the form did not arrive. Open the page anew and try again."
    },
    tables.Field: {
        "invalid_choice": "“%(value)s” is not one of the choices here. Choose one that is shown.",
        "blank": "Fill this in.",
        "null": "Fill this in.",
    },
}
OF_VALIDATORS = {
    validators.RegexValidator: "This cannot be read in the way it is meant. Look at it again.",
    validators.URLValidator: "Write the whole address, as https://example.org/page.",
    validators.EmailValidator: "Write the whole e-mail address, as name@example.org.",
    validators.MaxValueValidator: "At most %(limit_value)s.",
    validators.MinValueValidator: "Not below %(limit_value)s.",
    validators.StepValueValidator: "Only whole steps of %(limit_value)s.",
    validators.MaxLengthValidator: "At most %(limit_value)d signs; this has %(show_value)d.",
    validators.MinLengthValidator: "At least %(limit_value)d signs; this has %(show_value)d.",
    validators.ProhibitNullCharactersValidator: "A sign that nobody can see stands in it. Type it anew.",
}
OF_FIGURES = {
    "invalid": NUMBER,
    "max_digits": "At most %(max)s figures in all.",
    "max_decimal_places": "At most %(max)s figures behind the point.",
    "max_whole_digits": "At most %(max)s figures before the point.",
}


def say_it_in_our_words() -> None:
    """Once, before any form is written: a field takes its words along when it is made."""
    for kind, words in OF_FIELDS.items():
        kind.default_error_messages.update(words)
    for validator, sentence in OF_VALIDATORS.items():
        validator.message = sentence
    validators.DecimalValidator.messages.update(OF_FIGURES)
