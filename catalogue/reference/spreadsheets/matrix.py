"""A bare identification table as rows of the society's own files, so that one importer writes both."""

from collections.abc import Iterable, Sequence

from catalogue.reference.codes import FORBIDDEN, LONGEST, fault_in_code
from catalogue.reference.spreadsheets.reading import Folder, Row
from catalogue.reference.words import Certainty, FeatureKind, HowOften, Seen, ServiceChange, VersionKind
from identification.engine.model import CellState, Feature, Version

DOES_NOT_APPLY = "-"
DOES_NOT_APPLY_CODE, DOES_NOT_APPLY_WORDS = "does-not-apply", "Does not apply"


def usable_codes(printed: Iterable[str], prefix: str = "") -> dict[str, str]:
    """A code for each printed name: the name itself where it can be one, else with _ for what a code cannot hold.

    Two names that would meet, in capitals or not, get a number behind them.
    """
    codes: dict[str, str] = {}
    taken: set[str] = set()
    for name in printed:
        cleaned = "".join("_" if c.isspace() or c in FORBIDDEN or not c.isprintable() else c for c in name)
        room = LONGEST - len(prefix) - 5
        code = prefix + cleaned[:room]
        if fault_in_code(code):
            code = f"{prefix}x{cleaned[: room - 1]}"
        number, tried = 1, code
        while tried.casefold() in taken:
            number += 1
            tried = f"{code}_{number}"
        taken.add(tried.casefold())
        codes[name] = tried
    return codes


def matrix_folder(type_code: str, name: str, features: Sequence[Feature], versions: Sequence[Version]) -> Folder:
    """The table as a folder that was read: one type, its features, states, versions and profiles.

    Feature and version codes are the type's code, a hyphen and the printed name, since codes are the society's.
    """
    feature_codes = usable_codes([feature.code for feature in features], f"{type_code}-")
    version_codes = usable_codes([version.code for version in versions], f"{type_code}-")
    state_codes = {feature.code: codes_of_states(feature) for feature in features}
    rows = {
        "types": [{"type": type_code, "name": name[:200], "features": tuple(feature_codes.values())}],
        "features": [feature_row(feature, feature_codes, state_codes) for feature in features],
        "states": [
            {"feature": feature_codes[f.code], "state": state_codes[f.code][state], "label": state_words(state)}
            for f in features
            for state in f.states
        ],
        "versions": [version_row(version, version_codes[version.code], type_code) for version in versions],
        "profiles": [
            {"version": version_codes[v.code], "feature": feature_codes[f.code], "state": state_codes[f.code][state]}
            | {"how_often": word, "share": share}
            for v in versions
            for f in features
            for state, word, share in cell_rows(f, v.cells.get(f.code, ()))
        ],
    }
    return Folder(
        rows={sheet: [Row(0, row) for row in found] for sheet, found in rows.items()},
        whole_profiles=frozenset(version_codes.values()),
    )


def codes_of_states(feature: Feature) -> dict[str, str]:
    named = usable_codes([state for state in feature.states if state != DOES_NOT_APPLY])
    return named | ({DOES_NOT_APPLY: DOES_NOT_APPLY_CODE} if DOES_NOT_APPLY in feature.states else {})


def state_words(state: str) -> str:
    return DOES_NOT_APPLY_WORDS if state == DOES_NOT_APPLY else state[:200]


def feature_row(feature: Feature, codes: dict[str, str], states: dict[str, dict[str, str]]) -> dict:
    return {
        "feature": codes[feature.code],
        "name": feature.code[:200],
        "group": "",
        "question": f"{feature.code[:290]}?",
        "kind": FeatureKind.CHOICE,
        "seen": Seen.OUTSIDE,
        "effort": feature.effort,
        "error": min(feature.error, 0.999),
        "service_change": ServiceChange.EASILY if feature.loss else ServiceChange.NO,
        "absent": states[feature.code][feature.absent] if feature.absent else "",
        "loss": feature.loss,
        "gain": feature.gain,
        "parent": codes[feature.parent] if feature.parent else "",
        "shown_when": tuple(
            states[feature.parent][state] for state in feature.shown_when if state in states[feature.parent]
        )
        if feature.parent
        else (),
    }


def version_row(version: Version, code: str, type_code: str) -> dict:
    return {
        "version": code,
        "type": type_code,
        "name": version.code[:200],
        "kind": VersionKind.ISSUE,
        "abundance": version.weight,
        "certainty": Certainty.DOCUMENTED,
    }


def cell_rows(feature: Feature, cell: Sequence[CellState]) -> list[tuple[str, str, float | None]]:
    """(state, word, share) of a recorded cell. `-` of a detail is no row: it follows from its part."""
    states: dict[str, float] = {}
    for one in cell:
        if one.state in feature.states and one.share != 0:
            states[one.state] = states.get(one.state, 0.0) + (1.0 if one.share is None else one.share)
    total = sum(states.values())
    counted = any(one.share is not None for one in cell)
    word = HowOften.ALWAYS if len(states) == 1 else HowOften.SOMETIMES
    return [(state, word, weight / total if counted and len(states) > 1 else None) for state, weight in states.items()]
