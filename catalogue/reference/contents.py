"""The table of contents: every garment type with the names of its versions, without their records."""

from dataclasses import dataclass

from catalogue.reference.models import GarmentType, IssueVersion, OwnSilhouette
from catalogue.reference.snapshots import keep_for_state


@dataclass(frozen=True)
class Contents:
    """A garment type as lists and doors show it; `versions` are (code, name) in their order,
    `own_views` those of which the society has an outline of its own."""

    code: str
    name: str
    other_names: tuple[str, ...]
    description: str
    garment_class: str
    own_views: tuple[str, ...]
    versions: tuple[tuple[str, str], ...]


def contents() -> tuple[Contents, ...]:
    """Every garment type, in the society's order."""
    return keep_for_state(("contents",), read_contents)


def read_contents() -> tuple[Contents, ...]:
    versions: dict[int, list[tuple[str, str]]] = {}
    rows = IssueVersion.objects.in_force().order_by("position", "code").values_list("garment_type_id", "code", "name")
    for home, code, name in rows:
        versions.setdefault(home, []).append((code, name))
    own: dict[int, list[str]] = {}
    for home, view in OwnSilhouette.objects.values_list("garment_type_id", "view"):  # not the drawings: they are heavy
        own.setdefault(home, []).append(view)
    return tuple(
        Contents(
            code=row.code,
            name=row.name,
            other_names=tuple(other.name for other in row.other_names.all()),
            description=row.description,
            garment_class=row.garment_class,
            own_views=tuple(own.get(row.pk, ())),
            versions=tuple(versions.get(row.pk, ())),
        )
        for row in GarmentType.objects.prefetch_related("other_names")
    )
