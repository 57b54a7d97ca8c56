"""The back office, as an author, a moderator and a secretary use it."""

import re

import pytest
from django.contrib import admin
from django.urls import reverse

from catalogue.accounts.models import Member
from catalogue.reference.demo import DEMO_PASSWORD, SIGN_INS, make_sign_ins
from catalogue.reference.models import (
    Correction,
    Feature,
    FeatureState,
    GarmentType,
    IssueVersion,
    Maker,
    NumberForm,
    ProfileCell,
    ReferenceState,
    Source,
    VersionAncestor,
    VersionRecord,
)
from tests.forms import complaints, fields_of, profile_fields, refused, send, with_row
from tests.reading import text

pytestmark = pytest.mark.django_db
MODELS = sorted(admin.site._registry, key=lambda model: model._meta.label)
READ_ONLY = {"ProfileCell", "Correction", "Member"}


@pytest.fixture
def office(demo):
    """The demo society with its sign-ins."""
    make_sign_ins()


def signed_in(client, username: str):
    client.force_login(Member.objects.get(username=username))
    return client


def address(model, page: str, *args) -> str:
    return reverse(f"admin:{model._meta.app_label}_{model._meta.model_name}_{page}", args=args)


def test_the_sign_ins_of_the_demo_open_the_back_office_by_the_one_sign_in_of_the_site(client, office):
    for username, role in SIGN_INS:
        sent = {"login": username, "password": DEMO_PASSWORD, "next": "/admin/"}
        response = client.post("/account/login/", sent)

        assert (response.status_code, response["Location"]) == (302, "/admin/"), username
        if role == Member.Role.MEMBER:
            assert client.get("/admin/login/").status_code == 403
        else:
            index = text(client, "/admin/")
            assert "Issue versions" in index
            assert ("/admin/catalogue/member/" in index) is (role == Member.Role.SECRETARY)
        client.post("/account/logout/")


def test_a_visitor_and_a_member_without_leave_are_sent_to_the_sign_in(client, db):
    assert client.get("/admin/catalogue/maker/").status_code == 302
    client.force_login(Member.objects.create(username="Turnstone"))
    assert client.get("/admin/catalogue/maker/").status_code == 302


@pytest.mark.parametrize("username", ["Plover", "Dunlin", "Whimbrel"])
def test_authors_and_moderators_may_write_the_reference_and_touch_no_member(client, office, username):
    signed_in(client, username)
    member = Member.objects.get(username="Knot")
    record = VersionRecord.objects.first()

    own = [model for model in MODELS if model._meta.app_label == "catalogue" and model is not Member]
    adding = [address(model, "add") for model in own]
    assert {where for where in adding if client.get(where).status_code != 200} == {
        address(model, "add") for model in (ProfileCell, Correction)
    }
    for where in (
        address(Member, "changelist"),
        address(Member, "add"),
        address(Member, "change", member.pk),
        address(VersionRecord, "delete", record.pk),
    ):
        assert client.get(where).status_code == 403, where
    assert client.post(address(VersionRecord, "change", record.pk), {"standing": "approved"}).status_code == 403
    assert not Member.objects.get(username=username).is_superuser


@pytest.mark.parametrize("model", MODELS, ids=lambda model: model.__name__)
def test_every_table_can_be_listed_searched_added_to_and_opened(client, office, model):
    signed_in(client, "Knot")
    one = model.objects.first()

    pages = [address(model, "changelist"), f"{address(model, 'changelist')}?q=smock"]
    pages += [address(model, "change", one.pk)] if one else []
    pages += [] if model.__name__ in READ_ONLY else [address(model, "add")]
    assert one or model.__name__ in ("Group", "Correction")
    assert {where: code for where in pages if (code := client.get(where).status_code) != 200} == {}


def test_a_list_asks_the_database_less_often_than_it_has_rows(client, office, django_assert_max_num_queries):
    signed_in(client, "Plover")

    for model in (IssueVersion, VersionRecord, ProfileCell, Feature):
        with django_assert_max_num_queries(20):
            client.get(address(model, "changelist"))


def test_a_feature_that_would_be_a_detail_of_its_own_detail_is_refused(client, office):
    signed_in(client, "Plover")
    cover = Feature.objects.get(code="closure_cover")
    front = cover.parent
    before = ReferenceState.current_number()
    sent = fields_of(client, address(Feature, "change", front.pk))

    said = refused(
        client,
        address(Feature, "change", front.pk),
        sent | {"parent": cover.pk, "shown_when": [cover.states.first().pk]},
    )

    assert f"This would be a circle: {front.code} → {cover.code} → {front.code}." in said
    front.refresh_from_db()
    assert front.parent is None
    assert ReferenceState.current_number() == before


