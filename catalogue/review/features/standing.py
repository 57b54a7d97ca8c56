"""A feature as a proposal sees it: how it stands, what it may become, and the writing of what was approved."""

from collections.abc import Mapping

from django.core.exceptions import ValidationError
from django.db.models import Max

from catalogue.accounts.models import Member
from catalogue.member_examples.actions import NotDone
from catalogue.member_examples.models import Observation
from catalogue.reference.codes import FEATURE as FEATURE_CODE
from catalogue.reference.codes import alike, fault_in_code
from catalogue.reference.models import (
    Feature,
    FeaturePlace,
    FeatureState,
    GarmentType,
    ProfileCell,
    ReferenceState,
    TypeFeature,
    VersionRecord,
)
from catalogue.reference.plurals import counted
from catalogue.reference.regions import fault_of_place
from catalogue.reference.spreadsheets.garment_checks import first_break
from catalogue.reference.words import FeatureKind
from catalogue.review.features.recording import record_features
from catalogue.review.features.rows import (
    ADDED_WORDS,
    FIELD_WORDS,
    PLAIN,
    Rows,
    features_to_read,
    rows_of_feature,
    states_of,
)
from catalogue.review.models import FeatureRecord
from catalogue.review.proposals.rules import row_of


def rows_of(feature: Feature) -> Rows:
    """Every row of it as the tables have it now."""
    return rows_of_feature(features_to_read(Feature.objects.filter(pk=feature.pk)).get())


def reason_not_to_call_it(code: str) -> str | None:
    """Why a new feature cannot have the code, in words."""
    if fault := fault_in_code(code, FEATURE_CODE):
        return f"Not a usable code: {fault}."
    if other := Feature.objects.filter(code__iexact=code).first():
        return f"There is a feature {other.code} already. Propose a change of it, or choose another code."
    return None


def check_rows(rows: Rows, base: Rows, feature: Feature | None, code: str) -> None:
    """Raises NotDone in words where the feature, with these rows, could not be. `feature`: None for a new one."""
    whole = complete({**base, **rows})
    states = states_of(whole)
    check_fields(whole, feature, code)
    if feature is not None and (words := rests_on(feature, whole)):
        raise NotDone(words)
    check_states(whole, states)
    check_places(whole)
    if whole["absent"] and whole["absent"] not in states:
        raise NotDone(f"A lost part leaves “{whole['absent']}”, which is no state of this feature: {listed(states)}.")
    check_parent(whole, code)


def complete(rows: Rows) -> Rows:
    """With every field; what is empty is not kept in a proposal."""
    return {name: row_of(rows, name) for name in FIELD_WORDS} | rows


def check_fields(whole: Rows, feature: Feature | None, code: str) -> None:
    for needed, words in (("name", "A feature needs its trade word."), ("question", "A feature needs its question.")):
        if not row_of(whole, needed):
            raise NotDone(words)
    if not row_of(whole, "types"):
        raise NotDone("Choose the garment types of which it is asked.")
    one = Feature(pk=feature.pk if feature else None, code=code, **{name: whole[name] for name in PLAIN})
    try:
        one.full_clean(exclude=["absent_state", "parent"], validate_unique=feature is None)
    except ValidationError as fault:
        told = [
            f"{FIELD_WORDS[name]}: {' '.join(words)}" if name in FIELD_WORDS else " ".join(words)
            for name, words in fault.message_dict.items()
        ]
        raise NotDone(" ".join(told)) from fault


def check_states(whole: Rows, states: Mapping[str, Mapping]) -> None:
    if whole["kind"] == FeatureKind.CHOICE and len(states) < 2:
        raise NotDone("Two states at least: otherwise there is nothing to choose between.")
    seen: dict[str, str] = {}
    for code, state in states.items():
        if fault := fault_in_code(code):
            raise NotDone(f"State “{code}”: {fault}.")
        if other := seen.get(alike(code)):
            raise NotDone(f"The states {other} and {code} have one code, whatever its capitals.")
        seen[alike(code)] = code
        if not state["label"]:
            raise NotDone(f"State {code}: write down what is seen.")
    if first_break([(state["low"], state["high"]) for state in in_order(states)]) is not None:
        raise NotDone(
            "Bands run upward without a gap, each beginning where the one before ends, on all states or none."
        )


def in_order(states: Mapping[str, Mapping]) -> list[Mapping]:
    """Bands by their lower end; others as they stand."""
    found = list(states.values())
    return sorted(found, key=lambda one: one["low"]) if all(one["low"] is not None for one in found) else found


def check_places(whole: Rows) -> None:
    outlines = dict(GarmentType.objects.values_list("code", "garment_class"))
    if gone := [code for code in whole["types"] if code not in outlines]:
        raise NotDone(f"There is no garment type {gone[0]}.")
    if len(whole["places"]) != len({tuple(place) for place in whole["places"]}):
        raise NotDone("A place stands there twice.")
    own = {home for home, _, _ in whole["places"] if home}
    for home, view, region in whole["places"]:
        homes = [home] if home else [code for code in whole["types"] if code not in own]
        if fault := fault_of_place(view, region, [outlines.get(code, "") for code in homes]):
            raise NotDone(f"Where to look: {fault[1]}")


