"""The gallery, the page of one piece, and seeing it differently, as a person meets them."""

from datetime import UTC, datetime
from html import unescape

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from catalogue.member_examples.actions import Look, add_attribution, add_observation
from catalogue.member_examples.models import (
    Alteration,
    Attribution,
    Example,
    ExampleInSet,
    ExampleSet,
    Label,
    Measurement,
    Photograph,
)
from catalogue.reference.models import FeaturePlace, Maker, ReferenceState
from tests.catalogue.member_examples.pieces import accepted, draft, make_society, sent
from tests.making import make_feature, make_member
from tests.reading import text, words

pytestmark = pytest.mark.django_db


@pytest.fixture
def society(db):
    return make_society()


def set_fields(example: Example, **fields) -> Example:
    Example.objects.filter(pk=example.pk).update(**fields)
    return example


def shown(client, query: str, pieces: dict[str, Example]) -> list[str]:
    page = text(client, f"/examples/?{query}")
    return [name for name, piece in pieces.items() if f"/examples/{piece.code}/" in page]


@pytest.fixture
def pieces(society):
    maker = Maker.objects.create(code="DUN", name="Dunsallow")
    found = {
        "old": accepted(society, society.old, cuff="band"),
        "new": accepted(society, society.new, owner=society.ben, cuff="tab"),
        "none": accepted(society, None, owner=society.mia),
    }
    set_fields(found["old"], label_year=1965, size_mark="4", condition="good", maker=maker)
    set_fields(found["new"], label_year=1980, size_mark="174/96", condition="worn")
    found["new"].labels.update(text="BLOUSE\nT/80/11", bare="BLOUSET8011")
    return found


@pytest.mark.parametrize(
    ("query", "expected"),
    [
        ("", ["old", "new", "none"]),
        ("type=SMK", ["old", "new", "none"]),
        ("type=NOPE", []),
        ("version=SMK-61", ["old"]),
        ("version=SMK-61&version=SMK-76", ["old", "new"]),
        ("maker=DUN", ["old"]),
        ("size=4", ["old"]),
        ("size=174%2F96", ["new"]),
        ("condition=worn&condition=good", ["old", "new"]),
        ("year_from=1970", ["new"]),
        ("year_to=1970", ["old"]),
        ("year_from=1965&year_to=1980", ["old", "new"]),
        ("q=27-114-06", ["old", "none"]),
        ("q=t+80+11", ["new"]),
        ("q=06", []),
        ("version=SMK-76&shows=cuff:tab", ["new"]),
        ("type=SMK&shows=cuff:band", ["old"]),
        ("type=SMK&shows=cuff:none", []),
        ("type=SMK&shows=cuff:band&shows=cuff:tab", ["old", "new"]),
        ("type=SMK&shows=cuff:band&shows=closure:zip", []),
        ("type=SMK&shows=cuff:band&shows=cuff:nonsense", ["old"]),
        ("looked=one", ["old", "new", "none"]),
        ("looked=more", []),
        ("type=SMK&maker=DUN&condition=worn", []),
    ],
)
def test_the_gallery_is_narrowed(client, pieces, query, expected):
    assert shown(client, query, pieces) == expected


def test_a_moderator_narrows_by_state_and_by_whether_it_was_reviewed(client, society, pieces):
    waiting = pieces | {"waiting": sent(society), "draft": draft(society)}
    client.force_login(society.mo)

    assert shown(client, "", waiting) == ["old", "new", "none", "waiting"]
    assert shown(client, "state=submitted", waiting) == ["waiting"]
    assert shown(client, "reviewed=no", waiting) == ["waiting"]
    assert shown(client, "reviewed=yes", waiting) == ["old", "new", "none"]
    assert "Reviewed is yes or no" in text(client, "/examples/?reviewed=perhaps")


