"""The figures are worked out by whoever changed something, once their answer was sent, so that no reader waits for it.

Only where somebody has read the page before: a society that never looks pays nothing. What changes the reference
outside the site, as an import, leaves it to the next reader.
"""

import logging
from threading import local

from django.core.signals import request_finished
from django.dispatch import receiver

from catalogue.reference.happenings import reference_changed
from catalogue.reference.models import ReferenceState
from catalogue.review.health.keeping import healths
from catalogue.review.models import TypeHealth

log = logging.getLogger(__name__)
this_visit = local()


@receiver(reference_changed)
def remember(**_) -> None:
    this_visit.changed = True


@receiver(request_finished)
def work_out(**_) -> None:
    """The answer is out: a fault here is noted and spoils nothing, for the next reader works it out again."""
    if not getattr(this_visit, "changed", False):
        return
    this_visit.changed = False
    try:
        bring_up_to_date()
    except Exception:
        log.exception("The health of the reference could not be worked out after a change.")


def bring_up_to_date() -> None:
    numbers = set(TypeHealth.objects.values_list("number", flat=True))
    current = ReferenceState.current_number()
    if numbers and numbers != {current}:
        healths(number=current)
