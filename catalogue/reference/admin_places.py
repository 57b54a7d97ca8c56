"""Where to look, and how a state is drawn, chosen and seen by pictures in the form of a feature.

The pictures are drawn by a later slice, which only templates may call.
"""

from django import forms
from django.contrib import admin
from django.template.loader import render_to_string

from catalogue.reference.admin_rows import BlocksOfRows, Rows
from catalogue.reference.models import FeaturePlace, FeatureState, GarmentType
from catalogue.reference.regions import all_regions, garment_classes

AS_TYPED = "As typed"


class PlacePictures(forms.RadioSelect):
    """A place as a radio button with its picture: the outline with the place marked.

    `garment_class`: whose outline. `others`: the classes among which another may be asked for.
    """

    garment_class: str = ""
    others: tuple[str, ...] = ()

    def render(self, name, value, attrs=None, renderer=None):
        context = {
            "name": name,
            "value": value or "",
            "garment_class": self.garment_class,
            "others": self.others,
            "as_typed": AS_TYPED,
        }
        return render_to_string("admin/catalogue/place_pictures.html", context)


class PlaceForm(forms.ModelForm):
    """A place, typed, or chosen by its picture, which then counts."""

    outline = ""  # the class asked for in the address
    picked = forms.ChoiceField(required=False, label="By picture", widget=PlacePictures)

    class Meta:
        model = FeaturePlace
        fields = ("garment_type", "view", "region", "picked", "position")

    def __init__(self, *args, **kwargs):
        super().__init__(*args, **kwargs)
        field = self.fields["picked"]
        classes = classes_of(self.instance)
        asked = self.outline if self.outline in garment_classes() else ""
        field.widget.garment_class = asked or classes[0]
        field.widget.others = classes
        regions = [key for key in all_regions() if key[0] == field.widget.garment_class]
        # What was picked on the page of another outline is still a place; the table's own check speaks of it.
        field.choices = [("", AS_TYPED), *((f"{view}:{code}", code) for _, view, code in all_regions())]
        field.help_text = "" if regions else "There are no outlines of this garment."
        for name in ("view", "region"):
            self.fields[name].required = False

    def clean(self):
        given = super().clean()
        if picked := given.get("picked"):
            given["view"], _, given["region"] = picked.partition(":")
        for name in ("view", "region"):
            if not given.get(name) and name not in self.errors:
                self.add_error(name, f"Type a {name}, or choose a place by its picture.")
        return given


def classes_of(place: FeaturePlace) -> tuple[str, ...]:
    """The garment classes on whose outlines the place may be chosen: of its type, or of all that use the feature."""
    if place.garment_type_id:
        found = [place.garment_type.garment_class]
    elif place.feature_id:
        users = GarmentType.objects.filter(features=place.feature_id).order_by("position", "code")
        found = list(dict.fromkeys(users.values_list("garment_class", flat=True)))
    else:
        found = []
    known = tuple(one for one in found if one in garment_classes())
    return known or garment_classes()


class PlaceRows(BlocksOfRows):
    """One below the other, so that the pictures have the width of the page."""

    model = FeaturePlace
    form = PlaceForm
    fields = ("garment_type", "view", "region", "picked", "position")

    def get_formset(self, request, obj=None, **kwargs):
        """The address may ask for the outline of another garment: `?outline=`."""
        outline = request.GET.get("outline", "")[:40]
        kwargs["form"] = type("PlaceForm", (self.form,), {"outline": outline})
        return super().get_formset(request, obj, **kwargs)


class StatePictures(Rows):
    """Rows of states, each of which shows how answers draw it."""

    readonly_fields = ("drawn",)
    fields = ("drawn", "code", "label", "explained", "label_says", "low", "high", "drawing", "position")

    @admin.display(description="drawn so")
    def drawn(self, state: FeatureState) -> str:
        return render_to_string("admin/catalogue/state_picture.html", {"state": state}) if state.pk else ""
