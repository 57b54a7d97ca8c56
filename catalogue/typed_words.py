"""What counts as words where people type: for every slice, its forms, spreadsheets and pictures."""

import unicodedata

from django import forms
from django.db import models

# Blanks that Unicode counts among letters or symbols: the Hangul fillers, and the Braille cell without a dot.
BLANK_LETTERS = frozenset("\u115f\u1160\u3164\uffa0\u2800")


def can_be_read(text: str) -> bool:
    """Whether anything of it can be seen. Blanks, signs that steer the direction of writing or join letters, and marks
    without a letter that they stand on (Unicode's general categories Z, C and M) are no words."""
    return any(unicodedata.category(sign)[0] not in "ZCM" and sign not in BLANK_LETTERS for sign in text)


class WordsField(forms.CharField):
    """A field for words: what cannot be read is as if nothing had been typed. Every form's text field is one."""

    def to_python(self, value):
        typed = super().to_python(value)
        return typed if typed in self.empty_values or can_be_read(typed) else self.empty_value


# For a back office's `formfield_overrides`.
WORDS_TYPED = {models.CharField: {"form_class": WordsField}, models.TextField: {"form_class": WordsField}}


def words_of_model(column: models.Field, **given) -> forms.Field | None:
    """The form field of a model's column, for `formfield_callback`: a plain text is a field for words."""
    field = column.formfield(**given)
    return column.formfield(**given | {"form_class": WordsField}) if type(field) is forms.CharField else field
