"""Drawings in templates.

Everything they print was written by the pen, which escapes every word from a record, or, where a society drew it
itself, anew by `own_drawings.read_drawing`, which writes shapes and numbers only.
"""

from django import template
from django.urls import reverse
from django.utils.html import format_html
from django.utils.safestring import SafeString, mark_safe

from catalogue.figures.composing import picture
from catalogue.figures.figure import (
    are_alike,
    drawn_views,
    figures_of,
    in_no_drawing,
    one_of_several,
    side_by_side,
)
from catalogue.figures.front_page import front_page_flat
from catalogue.figures.lost_parts import left_behind
from catalogue.figures.marked_pictures import close_picture
from catalogue.figures.outlines import outline_view, site_outline
from catalogue.figures.place_pictures import ViewOfPlaces, place_pictures
from catalogue.figures.shot_guides import shot_guide
from catalogue.figures.spots import check_spots, claim_spots, spot
from catalogue.figures.timelines import timeline_of_issuer, timeline_of_type
from catalogue.member_examples.dated import dates_of_versions
from catalogue.reference.marked_spots import MarkedFacts
from catalogue.reference.models import ReferenceState

register = template.Library()


@register.inclusion_tag("figures/version.html")
def version_figures(facts, version, number: int):
    """Every view of a version for which there is a drawing; nothing where there is none.

    `number`: the state of the reference, which the page has asked for already.
    """
    return shown(figures_of(facts, version, number=number))


@register.simple_tag
def views_calling(facts, version, number: int) -> dict[int, str]:
    """For each row of a version's profile the view in which its number stands, so that it can lead there."""
    return calling(figures_of(facts, version, number=number))


@register.filter
def calling(figures) -> dict[int, str]:
    """The same for views that the page has drawn already."""
    return {row: figure.view for figure in figures for row in figure.called}


@register.filter
def of_row(views: dict[int, str], row: int) -> str:
    return views.get(row, "")


@register.inclusion_tag("figures/version.html")
def given_figures(figures):
    """Views that the page has drawn already, such as those of an older record."""
    return shown(figures)


def shown(figures) -> dict:
    return {
        "figures": [{"figure": one, "svg": drawn(one.svg), "seconds": small_pictures(one.seconds)} for one in figures]
    }


def small_pictures(seconds) -> list[dict]:
    return [{"one": one, "svg": drawn(small(one.picture))} for one in seconds]


@register.simple_tag
def part_picture(
    feature: str, state: str, own: str = "", garment_class: str = "", photograph: MarkedFacts | None = None
) -> SafeString:
    """The small picture of a state, to stand before its words; nothing where none is drawn.

    `own`: the society's own drawing of the state. `garment_class`: what it is drawn on, where that makes a difference.
    `photograph`: stands in place of any drawing.
    """
    if photograph:
        return close_picture(photograph)
    inner = picture(feature, state, own, garment_class)
    return drawn(small(inner) if inner else "")


@register.simple_tag
def place_choices(garment_class: str, name: str) -> list[ViewOfPlaces]:
    """The places of a garment class with their pictures, for the field of that name: the first of a table's rows draws
    the outlines for all."""
    return place_pictures(garment_class, first="-0-" in name)


@register.filter
def as_drawing(svg: str) -> SafeString:
    """A whole drawing that the drawing board's context holds."""
    return drawn(svg)


@register.simple_tag
def front_flat() -> SafeString:
    """A jacket of no version with five numbered places, for the front page."""
    return drawn(front_page_flat())


@register.simple_tag
def lost_part(feature) -> dict:
    """What the feature's part leaves behind when it is lost, drawn and in words, for the answer that it is missing."""
    found = left_behind(feature.code)
    return {"svg": drawn(small(found.svg)), "words": found.words}


@register.simple_tag
def type_outline(code: str, garment_class: str, own_views) -> SafeString:
    """The bare outline of a garment type, to stand before its name; nothing where there is none.

    `own_views`: the views that the society has drawn itself.
    """
    if outline_view(garment_class, own_views) in own_views:
        return card(reverse("figures:type", args=[code]), lazy=True)
    return drawn(site_outline(garment_class))


