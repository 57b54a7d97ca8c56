"""Reading the folder and checking it against what the site knows. Nothing is written; every fault is told at once."""

from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from catalogue.accounts.models import Member
from catalogue.accounts.roles import SUBMIT_EXAMPLES, may
from catalogue.member_examples.actions import Look
from catalogue.member_examples.shades import shade_feature
from catalogue.member_examples.submitting.answers import ANSWER_OF_TEXT
from catalogue.member_examples.submitting.forms import MEASURED_PLACES
from catalogue.member_examples.submitting.importing.sheets import PHOTOGRAPHS, PIECES, SHEETS
from catalogue.member_examples.submitting.lengths import lengths_for, millimetres
from catalogue.member_examples.submitting.pictures import MOST_PHOTOGRAPHS
from catalogue.member_examples.words import LabelOrigin, Shot
from catalogue.reference.facts import FeatureFacts
from catalogue.reference.models import Feature, GarmentType, Maker
from catalogue.reference.snapshots import all_types
from catalogue.reference.spreadsheets.faults import Fault, nearest
from catalogue.reference.spreadsheets.reading import Folder, Row, read_sheet

LEFT_BY_FILE_MANAGERS = frozenset({"thumbs.db", "desktop.ini"})


@dataclass(frozen=True)
class Known:
    """What codes and names may refer to."""

    owners: dict[str, Member]
    types: dict[str, GarmentType]
    makers: dict[str, Maker]
    features: dict[str, Feature]
    states: dict[str, set[str]]
    of_type: dict[str, set[str]]
    shades: dict[str, FeatureFacts]


def known_now() -> Known:
    features = {row.code: row for row in Feature.objects.prefetch_related("states")}
    types = {row.code: row for row in GarmentType.objects.prefetch_related("features")}
    return Known(
        owners={row.username: row for row in Member.objects.all() if may(row, SUBMIT_EXAMPLES)},
        types=types,
        makers={row.code: row for row in Maker.objects.all()},
        features=features,
        states={code: {state.code for state in row.states.all()} for code, row in features.items()},
        of_type={code: {feature.code for feature in row.features.all()} for code, row in types.items()},
        shades={facts.code: feature for facts in all_types() if (feature := shade_feature(facts))},
    )


def read(path: Path) -> Folder:
    """The rows of every file that there is; the list of pieces has to be there."""
    folder = Folder()
    if not path.is_dir():
        folder.faults.append(Fault(str(path), 0, "", "no such folder", "a folder with pieces.csv"))
        return folder
    names = {sheet.file for sheet in SHEETS}
    present = sorted(file.name for file in path.iterdir() if file.suffix.lower() == ".csv")
    for name in sorted(set(present) - names):
        folder.faults.append(
            Fault(name, 0, "", "a file with this name", ", ".join(sorted(names)), nearest(name, names))
        )
    if PIECES.file not in present:
        folder.faults.append(Fault(PIECES.file, 0, "", "no such file", "the list of pieces"))
    for sheet in SHEETS:
        if sheet.file in present:
            read_sheet(path / sheet.file, sheet, folder)
    return folder


def check(folder: Folder, path: Path, known: Known) -> list[Fault]:
    """Every fault of the rows, those of reading too, in the order of the files."""
    faults = list(folder.faults)
    pieces = folder.rows.get("pieces", [])
    by_number = {row["piece"]: row for row in pieces if "piece" not in row.faulty}
    for row in pieces:
        faults += check_reference("pieces.csv", row, "owner", known.owners, "the name of a member of this site")
        for column, codes in (("type", known.types), ("maker", known.makers)):
            if row.values.get(column):
                faults += check_reference("pieces.csv", row, column, codes, f"the code of a {column} on this site")
    for name in ("labels", "observations", "lengths", "shades"):
        for row in folder.rows.get(name, []):
            if "piece" not in row.faulty and "pieces" not in folder.unreadable:
                faults += check_reference(f"{name}.csv", row, "piece", by_number, "a piece of pieces.csv")
    for row in folder.rows.get("labels", []):
        said = row.values.get("text") or row.values.get("remark") or row.values.get("origin") == LabelOrigin.TRACE
        if not said and not row.faulty:
            wanted = "what it says, a remark, or the origin trace"
            faults.append(Fault("labels.csv", row.line, "text", "a label that says nothing", wanted))
    for row in folder.rows.get("observations", []):
        faults += check_look(row, by_number.get(row.values.get("piece", "")), known)
    for row in folder.rows.get("lengths", []):
        faults += check_length(row, by_number.get(row.values.get("piece", "")), known)
    for row in folder.rows.get("shades", []):
        faults += check_shades(row, by_number.get(row.values.get("piece", "")), known)
    faults += check_photographs(path, by_number)
    order = {sheet.file: place for place, sheet in enumerate(SHEETS)}
    return sorted(faults, key=lambda fault: (order.get(fault.file, len(order)), fault.file, fault.line))


