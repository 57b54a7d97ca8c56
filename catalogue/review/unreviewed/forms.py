"""What records are looked through with."""

from django import forms

from catalogue.review.words import LONGEST
from catalogue.typed_words import WordsField


class LookForm(forms.Form):
    """One reason for all records that are ticked."""

    reason = WordsField(
        label="Why",
        widget=forms.Textarea(attrs={"rows": 3}),
        max_length=LONGEST,
        help_text="Kept with each record, in its history. Say what was looked at, and against what.",
        error_messages={"required": "Write down why: what was looked at, and against what."},
    )
