"""Pages that say when a detail changed, and what dated labels say of a version and of a piece."""

import csv
from io import StringIO

import pytest

from catalogue.member_examples.queries import forget_evidence
from catalogue.reference.snapshots import forget_everything


@pytest.fixture(autouse=True)
def nothing_kept():
    forget_everything()
    forget_evidence()


def page(client, address: str, status: int = 200) -> str:
    response = client.get(address)
    assert response.status_code == status, address
    return response.content.decode()


def test_slotted_buttons_replaced_sewn_ones_in_the_demo(client, demo):
    """The demo's makers fit slotted buttons from 1986, one of them from 1988."""
    text = page(client, "/garment-types/BLO/details/button_fix/")

    assert "replaced “Sewn through 4 holes” about 198" in text
    assert 'class="band"' in text
    assert "<table" in text


def test_the_details_of_a_type_stand_under_what_is_shown_of_them(client, demo):
    text = page(client, "/garment-types/BLO/details/")

    assert text.index("<h2>Changed</h2>") < text.index("How buttons are fixed") < text.index("<h2>No change shown</h2>")
    assert "/garment-types/BLO/details/button_fix/" in text


def test_the_spreadsheet_has_each_dated_example_of_the_page(client, demo):
    response = client.get("/garment-types/BLO/details/button_fix/dated.csv")
    rows = list(csv.DictReader(StringIO(response.content.decode())))

    assert response["Content-Type"] == "text/csv; charset=utf-8"
    assert len(rows) == page(client, "/garment-types/BLO/details/button_fix/").count("<tr><td>") > 40
    assert {"garment_type", "feature", "state", "year", "maker", "version", "example"} == set(rows[0])
    assert [row["year"] for row in rows] == sorted(row["year"] for row in rows)


def test_copies_and_conversions_date_nothing(client, demo):
    text = page(client, "/garment-types/BLO/details/button_fix/dated.csv")

    assert "BLO-71" in text
    assert "BLO-CV" not in text


def test_what_is_not_known_is_not_found(client, demo):
    page(client, "/garment-types/BLU/details/", 404)
    page(client, "/garment-types/BLO/details/nonsense/", 404)
    page(client, "/garment-types/BLO/details/nonsense/dated.csv", 404)
    page(client, "/issuers/NOPE/details/", 404)
    page(client, "/issuers/SFS/details/nonsense/", 404)


def test_one_detail_of_all_types_stands_on_one_line_of_years(client, demo):
    text = page(client, "/issuers/SFS/details/size_system/")

    assert text.count("<svg") > 1
    assert "Working blouse" in text
    assert "Fell smock" in text
    assert "/issuers/SFS/details/size_system/" in page(client, "/issuers/SFS/details/")


def test_a_version_shows_its_dated_span_and_one_without_labels_does_not(client, demo):
    text = page(client, "/issue-versions/BLO-94/")

    assert "Label years seen: 1995–" in text
    assert "Production probably lay within" in text
    assert "Dated labels" not in page(client, "/issue-versions/VES-66G/")


def test_a_piece_without_a_year_is_dated_by_what_it_shows(client, demo):
    from catalogue.member_examples.models import Example

    undated = Example.objects.accepted().filter(label_year=None, held_as__code__in=["BLO-71", "BLO-86", "BLO-94"])
    text = page(client, f"/examples/{undated.first().code}/")

    assert "Its year" in text
    assert "It rests on" in text


def test_a_type_without_examples_teaches_what_would_date_it(client, db):
    from tests.making import make_type

    make_type("HAT")
    text = page(client, "/garment-types/HAT/details/")

    assert "No dated example shows a detail yet." in text


def test_only_reading_is_answered(client, demo):
    assert client.post("/garment-types/BLO/details/button_fix/").status_code == 405
