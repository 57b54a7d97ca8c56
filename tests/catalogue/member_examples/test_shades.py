"""The shade of a piece twice, where light falls and where it does not; and what it says of the type's shades."""

import pytest
from django.db import IntegrityError, transaction

from catalogue.member_examples.models import Example, ShadePair
from catalogue.member_examples.submitting.own_pieces import exported
from catalogue.reference.models import FeaturePlace, ReferenceState
from tests.catalogue.member_examples.pieces import accepted, draft, make_society
from tests.making import make_feature
from tests.reading import text, words

pytestmark = pytest.mark.django_db


@pytest.fixture
def society():
    found = make_society()
    found.colour = make_feature("colour", ("moss", "drab"), types=[found.smock])
    found.colour.seen = "daylight"
    found.colour.save()
    FeaturePlace.objects.create(feature=found.colour, view="any", region="cloth")
    ReferenceState.mark_changed()
    return found


@pytest.fixture
def ada(client, society):
    client.force_login(society.ada)
    return client


def sent(ada, piece: Example, **given: str):
    piece.refresh_from_db()
    address = f"/my-pieces/{piece.code}/condition/"
    return ada.post(address, {"revision": piece.revision, **given})


def test_both_places_are_asked_for_kept_shown_and_taken_along(ada, society):
    piece = draft(society)
    assert "beside it, under a flap or inside a pocket?" in text(ada, f"/my-pieces/{piece.code}/condition/")

    assert sent(ada, piece, exposed="drab", protected="deeper").status_code == 302

    page = words(text(ada, f"/examples/{piece.code}/"))
    assert "Where light falls Drab Protected The same colour, deeper" in page.replace("State ", "")
    assert "Faded: deeper under a flap or inside a pocket than where light falls." in page
    assert exported(society.ada)[0]["shades"] == {"where light falls": "drab", "beside it, protected": "deeper"}
    assert 'value="deeper" selected' in text(ada, f"/my-pieces/{piece.code}/condition/")

    assert sent(ada, piece, exposed="", protected="").status_code == 302
    assert not ShadePair.objects.exists(), "never a duty, and taken back"


def test_measured_figures_are_read_and_faults_keep_what_was_typed(ada, society):
    piece = draft(society)

    refused = sent(ada, piece, exposed_lab="43.9 -5.8", protected_lab="40,9; -6,6; 14,7", note="bought wet")
    assert refused.status_code == 400
    page = words(refused.content.decode())
    assert "is not three figures: L from 0 to 100" in page
    assert "bought wet" in refused.content.decode()
    assert 'value="43.9 -5.8"' in refused.content.decode()

    sent(ada, piece, exposed_lab="45.9 -5.5 11.4", protected_lab="40,3; -7,0; 13,7")
    assert ShadePair.objects.get().labs == ((45.9, -5.5, 11.4), (40.3, -7.0, 13.7))
    assert "measured L 45.9, a −5.5, b 11.4" in words(text(ada, f"/examples/{piece.code}/"))


def test_a_type_without_a_shade_is_asked_for_none(ada, society):
    society.colour.seen = "outside"
    society.colour.save()
    ReferenceState.mark_changed()

    assert "under a flap" not in text(ada, f"/my-pieces/{draft(society).code}/condition/")


def test_faded_pieces_bear_no_witness_for_a_shade_and_are_counted(client, society):
    pieces = [accepted(society, society.old, colour="moss" if place % 2 else "drab") for place in range(8)]
    Example.objects.update(label_year=1970)
    for piece, seen in zip(pieces, ("deeper", "deeper", "deeper", "same", "cannot_tell"), strict=False):
        ShadePair.objects.create(example=piece, protected=seen)
    ReferenceState.mark_changed()

    page = words(text(client, "/garment-types/SMK/details/colour/"))
    assert "Version, batch or fading?" in page
    assert "Compared by eye within 5 pieces: 3 faded, 1 the same, 1 cannot tell." in page
    assert "Left out below: 3 pieces whose two places differ; 5 others compared with each other." in page
    assert "fading" not in words(text(client, "/garment-types/SMK/details/closure/"))

    Example.objects.update(label_year=None)
    ReferenceState.mark_changed()
    assert "Compared by eye within 5 pieces" in text(client, "/garment-types/SMK/details/colour/")


@pytest.mark.parametrize(
    "given",
    [
        {},
        {"protected": "bluish"},
        {"exposed_l": 40.0},
        dict.fromkeys(("exposed_l", "exposed_a", "exposed_b", "protected_l", "protected_a", "protected_b"), -1.0),
    ],
)
def test_the_database_itself_refuses_a_pair_that_says_nothing_or_cannot_be(society, given):
    piece = draft(society)

    with pytest.raises(IntegrityError), transaction.atomic():
        ShadePair.objects.create(example=piece, **given)
