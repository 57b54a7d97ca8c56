"""Faults of versions, profiles and open questions that only show when rows are held beside one another."""

from catalogue.reference.circles import circles
from catalogue.reference.models import (
    Companion,
    GarmentType,
    IssueVersion,
    QuestionView,
    SizeLength,
    VersionAncestor,
    VersionSuccessor,
)
from catalogue.reference.spreadsheets.code_checks import Known
from catalogue.reference.spreadsheets.faults import Fault, nearest
from catalogue.reference.spreadsheets.garment_checks import circle_faults
from catalogue.reference.spreadsheets.reading import Folder, Row
from catalogue.reference.words import NEVER_ISSUED, AncestorRole, GoesWith
from identification.dating.size_marks import bare_mark

ANCESTORS = ((AncestorRole.CONTINUES, "continues"), (AncestorRole.MADE_FROM, "made_from"))


def check_names(folder: Folder, known: Known) -> list[Fault]:
    """A version has each name once, whoever uses it."""
    faults = []
    for row in folder.rows.get("versions", []):
        if {"other_names", "sellers_names"} & row.faulty:
            continue
        names = set(row["other_names"])
        for written in row["sellers_names"]:
            name = written.removesuffix(NEVER_ISSUED).strip()
            if not name or name in names:
                wanted = "a name before the bracket" if not name else "each name once, either members' or sellers'"
                faults.append(Fault("versions.csv", row.line, "sellers_names", written, wanted))
            names.add(name)
    return faults


def check_stances(folder: Folder, known: Known) -> list[Fault]:
    """A source supports a version, or a state of its profile, or contradicts it."""
    return [
        Fault(f"{sheet}.csv", row.line, "contradicting_sources", source, "a source that does not support it as well")
        for sheet in ("versions", "profiles")
        for row in folder.rows.get(sheet, [])
        if not {"sources", "contradicting_sources"} & row.faulty
        for source in row["contradicting_sources"]
        if source in row["sources"]
    ]


def check_ancestors(folder: Folder, known: Known) -> list[Fault]:
    """No version descends from itself, by however many steps."""
    rows = folder.rows.get("versions", [])
    given = {str(row["version"]) for row in rows}
    above: dict[str, list[str]] = {}
    for version, ancestor in VersionAncestor.objects.values_list("version__code", "ancestor__code"):
        if version not in given:
            above.setdefault(version, []).append(ancestor)
    for row in rows:
        for _, column in ANCESTORS:
            if column not in row.faulty:
                above.setdefault(str(row["version"]), []).extend(row[column])
    return circle_faults("versions", [column for _, column in ANCESTORS], rows, circles(above))


def check_successors(folder: Folder, known: Known) -> list[Fault]:
    """Only a retired version became another, and none becomes itself, by however many steps."""
    rows = folder.rows.get("versions", [])
    given = {str(row["version"]) for row in rows}
    after: dict[str, list[str]] = {}
    for version, successor in VersionSuccessor.objects.values_list("version__code", "successor__code"):
        if version not in given:
            after.setdefault(version, []).append(successor)
    faults = []
    for row in rows:
        if {"became", "retired"} & row.faulty:
            continue
        after[str(row["version"])] = list(row["became"])
        if row["became"] and not row["retired"]:
            wanted = "nothing while the version is not retired; or why it is, in the column retired"
            faults.append(Fault("versions.csv", row.line, "became", " ".join(row["became"]), wanted))
    return faults + circle_faults("versions", ["became"], rows, circles(after))


def check_states_of_profiles(folder: Folder, known: Known) -> list[Fault]:
    """Every state is one of its feature."""
    if {"states", "features"} & folder.unreadable:
        return []
    faults = []
    for row in folder.rows.get("profiles", []):
        states = known.states.get(str(row["feature"]), set())
        if not {"feature", "state"} & row.faulty and row["state"] not in states:
            wanted = f"a state of {row['feature']}: {', '.join(sorted(states))}"
            near = nearest(str(row["state"]), states)
            faults.append(Fault("profiles.csv", row.line, "state", str(row["state"]), wanted, near))
    return faults


def check_features_of_profiles(folder: Folder, known: Known) -> list[Fault]:
    """A profile speaks of features that its garment type has: others would never be shown. Told once a type."""
    if {"types", "versions"} & folder.unreadable:
        return []
    homes, features = homes_of_versions(folder), features_of_types(folder)
    faults, told = [], set()
    for row in folder.rows.get("profiles", []):
        home, feature = homes.get(str(row["version"])), str(row["feature"])
        if {"version", "feature"} & row.faulty or home not in features or (home, feature) in told:
            continue
        if feature not in features[home]:
            told.add((home, feature))
            wanted = f"a feature that types.csv lists for {home}"
            faults.append(Fault("profiles.csv", row.line, "feature", feature, wanted, nearest(feature, features[home])))
    return faults


def check_own_type(folder: Folder, known: Known) -> list[Fault]:
    """A version is taken for other types than its own."""
    return [
        Fault("versions.csv", row.line, "passes_for", str(row["type"]), "another type than its own")
        for row in folder.rows.get("versions", [])
        if not {"type", "passes_for"} & row.faulty and row["type"] in row["passes_for"]
    ]


