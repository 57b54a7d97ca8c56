"""The fields with which pieces and proposals are decided and talked about."""

from collections.abc import Sequence

from django import forms

from catalogue.review.words import LONGEST
from catalogue.typed_words import WordsField


def decision_field(choices: Sequence[tuple[str, str]]) -> forms.ChoiceField:
    return forms.ChoiceField(
        label="You decide",
        choices=choices,
        widget=forms.RadioSelect,
        error_messages={"required": "Choose what you decide.", "invalid_choice": "Choose one of these."},
    )


def reason_field(label: str, *, reader: str, page: str = "", rows: int = 4) -> WordsField:
    """`reader`: who reads it beside the public; `page`: of what the page is on which it stays, told where given."""
    return WordsField(
        label=label,
        widget=forms.Textarea(attrs={"rows": rows}),
        max_length=LONGEST,
        help_text=f"Its {reader} reads it, and it stays on the page of the {page}." if page else "",
        error_messages={"required": f"A decision needs a reason; its {reader} will read it."},
    )


def grounds_field(*, kept_with: str) -> WordsField:
    """What a proposal rests on. `kept_with`: what it is kept with once it is decided."""
    return WordsField(
        label="Grounds: what the change rests on",
        required=False,
        widget=forms.Textarea(attrs={"rows": 4}),
        max_length=LONGEST,
        help_text=f"Kept with the {kept_with}. A draft may wait for them.",
    )


def revision_field() -> forms.IntegerField:
    """The saving that a draft was opened at: what was saved elsewhere meanwhile is not overwritten unseen."""
    return forms.IntegerField(widget=forms.HiddenInput, min_value=0)


def sending_field() -> forms.IntegerField:
    """The sending that was looked at: what was sent again meanwhile is not decided unseen."""
    return forms.IntegerField(widget=forms.HiddenInput, min_value=1)


def word_field(label: str) -> WordsField:
    return WordsField(
        label=label,
        widget=forms.Textarea(attrs={"rows": 3}),
        max_length=LONGEST,
        error_messages={"required": "Write something first."},
    )
