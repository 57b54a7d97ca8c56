"""The drawing board: an author sees a record drawn while choosing, without script, and nothing is stored."""

from urllib.parse import parse_qs, urlsplit

import pytest

from catalogue.reference.models import IssueVersion, ProfileCell, ReferenceState, VersionRecord
from catalogue.reference.regions import all_regions
from tests.catalogue.reference.test_every_page import faults_of
from tests.html_reading import read_html
from tests.making import make_member, make_type
from tests.reading import text, words

BLOUSE = "/figures/board/BLO/"
BLO_71 = f"{BLOUSE}?_version=BLO-71"


@pytest.fixture
def author(client, db):
    member = make_member("Ada", role="author")
    client.force_login(member)
    return client


@pytest.mark.parametrize("method", ["get", "post"])
def test_a_visitor_is_sent_to_the_sign_in_and_a_member_reads_whom_it_is_for(client, demo, method):
    visit = getattr(client, method)
    assert visit(BLOUSE).headers["Location"].startswith("/account/login/")
    client.force_login(make_member("Mo"))
    refused = visit(BLOUSE)
    assert refused.status_code == 403
    assert "authors, moderators and the secretary" in words(refused.content.decode())
    client.force_login(make_member("Ada", role="author"))
    assert visit(BLOUSE).status_code == (200 if method == "get" else 302)


def test_every_named_place_of_the_view_is_a_link_on_the_drawing_and_in_words(author, demo):
    page = read_html(text(author, f"{BLOUSE}?_view=back"))
    places = [code for garment, view, code in all_regions() if (garment, view) == ("jacket", "back")]
    led_to = [parse_qs(urlsplit(link.address).query).get("_region", [""])[0] for link in page.links]

    assert len(places) > 10
    # The whole cloth would lie over everything, so it is in the list only.
    assert {code: led_to.count(code) for code in places} == {code: 1 if code == "cloth" else 2 for code in places}


def test_a_place_offers_the_features_looked_at_there_with_the_record_ticked(author, demo):
    page = text(author, f"{BLO_71}&_view=front&_region=collar")
    legends = [part.split("</legend>")[0] for part in page.split("<legend>")[1:]]

    assert legends == ["Collar"]
    assert 'name="collar" value="convertible" checked' in page
    assert page.count('<svg class="part"') == 7


@pytest.mark.parametrize("region", ["chest_left", "chest_right"])
def test_a_place_of_one_side_offers_what_is_recorded_of_its_like(author, demo, region):
    assert "Form of the breast pocket" in text(author, f"{BLOUSE}?_view=front&_region={region}")


def test_a_part_is_offered_wherever_it_is_drawn(author, demo):
    """The cuff is looked at on the sleeve; whoever points at it on the front gets it too."""
    page = text(author, f"{BLOUSE}?_view=front&_region=cuff_left")

    assert "<legend>Cuff</legend>" in page
    assert "<legend>Collar</legend>" not in page


def test_the_drawing_follows_what_is_chosen_and_the_page_says_what_changed(author, demo):
    before = text(author, BLO_71)
    after = text(author, f"{BLO_71}&collar=fall")

    assert 'data-part="collar:convertible"' in before
    assert 'data-part="collar:fall"' not in before
    assert 'data-part="collar:fall"' in after
    assert 'data-part="collar:convertible"' not in after
    assert "Collar: Convertible: worn open as lapels or closed → Stand-and-fall (shirt) collar" in words(after)
    assert "Chosen so far" not in words(before)


def test_not_recorded_takes_a_part_off_the_drawing(author, demo):
    page = text(author, f"{BLO_71}&collar=")

    assert 'data-part="collar:' not in page
    assert "→ not recorded" in words(page)


def test_what_was_chosen_is_kept_from_place_to_place(author, demo):
    page = read_html(text(author, f"{BLO_71}&_region=cuff_left&collar=fall"))
    kept = [parse_qs(urlsplit(link.address).query).get("collar") for link in page.links if "#states" in link.address]

    assert len(kept) > 20
    assert set(map(tuple, kept)) == {("fall",)}
    assert '<input type="hidden" name="collar" value="fall">' in text(author, f"{BLO_71}&_region=cuff_left&collar=fall")


def test_a_form_that_is_sent_becomes_an_address_and_nothing_is_stored(author, demo):
    counts = [model.objects.count() for model in (VersionRecord, ProfileCell)]
    number = ReferenceState.current_number()

    answer = author.post(BLOUSE, {"_version": "BLO-71", "_view": "front", "collar": "fall", "cuff": "tab_button"})

    asked = parse_qs(urlsplit(answer.headers["Location"]).query)
    assert asked == {"_version": ["BLO-71"], "_view": ["front"], "collar": ["fall"]}  # the cuff is as recorded
    assert author.get(answer.headers["Location"]).status_code == 200
    assert [model.objects.count() for model in (VersionRecord, ProfileCell)] == counts
    assert ReferenceState.current_number() == number


def test_what_is_not_understood_is_named_and_the_rest_is_kept(author, demo):
    page = words(text(author, f"{BLO_71}&collar=fall&cuff=nonsense&_region=moon&what=1"))

    assert "Not understood and left out: cuff=nonsense, what=1, _region=moon. All else was kept." in page
    assert "Collar: Convertible" in page


def test_a_type_whose_class_has_no_drawings_says_so(author):
    make_type("BEL", name="Belt", garment_class="belt")
    page = words(text(author, "/figures/board/BEL/"))

    assert "There are no drawings for garments of the class “belt” yet" in page


def test_an_unknown_type_is_not_found(author, demo):
    assert author.get("/figures/board/NONE/").status_code == 404


@pytest.mark.parametrize(
    "address", [BLOUSE, f"{BLO_71}&_region=collar&collar=fall", "/figures/board/HAT/?_view=top", "/figures/board/HOO/"]
)
def test_the_page_is_well_formed(author, demo, address):
    assert faults_of(read_html(text(author, address))) == []


def test_authors_find_the_board_from_the_version_and_from_the_back_office_and_visitors_do_not(client, demo):
    door = "/figures/board/BLO/?_version=BLO-71"
    assert door not in text(client, "/issue-versions/BLO-71/")

    client.force_login(make_member("Sid", role="author"))
    version = IssueVersion.objects.get(code="BLO-71")
    assert door in text(client, "/issue-versions/BLO-71/")
    assert door in text(client, f"/admin/catalogue/issueversion/{version.pk}/change/")


def test_the_board_asks_the_database_as_seldom_as_other_pages(author, demo, django_assert_max_num_queries):
    text(author, BLO_71)
    with django_assert_max_num_queries(6):
        text(author, BLO_71)
