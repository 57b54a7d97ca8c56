"""What a source is added with: what is needed to find one of its kind again."""

from django import forms

from catalogue.reference.models import Source
from catalogue.reference.words import FIND_AGAIN, Grade, SourceKind
from catalogue.review.fields import reason_field
from catalogue.typed_words import words_of_model

DATE_HELP = "As 1966, 1966-03, 1966~ for about, 1964? where uncertain, 1971/1986 for a span."
# Of a kind something is said beside the words of its fields.
WHO_HELP = {
    SourceKind.TESTIMONY: "A display name, or “a former storeman”. Name no private person who has not agreed to it.",
    SourceKind.SELLER: "The market or place. Name no private person.",
}


class SourceForm(forms.ModelForm):
    """A source of one kind. What it cannot be found again without has to be filled in."""

    class Meta:
        model = Source
        fields = ["title", "date", "holder", "shelf_mark", "grade", "personal_data", "note"]
        formfield_callback = words_of_model
        widgets = {"note": forms.Textarea(attrs={"rows": 3}), "grade": forms.RadioSelect}

    def __init__(self, *args, kind: SourceKind, **kwargs):
        super().__init__(*args, **kwargs)
        called = FIND_AGAIN[kind]
        self.fields["title"].label = "What it is, in a line"
        self.fields["title"].help_text = "Its title, or what stands on it, with its number where it has one."
        self.fields["title"].error_messages["required"] = "Say what it is."
        for name in ("date", "holder", "shelf_mark"):
            field, words = self.fields[name], getattr(called, name)
            field.label, field.help_text, field.required = words, "", name in called.needed
            field.error_messages["required"] = f"It cannot be found again without: {words[0].lower()}{words[1:]}."
        self.fields["date"].help_text = DATE_HELP
        self.fields["holder"].help_text = WHO_HELP.get(kind, "")
        self.fields["grade"].label = "How good it is"
        self.fields["grade"].choices = Grade.choices
        self.fields["grade"].error_messages["required"] = "Choose how good it is."
        self.fields["personal_data"].label = "Holds names or faces of private persons"
        self.fields["personal_data"].help_text = "They are masked before anything of it is shown."
        self.fields["note"].label = "What else should be known of it"
        self.instance.kind = kind


class TakenBackForm(forms.Form):
    """Why a source is taken back."""

    reason = reason_field("Why", reader="writer")

    def __init__(self, *args, **kwargs):
        super().__init__(*args, **kwargs)
        self.fields["reason"].help_text = "Who added it reads it, and it stays in the list of sources that were added."