@register.inclusion_tag("figures/compared.html")
def compared_figures(homes, versions, differing, partly=()):
    """The versions drawn side by side in every view in which they differ.

    `partly`: features in which they have some states in common, others not.
    """
    rows = side_by_side(homes, versions, differing, partly)
    return {
        "rows": [
            {"row": row, "cells": [{"svg": drawn(svg), "seconds": small_pictures(some)} for svg, some in row.drawings]}
            for row in rows
        ],
        "nowhere": in_no_drawing(homes, differing, rows),
        "alike": are_alike(rows),
        "columns": len(versions) + 1,
    }


def last_answers(walk) -> dict[str, str]:
    """What was said last of each feature: what was read back stands behind the first word."""
    return {code: texts[-1] for code, texts in walk.answers.items()}


@register.simple_tag
def spot_figure(facts, feature, walk) -> SafeString:
    """Where to look for a question, on the flat as far as it has been answered."""
    found = spot(facts, feature, last_answers(walk))
    return drawn(found.svg if found else "")


@register.simple_tag
def shot_figure(facts, wanted, walk) -> SafeString:
    """The drawn guide of a photograph that is asked for; nothing where the class has no drawing of its view."""
    found = shot_guide(facts, wanted.view, wanted.feature, last_answers(walk))
    return drawn(found.svg if found else "")


@register.simple_tag
def version_card(facts, code: str, *, lazy: bool = False) -> SafeString:
    """A version's front as a picture of its own; nothing where there is no drawing.

    It is fetched after all that matters more, but without waiting to be scrolled to: a page that is printed at once
    must have its pictures, and paper does not scroll. `lazy`: only when it comes into sight.
    """
    if "front" not in drawn_views(facts):
        return drawn("")
    return card(reverse("figures:version", args=[code, "front"]), lazy=lazy)


def card(address: str, *, lazy: bool) -> SafeString:
    when, how = ("loading", "lazy") if lazy else ("fetchpriority", "low")
    return format_html('<img class="card" src="{}" alt="" width="84" height="84" {}="{}">', address, when, how)


@register.simple_tag
def front_figure(facts, version) -> SafeString:
    """The first view of a version without call-outs."""
    return drawn(one_of_several(facts, version, "front", ()))


@register.inclusion_tag("figures/checks.html")
def check_figures(facts, checks, walk):
    """The places of the checks still worth making, on the flat as far as it has been answered."""
    return spotted(check_spots(facts, [row["feature"] for row in checks], last_answers(walk)))


@register.inclusion_tag("figures/checks.html")
def claim_figures(facts, version, checks):
    """The places of the checks on the flat of the version that a piece is said to be."""
    return spotted(claim_spots(facts, version, [row["feature"] for row in checks]))


def spotted(found) -> dict:
    return {"figures": [{"words": one.words, "svg": drawn(one.svg), "dashed": one.dashed} for one in found]}


@register.inclusion_tag("figures/timeline.html")
def timeline(facts, number=None):
    """A type's versions on a chart of years; nothing where none is dated. `number`: as for `issuer_timeline`."""
    number = ReferenceState.current_number() if number is None else number
    dates = dates_of_versions([facts], number=number)
    return charted(timeline_of_type(facts, number=number, dates=dates), facts.name)


@register.inclusion_tag("figures/timeline.html")
def issuer_timeline(issuer: str, types, number=None):
    """What an issuer gave out, on one chart of years. `number`: the state of the reference, if the page knows it."""
    number = ReferenceState.current_number() if number is None else number
    types = [facts for facts in types if facts.versions]
    dates = dates_of_versions(types, number=number)
    found = charted(timeline_of_issuer(issuer, types, number=number, dates=dates), issuer)
    return found | {"heading": "What it gave out, in the order of time"}


def charted(chart, name: str) -> dict:
    if not chart:
        return {}
    svg = drawn("".join((*chart.parts, *chart.narrow)))
    told = {"signs": chart.signs, "undated": chart.undated, "told": chart.told, "narrow": bool(chart.narrow)}
    return told | {"svg": svg, "name": name}


def small(inner: str) -> str:
    return f'<svg class="part" viewBox="0 0 96 64" aria-hidden="true">{inner}</svg>'


def drawn(svg: str) -> SafeString:
    return mark_safe(svg)  # noqa: S308 - written by the pen or by read_drawing, never as it was typed
