"""“I see it differently”: an attribution of one's own, or a look at one feature."""

from django import forms

from catalogue.member_examples.words import Answer, Held
from catalogue.reference.facts import FeatureFacts, TypeFacts
from catalogue.typed_words import WordsField

OTHERWISE = [(f"_{Held.NOT_IN_REFERENCE}", "None in the reference"), (f"_{Held.CANNOT_SAY}", "Cannot say")]
PLAIN = [(f"_{answer}", answer.label) for answer in Answer if answer != Answer.SEEN]
LONGEST = 4_000


class AttributionForm(forms.Form):
    """Which version, and on what grounds."""

    version = forms.ChoiceField(
        label="It is",
        widget=forms.RadioSelect,
        error_messages={"required": "Choose a version, or “cannot say”.", "invalid_choice": "Choose one of these."},
    )
    grounds = WordsField(
        label="On what grounds",
        widget=forms.Textarea(attrs={"rows": 4}),
        max_length=LONGEST,
        error_messages={"required": "Say on what grounds: which features, which label, which paper."},
    )

    def __init__(self, *args, facts: TypeFacts | None, **kwargs):
        super().__init__(*args, **kwargs)
        versions = [(v.code, f"{v.name} ({v.code})") for v in facts.versions.values()] if facts else []
        self.fields["version"].choices = versions + OTHERWISE

    @property
    def held(self) -> str:
        """not_in_reference, cannot_say, or empty where a version was chosen."""
        chosen = self.cleaned_data["version"]
        return chosen.removeprefix("_") if chosen.startswith("_") else ""


class LookForm(forms.Form):
    """What somebody sees of one feature."""

    answer = forms.ChoiceField(
        label="What do you see?",
        required=False,
        widget=forms.RadioSelect,
        error_messages={"invalid_choice": "Choose one of these."},
    )
    value = forms.FloatField(
        label="Number", required=False, min_value=0, max_value=100_000,
        error_messages={"invalid": "Write a number, as 64 or 6.4.", "min_value": "A number here is not below 0."},
    )  # fmt: skip
    note = WordsField(label="Note", required=False, max_length=300)

    def __init__(self, *args, feature: FeatureFacts, **kwargs):
        super().__init__(*args, **kwargs)
        self.fields["answer"].choices = [(state.code, state.label) for state in feature.states] + PLAIN
        if feature.kind == "choice":
            del self.fields["value"]
        else:
            self.fields["value"].label = f"Number, in {feature.unit}" if feature.unit else "Number"

    def clean(self):
        given = super().clean()
        if not given.get("answer") and given.get("value") is None and not self.errors:
            raise forms.ValidationError("Choose what you see, or “could not tell”.")
        if given.get("answer", "").startswith("_") and given.get("value") is not None:
            raise forms.ValidationError("Say either what you see or why you could not.")
        return given

    @property
    def look(self) -> dict:
        """Answer, state, value and note, as `actions.Look` takes them."""
        chosen = self.cleaned_data.get("answer") or ""
        plain = chosen.startswith("_")
        return {
            "answer": chosen.removeprefix("_") if plain else Answer.SEEN,
            "state": "" if plain else chosen,
            "value": self.cleaned_data.get("value"),
            "note": self.cleaned_data.get("note", ""),
        }
