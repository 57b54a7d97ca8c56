"""Faults of types, features and states that only show when files are held beside one another."""

from collections.abc import Mapping, Sequence

from catalogue.reference.circles import begun_with, circles
from catalogue.reference.models import Feature, FeatureState, GarmentType
from catalogue.reference.regions import all_regions, garment_classes
from catalogue.reference.spreadsheets.code_checks import Known
from catalogue.reference.spreadsheets.faults import Fault, nearest
from catalogue.reference.spreadsheets.order import positions
from catalogue.reference.spreadsheets.reading import Folder, Row
from catalogue.reference.words import FeatureKind

Band = tuple[float | None, float | None]


def check_types(folder: Folder, known: Known) -> list[Fault]:
    """The outline of a type is one that can be drawn, or none."""
    faults = []
    for row in folder.rows.get("types", []):
        outline = str(row["garment_class"])
        if outline and "garment_class" not in row.faulty and outline not in garment_classes():
            wanted = f"empty or one of {', '.join(garment_classes())}"
            near = nearest(outline, garment_classes())
            faults.append(Fault("types.csv", row.line, "garment_class", outline, wanted, near))
    return faults


def check_features(folder: Folder, known: Known) -> list[Fault]:
    """What a lost part leaves is a state of the feature; what shows a detail are states of its parent."""
    if "states" in folder.unreadable:
        return []
    faults = []
    for row in folder.rows.get("features", []):
        states = known.states.get(str(row["feature"]), set())
        absent = str(row["absent"])
        if absent and absent not in states and "absent" not in row.faulty:
            wanted = f"empty or a state of {row['feature']}: {', '.join(sorted(states))}"
            faults.append(Fault("features.csv", row.line, "absent", absent, wanted, nearest(absent, states)))
        if not {"parent", "shown_when"} & row.faulty:
            faults += check_parent_states(row, known)
    return faults


def check_choices(folder: Folder, known: Known) -> list[Fault]:
    """What is answered by choice has a state at least."""
    if "states" in folder.unreadable:
        return []
    wanted = "a feature with a line for each of its answers in states.csv"
    return [
        Fault("features.csv", row.line, "feature", str(row["feature"]), wanted)
        for row in folder.rows.get("features", [])
        if row["kind"] == FeatureKind.CHOICE and not row.faulty and not known.states.get(str(row["feature"]))
    ]


def check_parent_states(row: Row, known: Known) -> list[Fault]:
    parent, shown = str(row["parent"]), row["shown_when"]
    states = known.states.get(parent, set())
    if parent == row["feature"]:  # told as a circle
        return []
    if not parent:
        wanted = "empty, where there is no parent"
        return [Fault("features.csv", row.line, "shown_when", "|".join(shown), wanted)] if shown else []
    wanted = f"states of {parent}, | between: {', '.join(sorted(states))}"
    if not shown:
        return [Fault("features.csv", row.line, "shown_when", "", wanted)]
    return [
        Fault("features.csv", row.line, "shown_when", state, wanted, nearest(state, states))
        for state in shown
        if state not in states
    ]


def check_places(folder: Folder, known: Known) -> list[Fault]:
    """Each place is a region of the outline of every type that looks there; one fault a place."""
    if "types" in folder.unreadable:
        return []
    outlines = outline_of_types(folder)
    uses = types_using(folder)
    return [
        fault
        for row in folder.rows.get("features", [])
        if "places" not in row.faulty
        for fault in check_places_of(row, outlines, uses.get(str(row["feature"]), set()))
    ]


def outline_of_types(folder: Folder) -> dict[str, str]:
    outlines = dict(GarmentType.objects.values_list("code", "garment_class"))
    return outlines | {str(row["type"]): str(row["garment_class"]) for row in folder.rows.get("types", [])}


def types_using(folder: Folder) -> dict[str, set[str]]:
    """Types by feature, those of the files as the files say."""
    given = {str(row["type"]): row["features"] for row in folder.rows.get("types", []) if row["features"]}
    uses: dict[str, set[str]] = {}
    for feature, code in Feature.objects.filter(garment_types__isnull=False).values_list("code", "garment_types__code"):
        if code not in given:
            uses.setdefault(feature, set()).add(code)
    for code, features in given.items():
        for feature in features:
            uses.setdefault(feature, set()).add(code)
    return uses


