"""The invented society that a new installation can be tried with."""

from django.conf import settings
from django.db import transaction

from catalogue.accounts.demo import DEMO_PASSWORD, SIGN_INS, load_members, load_wants
from catalogue.reference.actions import import_reference, wrote
from catalogue.reference.models import GarmentType, Issuer

__all__ = ["DEMO_FOLDER", "DEMO_PASSWORD", "SIGN_INS", "NotTheDemo", "load_demo", "make_sign_ins"]
DEMO_FOLDER = settings.BASE_DIR / "fixtures" / "demo_society"
PEOPLE = DEMO_FOLDER / "people"
DEMO_ISSUER = ("SFS", "Strandfell Service")


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
def load_demo() -> bool:
    """The demo society and its members; what was changed by hand since stays where the files do not say otherwise.

    Returns whether anything of the reference was written.
    """
    refuse_beside_a_real_reference()
    counts = import_reference(folder=DEMO_FOLDER)
    make_sign_ins()
    return wrote(counts)


def make_sign_ins() -> None:
    """The demo's members with what they look for; one that is there keeps the password and the list they have."""
    load_wants(PEOPLE, load_members(PEOPLE))
