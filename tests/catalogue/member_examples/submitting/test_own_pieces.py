"""A member's pieces on their own page, in their export, and on the day they leave."""

import json
from io import BytesIO

import pytest
from django.core.serializers.json import DjangoJSONEncoder
from django.template.loader import render_to_string
from PIL import Image

from catalogue.member_examples.models import Example, HiddenName
from catalogue.member_examples.submitting.own_pieces import exported, exported_files, forget_drafts, latest
from tests.catalogue.member_examples.pieces import draft, in_state, sent
from tests.catalogue.member_examples.submitting.forms_sent import send_pictures, upload


def test_what_waits_for_its_owner_comes_first(society):
    for state in ("accepted", "submitted", "draft", "returned"):
        in_state(society, state)

    states = [row["example"].state for row in latest(society.ada)["rows"]]
    assert states == ["returned", "draft", "submitted", "accepted"]


def test_the_section_shows_a_few_and_says_how_many_more(society):
    for _ in range(8):
        draft(society)
    words = render_to_string("member_examples/submitting/own_section.html", {"part": latest(society.ada)})

    assert words.count("<li>") == 6
    assert "2 more" in words
    assert "Nothing yet" in render_to_string("member_examples/submitting/own_section.html", latest(society.ben))


def test_the_export_holds_what_the_member_wrote_and_nothing_of_others(society):
    sent(society, text="MINE", closure="zip")
    sent(society, society.ben, text="THEIRS")
    told = json.dumps(exported(society.ada), cls=DjangoJSONEncoder)

    assert "MINE" in told
    assert "Zip" in told
    assert "THEIRS" not in told


def test_photographs_go_along_under_the_number_of_their_piece(ada, society):
    example = draft(society)
    send_pictures(ada, example, upload(), view="front")

    [(name, data)] = exported_files(society.ada)
    assert name == f"{example.code}/01-front.webp"
    assert Image.open(BytesIO(data)).format == "WEBP"


def test_who_leaves_takes_their_drafts_along_and_leaves_no_plain_name(society):
    draft(society)
    stays = sent(society)
    HiddenName.objects.create(example=stays, by=society.ada, name="R. Brandt")
    forget_drafts(society.ada)

    assert list(Example.objects.filter(owner=society.ada)) == [stays]
    assert HiddenName.objects.get().name == ""


def test_the_section_registers_itself_where_members_have_pages_of_their_own():
    sections = pytest.importorskip("catalogue.accounts.sections")
    import catalogue.member_examples.member_parts  # noqa: F401

    assert sections.registered["pieces"].heading == "Your pieces"
