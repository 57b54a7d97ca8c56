"""Who may see a marked photograph: everybody once its spot is marked, authors before."""

from django.http import Http404

from catalogue.accounts.roles import MAINTAIN_REFERENCE, may
from catalogue.reference.models import MarkedPhotograph

NOT_THERE = "There is no such photograph."
TOGETHER = ("feature", "state__feature")


def photograph_for_reader(person, **named) -> MarkedPhotograph:
    """The photograph with that number or key. Raises Http404 where it is not there, or not for this person."""
    row = MarkedPhotograph.objects.select_related(*TOGETHER).filter(**named).first()
    if row is None or not (row.is_marked or may(person, MAINTAIN_REFERENCE)):
        raise Http404(NOT_THERE)
    return row
