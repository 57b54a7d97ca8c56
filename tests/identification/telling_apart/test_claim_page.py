"""The pages on which a claim is checked, as a person without script meets them."""

import re

import pytest

from catalogue.figures.lost_parts import left_behind
from catalogue.reference.snapshots import type_facts
from identification.walk_through.views_shown import can_be_seen
from tests.making import make_feature, make_type, make_version
from tests.reading import data, read_caution, words
from tests.reading import text as page

pytestmark = pytest.mark.django_db
CLAIM = "/which/claim/?v=SMK-76"
AS_ISSUED = "&cloth_pattern=ling&front_closure=neck_zip&closure_cover=flap_double&zip_teeth=metal"
AS_COPIED = "&cloth_pattern=ling&front_closure=neck_zip&closure_cover=exposed"
CHECKS_OF_A_LINER = ("collar", "sleeve_set", "lining")
CHECKS = ("cloth_pattern", "front_closure", "closure_cover", "zip_teeth")


def told_of(client, query: str) -> dict:
    return data(client, f"/which/claim.json?{query}")


def test_how_a_part_gets_lost_explains_one_that_is_missing_and_none_that_is_there_against_the_record(client, demo):
    """BLO-86 is recorded without shoulder straps, BLO-94 with one."""
    lost = "Cut off when badges are stripped."
    read_caution(client, "BLO")
    without = type_facts("BLO").features["shoulder_strap"]
    there = ",".join(state.code for state in without.states if state.code != without.absent)

    assert lost not in words(page(client, f"/which/claim/?v=BLO-86&shoulder_strap={there}"))
    assert lost in words(page(client, f"/which/claim/?v=BLO-94&shoulder_strap={without.absent}"))


def test_the_door_and_a_versions_page_lead_to_the_check(client, demo):
    assert 'href="/which/claim/"' in page(client, "/which/")
    assert 'href="/which/claim/?v=SMK-76"' in page(client, "/issue-versions/SMK-76/")
    assert '<input type="text" id="v" name="v"' in page(client, "/which/claim/")


def test_one_page_shows_the_checks_with_all_their_answers_in_one_form_without_script(client, demo):
    text = page(client, CLAIM)

    for code in CHECKS:
        assert f'name="{code}" value="cannot-tell"' in text
        assert (f'name="{code}" value="part-missing"' in text) == (code != "cloth_pattern")
    assert 'name="cloth_pattern" value="ling"' in text
    assert text.count("<fieldset") == len(CHECKS)
    assert text.count('<form method="get"') == 1
    assert '<input type="hidden" name="v" value="SMK-76">' in text
    assert "The claim" not in words(text)


def test_each_check_is_a_yes_or_no_with_its_part_drawn_and_its_place_marked_on_the_claimed_version(client, demo):
    text = page(client, CLAIM)
    flat = re.search(r'<svg class="flat".*?</svg>', text, re.DOTALL)[0]
    checks = re.findall(r'<fieldset class="claim-check">.*?</fieldset>', text, re.DOTALL)

    assert "Cover of the closure: Two storm flaps (inner and outer)?" in words(checks[2])
    assert 'value="flap_double"> Yes' in checks[2]
    assert 'value="exposed,fly,flap_single"> No' in checks[2]
    for check in checks:
        above, _, folded = check.partition('<details class="exactly">')
        assert above.count('<svg class="part"') == 1
        assert folded.count('<input type="radio"') >= 2
        values = re.findall(r'value="([^"]+)"', check)
        assert len(values) == len(set(values))
    assert "places to look at: 2 front closure, 3 cover of the closure, 4 zip teeth" in flat
    assert 'data-part="closure_cover:flap_double"' in flat
    assert re.findall(r">(\d)</text>", flat) == ["2", "4", "3"]


def test_no_to_a_check_counts_against_the_claim_and_is_kept_as_it_was_given(client, demo):
    address = CLAIM + "&closure_cover=exposed,fly,flap_single"
    text = page(client, address)

    assert told_of(client, address.partition("?")[2])["decibans"] < -5
    assert 'value="exposed,fly,flap_single" checked> No' in text
    assert '<details class="exactly" open>' not in text
    assert page(client, f"{CLAIM}&closure_cover=fly").count('<details class="exactly" open>') == 1