@pytest.mark.parametrize(
    ("address", "words"),
    [
        (
            "state=x",
            "State: there is no “x” here. There are: draft, submitted, returned, accepted,",
        ),
        ("condition=awful&condition=good", "Condition: there is no “awful” here."),
        ("type=NONE", "Garment type: there is no “NONE” here."),
        ("version=NONE", "Kept as: there is no “NONE” here."),
        ("maker=NONE", "Maker: there is no “NONE” here."),
        ("year_from=1980&year_to=1970", "No year is from 1980 and to 1970: the earlier one comes first."),
    ],
)
def test_what_the_gallery_cannot_know_is_answered_in_words(client, pieces, address, words):
    page = text(client, f"/examples/?{address}")

    assert words in page
    assert "What you chose is kept." in page
    assert shown(client, address, pieces) == []


def test_the_gallery_says_to_each_reader_whose_pieces_stand_in_it(client, society, pieces):
    to_visitor = text(client, "/examples/")
    client.force_login(society.ben)
    to_member = text(client, "/examples/")
    client.force_login(society.mo)
    to_moderator = text(client, "/examples/")

    assert "a moderator has accepted." in to_visitor
    assert "your own" not in to_visitor
    assert "before them your own others" in to_member
    assert "those of others that were sent and not accepted, which no visitor sees" in to_moderator
    assert "that a moderator has" not in to_moderator


def test_how_far_members_agree_is_printed_once_ten_pieces_were_seen_twice(client, society):
    looks = [("band", "band")] * 6 + [("tab", "tab")] * 2 + [("band", "tab"), ("tab", "band")]
    for place, (own, other) in enumerate(looks):
        piece = accepted(society, society.old, cuff=own)
        if place == 9:
            assert "Too few pieces" in text(client, "/examples/agreement/")
        add_observation(example=piece, member=society.ben, look=Look(feature=society.cuff, state=other))
    page = words(text(client, "/examples/agreement/"))

    # 8 of 10 alike; both say band of 7: chance = .7² + .3² = .58, so kappa = (.8 - .58) / .42 = .52 (Cohen 1960)
    assert "Feature cuff 8 of 10 0.52 moderate 0.52" in page


def test_where_a_state_is_looked_for_the_photograph_that_shows_it_best_comes_first(client, society):
    piece = accepted(society, society.old, cuff="band")
    FeaturePlace.objects.create(feature=society.cuff, view="sleeve_left", region="cuff")
    ReferenceState.mark_changed()
    for place, view in enumerate(("back", "front", "cuff")):
        Photograph.objects.create(
            example=piece, view=view, position=place, width=320, height=240, sha256=f"{place:064x}",
            files=[{"name": f"{view}.webp", "longer": 320, "width": 320, "height": 240}],
        )  # fmt: skip
    first, cuff = piece.photographs.get(view="back"), piece.photographs.get(view="cuff")

    assert f"/examples/photographs/{first.pk}-320.webp" in text(client, "/examples/?type=SMK")
    page = text(client, "/examples/?type=SMK&shows=cuff:band")
    assert f"/examples/photographs/{cuff.pk}-320.webp 320w" in page
    assert f"/examples/photographs/{first.pk}-" not in page


def test_the_page_of_a_type_leads_to_its_pieces(client, society):
    assert "/examples/?type" not in text(client, "/garment-types/SMK/")

    accepted(society, society.old)
    assert '<a href="/examples/?type=SMK">1 example</a>' in text(client, "/garment-types/SMK/")


def test_each_facet_counts_what_the_others_leave(client, pieces):
    page = words(text(client, "/examples/?condition=good"))

    assert "Good 1" in page
    assert "Worn 1" in page
    assert "Dunsallow 1" in page
    assert "1 example " in page


def test_what_is_not_understood_is_named_and_left_out(client, pieces):
    page = text(client, "/examples/?colour=red&type=SMK&shows=cuff:nonsense")
    assert "left out of account: colour, shows=cuff:nonsense" in words(page)

    page = text(client, "/examples/?year_from=soon&size=4")
    assert "A year is written in four figures, as 1974." in page
    assert 'value="soon"' in page
    assert "Label year from: soon" in words(page)


def test_a_gallery_without_pieces_says_how_one_begins_and_one_without_matches_what_to_drop(client, society):
    assert "No piece has been accepted yet." in text(client, "/examples/")

    accepted(society, society.old)
    assert "No piece has all of this." in text(client, "/examples/?size=9")