def check_makers_of_states(folder: Folder, known: Known) -> list[Fault]:
    """A state is limited to makers of its version, as far as any are known."""
    if "versions" in folder.unreadable:
        return []
    made_by = makers_of_versions(folder)
    faults = []
    for row in folder.rows.get("profiles", []):
        version = str(row["version"])
        if {"version", "makers"} & row.faulty or not made_by.get(version):
            continue
        wanted = f"a maker that versions.csv lists for {version}: {', '.join(sorted(made_by[version]))}"
        faults += [
            Fault("profiles.csv", row.line, "makers", maker, wanted, nearest(maker, made_by[version]))
            for maker in row["makers"]
            if maker not in made_by[version]
        ]
    return faults


def makers_of_versions(folder: Folder) -> dict[str, set[str]]:
    """Makers by version; none where its list is faulty, so that nothing follows from that."""
    makers: dict[str, set[str]] = {}
    for version, maker in IssueVersion.objects.exclude(makers=None).values_list("code", "makers__code"):
        makers.setdefault(version, set()).add(maker)
    for row in folder.rows.get("versions", []):
        makers[str(row["version"])] = set() if "makers" in row.faulty else set(row["makers"])
    return makers


def homes_of_versions(folder: Folder) -> dict[str, str]:
    homes = dict(IssueVersion.objects.values_list("code", "garment_type__code"))
    for row in folder.rows.get("versions", []):
        homes[str(row["version"])] = "" if "type" in row.faulty else str(row["type"])
    return homes


def features_of_types(folder: Folder) -> dict[str, set[str]]:
    """Features by type; a type whose list is faulty is left out, so that nothing follows from that."""
    features: dict[str, set[str]] = {}
    for code, feature in GarmentType.objects.values_list("code", "features__code"):
        features.setdefault(code, set()).add(feature)
    for row in folder.rows.get("types", []):
        features[str(row["type"])] = set(row["features"])
        if "features" in row.faulty:
            del features[str(row["type"])]
    return features


def check_companions(folder: Folder, known: Known) -> list[Fault]:
    """A version goes with another one, that is said once for both, and only what fits is joined."""
    rows = [row for row in folder.rows.get("companions", []) if not row.faulty]
    said = set(Companion.objects.values_list("version__code", "other__code", "goes_with"))
    faults = []
    for row in rows:
        one, other, how = str(row["version"]), str(row["other"]), str(row["goes_with"])
        if one == other:
            faults.append(Fault("companions.csv", row.line, "other", other, "another version than in the same row"))
        elif (other, one, how) in said:
            wanted = f"a pair that is said once; {other} with {one} stands already"
            faults.append(Fault("companions.csv", row.line, "other", other, wanted))
        said.add((one, other, how))
        if row["joined_by"] and how != GoesWith.FITS:
            wanted = "nothing, unless the two fit each other"
            faults.append(Fault("companions.csv", row.line, "joined_by", str(row["joined_by"]), wanted))
    return faults


def check_spans(folder: Folder, known: Known) -> list[Fault]:
    """First years do not come after last years."""
    return [
        Fault(
            f"{sheet}.csv", row.line, "last_year", str(row["last_year"]), f"a year from {row['first_year']}, the first"
        )
        for sheet in ("makers", "profiles", "stock_numbers")
        for row in folder.rows.get(sheet, [])
        if not {"first_year", "last_year"} & row.faulty and runs_backward(row)
    ]


def runs_backward(row: Row) -> bool:
    return bool(row["first_year"] and row["last_year"] and row["first_year"] > row["last_year"])


def check_sizes(folder: Folder, known: Known) -> list[Fault]:
    """A mark of a version is written in one way: 160/88 and 160 / 88 are the same one."""
    rows = folder.rows.get("sizes", [])
    written: dict[tuple[str, str], str] = {
        (version, bare_mark(mark)): mark
        for version, mark in SizeLength.objects.filter(version__code__in={str(row["version"]) for row in rows})
        .values_list("version__code", "mark")
        .order_by("pk")
    }
    faults = []
    for row in rows:
        if {"version", "mark"} & row.faulty:
            continue
        mark = str(row["mark"])
        stands = written.setdefault((str(row["version"]), bare_mark(mark)), mark)
        if stands != mark:
            faults.append(Fault("sizes.csv", row.line, "mark", mark, "the mark as it is written elsewhere", stands))
    return faults


def check_views(folder: Folder, known: Known) -> list[Fault]:
    """A question is settled for one of its views."""
    rows = folder.rows.get("question_views", [])
    given = {(str(row["question"]), str(row["letter"])) for row in rows}
    standing: dict[str, str] = {
        question: letter
        for question, letter in QuestionView.objects.filter(stands=True).values_list("question__code", "letter")
        if (question, letter) not in given
    }
    faults = []
    for row in rows:
        question = str(row["question"])
        if row["stands"] is not True or row.faulty:
            continue
        if row.values.get("taken_out"):
            wanted = "empty, where the question is settled for the view"
            faults.append(Fault("question_views.csv", row.line, "taken_out", str(row["taken_out"]), wanted))
        if question in standing:
            wanted = f"no, where view {standing[question]} stands already"
            faults.append(Fault("question_views.csv", row.line, "stands", "yes", wanted))
        standing.setdefault(question, str(row["letter"]))
    return faults
