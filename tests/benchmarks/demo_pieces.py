"""The demo society's garment types as the site gives them to the engine, and its pieces with what each of them is."""

import csv
import os
import tempfile
from dataclasses import dataclass
from pathlib import Path

from identification.engine import CANNOT_TELL, Feature, States, Version

PIECES = Path(__file__).resolve().parent.parent / "data" / "demo_pieces"


@dataclass(frozen=True)
class GarmentType:
    """Features and versions of one garment type; `closed`: it must not be handled."""

    features: list[Feature]
    versions: list[Version]
    closed: bool


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


def load_demo(also=None) -> Demo:
    """The reference through the site's own import into a database made for it, and the pieces.

    `also`: what else is loaded into that database. Without it no piece is in there, so none counts as evidence.
    """
    with tempfile.TemporaryDirectory() as folder:
        os.environ |= {"CATALOGUE_DATA_FOLDER": folder, "DJANGO_SETTINGS_MODULE": "catalogue.settings"}
        import django

        django.setup()
        from django.core.management import call_command

        from catalogue.reference.demo import load_demo as load_society
        from catalogue.reference.snapshots import all_types
        from identification.profiles_from_catalogue import engine_feature, engine_version, parents_kept

        call_command("migrate", verbosity=0)
        load_society()
        if also:
            also()
        types = {
            facts.code: GarmentType(
                [engine_feature(feature) for feature in parents_kept(facts.features)],
                [engine_version(version, facts.features) for version in facts.versions.values()],
                facts.must_stay_closed,
            )
            for facts in all_types()
        }
    type_of = {version.code: code for code, one in types.items() for version in one.versions}
    return Demo(types, type_of, load_pieces(PIECES))


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