def test_a_year_that_cannot_be_read_is_told_before_the_walk_goes_on(client, demo):
    assert "is not a year of four figures" in words(page(client, f"{CLAIM}&_label_year=62&_walk=yes"))


def test_what_a_lost_part_leaves_behind_is_drawn_and_told_beside_that_answer_alone(client, demo):
    text = page(client, "/which/claim/?v=LIN-67")
    features = type_facts("LIN").features
    can_be_lost = set(re.findall(r'name="([a-z_]+)" value="part-missing"', text))

    assert {code for code in CHECKS_OF_A_LINER if features[code].absent} < can_be_lost
    assert text.count("Look for ") == len(can_be_lost)
    for code in can_be_lost:
        missing = re.search(rf'name="{code}" value="part-missing".*?</label>', text)[0]
        assert left_behind(code).svg in missing
        assert f"Look for {left_behind(code).words}." in missing


def test_a_piece_that_fits_is_never_said_to_be_it(client, demo):
    text = words(page(client, CLAIM + AS_ISSUED))

    assert "Nothing speaks against it so far" in text
    assert "4 of 4 checks were made. That does not prove it" in text
    assert "Not checked:" not in text
    assert "This is" not in text


def test_what_was_not_checked_is_named(client, demo):
    text = words(page(client, f"{CLAIM}&cloth_pattern=ling&zip_teeth=cannot-tell"))

    assert "1 of 4 checks was made" in text
    assert "Not checked: front closure, cover of the closure, zip teeth." in text


def test_cannot_tell_to_everything_leaves_everything_unchecked(client, demo):
    text = words(page(client, CLAIM + "".join(f"&{code}=cannot-tell" for code in CHECKS)))

    assert "Nothing speaks against it so far" in text
    assert "Nothing has been checked yet" in text
    assert "Not checked: pattern (colourway), front closure, cover of the closure, zip teeth." in text


def test_a_copy_is_doubted_with_the_reason_and_the_look_alikes_that_are_left(client, demo):
    text = words(page(client, CLAIM + AS_COPIED))

    assert "Doubtful" in text
    assert (
        "What you saw is not what the record says of cover of the closure: a slip, a repair, or another version."
        in text
    )
    assert "strongly against" in text
    assert "Not ruled out: Copy of the Ling smock" in text


def test_what_fits_another_version_is_ruled_out_and_that_version_named(client, demo):
    address = (
        "/which/claim/?v=SMK-76&cloth_pattern=shingle&front_closure=zip&closure_cover=flap_single&collar=hood_stowed"
    )
    text = words(page(client, address))
    told = told_of(client, address.partition("?")[2])

    assert "Not Smock, fell, Pattern 76, Ling print" in text
    assert told["standing"] == "not_this"
    assert told["rather"]
    assert "Rather:" in text
    assert "Not ruled out:" not in text


def test_the_answers_given_stay_ticked_and_others_are_carried_along(client, demo):
    text = page(client, CLAIM + AS_COPIED + "&bartack=none&_size=2")

    assert '<input type="radio" name="closure_cover" value="exposed" checked>' in text
    assert '<input type="hidden" name="bartack" value="none">' in text
    assert '<input type="hidden" name="closure_cover"' not in text
    sent = client.get(f"{CLAIM}{AS_COPIED}&bartack=none&_size=2&_label_number=&_walk=yes")
    kept = "cloth_pattern=ling&front_closure=neck_zip&closure_cover=exposed&bartack=none"
    assert '<button class="answer plain" name="_walk" value="yes">' in text
    assert (sent.status_code, sent["Location"]) == (302, f"/which/SMK/?{kept}")


def test_an_answer_of_several_states_is_kept_as_an_answer_of_its_own(client, demo):
    text = page(client, f"{CLAIM}&front_closure=zip,neck_zip")

    assert '<input type="radio" name="front_closure" value="zip,neck_zip" checked>' in text


