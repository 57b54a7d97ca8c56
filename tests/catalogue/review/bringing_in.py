"""Folders of spreadsheets, changed and brought in while the reference is under review."""

import csv
from io import StringIO

from django.core.management import call_command

BECAUSE = "The sheets of 1962, read again."


def edited(folder, sheet, change) -> None:
    """`change` gets the rows of a sheet as dicts and changes them in place."""
    path = folder / f"{sheet}.csv"
    with path.open(encoding="utf-8-sig", newline="") as file:
        reader = csv.DictReader(file)
        rows, header = list(reader), reader.fieldnames
    change(rows)
    with path.open("w", encoding="utf-8", newline="") as file:
        writer = csv.DictWriter(file, header, restval="")
        writer.writeheader()
        writer.writerows(rows)


def row(rows, **key) -> dict:
    return next(one for one in rows if all(one[name] == value for name, value in key.items()))


def brought_in(folder, by="ada@example.org", because=BECAUSE) -> str:
    told = StringIO()
    call_command("import_reference", str(folder), by=by, because=because, stdout=told)
    return told.getvalue()


def zip_and_date(folder) -> None:
    """Two versions changed: the closure and date of one, the name of the other."""
    closure = {"version": "SMK-61", "feature": "closure"}
    edited(folder, "profiles", lambda rows: row(rows, **closure).update(state="zip", sources="S1"))
    edited(folder, "versions", lambda rows: row(rows, version="SMK-61").update(date="1962/1975"))
    edited(folder, "versions", lambda rows: row(rows, version="SMK-76").update(name="Smock of 1976"))
