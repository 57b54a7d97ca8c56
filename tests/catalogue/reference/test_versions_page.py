"""The list of versions: what cannot be read is said, and nothing that was chosen is lost."""

import pytest

from tests.making import make_type, make_version
from tests.reading import text

pytestmark = pytest.mark.django_db


def test_a_filter_that_cannot_be_read_is_named_in_the_words_of_the_form(client, demo):
    page = text(client, "/issue-versions/?year_from=abc")

    assert "Made in or after: Write a year in four figures, as 1971." in page
    assert "/issue-versions/BLO-52/" not in page


def test_a_garment_type_without_a_version_is_not_said_to_be_missing_from_the_reference(client, db):
    make_type("NIL")
    make_version(make_type("ONE"), "ONE-1")

    page = text(client, "/issue-versions/?type=NIL")

    assert "Garment type: No version on record has “NIL” here." in page
    assert "not in the reference" not in page


def test_years_the_wrong_way_round_are_said_to_be(client, demo):
    page = text(client, "/issue-versions/?year_from=1990&year_to=1950")

    assert "Made in or before: No year is from 1990 and to 1950: the earlier one comes first." in page
    assert 'name="year_from" value="1990"' in page


def test_what_was_typed_and_ticked_stays_when_another_filter_cannot_be_read(client, demo):
    page = text(client, "/issue-versions/?year_from=abc&kind=trial&q=smock")

    assert 'id="year_from" name="year_from" value="abc" aria-invalid="true"' in page
    assert 'name="kind" value="trial" checked' in page
    assert 'name="q" maxlength="100" value="smock"' in page


def test_counts_of_a_facet_leave_that_facet_out_of_account(client, demo):
    page = text(client, "/issue-versions/?kind=trial")

    assert "2 versions" in page
    assert 'value="issue">Issue<span class="hint">44</span>' in page
    assert 'value="trial" checked>Trial<span class="hint">2</span>' in page


def test_fields_of_the_form_left_empty_are_no_filters(client, demo):
    page = text(client, "/issue-versions/?q=&year_from=&year_to=+&kind=commercial_copy&feature=&sort=")

    assert 'role="alert"' not in page
    assert "/issue-versions/BLO-CC/" in page


def test_an_empty_list_says_which_filter_to_drop_and_what_would_be_left(client, demo):
    page = text(client, "/issue-versions/?kind=trial&type=CAP")

    assert "No version has all of this. Take away one of them" in page
    assert "without Garment type: " in page
    assert '<span class="hint">2 versions</span>' in page


@pytest.mark.parametrize(
    ("pair", "words"),
    [
        (("BLO-57", "BLO-71"), "by the label, or by weak features"),
        (("COA-85", "COA-85R"), "by the label only"),
        (("BLO-52", "BLO-57"), "from outside"),
    ],
)
def test_a_comparison_says_how_hard_two_versions_are_to_tell(client, demo, pair, words):
    assert f"are told apart {words}." in text(client, f"/compare/?v={pair[0]}&v={pair[1]}")