def check_places_of(row: Row, outlines: Mapping[str, str], users: set[str]) -> list[Fault]:
    faults = []
    own = {home for home, _, _ in row["places"] if home}
    for home, view, region in row["places"]:
        if home and home not in outlines:
            wanted = "a type of types.csv before ="
            faults.append(Fault("features.csv", row.line, "places", home, wanted, nearest(home, outlines)))
            continue
        homes = [home] if home else sorted(users - own)
        for outline in sorted({outlines.get(code, "") for code in homes} & set(garment_classes())):
            regions = {key[2] for key in all_regions() if key[0] == outline and view in (key[1], "any")}
            if region not in regions:
                wanted = f"a region of the {view} view of a {outline}"
                found = f"{view}:{region}"
                faults.append(Fault("features.csv", row.line, "places", found, wanted, nearest(region, regions)))
                break
    return faults


def check_bands(folder: Folder, known: Known) -> list[Fault]:
    """Bands of one feature run upward without gaps, and stand on all of its states or on none."""
    by_feature: dict[str, dict[str, Row]] = {}
    for row in folder.rows.get("states", []):
        by_feature.setdefault(str(row["feature"]), {})[str(row["state"])] = row
    held: dict[str, dict[str, FeatureState]] = {}
    for state in FeatureState.objects.filter(feature__code__in=by_feature).select_related("feature"):
        held.setdefault(state.feature.code, {})[state.code] = state
    faults = []
    for feature, rows in by_feature.items():
        if any(row.faulty for row in rows.values()):
            continue
        own = held.get(feature, {})
        places = positions({code: state.position for code, state in own.items()}, list(rows))
        in_order = sorted(places, key=lambda code: places[code])
        bands = [
            (rows[code]["low"], rows[code]["high"]) if code in rows else (own[code].low, own[code].high)
            for code in in_order
        ]
        place = first_break(bands)
        if place is not None:
            row = rows.get(in_order[place], next(reversed(rows.values())))
            low, high = ("" if end is None else f"{end:g}" for end in bands[place])
            wanted = "bands that run upward without a gap, each beginning where the one before ends"
            faults.append(Fault("states.csv", row.line, "low", f"{low}–{high}", wanted))
    return faults


def first_break(bands: Sequence[Band]) -> int | None:
    """Place of the first band that does not go on where the one before ends; None where all do or there is none."""
    if all(low is None and high is None for low, high in bands):
        return None
    ends = None
    for place, (low, high) in enumerate(bands):
        if low is None or (ends is not None and low != ends) or (high is not None and high <= low):
            return place
        ends = float("inf") if high is None else high
    return None


def check_parents(folder: Folder, known: Known) -> list[Fault]:
    """No feature is a detail of its own, by however many steps."""
    parents = {code: [parent] for code, parent in Feature.objects.values_list("code", "parent__code") if parent}
    rows = folder.rows.get("features", [])
    parents |= {str(row["feature"]): [row["parent"]] for row in rows if row["parent"] and "parent" not in row.faulty}
    for row in rows:
        if not row["parent"]:
            parents.pop(str(row["feature"]), None)
    return circle_faults("features", ["parent"], rows, circles(parents))


def circle_faults(sheet: str, columns: Sequence[str], rows: list[Row], found: list[list[str]]) -> list[Fault]:
    """One fault for each circle, at the first of its rows in the file, in the column that leads to the next code."""
    key = sheet.removesuffix("s")
    faults = []
    for circle in found:
        row = next((row for row in rows if row[key] in circle), None)
        if row:
            words = begun_with(str(row[key]), circle)
            above = words.split(" → ")[1]
            column = next((one for one in columns if above in as_codes(row[one])), columns[0])
            faults.append(Fault(f"{sheet}.csv", row.line, column, words, "a line without a circle"))
    return faults


def as_codes(value: object) -> tuple[str, ...]:
    return value if isinstance(value, tuple) else (str(value),)
