"""What an author fills in about a marked photograph."""

from django import forms

from catalogue.member_examples.submitting.forms import Words
from catalogue.member_examples.submitting.pictures import LICENCES
from catalogue.reference.marked_spots import LARGEST_RADIUS, SMALLEST_RADIUS

NO_FILE = "Choose a photograph."
NO_WHY = "Say why: it is kept in the feature's history."


def file_field() -> forms.FileField:
    return forms.FileField(
        label="Photograph",
        help_text="JPEG, PNG, WebP or HEIC. Place, camera and all else that the file tells beside the picture go.",
        error_messages={"required": NO_FILE, "empty": "The file is empty. Choose another.", "missing": NO_FILE},
    )


def why_field(*, required: bool = True) -> Words:
    field = Words(label="Why, and on what it rests", longest=500, required=required)
    field.error_messages["required"] = NO_WHY
    return field


def share_field(label: str, low: float, high: float, first: float) -> forms.FloatField:
    """A share of the picture in percent."""
    wrong = f"Write a number from {low * 100:g} to {high * 100:g}."
    return forms.FloatField(
        label=label,
        initial=f"{first * 100:g}",
        min_value=low * 100,
        max_value=high * 100,
        widget=forms.NumberInput(attrs={"step": "any", "inputmode": "decimal"}),
        error_messages={"required": wrong, "invalid": wrong, "min_value": wrong, "max_value": wrong},
    )


class WordsForm(forms.Form):
    """What the photograph shows and whose it is."""

    shows = Words(
        label="What is to be seen at the spot, in words",
        longest=300,
        required=True,
        help_text="For who cannot see it: say what tells this apart, as “the thread runs through two holes only”.",
    )
    credit = Words(label="Whose photograph is it?", longest=120, required=True, help_text="As they want to be named.")
    licence = forms.ChoiceField(choices=LICENCES, required=False, label="Who may use it?")
    drawn = forms.BooleanField(required=False, label="It is drawn, not photographed")

    def __init__(self, *args, **kwargs):
        super().__init__(*args, **kwargs)
        self.fields["shows"].error_messages["required"] = "Say what is to be seen: not everybody can see the picture."
        self.fields["credit"].error_messages["required"] = "Say whose photograph it is."

    @property
    def words(self) -> dict:
        return {name: self.cleaned_data[name] for name in ("shows", "credit", "licence", "drawn")}


class AddForm(WordsForm):
    """A first photograph of a feature or state."""

    file = file_field()
    why = why_field()
    field_order = ("file",)


class MarkForm(WordsForm):
    """The spot, in percent of the picture, and the words. `why` is asked once the photograph is shown."""

    x = share_field("From the left, in percent", 0, 1, 0.5)
    y = share_field("From above, in percent", 0, 1, 0.5)
    radius = share_field("From its middle to its edge, in percent", SMALLEST_RADIUS, LARGEST_RADIUS, 0.1)
    why = why_field()
    field_order = ("x", "y", "radius")

    def __init__(self, *args, is_shown: bool, **kwargs):
        super().__init__(*args, **kwargs)
        if not is_shown:
            del self.fields["why"]

    @property
    def spot(self) -> tuple[float, float, float]:
        x, y, radius = (self.cleaned_data[name] / 100 for name in ("x", "y", "radius"))
        return x, y, radius

    def shown_spot(self) -> tuple[float, float, float]:
        """The spot as it was sent, as far as that was read; what was not stands where the form began."""
        read = getattr(self, "cleaned_data", {})
        x, y, radius = (
            float(read.get(name, self.get_initial_for_field(self.fields[name], name))) / 100
            for name in ("x", "y", "radius")
        )
        return x, y, radius


class ReplaceForm(forms.Form):
    file = file_field()
    why = why_field()


class RemoveForm(forms.Form):
    why = why_field()
