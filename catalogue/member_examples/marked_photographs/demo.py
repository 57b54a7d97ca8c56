"""One marked photograph of the demo society: a picture of an invented smock, drawn from its record and marked so."""

from django.conf import settings

from catalogue.accounts.models import Member
from catalogue.member_examples.demo_photographs.photograph import demo_photograph
from catalogue.member_examples.demo_photographs.piece import DemoPiece
from catalogue.member_examples.marked_photographs import actions
from catalogue.reference.models import FeatureState, MarkedPhotograph
from catalogue.reference.snapshots import type_facts

AUTHOR = "Plover"
GARMENT, VERSION, SHOT = "SMK", "SMK-61", "pocket"
FEATURE, STATE = "bartack", "bartack"
SPOT = (0.5, 0.5, 0.155)
SHOWS = "a short bar of dense zigzag stitches across the upper corner of the pocket"
WHY = "How dense the bar is shows better on cloth than in a line drawing."


def load_demo_marked_photograph() -> bool:
    """Puts it in where it is not there, or was not marked yet. Returns whether anything was written."""
    state = FeatureState.objects.select_related("photograph").get(feature__code=FEATURE, code=STATE)
    author = Member.objects.get(username=AUTHOR)
    words = {"shows": SHOWS, "credit": settings.SOCIETY_NAME, "licence": "", "drawn": True}
    row = MarkedPhotograph.objects.filter(state=state).first()
    if row is None:
        facts = type_facts(GARMENT)
        piece = DemoPiece("strain points", facts, {FEATURE: STATE}, facts.versions[VERSION])
        file = demo_photograph(piece, SHOT, close_to=FEATURE)
        row = actions.add(shown=state, by=author, file=file, words=words, why=WHY)
    elif row.is_marked:
        return False
    actions.mark(number=row.pk, seen=row.key, by=author, spot=SPOT, words=words, why=WHY)
    return True