def test_a_long_gallery_comes_in_pages_and_says_when_there_is_no_such_page(client, society):
    for _ in range(26):
        accepted(society, society.old)
    first, second = text(client, "/examples/?type=SMK"), text(client, "/examples/?type=SMK&page=2")

    assert "Page 1 of 2" in first
    assert first.count('<li><a href="/examples/E') == 24
    assert second.count('<li><a href="/examples/E') == 2
    assert "There is no page “99” of this list. This is page 2 of 2." in text(client, "/examples/?page=99")
    for before in ("-1", "0"):
        words = f"There is no page “{before}” of this list. This is page 1 of 2."
        assert words in text(client, f"/examples/?page={before}")


def queries(client, address: str) -> int:
    client.get(address)
    with CaptureQueriesContext(connection) as asked:
        assert client.get(address).status_code == 200
    assert [q["sql"] for q in asked if not q["sql"].startswith("SELECT")] == []
    return len(asked)


def test_gallery_piece_and_set_take_no_more_queries_for_more_rows_and_write_nothing(client, society):
    first = full_piece(society)
    found = ExampleSet.objects.create(code="G1", name="Two smocks", made_by=society.ada)
    for place, piece in enumerate((first, accepted(society, society.old, owner=society.ben))):
        ExampleInSet.objects.create(example_set=found, example=piece, position=place)
    addresses = ["/examples/", f"/examples/{first.code}/", "/sets/G1/", "/sets/", "/search/?q=27-114-06"]
    few = {address: queries(client, address) for address in addresses}
    for _ in range(4):
        more = full_piece(society)
        ExampleInSet.objects.create(example_set=found, example=more, position=9)
    for number in range(3):
        Label.objects.create(example=first, text=f"LABEL {number}")
        viewer = make_member(f"Viewer{number}")
        add_observation(example=first, member=viewer, look=Look(feature=society.cuff, state="tab"))
        add_attribution(example=first, member=viewer, version=society.new, grounds="the cuff")

    assert {address: queries(client, address) for address in addresses} == few
    assert max(few.values()) <= 12


def full_piece(society) -> Example:
    """An accepted piece with one of everything."""
    piece = accepted(society, society.old, closure="buttons", cuff="band")
    Measurement.objects.create(example=piece, what="pit_to_pit", mm=555, by=society.ada)
    altered = Alteration.objects.create(example=piece, kind="cut_off", part="label")
    altered.features.add(make_feature(types=[society.smock]))
    return piece


def test_a_piece_is_called_by_its_version_and_what_was_done_to_it(client, society):
    piece = accepted(society, society.old)
    Alteration.objects.create(example=piece, kind="removed", part="sleeves")
    Alteration.objects.create(example=piece, kind="cut_off", part="label", position=1)

    assert "Version SMK-61, sleeves removed, label cut off" in text(client, f"/examples/{piece.code}/")
    none = accepted(society, None, owner=society.ben)
    assert "Smock, of no version in the reference" in text(client, f"/examples/{none.code}/")


def test_what_was_seen_stands_beside_the_record(client, society):
    piece = accepted(society, society.old, closure="zip", cuff="band")
    page = words(text(client, f"/examples/{piece.code}/"))

    assert "Beside the record: 1 agree, 1 disagree; looked at by 1 member." in page
    assert "Feature closure Zip Disagrees; record: Buttons. Seen by Ada." in page
    assert "Feature cuff Band Agrees. Seen by Ada." in page


def test_an_earlier_look_stays_readable(client, society):
    piece = accepted(society, society.old, cuff="tab")
    add_observation(
        example=piece, member=society.ada, look=Look(feature=society.cuff, state="band", note="in better light")
    )

    assert "Ada (earlier): Tab; Ada: Band – “in better light”" in words(text(client, f"/examples/{piece.code}/"))


def test_lengths_have_units_and_where_they_were_taken(client, society):
    piece = accepted(society, society.old)
    Measurement.objects.create(example=piece, what="pit_to_pit", mm=555, by=society.ada)
    Measurement.objects.create(example=piece, what="sleeve", mm=620, by=society.ben, method="from the neck seam")
    page = words(text(client, f"/examples/{piece.code}/"))

    # 1 in = 25.4 mm exactly (international yard and pound agreement of 1959, from memory): 555 mm = 21.85 in
    assert "Pit to pit 55.5 cm (21.9 in) armhole seam to armhole seam; double it for the girth; Ada" in page
    assert "Sleeve 62 cm (24.4 in) from the neck seam; Ben" in page


