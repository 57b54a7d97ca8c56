"""A walk by pictures only: what they can show is asked, and the photographs that would settle most are asked for."""

import re

import pytest

from catalogue.reference.facts import FeatureFacts, Place
from catalogue.reference.regions import OPENED_VIEWS
from catalogue.reference.snapshots import all_types, type_facts
from identification.walk_through.photographs import LEAST_BITS, message
from identification.walk_through.views_shown import can_be_seen, view_of, views_offered
from tests.reading import data, read_caution, text


def feature(seen: str = "outside", *places: str) -> FeatureFacts:
    """A feature seen in this way, at places written as view or view:region."""
    found = [place.partition(":") for place in places]
    return FeatureFacts(
        code="f", name="F", group="", question="?", kind="choice", unit="", spread=5.0, seen=seen, effort=1.0,
        error=0.05, error_note="", service_change="no", change_note="", absent=None, loss=0.0, gain=0.0, parent=None,
        shown_when=(), basis="", states=(),
        places=tuple(Place(view, region or "cloth", "jacket") for view, _, region in found),
    )  # fmt: skip


@pytest.mark.parametrize(
    ("one", "views", "shown"),
    [
        (feature("outside", "front"), ("front",), True),
        (feature("outside", "front"), ("back",), False),
        (feature("outside", "front", "back"), ("back",), True),
        (feature("daylight", "any"), ("back",), True),
        (feature("outside", "any"), ("label",), False),
        (feature("outside"), ("front",), True),
        (feature("opened", "inside"), ("inside",), True),
        (feature("opened", "inside"), ("front",), False),
        (feature("opened", "front"), ("front",), False),
        (feature("opened", "inside:label"), ("inside",), False),
        (feature("opened", "inside:label"), ("label",), True),
        (feature("handled", "front"), ("front",), False),
        (feature("measured", "back"), ("back",), False),
        (feature("outside", "inside"), ("outside",), False),
        (feature("outside", "front"), ("outside",), True),
        (feature("measured", "back"), (), True),
        (feature("outside", "sleeve_left:cuff"), ("sleeve_right",), True),
        (feature("outside", "sleeve_left:cuff"), ("front",), False),
    ],
)
def test_a_picture_shows_what_lies_in_its_view_and_is_neither_touched_nor_measured(one, views, shown):
    assert can_be_seen(one, views) is shown


def walked(client, address: str, answer: str = "cannot-tell") -> tuple[list[str], dict]:
    """The features asked when each is answered so, and the verdict."""
    asked = []
    while (told := data(client, address)["next"])["page"] == "question":
        asked.append(told["feature"])
        address += f"&{told['feature']}={answer}"
    return asked, told


@pytest.mark.parametrize("views", ["front", "label", "front,back", "inside", "sleeve_left"])
def test_nothing_is_asked_that_the_pictures_cannot_show(client, demo, views):
    facts = type_facts("SMK")
    asked, _ = walked(client, f"/which/SMK.json?_views={views}")

    assert asked
    for code in asked:
        one = facts.features[code]
        assert one.seen not in ("handled", "measured"), code
        assert {view_of(place) for place in one.places} & {*views.split(","), "any"}, code


def test_pictures_of_either_sleeve_can_be_ticked_and_show_what_is_the_same_on_both(client, demo):
    page = text(client, "/which/SMK/")
    features = type_facts("BLO").features

    assert re.search(r'name="_views" value="sleeve_left"', page)
    assert re.search(r'name="_views" value="sleeve_right"', page)
    assert can_be_seen(features["cuff"], ("sleeve_right",))
    assert not can_be_seen(features["sleeve_pocket"], ("sleeve_right",))


def test_more_pictures_never_show_less(demo):
    for facts in all_types():
        views = views_offered(facts)
        for one in facts.features.values():
            shown = [can_be_seen(one, views[:n]) for n in range(1, len(views) + 1)]
            assert shown == sorted(shown)


