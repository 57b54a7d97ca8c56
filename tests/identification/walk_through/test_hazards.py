"""A garment that must stay closed says so on every page of its walk, also to those who open a shared link."""

import re

import pytest
from django.test import Client

from catalogue.reference.models import ReferenceState
from tests.making import make_feature, make_type, make_version
from tests.reading import data, read_caution, text

pytestmark = pytest.mark.django_db
WALK = "/which/HOO/?chin_strap=self"


@pytest.mark.parametrize("address", [WALK, f"{WALK}&_stop=yes"])
def test_the_warning_stands_on_questions_and_on_the_verdict(client, demo, address):
    read_caution(client, "HOO")

    assert "Do not open, shake or brush it." in text(client, address)


def test_a_shared_link_begins_with_the_caution(client, demo):
    read_caution(client, "HOO")
    page = text(client, f"{WALK}&_stop=yes")
    shared = page.split('class="address" href="')[1].split('"')[0]
    somebody_else = text(Client(), shared)

    assert "Before you look" not in page
    assert "Before you look" in somebody_else
    assert "Do not open" in somebody_else


def test_nothing_on_a_page_behind_the_caution_leads_others_past_it_but_its_data(client, demo):
    read_caution(client, "HOO")

    for address in (WALK, f"{WALK}&_stop=yes"):
        links = re.findall(r'(?:href|action|value)="([^"]*)"', text(client, address))
        assert [link for link in links if "_accepted" in link and ".json" not in link] == []


def test_an_old_address_that_says_it_was_read_still_answers_and_shows_the_caution(client, demo):
    page = text(client, "/which/HOO/?_accepted=yes&chin_strap=self")

    assert "Before you look" in page
    assert "“_accepted=yes” says nothing here: left out." in page
    assert 'action="/which/HOO/?chin_strap=self"' in page


def test_that_it_was_read_is_kept_by_the_browser_for_twelve_hours_and_for_that_type_alone(client, demo):
    client.get(WALK)
    told = client.post(WALK)
    (cookie,) = told.cookies.values()

    assert (told.status_code, told["Location"]) == (302, WALK)
    assert (cookie["max-age"], cookie["path"]) == (12 * 60 * 60, "/which/")
    assert (cookie["httponly"], cookie["samesite"]) == (True, "Lax")
    assert "Before you look" not in text(client, WALK)
    assert "Before you look" in text(client, "/which/COA/")
    assert "sessionid" not in client.cookies


def test_who_keeps_no_cookies_is_shown_the_caution_before_every_page_and_yet_gets_on(demo):
    forgetful = Client(enforce_csrf_checks=True)  # as a browser that keeps nothing
    assert "Before you look" in text(forgetful, WALK)
    forgetful.cookies.clear()

    page = forgetful.post(f"{WALK}&_stop=yes").content.decode()
    forgetful.cookies.clear()

    assert "Your browser keeps no cookies from this site" in page
    assert 'class="verdict-kind"' in page
    assert "Before you look" in text(forgetful, WALK)


def test_a_page_of_another_site_cannot_say_that_it_was_read(client, demo):
    client.get(WALK)
    told = client.post(WALK, headers={"Sec-Fetch-Site": "cross-site"})

    assert "Before you look" in told.content.decode()
    assert "Before you look" in text(client, WALK)


def test_a_hazard_that_was_recorded_since_is_shown_again(client, db):
    garment = make_type("X", caution="Wash your hands.")
    make_version(garment, "X-1", {make_feature(types=[garment]): "yes"})
    read_caution(client, "X")
    assert "Before you look" not in text(client, "/which/X/")

    garment.caution = "Do not unfold."
    garment.save()
    ReferenceState.mark_changed()

    assert "Do not unfold." in text(client, "/which/X/")


def test_a_hazard_that_was_written_down_without_its_kind_is_a_caution_all_the_same(client, db):
    garment = make_type("X")
    make_version(garment, "X-1", {make_feature(types=[garment]): "yes"}, hazard="lead weights in the hem")

    assert "Before you look" in (page := text(client, "/which/X/"))
    assert "caution (lead weights in the hem)." in page
    assert "Caution</strong>: lead weights in the hem" in text(client, "/issue-versions/X-1/")


def test_a_verdict_says_once_what_the_law_may_restrict_of_the_versions_that_it_names(client, db):
    feature = make_feature("f", types=[garment := make_type("X")])
    for code in ("X-1", "X-2"):
        make_version(garment, code, {feature: "yes"}, export_restricted=True)

    page = text(client, "/which/X/?f=yes")

    assert "Nothing on record tells them apart" in page
    assert page.count("Export may need a licence. Ask before posting abroad.") == 1
    assert "Collecting is not wearing" not in page


def test_a_program_says_in_the_address_that_it_has_read_the_caution(client, demo):
    assert data(client, "/which/HOO.json")["next"] == {"page": "caution", "accept": "_accepted=yes"}
    told = data(client, "/which/HOO.json?_accepted=yes")

    assert told["next"]["page"] == "question"
    assert told["notes"] == []
    assert told["cautions"]


def test_a_verdict_without_a_name_shows_what_remains_in_the_open(client, demo):
    read_caution(client, "HOO")
    page = text(client, f"{WALK}&_stop=yes")

    assert page.index('id="likely"' if 'id="likely"' in page else "Still possible") < page.index(
        "The numbers behind this"
    )
