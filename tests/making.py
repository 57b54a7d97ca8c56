"""Rows for tests, each as plain as it can be: `make_type`, `make_feature`, `make_version`, `record`; and many."""

import csv
from itertools import count
from pathlib import Path
from tempfile import TemporaryDirectory

from django.db import connection
from django.utils import timezone

from catalogue.accounts.models import Member
from catalogue.accounts.names import look_alike_key
from catalogue.reference.actions import import_reference
from catalogue.reference.models import (
    Feature,
    FeatureState,
    GarmentType,
    IssueVersion,
    ProfileCell,
    ReferenceState,
    TypeFeature,
    VersionRecord,
)
from catalogue.reference.spreadsheets.exporting import export_reference
from catalogue.review.records.refusing import unguard_everything

numbers = count(1)


def make_member(username: str = "Ada", password: str = "a-long-password", **fields) -> Member:
    """Somebody admitted, with a verified e-mail address; `admitted_at=None` for who waits."""
    role = Member.Role.SECRETARY if fields.get("is_superuser") else Member.Role.MEMBER
    email = f"{look_alike_key(username)}@example.org"
    member = Member(username=username, **({"role": role, "admitted_at": timezone.now(), "email": email} | fields))
    member.set_password(password)
    member.save()
    if member.email:
        member.emailaddress_set.create(email=member.email, verified=True, primary=True)
    return member


def make_type(code: str = "", **fields) -> GarmentType:
    code = code or f"T{next(numbers)}"
    return GarmentType.objects.create(code=code, **({"name": f"Type {code}"} | fields))


def make_feature(code: str = "", states=("yes", "no"), *, types=(), **fields) -> Feature:
    """A feature with states; it applies to the given types."""
    code = code or f"f{next(numbers)}"
    feature = Feature.objects.create(code=code, **({"name": f"Feature {code}", "question": f"{code}?"} | fields))
    FeatureState.objects.bulk_create(
        [FeatureState(feature=feature, code=state, label=state.title(), position=i) for i, state in enumerate(states)]
    )
    for garment_type in types:
        TypeFeature.objects.create(garment_type=garment_type, feature=feature, position=feature.pk)
    return feature


def make_version(garment_type: GarmentType, code: str = "", profile=None, **fields) -> IssueVersion:
    """A version with a record of `profile`: {feature: state or states}."""
    code = code or f"V{next(numbers)}"
    fields = {"name": f"Version {code}", "kind": "issue"} | fields
    version = IssueVersion.objects.create(code=code, garment_type=garment_type, **fields)
    if profile is not None:
        record(version, profile)
    return version


def record(version: IssueVersion, profile: dict) -> VersionRecord:
    made = VersionRecord.objects.create(version=version, number=version.records.count() + 1)
    for feature, states in profile.items():
        states = (states,) if isinstance(states, str) else states
        for state in states:
            ProfileCell.objects.create(
                record=made,
                state=feature.states.get(code=state),
                how_often="always" if len(states) == 1 else "sometimes",
            )
    version.current_record = made
    version.save()
    ReferenceState.mark_changed()
    return made


COPIED = {
    "types": ("type",),
    "versions": ("version", "type", "continues", "made_from", "passes_for"),
    "profiles": ("version",),
    "stock_numbers": ("version",),
    "sizes": ("version",),
    "companions": ("version", "other"),
}


def multiply_reference(times: int) -> None:
    """Bring the reference to `times` its size: each type with its versions again, under codes with a number behind.

    Features, makers and sources are shared by the copies.
    """
    with TemporaryDirectory() as name:
        folder = Path(name)
        export_reference(folder)
        for file in folder.glob("*.csv"):
            if file.stem in COPIED:
                multiply_file(file, times)
            else:
                file.unlink()
        import_reference(folder=folder)


def multiply_file(file: Path, times: int) -> None:
    """Replace the rows of an exported file by their copies 2 to `times`."""
    with file.open(encoding="utf-8", newline="") as read:
        rows = list(csv.DictReader(read))
    with file.open("w", encoding="utf-8", newline="") as written:
        writer = csv.DictWriter(written, rows[0].keys())
        writer.writeheader()
        for number in range(2, times + 1):
            for row in rows:
                copied = COPIED[file.stem]
                writer.writerow({c: renumbered(v, number) if c in copied else v for c, v in row.items()})


def renumbered(codes: str, number: int) -> str:
    return " ".join(f"{code}~{number}" for code in codes.split())


class Statements:
    """Runs a statement within the test's own transaction, which takes it back at its end."""

    connection = connection

    @staticmethod
    def execute(statement: str) -> None:
        with connection.cursor() as cursor:
            cursor.execute(statement)


def lift_the_guards() -> None:
    """What somebody with the database in their hands would do first. Taken back with the test."""
    if connection.vendor == "postgresql":
        Statements.execute("SET CONSTRAINTS ALL IMMEDIATE")
    unguard_everything(None, Statements)
