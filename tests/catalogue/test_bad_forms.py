"""Forms that no browser sends, and the largest that one does."""

import re
from pathlib import Path

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile

from catalogue.member_examples.photographs.limits import LARGEST_REQUEST, MOST_BYTES
from tests.catalogue.member_examples.pieces import draft, make_society

ROOT = Path(__file__).resolve().parents[2]


@pytest.fixture
def society(db):
    return make_society()


@pytest.mark.parametrize(
    ("address", "form"),
    [
        ("photographs/", {"caption": "a\0b"}),
        ("seen/cuff/", {"answer": "tab", "note": "a\0b"}),
        ("condition/", {"provenance": "\0"}),
        ("names/", {"na\0me": "x"}),
    ],
)
def test_a_nul_in_a_form_is_refused_in_words_and_nothing_is_written(client, society, address, form):
    piece = draft(society)
    client.force_login(society.ada)
    answer = client.post(f"/my-pieces/{piece.code}/{address}", form)

    assert answer.status_code == 400
    assert "<h1" in answer.content.decode()
    piece.refresh_from_db()
    assert piece.provenance == ""
    assert not piece.observations.exists()


def test_a_form_without_one_goes_through_with_its_files(client, society):
    piece = draft(society)
    client.force_login(society.ada)
    file = SimpleUploadedFile("a.jpg", b"not a picture")
    answer = client.post(f"/my-pieces/{piece.code}/photographs/", {"photographs": [file], "caption": "plain"})

    assert "a.jpg" in answer.content.decode()


def test_the_server_of_the_readme_lets_a_hundred_pictures_through_to_be_refused_in_words():
    said = re.search(r"--max-request-body-size=(\d+)", (ROOT / "README.md").read_text(encoding="utf-8"))

    assert int(said.group(1)) == LARGEST_REQUEST > 100 * MOST_BYTES
