"""The pages of a walk on the demo society, as a person without script meets them."""

import re
from urllib.parse import parse_qs, urlsplit

import pytest

from catalogue.figures.figure import WHOLE
from catalogue.reference.snapshots import type_facts
from tests.making import make_feature, make_type, make_version
from tests.reading import data, read_caution, text

pytestmark = pytest.mark.django_db
CLOSED_SMOCK = "cloth_pattern=ling&front_closure=neck_zip"


def test_the_door_lists_the_types_and_i_do_not_know(client, demo):
    page = text(client, "/which/")

    assert "/which/SMK/" in page
    assert "I do not know what it is" in page


def test_a_question_always_offers_cannot_tell_and_that_the_part_is_missing_where_it_can_be(client, demo):
    """Common practice, no source: buttons, labels and pockets go, the details of a pocket with it; cloth does not."""
    offered = {}
    for code in type_facts("SMK").features:
        page = text(client, f"/which/SMK/?_ask={code}")
        assert 'value="cannot-tell"' in page
        offered[code] = 'value="part-missing"' in page

    assert [code for code in ("button_fix", "collar", "label_kind", "zip_teeth", "cuff") if not offered[code]] == []
    assert [code for code in ("flap_shape", "closure_cover", "needle_holes") if not offered[code]] == []
    assert [code for code in ("weave", "cloth_pattern", "print_repeat", "colour", "main_seam") if offered[code]] == []


def places_marked(page: str) -> tuple[list[str], set[str]]:
    """The views drawn with places to look at, and each place as `1 zip teeth`."""
    titles = re.findall(r"<title>(\w[\w ]*) view with the places to look at: ([^<]*)</title>", page)
    return [view for view, _ in titles], {place for _, places in titles for place in places.split(", ")}


def test_each_check_still_worth_making_is_marked_on_a_flat_in_whatever_view_it_lies(client, demo):
    page = text(client, f"/which/SMK/?{CLOSED_SMOCK}&_stop=yes")
    names = {f.code: f.name.lower() for f in type_facts("SMK").features.values()}
    steps = re.findall(r'<span class="n">(\d)</span> <a [^>]*href="\?([^"]*_ask=[^"]*)"', page)
    listed = {(n, names[parse_qs(query.replace("&amp;", "&"))["_ask"][0]]) for n, query in steps}
    views, marked = places_marked(page)
    whole_cloth = {f.name.lower() for f in type_facts("SMK").features.values() if f.places[0].region == WHOLE}

    assert {n for n, _ in listed} == {str(n) for n in range(1, len(listed) + 1)}
    assert len(listed) > 2
    assert len(set(views)) == len(views) > 2
    assert marked == {f"{n} {name}" for n, name in listed if name not in whole_cloth}


def test_what_would_show_a_look_alike_is_marked_on_the_flat_as_well_once_above_all_lists(client, demo):
    page = text(client, "/which/SMK/?cloth_pattern=ling&_views=front&_stop=yes")
    row = next(row for row in page.split("<li>") if "/issue-versions/SMK-76/" in row and "SMK-CC:" in row)
    number = re.search(r'<span class="n">(\d)</span> <a class="go-on"', row).group(1)

    assert f"{number} front closure" in places_marked(page)[1]
    assert page.count('class="check-flats"') == 1
    assert page.index('class="check-flats"') < page.index('<span class="n">')


# Words of the vocabulary that somebody new to the trade does not know; which these are is common practice, no source.
TRADE_WORDS = (
    "Stand (", "Stand-and-fall", "Convertible", "fly", "storm flap", "Toggles", "toggles", "Press stud", "studs",
    "Hook-and-loop", "shank", "tack button", "Slotted", "corozo", "Box pleat", "bellows", "Bellows", "yoke", "gusset",
    "eyelets", "Knitted welt", "Welt", "Patch", "Raglan", "Set-in", "Twill", "twill", "Sateen", "Ripstop", "Pile",
    "Felled", "Overedged", "Bound", "Bartack", "Box stitching", "Brace", "plastic coil", "Moulded", "Foot loop",
)  # fmt: skip


def test_every_answer_in_words_of_the_trade_says_what_they_mean(client, demo):
    features = {code: f for code in ("SMK", "TRO", "CAP", "COA") for code, f in type_facts(code).features.items()}
    states = [(f.code, s) for f in features.values() for s in f.states if any(word in s.label for word in TRADE_WORDS)]
    silent = [(feature, state.label) for feature, state in states if not state.explained]
    page = text(client, "/which/SMK/?_ask=closure_cover")

    assert len(states) > 50
    assert silent == []
    assert "A storm flap: a strip of its own, sewn on to lie over the zip." in page


