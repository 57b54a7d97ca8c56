"""What a moderator decides, and what owner and moderators write to each other."""

from django import forms

from catalogue.member_examples.words import DecisionKind, Held
from catalogue.reference.facts import TypeFacts

LONGEST = 4_000
OTHERWISE = [(f"_{Held.NOT_IN_REFERENCE}", "None in the reference"), (f"_{Held.CANNOT_SAY}", "Cannot say")]
DECISIONS = [
    (DecisionKind.ACCEPTED, "Accept it (a)"),
    (DecisionKind.RETURNED, "Return it with a question (r)"),
    (DecisionKind.DECLINED, "Decline it (d)"),
]


class DecisionForm(forms.Form):
    """One decision on the sending that was looked at."""

    decision = forms.ChoiceField(
        label="You decide",
        choices=DECISIONS,
        widget=forms.RadioSelect,
        error_messages={"required": "Choose what you decide.", "invalid_choice": "Choose one of these."},
    )
    version = forms.ChoiceField(
        label="Accepted as",
        required=False,
        help_text="Counts only where you accept it.",
        error_messages={"invalid_choice": "This version belongs to another garment type: choose one of these."},
    )
    reason = forms.CharField(
        label="Reason, or question",
        widget=forms.Textarea(attrs={"rows": 4}),
        max_length=LONGEST,
        help_text="Its owner reads it, and it stays on the page of the piece.",
        error_messages={"required": "A decision needs a reason; its owner will read it."},
    )
    sending = forms.IntegerField(widget=forms.HiddenInput, min_value=1)

    def __init__(self, *args, facts: TypeFacts | None, **kwargs):
        super().__init__(*args, **kwargs)
        versions = [(v.code, f"{v.name} ({v.code})") for v in facts.versions.values()] if facts else []
        self.fields["version"].choices = [("", "Choose …"), *versions, *OTHERWISE]

    def clean(self):
        given = super().clean()
        if given.get("decision") == DecisionKind.ACCEPTED and not given.get("version") and "version" not in self.errors:
            self.add_error("version", "Choose as what it is accepted, or “Cannot say”.")
        return given

    @property
    def held(self) -> str:
        """not_in_reference, cannot_say, or empty where a version was chosen."""
        chosen = self.cleaned_data["version"]
        return chosen.removeprefix("_") if chosen.startswith("_") else ""


class AttributeForm(forms.Form):
    """As what else the society keeps an accepted piece. `believed`: the version that the page showed."""

    version = forms.ChoiceField(
        label="Keep it as",
        error_messages={
            "required": "Choose as what it is kept.",
            "invalid_choice": "This version belongs to another garment type: choose one of these.",
        },
    )
    reason = forms.CharField(
        label="Reason",
        widget=forms.Textarea(attrs={"rows": 4}),
        max_length=LONGEST,
        help_text="Its owner reads it, and it stays on the page of the piece.",
        error_messages={"required": "A decision needs a reason; its owner will read it."},
    )
    believed = forms.CharField(required=False, widget=forms.HiddenInput, max_length=80)

    def __init__(self, *args, facts: TypeFacts | None, **kwargs):
        super().__init__(*args, **kwargs)
        versions = [(v.code, f"{v.name} ({v.code})") for v in facts.versions.values()] if facts else []
        self.fields["version"].choices = [("", "Choose …"), *versions, *OTHERWISE]

    @property
    def held(self) -> str:
        """not_in_reference, cannot_say, or empty where a version was chosen."""
        chosen = self.cleaned_data["version"]
        return chosen.removeprefix("_") if chosen.startswith("_") else ""


class ReasonForm(forms.Form):
    """Why a piece is opened again."""

    reason = forms.CharField(
        label="Why it is opened again",
        widget=forms.Textarea(attrs={"rows": 3}),
        max_length=LONGEST,
        error_messages={"required": "A decision needs a reason; its owner will read it."},
    )


class WordForm(forms.Form):
    """A word in the thread of a piece."""

    text = forms.CharField(
        label="Write to each other about this piece",
        widget=forms.Textarea(attrs={"rows": 3}),
        max_length=LONGEST,
        error_messages={"required": "Write something first."},
    )
    token = forms.UUIDField(widget=forms.HiddenInput)
