"""An author chooses by pictures how a state is drawn: like another state that the site draws.

What is chosen is copied into the state as the society's own drawing, so spreadsheets, records and proposals carry it
like any other, and it stays when the site's own drawings are drawn anew.
"""

from dataclasses import dataclass
from functools import cache
from hashlib import sha256

from django import forms

from catalogue.figures.composing import picture
from catalogue.figures.parts import PICTURE, all_parts
from catalogue.reference.models import FeatureState
from catalogue.reference.own_drawings import read_drawing
from catalogue.typed_words import WordsField

KEEP = "_keep"
# What the reader of own drawings leaves out, so that a copy would show less: letters, and colours of their own.
NOT_COPIED = ("<text", "fill=", "stroke=")


@dataclass(frozen=True)
class Offer:
    """A state whose picture may be taken: `value` is feature:state."""

    value: str
    words: str
    svg: str


@dataclass(frozen=True)
class Offers:
    """The states of one feature that are drawn by the site."""

    words: str
    offers: tuple[Offer, ...]


@cache
def copies() -> dict[str, str]:
    """The picture of every state that can be copied whole, as SVG text, by feature:state."""
    found = {}
    for feature, state in all_parts():
        drawn = picture(feature, state)
        if drawn and not any(mark in drawn for mark in NOT_COPIED):
            box = f"0 0 {PICTURE.w:g} {PICTURE.h:g}"
            found[f"{feature}:{state}"] = f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{box}">{drawn}</svg>'
    return found


def offers() -> list[Offers]:
    """Everything that may be chosen, under the names of the features that the society knows, those first."""
    rows = FeatureState.objects.select_related("feature").order_by("feature__position", "feature__code", "position")
    known = {f"{row.feature.code}:{row.code}": row for row in rows}
    groups: dict[str, list[Offer]] = {}
    order = {value: place for place, value in enumerate(known)}
    for value in sorted(copies(), key=lambda one: (order.get(one, len(order)), one)):
        feature, _, state = value.partition(":")
        row = known.get(value)
        heading = row.feature.name if row else in_words(feature)
        words = row.label if row else in_words(state)
        groups.setdefault(heading, []).append(Offer(value, words, small(copies()[value])))
    return [Offers(words, tuple(found)) for words, found in groups.items()]


def small(svg: str) -> str:
    """A copy as it stands before an answer: what the reader of own drawings makes of it."""
    drawing = read_drawing(svg)
    box = " ".join(f"{value:g}" for value in drawing.box)
    return f'<svg class="part" viewBox="{box}" aria-hidden="true">{drawing.markup}</svg>'


def in_words(code: str) -> str:
    return code.replace("_", " ").capitalize()


def told(drawing: str) -> str:
    """How a state is drawn, for its history."""
    if not drawing:
        return "as the site draws it"
    like = next((value for value, svg in copies().items() if svg == drawing), "")
    return f"like {like}" if like else "a drawing of the society's own"


def digest_of(drawing: str) -> str:
    """What a form carries of the drawing it showed."""
    return sha256(drawing.encode()).hexdigest()[:16]


class DrawingForm(forms.Form):
    """`like`: the feature:state whose picture is taken, nothing for the site's own, KEEP for no change."""

    like = WordsField(required=False, max_length=170)
    why = WordsField(max_length=500, error_messages={"required": "Say why: it is kept in the feature's history."})
    seen = WordsField(max_length=16)

    def clean_like(self) -> str:
        like = self.cleaned_data["like"]
        if like and like != KEEP and like not in copies():
            raise forms.ValidationError("There is no such picture. Choose one of these.")
        self.cleaned_data["drawing"] = copies().get(like, "")
        return like
