"""Do the files fit one another, and what the site holds already? Every misfit is a fault with its place."""

from collections.abc import Mapping
from dataclasses import dataclass

from catalogue.reference.models import (
    Colourway,
    Cut,
    Feature,
    FeatureState,
    GarmentType,
    Issuer,
    IssueVersion,
    Maker,
    NumberForm,
    OpenQuestion,
    Source,
    VersionAncestor,
)
from catalogue.reference.regions import all_regions, garment_classes
from catalogue.reference.spreadsheets.layout import SHEET_BY_NAME, SHEETS, Sheet
from catalogue.reference.spreadsheets.reading import Fault, Folder, Row, nearest
from catalogue.reference.words import AncestorRole

CODED = {
    "issuers": Issuer,
    "makers": Maker,
    "sources": Source,
    "cuts": Cut,
    "colourways": Colourway,
    "types": GarmentType,
    "features": Feature,
    "versions": IssueVersion,
    "number_forms": NumberForm,
    "open_questions": OpenQuestion,
}


@dataclass
class Known:
    """Codes by sheet: those of the database and every one met in the folder, on a faulty row too."""

    codes: dict[str, set[str]]
    states: dict[str, set[str]]

    def resolves(self, sheet: str, code: str, folder: Folder) -> bool:
        """References into a file that could not be read are not complained about: that file's fault is enough."""
        return sheet in folder.unreadable or code in self.codes[sheet]


def known_codes(folder: Folder) -> Known:
    codes = {name: set(model.objects.values_list("code", flat=True)) for name, model in CODED.items()}
    for name in CODED:
        key = SHEET_BY_NAME[name].key[0]
        codes[name] |= {str(row[key]) for row in folder.rows.get(name, [])}
    states: dict[str, set[str]] = {}
    for feature, state in FeatureState.objects.values_list("feature__code", "code"):
        states.setdefault(feature, set()).add(state)
    for row in folder.rows.get("states", []):
        states.setdefault(str(row["feature"]), set()).add(str(row["state"]))
    return Known(codes, states)


def check_folder(folder: Folder) -> list[Fault]:
    """Every fault of the folder, those of reading first, in the order of file and line."""
    known = known_codes(folder)
    faults = list(folder.faults)
    for sheet in SHEETS:
        for row in folder.rows.get(sheet.name, []):
            faults += check_references(sheet, row, known, folder)
    faults += check_types(folder)
    faults += check_features(folder, known)
    faults += check_bands(folder)
    faults += check_circles(folder)
    faults += check_profiles(folder, known)
    faults += check_spans(folder)
    order = {sheet.file: i for i, sheet in enumerate(SHEETS)}
    return sorted(faults, key=lambda fault: (order.get(fault.file, -1), fault.line))


def check_references(sheet: Sheet, row: Row, known: Known, folder: Folder) -> list[Fault]:
    faults = []
    for column in sheet.columns:
        if not column.refers or column.name in row.faulty or column.name not in row.values:
            continue
        value = row[column.name]
        for code in value if column.many else [value]:
            if code and not known.resolves(column.refers, code, folder):
                near = nearest(code, known.codes[column.refers])
                faults.append(Fault(sheet.file, row.line, column.name, code, column.accepts, near))
                row.faulty.add(column.name)
    return faults


def check_types(folder: Folder) -> list[Fault]:
    faults = []
    for row in folder.rows.get("types", []):
        outline = row.values.get("garment_class", "")
        if outline and "garment_class" not in row.faulty and outline not in garment_classes():
            wanted = f"empty or one of {', '.join(garment_classes())}"
            near = nearest(str(outline), garment_classes())
            faults.append(Fault("types.csv", row.line, "garment_class", str(outline), wanted, near))
    return faults


def check_features(folder: Folder, known: Known) -> list[Fault]:
    """A feature's states, its parent's states, and its places."""
    faults = []
    outlines = outline_of_types(folder)
    uses = types_using(folder)
    for row in folder.rows.get("features", []):
        states = known.states.get(str(row["feature"]), set())
        absent = row.values.get("absent", "")
        if absent and "states" not in folder.unreadable and absent not in states and "absent" not in row.faulty:
            wanted = "a state of this feature, or empty"
            faults.append(Fault("features.csv", row.line, "absent", str(absent), wanted, nearest(str(absent), states)))
        faults += check_parent_states(row, known, folder)
        faults += check_places(row, outlines, uses, folder)
    return faults


def check_parent_states(row: Row, known: Known, folder: Folder) -> list[Fault]:
    parent, shown = row.values.get("parent", ""), row.values.get("shown_when", ())
    if {"parent", "shown_when"} & row.faulty or "states" in folder.unreadable:
        return []
    if not parent:
        wanted = "empty, where there is no parent"
        return [Fault("features.csv", row.line, "shown_when", "|".join(shown), wanted)] if shown else []
    states = known.states.get(str(parent), set())
    if not shown:
        return [Fault("features.csv", row.line, "shown_when", "", f"states of {parent}: {'|'.join(sorted(states))}")]
    return [
        Fault("features.csv", row.line, "shown_when", state, f"states of {parent}", nearest(state, states))
        for state in shown
        if state not in states
    ]


def outline_of_types(folder: Folder) -> dict[str, str]:
    outlines = dict(GarmentType.objects.values_list("code", "garment_class"))
    return outlines | {str(r["type"]): str(r.values.get("garment_class", "")) for r in folder.rows.get("types", [])}


