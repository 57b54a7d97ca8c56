"""A number tried with a form of numbers as it is typed, before that is saved: in the back office and in a proposal."""

from django import forms
from django.utils import timezone

from catalogue.reference.number_forms import tried
from catalogue.typed_words import WordsField
from identification.label_reading import Form

TRY, TRIED = "_try", "tried_number"
# What has to be right before a number can be tried.
NEEDED_TO_TRY = ("pattern", "year_group", "check_rule", "years", TRIED)
ONLY_TRIED = "Only tried: nothing is saved yet. What you typed stands below."


def field_to_try(**attributes: str) -> WordsField:
    """The number; `attributes` of its input."""
    return WordsField(
        required=False,
        max_length=200,
        label="A number to try",
        help_text="as it stands on a label; nothing is saved",
        widget=forms.TextInput(attrs=attributes),
    )


class TriesNumbers:
    """For a form that holds the fields of a form of numbers, and `tried_number`."""

    def full_clean(self):
        """A form that is only tried is never saved, and what a try does not need is not asked for."""
        super().full_clean()
        if TRY not in self.data:
            return
        for name in [name for name in self.errors if name not in NEEDED_TO_TRY]:
            del self.errors[name]
        if not self.errors and not self.cleaned_data.get(TRIED):
            self.add_error(TRIED, "Write a number to try.")
        self.add_error(None, ONLY_TRIED)

    def reading(self) -> list[str]:
        """How the number is read by the form as typed, in words; nothing while something needed is wrong."""
        if any(name in self.errors for name in NEEDED_TO_TRY):
            return []
        given = self.cleaned_data
        form = Form(
            code="form",
            name=given.get("name") or "Number",
            pattern=given["pattern"],
            groups=given.get("groups") or "",
            year_group=given.get("year_group"),
            check_rule=given.get("check_rule") or "",
            years=given.get("years") or "",
        )
        return tried(form, given[TRIED], timezone.localdate().year)
