"""What of a folder changes features that stand, taken out of it as the rows of proposals.

What is new is written at once: a feature or a state that no record names tells nothing apart, and to name it takes two
people.
"""

from collections.abc import Iterable

from catalogue.reference.models import Feature, GarmentType
from catalogue.reference.spreadsheets.reading import Folder, Row
from catalogue.review.features.rows import ADDED_WORDS, PLAIN, Rows, features_to_read, rows_of_feature, states_of
from catalogue.review.importing.sorting import Wanted
from catalogue.review.proposals.rules import changed_rows
from catalogue.review.proposals.words import STATE


def take_out_features(folder: Folder, wanted: Wanted) -> None:
    """Leaves in the folder new features, new states and what stands as it is; `wanted.features` gets the rest."""
    given = {str(row["feature"]): row for row in folder.rows.get("features", [])}
    states: dict[str, list[Row]] = {}
    for row in folder.rows.get("states", []):
        states.setdefault(str(row["feature"]), []).append(row)
    held = features_to_read(Feature.objects.filter(code__in={*given, *states}))
    for feature in held:
        stands = rows_of_feature(feature)
        rows = wanted_rows(stands, given.get(feature.code), states.get(feature.code, []))
        if different := changed_rows(stands, rows):
            wanted.features[feature.code] = different
            drop(folder, feature.code, rows)
    keep_features_of_types(folder, wanted)


def wanted_rows(stands: Rows, row: Row | None, states: Iterable[Row]) -> Rows:
    """The whole feature as the folder wants it; new states only where bands change with them."""
    rows = dict(stands)
    if row is not None:
        rows |= {name: row[name] for name in PLAIN}
        rows |= {"absent": str(row["absent"]), "parent": str(row["parent"]), "shown_when": sorted(row["shown_when"])}
        places = [[home or "", view, region] for home, view, region in row["places"]]
        if sorted(places) != sorted(stands["places"]):
            rows["places"] = places
    new, bands = {}, False
    for one in states:
        key, said = f"{STATE}{one['state']}", {name: one[name] for name in ("label", "low", "high", "drawing")}
        said |= {name: one[name] for name in ADDED_WORDS if one[name]}
        before = stands.get(key)
        if before is None:
            new[key] = said | {"position": len(stands) + len(new)}
            continue
        rows[key] = said | {"position": before["position"]}
        bands = bands or (said["low"], said["high"]) != (before["low"], before["high"])
    return rows | new if bands else rows


def drop(folder: Folder, code: str, rows: Rows) -> None:
    """Takes the rows of a feature out, and of its states those that are proposed."""
    proposed = set(states_of(rows))
    folder.rows["features"] = [row for row in folder.rows.get("features", []) if row["feature"] != code]
    folder.rows["states"] = [
        row for row in folder.rows.get("states", []) if row["feature"] != code or row["state"] not in proposed
    ]


def keep_features_of_types(folder: Folder, wanted: Wanted) -> None:
    """A garment type goes on asking for what it asks for."""
    asked: dict[str, list[str]] = {}
    links = GarmentType.objects.order_by("type_features__position").values_list("code", "type_features__feature__code")
    for code, feature in links:
        asked.setdefault(code, []).append(feature)
    for row in folder.rows.get("types", []):
        left = [one for one in asked.get(str(row["type"]), []) if one and one not in row["features"]]
        if left:
            row.values["features"] = (*row["features"], *left)
            wanted.kept.append(f"{row['type']} goes on asking for {', '.join(left)}: propose it on the feature's page")