def test_what_a_society_writes_of_a_trade_word_is_shown_as_text(client, db):
    garment = make_type("T")
    feature = make_feature("f", ("yes", "no"), types=[garment])
    feature.states.filter(code="yes").update(explained="<b>a strip</b> & more")
    make_version(garment, "A", {feature: "yes"})
    make_version(garment, "B", {feature: "no"})
    page = client.get("/which/T/?_ask=f").content.decode()

    assert "&lt;b&gt;a strip&lt;/b&gt; &amp; more" in page


def test_an_answer_that_is_not_offered_any_more_is_taken_and_shown_where_an_address_holds_it(client, demo):
    page = text(client, "/which/SMK/?weave=part-missing&_ask=weave")

    assert "Left out of this address" not in page
    assert 'name="weave" value="part-missing"' in page


def test_a_garment_type_that_is_misspelt_leads_to_the_walk_of_the_one_that_is_meant(client, demo):
    response = client.get("/which/shi/")

    assert response.status_code == 404
    assert '<a href="/which/SHI/">SHI: Warm-station shirt</a>' in response.content.decode()


@pytest.mark.parametrize(
    ("address", "words"),
    [
        ("/which/HAT/?_for=brim&_value=+&_unit=cm&cloth_pattern=ling", "No length was written."),
        ("/which/SMK/?_for=cuff&cloth_pattern=ling", "Nothing was ticked under “One of several”."),
    ],
)
def test_a_form_that_was_sent_empty_stays_on_its_question_and_says_so(client, demo, address, words):
    page = text(client, address)

    assert words in page
    assert "Your other answers are kept." in page
    assert ("Measure the brim" if "HAT" in address else "How does the cuff end?") in page
    assert '<input type="hidden" name="cloth_pattern" value="ling">' in page


def test_every_answer_can_be_changed_alone(client, demo):
    page = text(client, f"/which/SMK/?{CLOSED_SMOCK}&collar=cannot-tell")

    assert f"?{CLOSED_SMOCK}&collar=cannot-tell&_ask=front_closure" in page
    changing = text(client, f"/which/SMK/?{CLOSED_SMOCK}&_ask=front_closure")
    assert '<input type="hidden" name="cloth_pattern" value="ling">' in changing
    assert '<input type="hidden" name="front_closure"' not in changing[: changing.index("I only have pictures")]


def test_unknown_names_and_answers_are_dropped_with_a_visible_note(client, demo):
    page = text(client, "/which/SMK/?front_closure=velcro&nonsense=1&collar=stand")

    assert "“velcro” is not an answer to “Front closure”" in page
    assert "“nonsense” is not a feature of this garment type" in page
    assert data(client, "/which/SMK.json?front_closure=velcro&collar=stand")["answers"] == {"collar": ["stand"]}


def test_an_address_over_eight_kilobytes_gets_a_plain_page(client, demo):
    response = client.get("/which/SMK/?" + "&".join(f"a{i}=1" for i in range(10_000)))

    assert response.status_code == 414
    assert response["Content-Type"].startswith("text/plain")


def test_the_longest_address_that_is_read_is_no_error(client, demo):
    page = text(client, "/which/SMK/?" + "&".join("a=" for _ in range(2_700)))

    assert "more." in page


def test_no_page_of_a_walk_starts_a_session(client, demo):
    client.get(f"/which/SMK/?{CLOSED_SMOCK}")

    assert not client.cookies


def test_several_ticks_become_one_answer_with_commas(client, demo):
    response = client.get("/which/SMK/?collar=stand&_for=front_closure&_one_of=toggles&_one_of=neck_zip")

    assert response.status_code == 302
    assert urlsplit(response["Location"]).query == "collar=stand&front_closure=toggles,neck_zip"


def test_a_measure_is_taken_in_centimetres_too(client, demo):
    response = client.get("/which/HAT/?_for=brim&_value=5,5&_unit=cm&colour=sand")

    assert parse_qs(urlsplit(response["Location"]).query)["brim"] == ["55mm"]


def test_a_measure_that_cannot_be_read_keeps_what_was_typed_and_the_other_answers(client, demo):
    page = text(client, "/which/HAT/?_for=brim&_value=broad&_unit=cm&colour=sand")

    assert "“broad” is not a length that can be read" in page
    assert 'value="broad"' in page
    assert "Left out of this address" not in page
    assert '<input type="hidden" name="colour" value="sand">' in page


