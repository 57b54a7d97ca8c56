"""What a change of something that versions rest on is written with: its own fields, the grounds and the sources."""

from django import forms
from django.db import models

from catalogue.reference.backing_rows import BACKINGS
from catalogue.reference.models import Source
from catalogue.reference.tried_numbers import TriesNumbers, field_to_try
from catalogue.review.backing.standing import as_record, row_in_words, row_value
from catalogue.review.fields import grounds_field, revision_field
from catalogue.review.proposals.forms import SourceCodes
from catalogue.typed_words import WordsField, words_of_model


class BackingForm(forms.ModelForm):
    """Each field beside what stands today. Made for a table by `form_of`."""

    grounds = grounds_field(kept_with="decision")
    cites = SourceCodes(label="Sources cited for it", help_text="Codes of sources, spaces between.")
    revision = revision_field()

    def __init__(self, *args, today: dict, names: dict[str, str], **kwargs):
        super().__init__(*args, **kwargs)
        self.today, self.names = today, names
        self.fields["cites"].known = dict(Source.objects.values_list("code", "pk"))
        for name, words in names.items():
            self.fields[name].label = words
            if self.fields[name].help_text.casefold() == words.casefold():
                self.fields[name].help_text = ""

    def rows(self) -> dict[str, object]:
        return {name: row_value(self.instance, name) for name in self.names}

    def shown(self) -> list[dict]:
        """The fields for the page, each with what stands today."""
        return [
            {
                "field": field,
                "stands": row_in_words(field.name, self.today.get(field.name, "")) if self.is_told(field) else None,
            }
            for field in self
            if not field.is_hidden
        ]

    def is_told(self, field) -> bool:
        return bool(self.today) and field.name in self.names


class NumberFormForm(TriesNumbers, BackingForm):
    """Of a form of numbers, with a number to try it with before it is saved."""

    tried_number = field_to_try()


FORMS = {"numberform": NumberFormForm}


def form_of(table: str, code: str, whole: dict, *, initial: dict, **given) -> BackingForm:
    """The form of a table's record, as it is wanted so far. `initial`: what the fields beside its own show first."""
    backing = BACKINGS[table]
    initial = {name: whole.get(name, "") for name in backing.fields} | initial

    def by_code(column: models.Field, **more):
        return words_of_model(column, **more | ({"to_field_name": "code"} if column.is_relation else {}))

    form = FORMS.get(table, BackingForm)
    made = forms.modelform_factory(backing.model, form=form, fields=list(backing.fields), formfield_callback=by_code)
    return made(instance=as_record(table, code, whole), names=dict(backing.fields), initial=initial, **given)


class NewForm(forms.Form):
    """What a new one begins with."""

    code = WordsField(max_length=80, help_text="Short, as those that are there; spreadsheets name it by this.")
    name = WordsField(max_length=200, error_messages={"required": "Say what it is called."})
