"""Every check of a folder, in one list."""

from catalogue.reference.spreadsheets.code_checks import check_capitals, check_references, known_codes
from catalogue.reference.spreadsheets.faults import Fault
from catalogue.reference.spreadsheets.garment_checks import (
    check_bands,
    check_choices,
    check_features,
    check_parents,
    check_places,
    check_types,
)
from catalogue.reference.spreadsheets.layout import SHEETS
from catalogue.reference.spreadsheets.number_checks import check_forms, check_numbers
from catalogue.reference.spreadsheets.reading import Folder
from catalogue.reference.spreadsheets.version_checks import (
    check_ancestors,
    check_companions,
    check_features_of_profiles,
    check_makers_of_states,
    check_names,
    check_own_type,
    check_sizes,
    check_spans,
    check_stances,
    check_states_of_profiles,
    check_successors,
    check_views,
)

# References first: they mark the cells from which nothing more should follow.
CHECKS = (
    check_references,
    check_capitals,
    check_types,
    check_features,
    check_choices,
    check_parents,
    check_places,
    check_bands,
    check_names,
    check_stances,
    check_ancestors,
    check_successors,
    check_states_of_profiles,
    check_features_of_profiles,
    check_own_type,
    check_makers_of_states,
    check_spans,
    check_forms,
    check_numbers,
    check_sizes,
    check_companions,
    check_views,
)


def check_folder(folder: Folder) -> list[Fault]:
    """Every fault of a completed folder, those of reading too, in the order of file and line."""
    known = known_codes(folder)
    faults = folder.faults + [fault for check in CHECKS for fault in check(folder, known)]
    order = {sheet.file: place for place, sheet in enumerate(SHEETS)}
    return sorted(faults, key=lambda fault: (order.get(fault.file, -1), fault.line))