def test_opinions_stand_in_order_of_time_and_a_later_word_of_the_same_person_supersedes(client, society):
    piece = accepted(society, society.old)
    add_attribution(example=piece, member=society.ben, version=society.new, grounds="the cuff")
    add_attribution(example=piece, member=society.ben, version=None, held="not_in_reference", grounds="no such pocket")
    page = words(text(client, f"/examples/{piece.code}/"))

    order = ["The society, decided by Mo", "the cuff", "Not in the reference", "no such pocket"]
    assert [page.index(word) for word in order] == sorted(page.index(word) for word in order)
    assert page.count("superseded by a later word of the same") == 1


def test_what_somebody_says_again_word_for_word_is_shown_once_with_both_days(client, society):
    piece = accepted(society, society.old)
    for grounds, day, chance in (("cuff", 1, 0.83), ("cuff", 10, 0.831), ("the hem", 11, 0.5), ("cuff", 12, 0.83)):
        day = datetime(2026, 3, day, 12, tzinfo=UTC)
        what = {"version": society.new, "grounds": f"reckoned from: {grounds}", "chance": chance}
        Attribution.objects.create(example=piece, by="engine", made_at=day, **what)
    page = words(text(client, f"/examples/{piece.code}/"))

    assert "The site's own identification, 1 March 2026 and again 10 March 2026" in unescape(page)
    assert page.count("reckoned from: cuff") == 2, "who came back to it says it anew"
    assert page.count("superseded by a later word of the same") == 2


def test_the_sites_own_identification_says_why_and_when_the_society_does_not_agree(client, society):
    piece = accepted(society, society.old, closure="zip", cuff="tab")
    page = words(text(client, f"/examples/{piece.code}/"))

    assert "The site's own identification Probably Version SMK-76." in page
    assert "Not what the society keeps it as." in page
    assert "Feature closure: Zip (record: " not in page.partition("The site's own identification")[2]
    assert "/which/SMK/?closure=zip&cuff=tab" in text(client, f"/examples/{piece.code}/")


@pytest.mark.parametrize("seen", [{"cuff": "none"}, {"closure": "zip"}, {"closure": "zip", "cuff": "band"}])
def test_the_sites_own_identification_speaks_of_nothing_that_its_page_does_not_show(client, society, seen):
    piece = accepted(society, society.new, **seen)
    page = words(text(client, f"/examples/{piece.code}/"))
    said = page.split("The site's own identification")[1].split("Walk on from these answers")[0]

    assert "below" not in said


def test_a_sellers_name_stands_beside_what_the_society_holds(client, society):
    piece = set_fields(accepted(society, society.old), sold_as="Arctic smock", sold_as_version=society.new)

    assert "“Arctic smock” – the society does not agree" in words(text(client, f"/examples/{piece.code}/"))


def test_what_people_type_is_shown_as_text(client, society):
    nasty = "<script>alert(1)</script>"
    piece = set_fields(accepted(society, society.old), provenance=nasty, sold_as=nasty, repairs=nasty)
    piece.labels.update(text=nasty)
    add_attribution(example=piece, member=society.ben, version=society.new, grounds=nasty)

    assert nasty not in client.get(f"/examples/{piece.code}/").content.decode()


# ---- seeing it differently


def test_a_member_adds_an_attribution_and_nothing_is_overwritten(client, society):
    piece = accepted(society, society.old)
    client.force_login(society.ben)
    address = f"/examples/{piece.code}/differently/"
    answered = [client.post(address, {"version": "SMK-76", "grounds": "the zip"}) for _ in range(2)]

    assert [response.status_code for response in answered] == [302, 302]
    assert answered[0].url == f"/examples/{piece.code}/#held"
    told = [(a.by, a.version.code, a.grounds) for a in piece.attributions.all()]
    assert told == [("society", "SMK-61", "agrees"), ("member", "SMK-76", "the zip")]
    assert Example.objects.get(pk=piece.pk).held_as == society.old