def check_parent(whole: Rows, code: str) -> None:
    parent, shown = whole["parent"], whole["shown_when"]
    if not parent:
        if shown:
            raise NotDone(
                "“Only where that shows” names states of the feature that it is a detail of: choose it first."
            )
        return
    above = dict(Feature.objects.filter(parent__isnull=False).values_list("code", "parent__code"))
    line, at = [code], parent
    while at:
        if at in line:
            raise NotDone(f"It would be a detail of itself: {' → '.join([*line, at])}.")
        line.append(at)
        at = above.get(at, "")
    known = set(FeatureState.objects.filter(feature__code=parent).values_list("code", flat=True))
    if not known:
        raise NotDone(f"There is no feature {parent}.")
    if not shown or set(shown) - known:
        raise NotDone(f"Say under which states of {parent} it is asked: {listed(sorted(known))}.")


def listed(codes) -> str:
    return ", ".join(codes) or "it has none"


def rests_on(feature: Feature, wanted: Rows) -> str | None:
    """What holds a state, or a garment type, that would go, in words."""
    states = set(states_of(wanted))
    for state in feature.states.exclude(code__in=states).select_related("photograph"):
        cells = ProfileCell.objects.filter(state=state).values("record__version").distinct().count()
        looks = Observation.objects.filter(state=state).values("example").distinct().count()
        if cells or looks:
            return f"“{state.label}” stays: {resting(cells, looks)} it."
        if hasattr(state, "photograph"):
            return f"“{state.label}” stays: it has a photograph, which has to be taken out first."
        if Feature.objects.exclude(pk=feature.pk).filter(shown_when=state).exists():
            return f"“{state.label}” stays: another feature is asked only where it shows."
    for home in GarmentType.objects.filter(features=feature).exclude(code__in=wanted["types"]):
        own = {"record__version__garment_type": home, "state__feature": feature}
        cells = ProfileCell.objects.filter(**own).values("record__version").distinct().count()
        seen = Observation.objects.filter(feature=feature, example__garment_type=home)
        looks = seen.values("example").distinct().count()
        if cells or looks:
            return f"It stays with {home.name}: {resting(cells, looks)} it."
    return None


def resting(cells: int, looks: int) -> str:
    parts = [counted(cells, "version")] * bool(cells) + [counted(looks, "piece")] * bool(looks)
    return f"{' and '.join(parts)} {'rests' if cells + looks == 1 else 'rest'} on"


def write_rows(
    *, feature: Feature | None, code: str, rows: Rows, author: Member, why: str
) -> tuple[Feature, FeatureRecord]:
    """The feature with these rows changed, or made, as an approved record; the reference has moved on."""
    base = rows_of(feature) if feature else {}
    whole = complete({**base, **rows})
    plain = {name: whole[name] for name in PLAIN}
    if feature is None:
        last = Feature.objects.aggregate(last=Max("position"))["last"]
        feature = Feature.objects.create(code=code, position=0 if last is None else last + 1, **plain)
    else:
        Feature.objects.filter(pk=feature.pk).update(**plain, absent_state=None)
    write_states(feature, states_of(whole))
    keys = dict(feature.states.values_list("code", "pk"))
    parent = Feature.objects.get(code=whole["parent"]) if whole["parent"] else None
    Feature.objects.filter(pk=feature.pk).update(absent_state=keys.get(whole["absent"]), parent=parent)
    feature.shown_when.set(parent.states.filter(code__in=whole["shown_when"]) if parent else [])
    write_places(feature, whole["places"])
    write_types(feature, whole["types"])
    feature.refresh_from_db()
    standing = VersionRecord.Standing.APPROVED
    made = record_features(by=author, why=why, standing=standing, only=feature.code)
    if not made:
        raise NotDone("All of this stands already.")
    ReferenceState.mark_changed()
    return feature, made[0]


def write_states(feature: Feature, wanted: Mapping[str, Mapping]) -> None:
    feature.states.exclude(code__in=wanted).delete()
    for code, state in wanted.items():
        whole = {**dict.fromkeys(ADDED_WORDS, ""), **state}
        FeatureState.objects.update_or_create(feature=feature, code=code, defaults=whole)


def write_places(feature: Feature, wanted) -> None:
    homes = dict(GarmentType.objects.values_list("code", "pk"))
    feature.places.all().delete()
    FeaturePlace.objects.bulk_create(
        FeaturePlace(feature=feature, garment_type_id=homes.get(home), view=view, region=region, position=place)
        for place, (home, view, region) in enumerate(wanted)
    )


def write_types(feature: Feature, wanted) -> None:
    """A type of which it is newly asked asks it last."""
    feature.type_features.exclude(garment_type__code__in=wanted).delete()
    held = set(feature.type_features.values_list("garment_type__code", flat=True))
    for home in GarmentType.objects.filter(code__in=set(wanted) - held):
        last = home.type_features.aggregate(last=Max("position"))["last"]
        TypeFeature.objects.create(garment_type=home, feature=feature, position=0 if last is None else last + 1)


def new_rows(home: GarmentType, name: str) -> Rows:
    """What a new feature begins with."""
    bare = Feature(name=name)
    rows: Rows = {field: getattr(bare, field) for field in PLAIN}
    rows |= {"types": [home.code], "places": [], "absent": "", "parent": "", "shown_when": []}
    return {field: rows[field] for field in FIELD_WORDS}