def test_states_of_another_feature_than_the_parent_are_refused_with_their_names(client, office):
    signed_in(client, "Plover")
    cover = Feature.objects.get(code="closure_cover")
    where = address(Feature, "change", cover.pk)
    strange = FeatureState.objects.exclude(feature__in=[cover, cover.parent]).first()
    sent = fields_of(client, where)

    assert f"not “{strange}” of “{strange.feature}”" in refused(client, where, sent | {"shown_when": [strange.pk]})
    assert "Choose the states of" in refused(client, where, sent | {"shown_when": []})
    assert "Choose the parent as well" in refused(client, where, sent | {"parent": ""})
    send(client, where, sent)


def test_a_version_that_would_descend_from_itself_is_refused(client, office):
    signed_in(client, "Plover")
    link = VersionAncestor.objects.filter(role="continues").first()
    where = address(IssueVersion, "change", link.ancestor.pk)
    sent = with_row(fields_of(client, where), "ancestors", ancestor=link.version.pk, role="continues", position=9)

    said = refused(client, where, sent)

    assert "This would be a circle: " in said
    assert f"{link.ancestor.code} → {link.version.code} → {link.ancestor.code}" in said


def test_a_version_that_would_be_taken_for_its_own_type_is_refused(client, office):
    signed_in(client, "Plover")
    version = IssueVersion.objects.get(code="BLO-71")
    where = address(IssueVersion, "change", version.pk)

    said = refused(client, where, fields_of(client, where) | {"passes_for": [version.garment_type_id]})

    assert "This is its own type" in said
    assert not version.passes_for.exists()


def test_bands_with_a_gap_are_refused(client, office):
    signed_in(client, "Plover")
    feature = Feature.objects.get(code="stitch_density")
    where = address(Feature, "change", feature.pk)
    sent = fields_of(client, where)
    state = feature.states.all()[1]
    row = next(name for name, value in sent.items() if name.endswith("-id") and value == state.pk).removesuffix("-id")

    assert "Bands run upward without a gap" in refused(client, where, sent | {f"{row}-low": state.low + 0.5})
    send(client, where, sent)


def test_a_question_without_an_answer_to_choose_is_refused_and_keeps_what_was_typed(client, office):
    signed_in(client, "Plover")
    where, before = address(Feature, "add"), ReferenceState.current_number()
    sent = fields_of(client, where) | {"code": "button_rim", "name": "Rim of the button", "question": "Which rim?"}

    response = client.post(where, sent)

    assert "Write at least one state: a question without an answer to choose cannot be asked." in complaints(response)
    assert "Rim of the button" in response.content.decode()
    assert ReferenceState.current_number() == before
    send(client, where, with_row(sent, "states", code="rolled", label="Rolled", position=0))
    feature = Feature.objects.get(code="button_rim")
    there = fields_of(client, address(Feature, "change", feature.pk))
    assert "at least one state" in refused(
        client, address(Feature, "change", feature.pk), there | {"states-0-DELETE": "on"}
    )
    send(client, where, sent | {"code": "rim_width", "kind": "measurement", "unit": "mm"})


def test_a_change_without_a_reason_is_refused_and_keeps_what_was_typed(client, office):
    signed_in(client, "Plover")
    maker = Maker.objects.get(code="DUN")
    where, before = address(Maker, "change", maker.pk), ReferenceState.current_number()
    sent = fields_of(client, where) | {"place": "Nethercote upon Dun"}

    for empty in ("", "  "):
        response = client.post(where, sent | {"why": empty})

        assert "Say why: it is kept in the record's history." in complaints(response)
        assert "Nethercote upon Dun" in response.content.decode()
    assert (ReferenceState.current_number(), Correction.objects.count()) == (before, 0)
    send(client, where, sent | {"why": "The ledger of 1971"})
    assert Correction.objects.get().why == "The ledger of 1971"


def test_rows_are_added_without_any_script_a_few_at_a_time(client, office):
    signed_in(client, "Plover")
    feature = Feature.objects.get(code="closure_cover")
    where = address(Feature, "change", feature.pk)
    sent, held = fields_of(client, where), feature.states.count()

    free = int(sent["states-TOTAL_FORMS"]) - int(sent["states-INITIAL_FORMS"])
    send(client, where, sent | {f"states-{held}-code": "half", f"states-{held}-label": "Half covered"})

    assert free >= 2
    assert feature.states.count() == held + 1, "the rows left empty are none"
    assert feature.states.last().code == "half", "behind the others"