def check_reference(file: str, row: Row, column: str, known: Iterable[str], wanted: str) -> list[Fault]:
    if column in row.faulty or row.values.get(column) in known:
        return []
    row.faulty.add(column)
    found = str(row.values.get(column, ""))
    return [Fault(file, row.line, column, found, wanted, nearest(found, known))]


def check_look(row: Row, piece: Row | None, known: Known) -> list[Fault]:
    """The feature is one of the piece's type, and what was seen is an answer to it."""
    if row.faulty & {"piece", "feature", "seen"}:
        return []
    home = piece.values.get("type", "") if piece and "type" not in piece.faulty else ""
    codes = known.of_type.get(home, known.features) if home else known.features
    wanted = f"the code of a feature{f' of {home}' if home else ''}"
    if faults := check_reference("observations.csv", row, "feature", codes, wanted):
        return faults
    if look_in(row, known) is not None:
        return []
    states = known.states[row["feature"]]
    accepted = sorted(states | set(ANSWER_OF_TEXT))
    found = str(row["seen"])
    return [Fault("observations.csv", row.line, "seen", found, ", ".join(accepted), nearest(found, accepted))]


def check_length(row: Row, piece: Row | None, known: Known) -> list[Fault]:
    """The length is one that such a garment has."""
    home = known.types.get(piece.values.get("type", "")) if piece and "type" not in piece.faulty else None
    if home is None or row.faulty or row["what"] in (had := lengths_for(home.garment_class)):
        return []
    return [Fault("lengths.csv", row.line, "what", str(row["what"]), f"a length of {home.code}: {', '.join(had)}")]


def check_shades(row: Row, piece: Row | None, known: Known) -> list[Fault]:
    """The piece's type has a shade, and the row says something of both places, or at least where light falls."""
    if piece is None or row.faulty or "type" in piece.faulty:
        return []

    def fault(column: str, found: str, accepted: str, near: str = "") -> list[Fault]:
        return [Fault("shades.csv", row.line, column, found, accepted, near)]

    home = piece.values.get("type", "")
    if home not in known.shades:
        return fault("piece", str(row["piece"]), "a piece of a garment type that is asked for its shade")
    labs = [row.values.get(name) for name in MEASURED_PLACES]
    exposed, states = row.values.get("exposed", ""), known.shades[home].state_by_code
    if exposed and exposed not in states:
        return fault("exposed", exposed, ", ".join(states), nearest(exposed, states))
    if any(labs) and not all(labs):
        return fault(MEASURED_PLACES[bool(labs[0])], "no figures", "the figures of both places, or of none")
    if not (exposed or row.values.get("protected") or any(labs)):
        return fault("exposed", "a row that says nothing", "a shade of one place at least, or figures of both")
    return []


def look_in(row: Row, known: Known) -> Look | None:
    """What the row says was seen, or None where it is no answer."""
    feature, seen, note = known.features[row["feature"]], str(row["seen"]), str(row.values.get("note", ""))
    if seen in ANSWER_OF_TEXT:
        return Look(feature=feature, answer=ANSWER_OF_TEXT[seen], note=note)
    if seen in known.states[feature.code]:
        return Look(feature=feature, state=seen, note=note)
    if feature.kind == "measurement" and (mm := millimetres(seen, "mm")):
        return Look(feature=feature, value=float(mm), note=note)
    return None


def pictures_of(path: Path, piece: str) -> list[Path]:
    """The files in the piece's folder, by name; hidden ones, and what file managers leave, are passed over."""
    folder = path / PHOTOGRAPHS / piece
    if not folder.is_dir():
        return []
    return sorted(file for file in folder.iterdir() if file.is_file() and not passed_over(file))


def passed_over(file: Path) -> bool:
    return file.name.startswith(".") or file.name.lower() in LEFT_BY_FILE_MANAGERS


def shot_of(file: Path) -> str:
    """The standard photograph that the file's name begins with: `front.jpg`, `main_label-2.jpg`; else another view."""
    stem = file.stem.lower()
    fitting = [shot for shot in Shot.values if stem == shot or stem.startswith((f"{shot}-", f"{shot} "))]
    return max(fitting, key=len, default=Shot.OTHER)


def check_photographs(path: Path, by_number) -> list[Fault]:
    """Folders that belong to no piece, and pieces with too many pictures."""
    home = path / PHOTOGRAPHS
    faults = []
    for folder in sorted(home.iterdir()) if home.is_dir() else []:
        name = f"{PHOTOGRAPHS}/{folder.name}"
        if folder.name.startswith("."):
            continue
        if not folder.is_dir() or folder.name not in by_number:
            near = nearest(folder.name, by_number)
            faults.append(Fault(name, 0, "", folder.name, "a folder named like a piece of pieces.csv", near))
        elif (number := len(pictures_of(path, folder.name))) > MOST_PHOTOGRAPHS:
            faults.append(Fault(name, 0, "", f"{number} pictures", f"at most {MOST_PHOTOGRAPHS}"))
    return faults
