"""The people of the demo society, and what they look for. All are invented."""

import csv
from datetime import UTC, date, datetime
from pathlib import Path

from django.contrib.auth.hashers import make_password

from catalogue.accounts.models import Member, Want

DEMO_PASSWORD = "ling-and-shingle"  # noqa: S105 - printed at every start, and refused beside any real reference
ROLES = {
    "reference author": Member.Role.AUTHOR,
    "moderator": Member.Role.MODERATOR,
    "secretary": Member.Role.SECRETARY,
    "member": Member.Role.MEMBER,
}
# One for each role, to sign in as; the others have the same password.
SIGN_INS = (
    ("Turnstone", Member.Role.MEMBER),
    ("Plover", Member.Role.AUTHOR),
    ("Dunlin", Member.Role.MODERATOR),
    ("Knot", Member.Role.SECRETARY),
)


def rows_of(path: Path) -> list[dict[str, str]]:
    with path.open(encoding="utf-8-sig", newline="") as file:
        return list(csv.DictReader(file))


def load_members(folder: Path) -> list[Member]:
    """Everybody of members.csv who is not there yet; returns those made. Who is there keeps all they have.

    The addresses end in .example, which leads nowhere (RFC 2606), and count as verified.
    """
    password = make_password(DEMO_PASSWORD)
    made = []
    for row in rows_of(folder / "members.csv"):
        if row["role"] not in ROLES or Member.objects.called(row["handle"]).exists():
            continue
        year = int(row["joined"])
        role = ROLES[row["role"]]
        member = Member(
            username=row["handle"],
            email=f"{row['handle'].lower()}@strandfell.example",
            password=password,
            role=role,
            joined_year=year,
            admitted_at=datetime(year, 1, 1, tzinfo=UTC),
        )
        member.save()
        member.emailaddress_set.create(email=member.email, verified=True, primary=True)
        made.append(member)
    return made


def load_wants(folder: Path, members: list[Member]) -> None:
    """What these people of wants.csv look for, shown to others; the versions are there already."""
    by_name = {member.username: member for member in members}
    versions = Want._meta.get_field("version").related_model.objects.in_bulk(field_name="code")
    Want.objects.bulk_create(
        Want(
            member=by_name[row["member"]],
            version=versions[row["version"]],
            condition_at_least=row["condition_at_least"],
            offers=row["offers"],
            spare=versions.get(row["spare"]),
            since=date.fromisoformat(f"{row['since']}-01"),
            note=row["note"],
            is_shown=True,
        )
        for row in rows_of(folder / "wants.csv")
        if row["member"] in by_name
    )