@pytest.mark.parametrize("held", ["not_in_reference", "cannot_say"])
def test_a_member_can_hold_it_to_be_none_or_not_say(client, society, held):
    piece = accepted(society, society.old)
    client.force_login(society.ben)
    client.post(f"/examples/{piece.code}/differently/", {"version": f"_{held}", "grounds": "looked long"})

    assert piece.attributions.last().held == held


def test_a_refused_attribution_keeps_what_was_typed(client, society):
    piece = accepted(society, society.old)
    client.force_login(society.ben)
    address = f"/examples/{piece.code}/differently/"
    no_version = client.post(address, {"grounds": "the zip & the cuff"})
    no_grounds = client.post(address, {"version": "SMK-76", "grounds": "  "})
    strange = client.post(address, {"version": "CAP-1", "grounds": "x"})

    assert [r.status_code for r in (no_version, no_grounds, strange)] == [200, 200, 200]
    assert "Choose a version" in no_version.content.decode()
    assert "the zip &amp; the cuff" in no_version.content.decode()
    assert "Say on what grounds" in no_grounds.content.decode()
    assert 'value="SMK-76" id="id_version_1" required checked' in no_grounds.content.decode()
    assert piece.attributions.count() == 1


def test_a_member_looks_at_one_feature(client, society):
    piece = accepted(society, society.old, cuff="band")
    client.force_login(society.ben)
    address = f"/examples/{piece.code}/differently/?feature=cuff"
    page = words(text(client, address))
    response = client.post(address, {"answer": "tab", "note": "hidden by the lining"})

    assert "cuff? What others wrote stays; yours stands beside it." in page.replace(
        "How: seen from outside. ", ""
    ).replace("Left and right are the wearer's. ", "")
    assert response.url == f"/examples/{piece.code}/#seen"
    told = [(o.observer.username, o.state.code, o.note) for o in piece.observations.all()]
    assert told == [("Ada", "band", ""), ("Ben", "tab", "hidden by the lining")]


def test_a_look_can_be_why_one_could_not_and_needs_something(client, society):
    piece = accepted(society, society.old)
    client.force_login(society.ben)
    address = f"/examples/{piece.code}/differently/?feature=cuff"
    assert client.post(address, {}).status_code == 200
    assert client.post(address, {"answer": "velcro"}).status_code == 200

    client.post(address, {"answer": "_part_missing"})
    assert [o.answer for o in piece.observations.all()] == ["part_missing"]


def test_a_number_is_typed_for_a_count_and_refused_where_it_is_none(client, society):
    rows = make_feature("rows", ("few", "many"), types=[society.smock], kind="count", unit="rows")
    rows.states.filter(code="few").update(low=0, high=4)
    rows.states.filter(code="many").update(low=4)
    piece = accepted(society, society.old)
    client.force_login(society.ben)
    address = f"/examples/{piece.code}/differently/?feature=rows"
    for wrong in ("-1", "many rows", "nan", "inf"):
        assert client.post(address, {"value": wrong}).status_code == 200, wrong
    client.post(address, {"value": "6"})

    assert [(o.state.code, o.value) for o in piece.observations.all()] == [("many", 6.0)]
    client.logout()
    assert "Many (6 rows)" in words(text(client, f"/examples/{piece.code}/"))


def test_an_owner_speaks_of_a_draft_and_a_feature_that_is_none_falls_back_to_the_version(client, society):
    piece = draft(society)
    client.force_login(society.ada)

    page = text(client, f"/examples/{piece.code}/differently/?feature=nonsense")
    assert "What do you hold it to be?" in page
    waiting = sent(society)
    assert client.get(f"/examples/{waiting.code}/differently/").status_code == 200


def test_a_page_of_a_piece_with_no_type_and_no_looks_is_calm(client, society):
    piece = draft(society)
    set_fields(piece, garment_type=None)
    client.force_login(society.ada)
    page = words(text(client, f"/examples/{piece.code}/"))

    assert "A garment of a type not yet known" in page
    assert "No photograph of this piece yet. The front and the main label tell most." in page
    assert "Nobody has written down what is to be seen on it." in page
    assert client.get(f"/examples/{piece.code}/differently/").status_code == 200
