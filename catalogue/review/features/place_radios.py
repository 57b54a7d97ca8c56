"""Where to look, chosen by pictures: a radio button for each place, drawn on the outline of a garment that has it."""

from django import forms
from django.template.loader import render_to_string

from catalogue.figures.place_pictures import pictures_on


class PlaceRadios(forms.RadioSelect):
    """`outlines`: the garment classes on whose outlines the places are shown. `first`: of the rows on the page, the one
    that draws the outlines for all. Values are a type's code or nothing, view and region, `between` between them."""

    def __init__(self, *, outlines: tuple[str, ...], first: bool, between: str):
        super().__init__()
        self.outlines, self.first, self.between = outlines, first, between

    def render(self, name, value, attrs=None, renderer=None):
        outlines, pictures = pictures_on(self.outlines)
        groups = []
        for words, options, _ in self.optgroups(name, [str(value or "")], attrs):
            rows = [
                one | {"picture": pictures.get(tuple(str(one["value"]).split(self.between)[1:]), "")} for one in options
            ]
            groups.append({"words": words or "", "options": rows})
        chosen = [one["label"] for group in groups for one in group["options"] if one["selected"]]
        context = {
            "name": name,
            "groups": groups,
            "chosen": chosen[0] if chosen else "",
            "outlines": outlines.values() if self.first else (),
        }
        return render_to_string("review/features/place_radios.html", context)
