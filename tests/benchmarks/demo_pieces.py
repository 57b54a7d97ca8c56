"""The demo society's garment types as the engine takes them, and its pieces with what each of them is."""

import csv
from dataclasses import dataclass
from pathlib import Path

from identification.engine import CANNOT_TELL, CellState, Feature, States, Version

PIECES = Path(__file__).resolve().parent.parent / "data" / "demo_pieces"
# Starting values of the society; no source.
WEIGHT_OF_RARITY = {"1": 8.0, "2": 5.0, "3": 3.0, "4": 1.5, "5": 0.5}
CHANGED_IN_SERVICE = {"easily", "wear", "repair"}
SEEN = {"outside": "outside", "handle": "handled", "light": "daylight", "open": "opened", "measure": "measured"}


@dataclass(frozen=True)
class GarmentType:
    """Features and versions of one garment type."""

    features: list[Feature]
    versions: list[Version]


@dataclass(frozen=True)
class Piece:
    """What the first observer saw on one piece, and which version it is; odd pieces are wrong on purpose."""

    code: str
    version: str
    odd: bool
    seen: dict[str, str]

    def answers(self, features) -> dict[str, object]:
        """What was seen, as answers to these features; `-` is left out, `?` is cannot tell."""
        codes = {feature.code for feature in features}
        return {
            code: CANNOT_TELL if state == "?" else States((state,))
            for code, state in self.seen.items()
            if code in codes and state != "-"
        }


@dataclass(frozen=True)
class Demo:
    """Garment types by code, the type of every version, and the pieces."""

    types: dict[str, GarmentType]
    type_of: dict[str, str]
    pieces: list[Piece]


def load_demo(folder: Path = PIECES) -> Demo:
    """The reference from `folder`/reference, the pieces from `folder` itself."""
    types, type_of = load_reference(folder / "reference")
    return Demo(types, type_of, load_pieces(folder))


# ---- the reference


def load_reference(folder: Path) -> tuple[dict[str, GarmentType], dict[str, str]]:
    features = rows(folder / "features.csv")
    versions = rows(folder / "versions.csv")
    cells: dict[str, dict[str, tuple[CellState, ...]]] = {}
    for row in rows(folder / "profiles.csv"):
        if row["status"] in ("known", "variable"):
            states = tuple(CellState(state) for state in row["states"].split("|"))
            cells.setdefault(row["version"], {})[row["feature"]] = states
    types = {
        code: GarmentType(
            features_of_type([read_feature(row) for row in features if code in row["garments"].split()]),
            [read_version(row, cells.get(row["version"], {})) for row in versions if row["type"] == code],
        )
        for code in dict.fromkeys(row["type"] for row in versions)
    }
    return types, {row["version"]: row["type"] for row in versions}


def read_feature(row: dict[str, str]) -> Feature:
    parent, _, shown_when = row["depends_on"].partition(" in ")
    return Feature(
        code=row["feature"],
        states=tuple(part.split("=")[0].strip() for part in row["states"].split(" | ")),
        effort=float(row["effort"]),
        error=float(row["error"]),
        absent=row["absent"] or None,
        loss=float(row["loss"] or 0),
        gain=float(row["gain"] or 0),
        parent=parent or None,
        shown_when=tuple(shown_when.split("|")) if shown_when else (),
        seen=SEEN[row["seen"]],
        needs_opening=row["needs_opening"] == "yes",
        needs_handling=row["needs_handling"] == "yes",
        replaceable=row["service_change"] in CHANGED_IN_SERVICE,
    )


def features_of_type(features: list[Feature]) -> list[Feature]:
    """A detail of a part that its type does not record stands alone."""
    codes = {feature.code for feature in features}
    kept = [(feature, feature.parent in codes) for feature in features]
    return [f if has_parent else Feature(**{**vars(f), "parent": None, "shown_when": ()}) for f, has_parent in kept]


def read_version(row: dict[str, str], cells) -> Version:
    return Version(
        code=row["version"],
        cells=cells,
        weight=WEIGHT_OF_RARITY[row["rarity"]],
        kind={"copy": "commercial_copy"}.get(row["kind"], row["kind"]),
        piece_seen=row["piece_seen"] == "yes",
    )


# ---- the pieces


def load_pieces(folder: Path) -> list[Piece]:
    seen: dict[str, dict[str, str]] = {}
    observer: dict[str, str] = {}
    for row in rows(folder / "observations.csv"):
        if observer.setdefault(row["example"], row["observer"]) == row["observer"]:
            seen.setdefault(row["example"], {})[row["feature"]] = row["state"]
    return [
        Piece(row["example"], row["true_version"], row["odd"] == "yes", seen.get(row["example"], {}))
        for row in rows(folder / "answer_key.csv")
    ]


def rows(path: Path) -> list[dict[str, str]]:
    with path.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))
