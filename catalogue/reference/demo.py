"""The invented society that a new installation can be tried with."""

from django.conf import settings
from django.contrib.auth.models import Group, Permission
from django.db import transaction

from catalogue.accounts.models import Member
from catalogue.reference.actions import import_reference
from catalogue.reference.models import GarmentType, Issuer

DEMO_FOLDER = settings.BASE_DIR / "fixtures" / "demo_society"
DEMO_ISSUER = ("SFS", "Strandfell Service")
DEMO_PASSWORD = "ling-and-shingle"  # noqa: S105 - printed at every start, and refused beside any real reference
SIGN_INS = (
    ("Plover", Member.Role.AUTHOR, False),
    ("Dunlin", Member.Role.MODERATOR, False),
    ("Whimbrel", Member.Role.MODERATOR, False),
    ("Knot", Member.Role.SECRETARY, True),
)


class NotTheDemo(ValueError):
    """The database holds a reference that is not the demo society's."""


def refuse_beside_a_real_reference() -> None:
    """The demo's password is public, so it is never set where somebody's own reference is. Raises NotTheDemo."""
    code, name = DEMO_ISSUER
    if GarmentType.objects.exists() and not Issuer.objects.filter(code=code, name=name).exists():
        raise NotTheDemo(
            f"This database holds another reference: the issuer {code} ({name}) of the demo society is not in it. "
            "Nothing was changed. Set CATALOGUE_DATA_FOLDER to an empty folder to try the demo."
        )


@transaction.atomic
def load_demo() -> dict[str, int]:
    """The demo society and its sign-ins; what was changed by hand since stays where the files do not say otherwise."""
    refuse_beside_a_real_reference()
    changed = import_reference(folder=DEMO_FOLDER)
    make_sign_ins()
    return changed


def make_sign_ins() -> None:
    """The demo's members, who may all write the reference; one that is there keeps the password it has."""
    authors, _ = Group.objects.get_or_create(name="Reference authors")
    tables = Permission.objects.filter(content_type__app_label="catalogue").exclude(content_type__model="member")
    authors.permissions.set(tables)
    for username, role, is_secretary in SIGN_INS:
        member, made = Member.objects.get_or_create(
            username=username, defaults={"role": role, "is_staff": True, "is_superuser": is_secretary}
        )
        if made:
            member.set_password(DEMO_PASSWORD)
            member.save()
            member.groups.set([authors])