def test_bad_parts_of_an_address_are_dropped_with_a_note(client, demo):
    text = words(page(client, f"{CLAIM}&front_closure=velcro&nonsense=1&closure_cover=exposed"))

    assert "Left out of this address" in text
    assert "“velcro” is not an answer to “Front closure”" in text
    assert "“nonsense” is not a feature of this garment type" in text
    assert "Doubtful" in text


@pytest.mark.parametrize("typed", ["smk-76", " SMK-76 ", "Smock, fell, Pattern 76, Ling print"])
def test_code_and_name_are_read_in_any_spelling_and_the_answers_kept(client, demo, typed):
    response = client.get("/which/claim/", {"v": typed, "cloth_pattern": "ling"})

    assert response.status_code == 302
    assert response["Location"] == "/which/claim/?v=SMK-76&cloth_pattern=ling"


def test_a_sellers_name_is_shown_for_what_it_is_and_not_taken_for_the_version(client, demo):
    text = words(page(client, "/which/claim/?v=early+fell+smock,+unissued"))

    assert "Which one is meant by" in text
    assert "no such garment was ever issued" in text
    assert "SMK-RP" in text


@pytest.mark.parametrize("typed", ["SMK-77", "BLO 71X", "<b>smok</b>", "x" * 3000, "%00", "ZZZ\u0000Z"])
def test_an_unknown_version_keeps_what_was_typed_and_gives_what_is_near(client, demo, typed):
    response = client.get("/which/claim/", {"v": typed})
    text = response.content.decode()

    assert response.status_code == 200
    assert "<b>smok</b>" not in text
    assert "No version has the code or name" in text
    if typed == "SMK-77":
        assert "/which/claim/?v=SMK-76" in text


def test_a_hazard_comes_first_and_nothing_asks_to_handle_it(client, demo):
    first = page(client, "/which/claim/?v=HOO-60&colour=silver")
    address = "/which/claim/?v=HOO-60&colour=silver"
    assert client.post(address)["Location"] == address
    then = words(page(client, address))

    assert "Before you look" in first
    assert '<form method="post" action="/which/claim/?v=HOO-60&colour=silver">' in first
    assert then.index("Do not open, shake, brush, wash or cut") < then.index("Chin strap: Strap of the same cloth?")
    assert "Open the garment" not in then
    assert "Would tell more, but this garment must not be handled" in then


def test_a_version_that_nothing_tells_from_another_says_so(client, demo):
    read_caution(client, "BLO")
    text = words(page(client, "/which/claim/?v=BLO-57"))

    assert "Nothing on record tells it from Blouse, working, 'Pattern 64' (unplaced)" in text


def test_a_version_of_which_no_piece_was_seen_says_so(client, demo):
    assert "No member has seen a piece of this version" in words(page(client, "/which/claim/?v=VES-66G"))


def test_a_version_alone_in_its_type_has_nothing_to_be_refuted_by(client):
    garment = make_type("T")
    make_version(garment, "ALONE", {make_feature("f", types=[garment]): "yes"})

    text = words(page(client, "/which/claim/?v=ALONE"))

    assert "Nothing on record that may be looked at could show this claim to be wrong" in text


def test_an_empty_site_has_the_door(client):
    assert "No version has the code or name “X”" in words(page(client, "/which/claim/?v=X"))


def test_the_same_address_as_data_says_the_same(client, demo):
    told = told_of(client, "v=SMK-76" + AS_COPIED + "&nonsense=1")

    assert told["standing"] == "doubtful"
    assert [check["feature"] for check in told["checks"]] == list(CHECKS)
    assert [check["feature"] for check in told["checks"] if check["checked"]] == list(CHECKS[:3])
    assert told["disagreements"] == ["closure_cover"]
    assert "SMK-CC" in told["unchecked"]
    assert len(told["notes"]) == 1


def test_data_of_an_unknown_version_names_what_is_near(client, demo):
    response = client.get("/which/claim.json?v=SMK-77")

    assert response.status_code == 404
    assert "SMK-76" in response.json()["near"]