@pytest.mark.parametrize(("typed", "unit"), [("0", "in"), ("99999", "mm"), ("1000,5", "cm")])
def test_a_number_that_is_no_length_of_a_piece_is_not_called_unreadable(client, demo, typed, unit):
    page = text(client, f"/which/HAT/?_for=brim&_value={typed}&_unit={unit}&colour=sand")

    assert f"“{typed}” is not a length of a piece: it is over 0 and at most 10 metres." in page
    assert f'value="{typed}"' in page


NOTHING_FITS = (
    "cloth_pattern=other_print&front_closure=buttons&closure_cover=fly&collar=none&hem_finish=plain&button_fix=shank"
    "&underarm_vent=mesh_gusset&underarm_vent=mesh_gusset&chest_pockets=left&chest_pockets=left"
    "&chest_pocket_form=patch_pleat&chest_pocket_form=patch_pleat"
)


def test_a_piece_that_fits_nothing_is_told_what_disagrees_not_what_is_held_off_it(client, demo):
    page = text(client, f"/which/SMK/?{NOTHING_FITS}")

    assert "Not in the reference" in page
    assert "The nearest, and what disagrees" in page
    assert "Still worth a look" in page
    assert "Not ruled out yet" not in page
    assert "rests on one part" not in page
    assert data(client, f"/which/SMK.json?{NOTHING_FITS}")["next"]["rests_on"] is None


def test_the_same_address_as_data_names_the_same_question(client, demo):
    told = data(client, f"/which/SMK.json?{CLOSED_SMOCK}")

    assert told["next"]["question"] in text(client, f"/which/SMK/?{CLOSED_SMOCK}")
    assert sum(chance for _, chance in told["posterior"]) + told["unrecorded"] == pytest.approx(1)


def test_a_hazard_is_the_first_page_of_the_walk(client, demo):
    page = text(client, "/which/HOO/?colour=silver")

    assert "Before you look" in page
    assert "asbestos" in page
    assert '<form method="post" action="/which/HOO/?colour=silver">' in page


def test_a_hood_that_may_hold_asbestos_is_never_asked_to_be_handled(client, demo):
    features = type_facts("HOO").features
    address, asked = "/which/HOO.json?_accepted=yes", []
    while (told := data(client, address)["next"])["page"] == "question":
        asked.append(told["feature"])
        address += f"&{told['feature']}=cannot-tell"

    assert asked
    assert not [code for code in asked if features[code].needs_handling]
    read_caution(client, "HOO")
    page = text(client, "/which/HOO/?_ask=lining")
    assert "not asked of this garment type" in page


def test_outside_only_asks_nothing_that_needs_touching(client, demo):
    features = type_facts("SMK").features
    address, asked = "/which/SMK.json?_views=outside", []
    while (told := data(client, address)["next"])["page"] == "question":
        asked.append(told["feature"])
        address += f"&{told['feature']}=cannot-tell"

    assert asked
    assert not [code for code in asked if features[code].needs_handling]


def test_a_person_who_does_not_know_the_garment_is_handed_over_with_the_answers(client, demo):
    read_caution(client, "any-garment")
    address = "/which/any-garment/?"
    for answer in ("_worn=legs", "cloth_pattern=ling"):
        response = client.get(f"{address}&{answer}")
        address = f"{address}&{answer}"
        if response.status_code == 302:
            break

    assert response["Location"].startswith("/which/TRO/?")
    assert "_from=any-garment" in response["Location"]


def test_the_walk_over_all_types_asks_nothing_that_needs_touching(client, demo):
    from identification.walk_through import packs

    facts = packs.garments_for(packs.state_number()).facts

    assert len(facts.features) > 10
    assert not [code for code, feature in facts.features.items() if feature.needs_handling]


def test_the_verdict_says_why_and_what_next(client, demo):
    read_caution(client, "COA")
    page = text(client, "/which/COA/?closure_cover=flap_double&underarm_vent=metal_eyelets&_stop=yes")

    assert "Still worth a look" in page
    assert "What each answer says" in page


def test_a_look_alike_is_told_by_what_its_record_says_otherwise_not_by_the_part_that_both_share(client, demo):
    """Both are recorded with the same opening; what covers it differs, and in a picture of the front it shows."""
    page = text(client, "/which/SMK/?cloth_pattern=ling&_views=front&_stop=yes")
    row = next(row for row in page.split("<li>") if "/issue-versions/SMK-76/" in row and "SMK-CC:" in row)

    assert "Look at: cover of the closure</a>" in row
    assert "First comes the front closure." in row
    assert parse_qs(row.split('class="go-on" href="?')[1].split('"')[0].replace("&amp;", "&"))["_ask"] == [
        "front_closure"
    ]
    assert "Look at: front closure" not in page


