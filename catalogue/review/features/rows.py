"""A feature as rows that can be compared and kept as JSON, read from the tables, and what each row says in words."""

from collections.abc import Iterable, Mapping

from django.db.models import Prefetch

from catalogue.reference.glossary import band_words
from catalogue.reference.regions import VIEW_WORDS, region_words
from catalogue.reference.words import FeatureKind, Seen, ServiceChange
from catalogue.review.proposals.rules import row_of
from catalogue.review.proposals.words import STATE
from catalogue.review.words import share_words

Rows = dict[str, object]
# The fields of a feature in the order of the pages, with what a row of each is called.
FIELD_WORDS = {
    "name": "Trade word",
    "group": "Heading it stands under",
    "question": "Question",
    "kind": "How it is answered",
    "unit": "Unit",
    "spread": "Spread of measures",
    "types": "Garment types that it is asked of",
    "places": "Where to look",
    "seen": "How it is looked at",
    "effort": "Effort of looking",
    "error": "Chance of a wrong answer",
    "error_note": "Why people get it wrong",
    "service_change": "In service",
    "change_note": "What happens to it in service",
    "absent": "State that a lost part leaves",
    "loss": "Chance that the part was lost",
    "gain": "Chance that the part was added",
    "parent": "A detail of",
    "shown_when": "Only where that shows",
    "basis": "Standard or paper behind the term",
}
PLAIN = (
    "name", "group", "question", "kind", "unit", "spread", "seen", "effort", "error", "error_note", "service_change",
    "change_note", "loss", "gain", "basis",
)  # fmt: skip
LISTS = ("types", "places", "shown_when")
CHANCES = ("error", "loss", "gain")


def features_to_read(rows):
    """A queryset of Feature with all that its rows need; a migration's own models come here too."""
    of_type = rows.model._meta.get_field("type_features").related_model
    used = of_type.objects.select_related("garment_type").order_by("garment_type__position", "garment_type__code")
    return rows.select_related("parent", "absent_state").prefetch_related(
        "states", "shown_when", "places__garment_type", Prefetch("type_features", used, to_attr="used")
    )


def rows_of_feature(feature) -> Rows:
    """Every row of a feature that `features_to_read` has read; a state is a row of its own."""
    rows: Rows = {name: getattr(feature, name) for name in PLAIN}
    rows["types"] = [one.garment_type.code for one in feature.used]
    rows["places"] = [
        [place.garment_type.code if place.garment_type else "", place.view, place.region]
        for place in sorted(feature.places.all(), key=lambda one: (one.position, one.pk))
    ]
    rows["absent"] = feature.absent_state.code if feature.absent_state else ""
    rows["parent"] = feature.parent.code if feature.parent else ""
    rows["shown_when"] = sorted(state.code for state in feature.shown_when.all())
    found = {name: rows[name] for name in FIELD_WORDS}
    for state in sorted(feature.states.all(), key=lambda one: (one.position, one.code)):
        found[f"{STATE}{state.code}"] = state_row(state)
    return found


# Words that a state may have without: records made before they could be had say nothing of them.
ADDED_WORDS = ("explained", "label_says")


def state_row(state) -> dict:
    """A state as a row. One without an explanation says nothing of it, as the records say that were made before states
    could have one."""
    row = {name: getattr(state, name) for name in ("label", "low", "high", "drawing", "position")}
    return row | {name: said for name in ADDED_WORDS if (said := getattr(state, name, ""))}


def states_of(rows: Mapping[str, object]) -> dict[str, Mapping]:
    """The states by code, in their order."""
    found = {key.removeprefix(STATE): row for key, row in rows.items() if key.startswith(STATE) and row}
    return dict(sorted(found.items(), key=lambda pair: (pair[1]["position"], pair[0])))


def row_name(key: str) -> str:
    return f"State {key.removeprefix(STATE)}" if key.startswith(STATE) else FIELD_WORDS[key]


def row_in_words(key: str, value, rows: Mapping[str, object]) -> str:
    """What a row says; empty where it says nothing. `rows`: the whole feature that it is of."""
    if key.startswith(STATE):
        return state_in_words(value, rows) if value else ""
    if value in ("", []) or value is None:
        return ""
    if key in CHANCES:
        return share_words(value)
    if key == "places":
        return "; ".join(dict.fromkeys(place_in_words(place) for place in value))
    if key in LISTS:
        return ", ".join(value)
    if key == "absent":
        state = rows.get(f"{STATE}{value}")
        return str(state["label"]) if state else str(value)
    named = {"kind": FeatureKind, "seen": Seen, "service_change": ServiceChange}.get(key)
    if named:
        return str(named(value).label) if value in named.values else str(value)
    return f"{value:g}" if isinstance(value, float | int) else str(value)


def state_in_words(state: Mapping, rows: Mapping[str, object]) -> str:
    band = band_words(state["low"], state["high"], str(rows.get("unit", "")))
    drawn = "; the society's own drawing" if state["drawing"] else ""
    explained = f"; explained: {state['explained']}" if state.get("explained") else ""
    says = f"; its label says: {state['label_says']}" if state.get("label_says") else ""
    return f"{state['label']}{f' ({band})' if band else ''}{explained}{says}{drawn}"


def place_in_words(place: Iterable[str]) -> str:
    home, view, region = place
    words = f"{VIEW_WORDS.get(view, view.replace('_', ' '))}: {region_words('jacket', view, region)}"
    return f"{words} ({home})" if home else words


def differences(was: Mapping[str, object], now: Mapping[str, object]) -> list[dict]:
    """Each row that is different, in the order of the pages, with what it says on both sides."""
    keys = [key for key in dict.fromkeys((*FIELD_WORDS, *was, *now)) if row_of(was, key) != row_of(now, key)]
    return [
        {
            "key": key,
            "name": row_name(key),
            "before": row_in_words(key, row_of(was, key), was),
            "after": row_in_words(key, row_of(now, key), now),
        }
        for key in keys
    ]