def test_the_checks_stay_the_same_whatever_is_answered(client, demo):
    before = [check["feature"] for check in told_of(client, "v=SMK-76")["checks"]]

    assert [check["feature"] for check in told_of(client, "v=SMK-76" + AS_COPIED)["checks"]] == before


def test_no_page_of_a_claim_starts_a_session(client, demo):
    client.get(CLAIM + AS_COPIED)

    assert not client.cookies


def test_by_pictures_only_nothing_is_looked_at_that_they_cannot_show(client, demo):
    found = data(client, "/which/claim.json?v=SMK-76&_accepted=yes&_views=front")
    features = type_facts("SMK").features

    assert found["notes"] == []
    assert found["checks"]
    assert all(can_be_seen(features[check["feature"]], ("front",)) for check in found["checks"])


def test_only_what_can_be_seen_is_asked_where_the_address_says_so(client, demo):
    every = [check["feature"] for check in told_of(client, "v=COA-02S")["checks"]]
    outside = [check["feature"] for check in told_of(client, "v=COA-02S&_views=outside")["checks"]]

    assert "bartack" in every
    assert outside
    assert "bartack" not in outside


LABELLED = "/which/claim/?v=BLO-71"
ITS_OWN = "&_label_number=27-114-06&_label_year=1974"
OF_ANOTHER = "&_label_number=C/14/61&_label_year=1962"


def test_what_the_label_says_is_weighed_with_the_claim(client, demo):
    read_caution(client, "BLO")
    fits, other = (told_of(client, f"v=BLO-71{label}") for label in (ITS_OWN, OF_ANOTHER))

    assert fits["decibans"] > 0 > other["decibans"]
    assert fits["label"]["decibans"]["BLO-71"] > 0 > other["label"]["decibans"]["BLO-71"]
    assert told_of(client, "v=BLO-71")["label"] is None
    said = words(page(client, LABELLED + ITS_OWN))
    assert "number 27-114-06" in said
    assert "labels get moved and copied, and nothing else has been checked" in said


def test_a_label_alone_never_refutes_a_claim(client, demo):
    """Labels get swapped: however loudly one speaks, the claim is no worse than doubtful until the piece speaks too."""
    for version in type_facts("BLO").versions:
        for label in (ITS_OWN, OF_ANOTHER):
            assert told_of(client, f"v={version}{label}")["standing"] != "not_this"


def test_a_label_of_another_version_is_doubted_in_words(client, demo):
    read_caution(client, "BLO")
    said = words(page(client, LABELLED + OF_ANOTHER))

    assert "Doubtful" in said
    assert "Labels get moved: look at how it is sewn in" in said
    assert "number C/14/61 is on record for BLO-57 and BLO-64G" in said


def test_the_form_of_a_claim_takes_the_label_and_keeps_what_was_typed(client, demo):
    read_caution(client, "BLO")
    text = page(client, LABELLED + "&_label_number=C/14/61&_label_year=62")

    assert 'name="_label_number" maxlength="120" autocomplete="off" spellcheck="false" value="C/14/61"' in text
    assert 'value="62" aria-invalid="true"' in text
    assert "“62” is not a year of four figures" in words(text)
    assert '<input type="hidden" name="_label_number"' not in text


def test_how_the_label_is_sewn_in_is_weighed_with_the_claim(client, demo):
    read_caution(client, "BLO")
    same, holes = (told_of(client, f"v=BLO-71{OF_ANOTHER}&_label_sewn={sewn}") for sewn in ("same", "empty_row"))

    assert same["decibans"] < holes["decibans"] < 0
    assert '<option value="empty_row" selected>' in page(client, f"{LABELLED}{OF_ANOTHER}&_label_sewn=empty_row")


def test_fields_of_the_label_left_empty_leave_nothing_in_the_address(client, demo):
    read_caution(client, "BLO")
    answer = client.get(LABELLED + "&weave=herringbone&_label_number=&_label_year=&_label_maker=")

    assert answer.status_code == 302
    assert "_label" not in answer["Location"]
    assert "v=BLO-71&weave=herringbone" in answer["Location"]
