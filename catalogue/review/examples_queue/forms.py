"""What a moderator decides, and what owner and moderators write to each other."""

from django import forms

from catalogue.member_examples.words import DecisionKind, Held
from catalogue.reference.facts import TypeFacts
from catalogue.review.fields import decision_field, reason_field, sending_field, word_field
from catalogue.typed_words import WordsField

OTHERWISE = [(f"_{Held.NOT_IN_REFERENCE}", "None in the reference"), (f"_{Held.CANNOT_SAY}", "Cannot say")]
DECISIONS = [
    (DecisionKind.ACCEPTED, "Accept it (a)"),
    (DecisionKind.RETURNED, "Return it with a question (r)"),
    (DecisionKind.DECLINED, "Decline it (d)"),
]
OF_ANOTHER_TYPE = "This version belongs to another garment type: choose one of these."


class HeldForm(forms.Form):
    """As what a piece is held: `version`, a code, or one of `OTHERWISE`."""

    def __init__(self, *args, facts: TypeFacts | None, **kwargs):
        super().__init__(*args, **kwargs)
        versions = [(v.code, f"{v.name} ({v.code})") for v in facts.versions.values()] if facts else []
        self.fields["version"].choices = [("", "Choose …"), *versions, *OTHERWISE]

    @property
    def held(self) -> str:
        """not_in_reference, cannot_say, or empty where a version was chosen."""
        chosen = self.cleaned_data["version"]
        return chosen.removeprefix("_") if chosen.startswith("_") else ""


class DecisionForm(HeldForm):
    """One decision on the sending that was looked at."""

    decision = decision_field(DECISIONS)
    version = forms.ChoiceField(
        label="Accepted as",
        required=False,
        help_text="Counts only where you accept it.",
        error_messages={"invalid_choice": OF_ANOTHER_TYPE},
    )
    reason = reason_field("Reason, or question", reader="owner", page="piece")
    sending = sending_field()

    def clean(self):
        given = super().clean()
        if given.get("decision") == DecisionKind.ACCEPTED and not given.get("version") and "version" not in self.errors:
            self.add_error("version", "Choose as what it is accepted, or “Cannot say”.")
        return given


class AttributeForm(HeldForm):
    """As what else the society keeps an accepted piece. `believed`: the version that the page showed."""

    version = forms.ChoiceField(
        label="Keep it as",
        error_messages={"required": "Choose as what it is kept.", "invalid_choice": OF_ANOTHER_TYPE},
    )
    reason = reason_field("Reason", reader="owner", page="piece")
    believed = WordsField(required=False, widget=forms.HiddenInput, max_length=80)


class KeepForm(forms.Form):
    """Why a doubtful piece stays what it is held to be. `believed`: the version that the page showed."""

    reason = reason_field("Why it stays as it is", reader="owner", page="piece", rows=3)
    believed = WordsField(required=False, widget=forms.HiddenInput, max_length=80)


class ReasonForm(forms.Form):
    """Why a piece is opened again."""

    reason = reason_field("Why it is opened again", reader="owner", rows=3)


class WordForm(forms.Form):
    """A word in the thread of a piece."""

    text = word_field("Write to each other about this piece")
    token = forms.UUIDField(widget=forms.HiddenInput)
