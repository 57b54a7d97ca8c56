"""What a decision on an open question, and a view of it, are written with."""

from django import forms

from catalogue.reference.models import OpenQuestion, Source
from catalogue.review.proposals.forms import SourceCodes
from catalogue.review.proposals.rules import DECIDED, SMALL_OF_QUESTION
from catalogue.review.questions.standing import FIELD_WORDS, choices, row_in_words
from catalogue.review.words import LONGEST

LONGEST_HOLDER = 80


class DecidedForm(forms.Form):
    """How the question is to stand, with the grounds. Members beside authors change what would settle it alone."""

    decided = forms.ChoiceField(label=FIELD_WORDS[DECIDED], widget=forms.RadioSelect)
    moderator_note = forms.CharField(
        label=FIELD_WORDS["moderator_note"],
        required=False,
        max_length=LONGEST,
        widget=forms.Textarea(attrs={"rows": 3}),
        help_text="What follows from it, in a sentence or two; it stands at the head of the page.",
    )
    would_settle = forms.CharField(
        label=FIELD_WORDS["would_settle"],
        required=False,
        max_length=LONGEST,
        widget=forms.Textarea(attrs={"rows": 3}),
        help_text="The piece or paper that would decide it, or would show the decision wrong.",
    )
    grounds = forms.CharField(
        label="Grounds: what the change rests on",
        required=False,
        max_length=LONGEST,
        widget=forms.Textarea(attrs={"rows": 4}),
        help_text="Kept with the decision. A draft may wait for them.",
    )
    cites = SourceCodes(label="Sources cited for it", help_text="Codes of sources, spaces between.")
    revision = forms.IntegerField(widget=forms.HiddenInput, min_value=0)

    def __init__(self, *args, question: OpenQuestion, base: dict, may_maintain: bool, **kwargs):
        super().__init__(*args, **kwargs)
        self.base = base
        self.fields["decided"].choices = choices(question)
        self.fields["cites"].known = dict(Source.objects.values_list("code", "pk"))
        if not may_maintain:
            for name in set(FIELD_WORDS) - SMALL_OF_QUESTION:
                del self.fields[name]

    def rows(self) -> dict[str, object]:
        return {
            name: self.cleaned_data[name].replace("\r\n", "\n").strip()
            for name in FIELD_WORDS
            if name in self.cleaned_data
        }

    def shown(self) -> list[dict]:
        """The fields for the page, each with what stands today."""
        return [
            {
                "field": field,
                "stands": row_in_words(field.name, self.base[field.name]) if field.name in FIELD_WORDS else None,
                "group": field.name == DECIDED,
            }
            for field in self
            if not field.is_hidden
        ]


class ViewForm(forms.Form):
    """One view of a question: whose, what, and on what sources."""

    holder = forms.CharField(
        label="Who holds it",
        max_length=LONGEST_HOLDER,
        help_text="You, or somebody whose view is written down in a source that you name.",
        error_messages={"required": "Say who holds this view."},
    )
    text = forms.CharField(
        label="The view",
        max_length=LONGEST,
        widget=forms.Textarea(attrs={"rows": 4}),
        help_text="What is held, and why. Name no private person.",
        error_messages={"required": "Write the view down."},
    )
    cites = SourceCodes(label="Sources that it rests on", help_text="Codes of sources, spaces between, as S01 S22.")
    revision = forms.IntegerField(widget=forms.HiddenInput, min_value=0, required=False)

    def clean_holder(self):
        return self.to_be_read("holder")

    def clean_text(self):
        return self.to_be_read("text")

    def to_be_read(self, name: str) -> str:
        """Signs that nobody sees, such as those that turn the direction of writing, are no words."""
        given = self.cleaned_data[name]
        if not any(sign.isalnum() for sign in given):
            raise forms.ValidationError(self.fields[name].error_messages["required"])
        return given

    def __init__(self, *args, **kwargs):
        super().__init__(*args, **kwargs)
        self.fields["cites"].known = dict(Source.objects.values_list("code", "pk"))
