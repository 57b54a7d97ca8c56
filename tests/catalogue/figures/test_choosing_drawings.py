"""An author chooses by pictures how a state is drawn: the picture is copied as the society's own drawing."""

import re
from xml.etree import ElementTree

import pytest

from catalogue.accounts.models import Member
from catalogue.figures.choosing_drawings import copies
from catalogue.figures.composing import picture
from catalogue.reference.models import Correction, FeatureState
from catalogue.reference.own_drawings import read_drawing
from catalogue.reference.snapshots import type_facts
from tests.forms import Sent

pytestmark = pytest.mark.django_db
WHERE = "/figures/drawings/collar/?state=stand"


@pytest.fixture
def author(demo, client):
    client.force_login(Member.objects.get(username="Plover"))
    return client


def state() -> FeatureState:
    return FeatureState.objects.get(feature__code="collar", code="stand")


def chosen(client, **fields):
    return client.post(WHERE, Sent(client.get(WHERE).content.decode()).sent | fields)


def shapes(markup: str) -> list[tuple]:
    """Every shape with what it looks like, whatever groups it stands in."""
    tree = ElementTree.fromstring(f"<svg>{markup}</svg>")
    return [(one.tag, sorted(one.attrib.items())) for one in tree.iter() if one.tag not in ("svg", "g")]


def test_every_picture_that_is_offered_is_copied_whole():
    assert len(copies()) > 150
    for value, svg in copies().items():
        feature, _, code = value.partition(":")
        assert shapes(read_drawing(svg).markup) == shapes(picture(feature, code)), value


def test_the_chosen_picture_stands_in_answers_and_on_the_flat_and_its_history_says_so(author):
    page = author.get(WHERE).content.decode()
    assert 'name="like" value="collar:fall"' in page
    assert 'name="like" value="_keep" checked' in page

    assert chosen(author, like="collar:fall", why="It is worn turned over.").status_code == 302

    assert state().drawing == copies()["collar:fall"]
    known = type_facts("BLO").features["collar"].state_by_code["stand"]
    fall = shapes(picture("collar", "fall"))
    assert shapes(picture("collar", "stand", known.drawing)) == fall
    last = Correction.objects.order_by("-pk").first()
    assert (last.table, last.why) == ("feature", "It is worn turned over.")
    assert last.lines == [["State stand: drawing", "as the site draws it", "like collar:fall"]]

    assert chosen(author, like="", why="It is not, after all.").status_code == 302
    assert state().drawing == ""


@pytest.mark.parametrize(
    ("fields", "said"),
    [
        ({"like": "collar:fall"}, "Say why"),
        ({"like": "collar:nothing", "why": "typed long"}, "There is no such picture"),
        ({"like": "_keep", "why": "typed long"}, "That is how it is drawn already"),
        ({"like": "", "why": "typed long"}, "That is how it is drawn already"),
        ({"like": "collar:fall", "why": "typed long", "seen": "0" * 16}, "Somebody changed this drawing"),
    ],
)
def test_what_cannot_be_done_is_said_and_what_was_chosen_is_kept(author, fields, said):
    page = chosen(author, **fields).content.decode()

    assert said in page
    assert state().drawing == ""
    assert "typed long" in page or "why" not in fields
    if fields["like"] == "collar:fall":
        assert re.search(r'value="collar:fall" checked', page)


def test_a_state_that_there_is_not_is_not_there(author):
    for where in ("/figures/drawings/collar/", "/figures/drawings/collar/?state=x", "/figures/drawings/x/y/?state=z"):
        assert author.get(where).status_code == 404