def test_a_verdict_without_answers_rules_nothing_in_or_out(client, demo):
    page = text(client, "/which/SMK/?_stop=yes")

    assert "Nothing has been answered yet" in page
    assert "Not ruled out yet" not in page


def test_a_type_without_versions_teaches(client, db):
    make_type("X")

    page = client.get("/garment-types/X/").content.decode()
    assert "No version of this garment type is recorded yet" in page
    assert 'href="/proposals/new-version/?type=X"' in page
    assert "There is nothing to compare with yet" in text(client, "/which/X/")


def test_a_type_with_one_version_is_not_named_before_a_check(client, db):
    garment = make_type("X")
    feature = make_feature("f", ("yes", "no"), types=[garment])
    make_version(garment, "X-1", {feature: "yes"})

    assert data(client, "/which/X.json")["next"]["page"] == "question"
    assert data(client, "/which/X.json?f=cannot-tell")["next"]["named"] == []


def test_versions_that_nothing_separates_are_named_together(client, db):
    garment = make_type("X")
    features = [make_feature(code, ("yes", "no", "half"), types=[garment], error=0.01) for code in "fghi"]
    for code, state in (("X-1", "yes"), ("X-2", "yes"), ("X-3", "no"), ("X-4", "half")):
        make_version(garment, code, dict.fromkeys(features, state))

    told = data(client, "/which/X.json?f=yes&g=yes&h=yes&i=yes")["next"]

    assert (told["status"], set(told["named"])) == ("inseparable", {"X-1", "X-2"})


def test_a_version_without_a_recorded_cell_is_no_error(client, db):
    garment = make_type("X")
    make_feature("f", types=[garment])
    make_version(garment, "X-1")

    assert text(client, "/which/X/?f=yes")
    assert text(client, "/issue-versions/X-1/")


def test_there_is_no_walk_for_a_type_that_does_not_exist(client, db):
    assert client.get("/which/nothing/").status_code == 404


@pytest.mark.parametrize("versions", [1, 2])
def test_a_type_with_versions_but_no_feature_answers_every_page(client, db, versions):
    vest = make_type("VST", name="Vest")
    for number in range(versions):
        make_version(vest, f"VST-{number}")

    assert data(client, "/which/VST.json")["next"]["page"] == "verdict"
    for address in (
        "/which/VST/",
        "/which/VST/key/",
        "/which/claim/?v=VST-0",
        "/which/any-garment/",
        "/mistaken-for/VST-0/",
        "/garment-types/VST/",
        "/garment-types/VST/details/",
        "/issue-versions/VST-0/",
    ):
        assert client.get(address).status_code == 200, address


def test_whoever_does_not_know_what_it_is_says_first_where_it_is_worn_and_never_what_collar_a_hat_has(client, demo):
    read_caution(client, "any-garment")

    def asked(answers: str) -> str:
        response = client.get(f"/which/any-garment/?{answers}", follow=True)
        return response.content.decode().partition("<h1")[2].partition("</h1>")[0]

    assert "Where is it worn?" in asked("")
    assert "Which outline comes nearest?" in asked("&_worn=head")
    assert "Where is it worn?" not in asked("&_worn=cannot-tell")
    assert "collar" not in asked("&_worn=head&_outline_head=hat")
    assert "collar" not in asked("&_worn=head&_outline_head=cannot-tell")


def test_a_hat_worn_on_the_head_is_a_hat_and_no_further_question_is_asked_of_its_type(client, demo):
    """Two answers leave 87 % for the one type of hats, and a third question would be about vents in its crown."""
    read_caution(client, "any-garment")

    assert client.get("/which/any-garment/?_worn=head&_outline_head=hat")["Location"].startswith("/which/HAT/?")


def test_an_answer_that_was_read_back_and_confirmed_is_said_once(client, demo):
    page = text(client, "/which/SMK/?hem_finish=elastic&hem_finish=elastic&_ask=cuff")
    other = text(client, "/which/SMK/?hem_finish=elastic&hem_finish=plain&_ask=cuff")

    assert "Elastic hem (looked at twice)" in page
    assert "Elastic hem, then " in other


def test_every_other_question_of_a_garment_can_be_asked_instead(client, demo):
    """More than the dozen that tell most: whoever sees something rare finds it."""
    offered = text(client, "/which/SMK/").split("Ask something else instead")[1].split("</details>")[0]

    assert offered.count("<li>") > 12