@pytest.mark.parametrize("asked", ["", "0", "999999", "abc", "²"])
def test_a_new_record_of_no_known_version_begins_empty(client, office, asked):
    signed_in(client, "Plover")

    assert client.get(f"{address(VersionRecord, 'add')}?version={asked}").status_code == 200


def test_an_author_adds_a_maker_and_a_version_with_its_record_and_sees_it_on_the_site(client, office):
    """One whole task, with what a browser would send."""
    signed_in(client, "Plover")
    send(
        client, address(Maker, "add"), fields_of(client, address(Maker, "add")) | {"code": "ORR", "name": "Orrin Works"}
    )
    maker = Maker.objects.get(code="ORR")
    blouse, older = GarmentType.objects.get(code="BLO"), IssueVersion.objects.get(code="BLO-94")

    where = address(IssueVersion, "add")
    sent = fields_of(client, where)
    sent |= {"code": "BLO-09", "name": "Blouse, Pattern 09", "garment_type": blouse.pk, "kind": "issue"}
    sent |= {"date": "2009~/..", "makers": [maker.pk], "certainty": "observed", "piece_seen": "on"}
    sent = with_row(sent, "other_names", name="last blouse", used_by="members", position=0)
    sent = with_row(sent, "ancestors", ancestor=older.pk, role="continues", position=0)
    sent = with_row(sent, "stock_numbers", number="27-114-99")
    paper = Source.objects.get(code="S01").pk
    sent = with_row(sent, "size_lengths", mark="4", what="sleeve", mm=590, source=paper)
    sent = with_row(sent, "citations", source=Source.objects.get(code="S01").pk, stance="supports", position=0)
    send(client, where, sent)
    version = IssueVersion.objects.get(code="BLO-09")
    assert (version.from_year, version.to_year, version.stock_numbers.get().bare) == (2009, None, "2711499")
    assert str(version.size_lengths.get()) == "4, sleeve 590 mm"
    assert version.position == max(IssueVersion.objects.values_list("position", flat=True)), "behind the others"
    page = text(client, address(IssueVersion, "change", version.pk))
    link = re.search(r'<a href="([^"]+)">Write the first record</a>', page).group(1)

    sent = profile_fields(client, link)
    states = [older.current_record.cells.order_by("state")[place].state for place in (0, 4, 9)]
    for state in states:
        sent |= {f"s{state.pk}-how_often": "always", f"s{state.pk}-certainty": "observed"}
        sent |= {f"s{state.pk}-source_codes": "S01"}
    send(client, link, sent)

    version.refresh_from_db()
    assert version.current_record.number == 1
    assert sorted(version.current_record.cells.values_list("state", flat=True)) == sorted(state.pk for state in states)
    seen = text(client, "/issue-versions/BLO-09/")
    assert "3 of " in seen
    assert "Orrin Works" in seen
    assert all(state.label in seen for state in states)
    assert "BLO-09" in text(client, "/search/?q=last+blouse")
    assert "Orrin Works" in text(client, "/makers/ORR/")


def test_new_rows_without_a_place_keep_the_order_in_which_they_were_typed(client, office):
    signed_in(client, "Plover")
    where = address(Feature, "add")
    sent = fields_of(client, where) | {"code": "button_rim", "name": "Button rim", "question": "Which rim?"}
    for code in ("z_first", "m_second", "a_third"):
        sent = with_row(sent, "states", code=code, label=code, position=0)

    send(client, where, sent)

    feature = Feature.objects.get(code="button_rim")
    assert [state.code for state in feature.states.all()] == ["z_first", "m_second", "a_third"]


@pytest.mark.parametrize(
    ("model", "values", "said"),
    [
        (Maker, {"code": "A B", "name": "x"}, "Not a usable code: a code has no spaces"),
        (Maker, {"code": "X", "name": "x", "first_year": "1990", "last_year": "1980"}, "a maker begins before it ends"),
        (Maker, {"code": "GAR", "name": "x"}, "already exists"),
        (NumberForm, {"code": "x", "name": "x", "pattern": "(99"}, "a bracket is not closed"),
        (NumberForm, {"code": "x", "name": "x", "pattern": "(9)", "year_group": "2"}, "a group of the pattern: 1 to 1"),
        (
            Source,
            {"code": "X", "kind": "x", "title": "x", "grade": "A", "date": "1968-13"},
            "Not a date that can be read",
        ),
    ],
)
def test_what_cannot_be_is_refused_and_changes_nothing(client, office, model, values, said):
    signed_in(client, "Plover")
    where, before = address(model, "add"), ReferenceState.current_number()

    assert said in refused(client, where, fields_of(client, where) | values)
    assert ReferenceState.current_number() == before