def types_using(folder: Folder) -> dict[str, set[str]]:
    """Types by feature."""
    uses: dict[str, set[str]] = {}
    for feature, code in Feature.objects.filter(garment_types__isnull=False).values_list("code", "garment_types__code"):
        uses.setdefault(feature, set()).add(code)
    for row in folder.rows.get("types", []):
        for feature in row.values.get("features", ()):
            uses.setdefault(feature, set()).add(str(row["type"]))
    return uses


def check_places(row: Row, outlines: Mapping[str, str], uses: Mapping[str, set[str]], folder: Folder) -> list[Fault]:
    """Each place is a region of the outline of every type that looks there; one fault a place."""
    if "places" in row.faulty or "places" not in row.values or "types" in folder.unreadable:
        return []
    faults = []
    own = {home for home, _, _ in row["places"] if home}
    for home, view, region in row["places"]:
        if home and home not in outlines:
            wanted = "a type of types.csv before ="
            faults.append(Fault("features.csv", row.line, "places", home, wanted, nearest(home, outlines)))
            continue
        homes = [home] if home else sorted(uses.get(str(row["feature"]), set()) - own)
        for outline in {outlines.get(code, "") for code in homes} & set(garment_classes()):
            regions = {key[2] for key in all_regions() if key[0] == outline and view in (key[1], "any")}
            if region not in regions:
                wanted = f"a region of the {view} view of a {outline}"
                found = f"{view}:{region}"
                faults.append(Fault("features.csv", row.line, "places", found, wanted, nearest(region, regions)))
                break
    return faults


def check_bands(folder: Folder) -> list[Fault]:
    """Bands of one feature run upward without gaps, and stand on all of its states or on none."""
    faults = []
    by_feature: dict[str, list[Row]] = {}
    for row in folder.rows.get("states", []):
        by_feature.setdefault(str(row["feature"]), []).append(row)
    for rows in by_feature.values():
        banded = [row for row in rows if row.values.get("low") is not None or row.values.get("high") is not None]
        if not banded or any({"low", "high"} & row.faulty for row in rows):
            continue
        ends = None
        for row in rows:
            low, high = row.values.get("low"), row.values.get("high")
            if low is None or (ends is not None and low != ends) or (high is not None and high <= low):
                wanted = "bands that run upward without a gap, each beginning where the one before ends"
                faults.append(Fault("states.csv", row.line, "low", f"{low}–{high}", wanted))
                break
            ends = high if high is not None else float("inf")
    return faults


def check_circles(folder: Folder) -> list[Fault]:
    """No feature depends on itself, and no version descends from itself, by however many steps."""
    parents = {code: [parent] for code, parent in Feature.objects.values_list("code", "parent__code") if parent}
    for row in folder.rows.get("features", []):
        if "parent" in row.values:
            parents[str(row["feature"])] = [row["parent"]] if row["parent"] else []
    ancestors: dict[str, list[str]] = {}
    for role, column in ((AncestorRole.CONTINUES, "continues"), (AncestorRole.MADE_FROM, "made_from")):
        above: dict[str, list[str]] = {}
        links = VersionAncestor.objects.filter(role=role).values_list("version__code", "ancestor__code")
        for version, ancestor in links:
            above.setdefault(version, []).append(ancestor)
        for row in folder.rows.get("versions", []):
            if column in row.values and column not in row.faulty:
                above[str(row["version"])] = list(row[column])
        for version, codes in above.items():
            ancestors.setdefault(version, []).extend(codes)
    return circle_faults("features", "feature", "parent", parents, folder) + circle_faults(
        "versions", "version", "continues", ancestors, folder
    )


def circle_faults(sheet: str, key: str, column: str, above: Mapping[str, list[str]], folder: Folder) -> list[Fault]:
    """One fault for each circle, at the first of its rows in the file."""
    faults, told = [], set()
    for row in folder.rows.get(sheet, []):
        circle = circle_through(str(row[key]), above)
        if circle and not told & set(circle):
            told |= set(circle)
            found = " → ".join([*circle, circle[0]])
            faults.append(Fault(f"{sheet}.csv", row.line, column, found, "a line without a circle"))
    return faults


def circle_through(code: str, above: Mapping[str, list[str]]) -> list[str]:
    """The codes of a circle that leads from `code` back to itself, or []."""
    trail = [(code, [code])]
    met: set[str] = set()
    while trail:
        here, path = trail.pop()
        for nxt in above.get(here, []):
            if nxt == code:
                return path
            if nxt not in met:
                met.add(nxt)
                trail.append((nxt, [*path, nxt]))
    return []


def check_profiles(folder: Folder, known: Known) -> list[Fault]:
    """Every state is one of its feature."""
    if "states" in folder.unreadable or "features" in folder.unreadable:
        return []
    faults = []
    for row in folder.rows.get("profiles", []):
        states = known.states.get(str(row["feature"]), set())
        if not {"feature", "state"} & row.faulty and row["state"] not in states:
            wanted = f"a state of {row['feature']}: {', '.join(sorted(states))}"
            near = nearest(str(row["state"]), states)
            faults.append(Fault("profiles.csv", row.line, "state", str(row["state"]), wanted, near))
            row.faulty.add("state")
    return faults


def check_spans(folder: Folder) -> list[Fault]:
    """First years do not come after last years."""
    faults = []
    for sheet in ("makers", "profiles", "stock_numbers"):
        for row in folder.rows.get(sheet, []):
            first, last = row.values.get("first_year"), row.values.get("last_year")
            if {"first_year", "last_year"} & row.faulty or not first or not last or first <= last:
                continue
            wanted = "a last year not before the first"
            faults.append(Fault(f"{sheet}.csv", row.line, "last_year", f"{first}–{last}", wanted))
    return faults
