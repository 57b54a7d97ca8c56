"""Faults of stock numbers and of the forms in which they are written."""

from catalogue.reference.models import NumberForm
from catalogue.reference.number_forms import fault_in_form, fits
from catalogue.reference.numbers import bare_number
from catalogue.reference.spreadsheets.code_checks import Known
from catalogue.reference.spreadsheets.faults import Fault
from catalogue.reference.spreadsheets.reading import Folder


def check_forms(folder: Folder, known: Known) -> list[Fault]:
    """Labels can be read by each form."""
    return [
        Fault("number_forms.csv", row.line, *fault)
        for row in folder.rows.get("number_forms", [])
        if not {"pattern", "year_group", "example", "check_rule"} & row.faulty
        and (fault := fault_in_form(*(row[name] for name in ("pattern", "year_group", "example", "check_rule"))))
    ]


def check_numbers(folder: Folder, known: Known) -> list[Fault]:
    """A number is written as its form says, unless it is a misprint, and is no misprint of itself."""
    if "number_forms" in folder.unreadable:
        return []
    patterns = dict(NumberForm.objects.values_list("code", "pattern"))
    for form in folder.rows.get("number_forms", []):
        patterns[str(form["form"])] = "" if "pattern" in form.faulty else str(form["pattern"])
    faults = []
    for row in folder.rows.get("stock_numbers", []):
        if {"number", "form", "misprint_of"} & row.faulty:
            continue
        number, right, pattern = str(row["number"]), str(row["misprint_of"]), patterns.get(str(row["form"]), "")
        if right and bare_number(right) == bare_number(number):
            wanted = "the right number, or nothing where this is no misprint"
            faults.append(Fault("stock_numbers.csv", row.line, "misprint_of", right, wanted))
        elif pattern and not right and not fits(pattern, number):
            wanted = f"a number written as {pattern}; or another form, or none"
            faults.append(Fault("stock_numbers.csv", row.line, "number", number, wanted))
    return faults
