"""What versions rest on, and which fields of it identification or dating reads: those are proposed under review."""

from collections.abc import Mapping
from dataclasses import dataclass

from django.db import models

from catalogue.reference.models import Issuer, Maker, NumberForm, Source


@dataclass(frozen=True)
class Backing:
    """`fields`: what a proposal may change, with what a row of each is called; all of it takes two people. What is left
    out is told beside it, and changed by one author, who is kept with the reason. `made`: whether a new one is proposed
    too, since it counts without being named by a version."""

    model: type[models.Model]
    sort: str
    fields: Mapping[str, str]
    made: bool = False


# The spreadsheet of each.
SHEETS = {"issuer": "issuers", "maker": "makers", "source": "sources", "numberform": "number_forms"}
BACKINGS: dict[str, Backing] = {
    "issuer": Backing(
        Issuer,
        "service",
        {"date": "Dates", "predecessor": "Predecessor", "successor": "Successor"},
    ),
    "maker": Backing(
        Maker,
        "maker",
        {"name": "Name", "first_year": "First year", "last_year": "Last year", "kind": "Kind",
         "mark": "What stands on its labels"},
    ),
    "source": Backing(Source, "source", {"kind": "Kind", "date": "Dates", "grade": "Grade"}),
    "numberform": Backing(
        NumberForm,
        "number form",
        {"name": "Name", "pattern": "Pattern", "year_group": "Group that holds the year",
         "check_rule": "Check rule", "years": "Years in use", "groups": "What each group means",
         "of_kind": "Kind of version that alone carries it"},
        made=True,
    ),
}  # fmt: skip
