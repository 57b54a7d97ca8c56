"""The glossary of features: what is asked, what can be seen, where to look, and how people get it wrong."""

from urllib.parse import quote

from django.urls import reverse

from catalogue.reference.marked_spots import marked_facts
from catalogue.reference.models import Feature, FeatureState
from catalogue.reference.nearest import near_codes
from catalogue.reference.photographed import with_states
from catalogue.reference.regions import VIEW_WORDS, region_words
from catalogue.reference.words import FeatureKind

NO_GROUP = "other features"


def glossary() -> list[dict]:
    """The features under their groups, in the society's order, each group with a page of its own."""
    features = with_states(Feature.objects.all()).prefetch_related(
        "shown_when", "places__garment_type", "type_features"
    )
    groups: dict[str, list[dict]] = {}
    for feature in features.order_by("position", "code"):
        groups.setdefault(feature.group or NO_GROUP, []).append(entry(feature))
    return [
        {"name": name, "anchor": f"group-{n}", "address": group_address(name), "entries": rows}
        for n, (name, rows) in enumerate(groups.items(), 1)
    ]


def group_address(name: str) -> str:
    return reverse("reference:feature_group", args=[name])


def feature_address(feature: Feature) -> str:
    """Where a feature is explained, on the page of its group."""
    return f"{group_address(feature.group or NO_GROUP)}#{feature.code}"


def group_page(groups: list[dict], asked: str) -> dict | None:
    """The group of that name with those before and after it; None where there is none."""
    place = next((n for n, group in enumerate(groups) if group["name"] == asked), None)
    if place is None:
        return None
    after = groups[place + 1] if place + 1 < len(groups) else None
    return {"group": groups[place], "before": groups[place - 1] if place else None, "after": after}


def address_of_feature(groups: list[dict], code: str) -> str:
    """Where a feature is explained; empty where there is none of that code."""
    found = (group["address"] for group in groups if any(one["code"] == code for one in group["entries"]))
    return next((f"{address}#{quote(code)}" for address in found), "")


def near_features(groups: list[dict], asked: str) -> list[dict]:
    """Features with nearly that code, with where they are explained."""
    names = {one["code"]: one["name"] for group in groups for one in group["entries"]}
    found = near_codes(asked, names)
    return [{"address": address_of_feature(groups, code), "words": f"{code}: {names[code]}"} for code in found]


def entry(feature: Feature) -> dict:
    return {
        "code": feature.code,
        "name": feature.name,
        "question": feature.question,
        "seen": feature.get_seen_display(),
        "where": " · ".join(dict.fromkeys(place_words(place) for place in feature.places.all())),
        "only": only_where(feature),
        "unused": not feature.type_features.all(),
        "states": [
            {
                "code": s.code,
                "words": state_words(s, feature),
                "explained": s.explained,
                "drawing": s.drawing,
                "photograph": marked_facts(s),
            }
            for s in feature.states.all()
        ],
        "photograph": marked_facts(feature),
        "error_note": feature.error_note,
        "error": f"{feature.error * 100:.0f} in 100",
        "service": feature.get_service_change_display(),
        "change_note": feature.change_note,
        "basis": feature.basis,
        "history": reverse("feature_records:history", args=[feature.code]),
    }


def place_words(place) -> str:
    """The view and the place; a place of one type only names the type."""
    view = VIEW_WORDS.get(place.view, place.view.replace("_", " "))
    garment = place.garment_type
    region = region_words(garment.garment_class, place.view, place.region) if garment else region_of_any(place)
    return f"{view}: {region}" + (f" ({garment.name.lower()})" if garment else "")


def region_of_any(place) -> str:
    """The region as a jacket has it, the commonest class; its bare name where a jacket has none."""
    return region_words("jacket", place.view, place.region)


def only_where(feature: Feature) -> str:
    if feature.parent is None:
        return ""
    states = " or ".join(state.label.lower() for state in feature.shown_when.all())
    return f"{feature.parent.name.lower()}: {states}" if states else feature.parent.name.lower()


def state_words(state: FeatureState, feature: Feature) -> str:
    """The state, with the band that counts as it where it is counted or measured."""
    band = band_words(state.low, state.high, feature.unit) if feature.kind != FeatureKind.CHOICE else ""
    return f"{state.label} ({band})" if band else state.label


def band_words(low: float | None, high: float | None, unit: str) -> str:
    """`from 4 mm`, `under 4 mm`, `2 to under 4 mm`; empty where there is no band."""
    end = f" {unit}" if unit else ""
    if low is None and high is None:
        return ""
    if high is None:
        return f"from {low:g}{end}"
    return f"under {high:g}{end}" if low is None else f"{low:g} to under {high:g}{end}"