def test_the_verdict_asks_for_the_two_photographs_that_would_settle_most(client, demo):
    verdict = walked(client, "/which/SMK.json?_views=back&cloth_pattern=plain_dyed")[1]
    wanted = verdict["photographs"]

    assert len(wanted) == 2
    assert wanted[0]["bits"] >= wanted[1]["bits"] >= LEAST_BITS
    assert "back" not in [one["view"] for one in wanted]
    assert "send me two more photographs?" in verdict["message"]


def test_where_the_outside_is_known_the_inside_or_the_label_is_asked_for(client, demo):
    answers = "front_closure=buttons&cloth_pattern=plain_dyed&collar=convertible&colour=moss&button_fix=sew4"
    verdict = data(client, f"/which/BLO.json?_accepted=yes&_views=front,back,sleeve_left&{answers}&_stop=yes")["next"]

    assert verdict["photographs"][0]["view"] == "label"
    assert "the label, whole and sharp" in verdict["message"].lower()
    assert "cover any name" in verdict["message"]


def test_a_view_that_the_pictures_show_already_is_never_asked_for(client, demo):
    for views in ("front", "front,back,label", "inside,label"):
        wanted = data(client, f"/which/BLO.json?_accepted=yes&_views={views}&_stop=yes")["next"].get("photographs", [])
        assert {one["view"] for one in wanted} & set(views.split(",")) == set()


def test_of_a_garment_that_must_stay_closed_no_picture_is_asked_that_needs_opening(client, demo):
    verdict = data(client, "/which/HOO.json?_accepted=yes&_views=back&_stop=yes")["next"]

    assert {one["view"] for one in verdict.get("photographs", [])} & set(OPENED_VIEWS) == set()
    assert "inside" not in verdict.get("message", "")
    asked, _ = walked(client, "/which/HOO.json?_accepted=yes&_views=inside,label")
    assert not [code for code in asked if type_facts("HOO").features[code].needs_handling]


def test_a_walk_with_the_piece_in_hand_asks_nobody_for_photographs(client, demo):
    for address in ("/which/SMK.json?_stop=yes", "/which/SMK.json?_views=outside&_stop=yes"):
        assert "photographs" not in data(client, address)["next"]


# ---- pages


def test_the_views_are_ticked_on_a_form_that_keeps_the_answers(client, demo):
    page = text(client, "/which/SMK/?collar=fall")
    form = page[page.index("I only have pictures") :]
    form = form[: form.index("</form>")]

    assert re.findall(r'name="_views" value="([a-z_]+)"', form) == [
        "front",
        "back",
        "inside",
        "sleeve_left",
        "sleeve_right",
        "label",
    ]
    assert '<input type="hidden" name="collar" value="fall">' in form


def test_what_was_ticked_stands_in_every_address_and_can_be_changed(client, demo):
    page = text(client, "/which/SMK/?_views=front&_views=back")

    assert "Only what pictures of front and back can show is asked." in page
    assert '<input type="hidden" name="_views" value="front,back">' in page
    assert 'value="front" checked' in page
    assert 'value="label" checked' not in page
    assert ">Ask everything</a>" in page


def test_the_letter_stands_on_the_page_ready_to_be_copied(client, demo):
    page = text(client, "/which/SMK/?_views=front&_stop=yes")
    letter = page[page.index("<textarea") : page.index("</textarea>")]

    assert "readonly" in letter
    assert "I should like to know which version your fell smock is." in letter
    assert "1. " in letter
    assert '<label for="letter">' in page


def test_a_view_that_is_none_is_named_and_the_walk_goes_on(client, demo):
    page = text(client, "/which/SMK/?_views=front,brim")

    assert "“brim” is not a view" in page
    assert "pictures of front can show" in page


def test_over_all_types_no_views_are_offered(client, demo):
    read_caution(client, "any-garment")
    assert "I only have pictures" not in text(client, "/which/any-garment/")


def test_without_a_photograph_that_would_tell_there_is_no_letter(demo):
    assert message(type_facts("BLO"), []) == ""
