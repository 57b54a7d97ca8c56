"""Who leaves is named neither by the credit of their pictures nor by their sets; the pieces stay."""

from django.utils import timezone

from catalogue.accounts.actions import leave_society
from catalogue.accounts.names import without_name
from catalogue.member_examples.models import Photograph
from catalogue.member_examples.sets.actions import make_set
from tests.catalogue.member_examples.pieces import accepted, make_society
from tests.reading import text


def test_credits_and_sets_lose_the_name_and_keep_everything_else(client, db):
    society = make_society()
    pieces = [accepted(society, society.old, cuff="band") for _ in range(2)]
    picture = Photograph.objects.create(
        example=pieces[0],
        view="front",
        credit="Ada the Photographer",
        licence="CC BY 4.0",
        width=4,
        height=3,
        sha256="0" * 64,
    )
    words = {"name": "Kit by Ada", "grounds": "I, ADA, bought it; not Adamant."}
    made = make_set(member=society.ada, token=None, pieces=pieces, fields=words)
    leave_society(member=society.ada, now=timezone.now())

    picture.refresh_from_db()
    made.refresh_from_db()
    assert (picture.credit, picture.licence) == ("a former member the Photographer", "CC BY 4.0")
    assert (made.name, made.grounds) == ("Kit by a former member", "I, a former member, bought it; not Adamant.")
    assert "Ada" not in text(client, f"/examples/{pieces[0].code}/")


def test_a_name_within_a_word_is_no_name():
    assert without_name("Ann, ANN and Anne", "Ann") == "a former member, a former member and Anne"
    assert without_name("J. O'Neill.", "J. O'Neill") == "a former member."
