"""What the demo society's author brought in as spreadsheets: a small import that waits to be decided."""

from catalogue.accounts.models import Member
from catalogue.reference.demo import DEMO_FOLDER
from catalogue.review.importing.actions import propose_import
from catalogue.review.models import ReferenceImport


def load_demo_import() -> int:
    """How many proposals were written; none where any import is there."""
    if ReferenceImport.objects.exists():
        return 0
    author = Member.objects.get(username="Plover")
    because = "The stores ledger and the issue lists, read again for the autumn meeting."
    return len(propose_import(folder=DEMO_FOLDER / "proposed", by=author, because=because).written)
