"""What a decision on an open question, and a view of it, are written with."""

from django import forms

from catalogue.reference.models import OpenQuestion, Source
from catalogue.review.fields import grounds_field, reason_field, revision_field
from catalogue.review.proposals.forms import SourceCodes
from catalogue.review.proposals.rules import DECIDED, SMALL_OF_QUESTION
from catalogue.review.questions.standing import FIELD_WORDS, choices, row_in_words
from catalogue.review.words import LONGEST
from catalogue.typed_words import WordsField

LONGEST_HOLDER = 80
OF_OTHERS = (
    "You, or somebody who told you so or whose view a source holds. Of somebody else it says “as told by” you; a "
    "member is told of it, and can say that it is not theirs."
)


class DecidedForm(forms.Form):
    """How the question is to stand, with the grounds. Members beside authors change what would settle it alone."""

    decided = forms.ChoiceField(label=FIELD_WORDS[DECIDED], widget=forms.RadioSelect)
    moderator_note = WordsField(
        label=FIELD_WORDS["moderator_note"],
        required=False,
        max_length=LONGEST,
        widget=forms.Textarea(attrs={"rows": 3}),
        help_text="What follows from it, in a sentence or two; it stands at the head of the page.",
    )
    would_settle = WordsField(
        label=FIELD_WORDS["would_settle"],
        required=False,
        max_length=LONGEST,
        widget=forms.Textarea(attrs={"rows": 3}),
        help_text="The piece or paper that would decide it, or would show the decision wrong.",
    )
    grounds = grounds_field(kept_with="decision")
    cites = SourceCodes(label="Sources cited for it", help_text="Codes of sources, spaces between.")
    revision = revision_field()

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

    holder = WordsField(
        label="Who holds it",
        max_length=LONGEST_HOLDER,
        help_text=OF_OTHERS,
        error_messages={"required": "Say who holds this view."},
    )
    text = WordsField(
        label="The view",
        max_length=LONGEST,
        widget=forms.Textarea(attrs={"rows": 4}),
        help_text="What is held, and why. Name no private person.",
        error_messages={"required": "Write the view down."},
    )
    cites = SourceCodes(label="Sources that it rests on", help_text="Codes of sources, spaces between, as S01 S22.")
    revision = forms.IntegerField(widget=forms.HiddenInput, min_value=0, required=False)

    def __init__(self, *args, **kwargs):
        super().__init__(*args, **kwargs)
        self.fields["cites"].known = dict(Source.objects.values_list("code", "pk"))


class ModeratedForm(forms.Form):
    """Why a view is taken out, or put back."""

    reason = reason_field("Why", reader="writer")

    def __init__(self, *args, **kwargs):
        super().__init__(*args, **kwargs)
        self.fields["reason"].help_text = "Who wrote the view down reads it, and it stays in the question’s history."
