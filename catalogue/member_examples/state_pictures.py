"""Photographs of a feature's states on accepted pieces: one query, however many states and pieces there are."""

from collections.abc import Collection

from django.db.models import Case, F, Value, When, Window
from django.db.models.functions import RowNumber

from catalogue.member_examples.evidence import Evidence
from catalogue.member_examples.gallery import SHOTS_OF_VIEW
from catalogue.member_examples.models import Photograph
from catalogue.member_examples.pictures import Picture, picture_of
from catalogue.member_examples.submitting.wanted import SHOT_OF_REGION, shot_of_feature
from catalogue.member_examples.words import ExampleState, Shot
from catalogue.reference.facts import FeatureFacts

# So many photographs of a state are shown, out of so many pieces with photographs. Ours; no source.
SHOWN, LOOKED_THROUGH = 3, 24
OF_ONE_PART = {shot for _, shot in SHOT_OF_REGION}


def shots_showing(feature: FeatureFacts) -> list[str]:
    """The standard photographs in which the feature can be made out, closest first. One of the whole garment shows
    what lies nowhere in particular."""
    close = shot_of_feature(feature)
    shots = [] if close == Shot.OTHER else [close]
    for place in feature.places:
        shots += [shot for shot in SHOTS_OF_VIEW.get(place.view, ()) if shot not in OF_ONE_PART]
    return list(dict.fromkeys(shots)) or [Shot.FRONT]


def fronts_of(codes: Collection[str]) -> dict[str, Picture]:
    """By piece its photograph of the whole front, of those that every reader may see; the first where there are
    several. One query."""
    rows = (
        Photograph.objects.filter(
            example__code__in=codes, example__state=ExampleState.ACCEPTED, hidden=False, view=Shot.FRONT
        )
        .annotate(piece=F("example__code"))
        .order_by("-position", "-pk")
    )
    return {row.piece: picture for row in rows if (picture := picture_of(row))} if codes else {}


def pictures_of_states(evidence: Evidence, feature: FeatureFacts) -> dict[str, list[tuple[str, Picture]]]:
    """By state at most three pieces that show it, each by its photograph that shows the feature best.

    Only photographs that every reader may see. A picture of another part of the piece is none of the state.
    """
    pieces = evidence.pictured_showing(feature.code)
    codes = {state: [piece.code for piece in found[:LOOKED_THROUGH]] for state, found in pieces.items()}
    wanted = [code for found in codes.values() for code in found]
    if not wanted:
        return {}
    shots = shots_showing(feature)
    ranks = [When(view=Shot.OTHER, caption=feature.name, then=Value(0))]
    ranks += [When(view=shot, then=Value(rank)) for rank, shot in enumerate(shots, start=1)]
    best = (
        Photograph.objects.filter(example__code__in=wanted, example__state=ExampleState.ACCEPTED, hidden=False)
        .annotate(rank=Case(*ranks, default=None))
        .filter(rank__isnull=False)
        .annotate(
            place=Window(RowNumber(), partition_by=F("example_id"), order_by=[F("rank"), F("position"), F("pk")]),
            piece=F("example__code"),
        )
        .filter(place=1)
    )
    by_piece = {row.piece: (row.rank, picture) for row in best if (picture := picture_of(row))}
    found = {}
    for state, those in codes.items():
        there = sorted((by_piece[code][0], code) for code in those if code in by_piece)
        if there:
            found[state] = [(code, by_piece[code][1]) for _, code in there[:SHOWN]]
    return found
