"""Features by proposal: a new one, a new state, a change of its words; decided by two, revocable while nothing
rests on it."""

import re

import pytest

from catalogue.member_examples.actions import NotDone
from catalogue.reference.models import Feature, ReferenceState
from catalogue.reference.snapshots import forget_everything, type_facts
from catalogue.review.features.recording import faults_of_features, rows_in
from catalogue.review.features.standing import rows_of
from catalogue.review.models import FeatureRecord, Notice, Proposal
from catalogue.review.proposals.actions import (
    begin_feature,
    begin_new_feature,
    save_draft,
    send_proposal,
    settle_clashes,
)
from tests.catalogue.review.proposing import cell, decide, make_society, piece_of, revoke
from tests.catalogue.review.proposing import sent as sent_of_version
from tests.forms import Sent
from tests.reading import text

ELASTIC = {"label": "Elastic", "low": None, "high": None, "drawing": "", "position": 2}


@pytest.fixture
def society(db):
    return make_society()


def drafted(by, feature, rows: dict, sources=()) -> Proposal:
    made = begin_feature(by=by, feature=feature)
    return save_draft(
        proposal=made, by=by, revision=made.revision, wanted=made.base | rows, grounds="It tells the late lot apart.",
        sources=sources,
    )  # fmt: skip


def sent(by, feature, rows: dict, **more) -> Proposal:
    return send_proposal(proposal=drafted(by, feature, rows, **more), by=by)


def new_sent(society, **rows) -> Proposal:
    made = begin_new_feature(by=society.ada, garment_type=society.home, code="yoke", name="Yoke")
    states = {
        f"state:{code}": {**ELASTIC, "label": code.title(), "position": n} for n, code in enumerate(("cut", "no"))
    }
    wanted = made.rows | {"question": "Is there a yoke?"} | states | rows
    made = save_draft(proposal=made, by=society.ada, revision=0, wanted=wanted, grounds="Seen on two.", sources=["S1"])
    return send_proposal(proposal=made, by=society.ada)


def both(society, proposal):
    decide(proposal, society.mo)
    return decide(proposal, society.mia)


# ---- approving


def test_a_new_state_stands_once_two_have_approved_with_record_decision_and_notices(society):
    number = ReferenceState.current_number()
    proposal = sent(society.ada, society.cuff, {"state:elastic": ELASTIC}, sources=["S1"])
    first = decide(proposal, society.mo)
    assert (first.kind, first.feature_record) == ("agreed", None)
    assert not society.cuff.states.filter(code="elastic").exists()

    made = decide(proposal, society.mia)

    record = FeatureRecord.objects.get(code="cuff", number=1)
    assert (made.kind, made.record, made.feature_record) == ("approved", None, record)
    assert (record.standing, record.written_by, record.why) == (
        "approved", society.ada, "It tells the late lot apart."
    )  # fmt: skip
    assert rows_in(record)["state:elastic"] == ELASTIC
    assert made.before == {"state:elastic": None}
    assert set(Notice.objects.filter(proposal_decision=made).values_list("member__username", flat=True)) == {
        "Ada", "Mo"
    }  # fmt: skip
    assert ReferenceState.current_number() > number
    forget_everything()
    assert [s.code for s in type_facts("SMK").features["cuff"].states] == ["tab", "plain", "elastic"]
    assert list(faults_of_features()) == []


def test_what_a_trade_word_means_is_proposed_kept_with_the_record_and_taken_out_again(society):
    tab = {**ELASTIC, "label": "Tab", "position": 0}
    before = rows_of(society.cuff)["state:tab"]
    both(society, sent(society.ada, society.cuff, {"state:tab": tab | {"explained": "A short strap."}}))
    forget_everything()
    explained = type_facts("SMK").features["cuff"].state_by_code["tab"].explained
    both(society, sent(society.ada, society.cuff, {"state:tab": tab}))

    assert "explained" not in before  # as in records made before states could have one
    assert explained == "A short strap."
    assert society.cuff.states.get(code="tab").explained == ""
    assert rows_in(FeatureRecord.objects.get(code="cuff", number=1))["state:tab"]["explained"] == "A short strap."
    assert list(faults_of_features()) == []


def test_a_new_feature_is_asked_of_its_garment_type_last(society):
    proposal = new_sent(society)
    assert proposal.weight == "weighty"
    both(society, proposal)
    forget_everything()

    assert list(type_facts("SMK").features) == ["closure", "cuff", "yoke"]
    proposal.refresh_from_db()
    assert proposal.feature == Feature.objects.get(code="yoke")


@pytest.mark.parametrize(
    ("rows", "weight"),
    [
        ({"error_note": "A repair looks alike."}, "small"),
        ({"group": "sleeves", "basis": "common practice"}, "small"),
        ({"question": "How does the sleeve end?"}, "weighty"),
        ({"error": 0.2}, "weighty"),
        ({"seen": "opened"}, "weighty"),
        ({"state:tab": {**ELASTIC, "label": "Strap", "position": 0}}, "weighty"),
    ],
)
def test_what_is_asked_or_counted_takes_two_and_a_note_beside_it_one(society, rows, weight):
    assert drafted(society.ada, society.cuff, rows).weight == weight


def test_a_member_proposes_notes_and_is_told_why_not_more(society):
    assert decide(sent(society.ben, society.cuff, {"error_note": "Wear."}), society.mo).kind == "approved"
    with pytest.raises(NotDone, match="is proposed by authors"):
        sent(society.ben, society.cuff, {"question": "What?"})


# ---- what cannot be


@pytest.mark.parametrize(
    ("rows", "words"),
    [
        ({"question": ""}, "needs its question"),
        ({"types": []}, "Choose the garment types"),
        ({"effort": 0}, "effort is a number above 0"),
        ({"error": 1.0}, "chance of a wrong answer"),
        ({"absent": "gone"}, "no state of this feature"),
        ({"parent": "cuff", "shown_when": ["tab"]}, "a detail of itself"),
        ({"shown_when": ["zip"]}, "choose it first"),
        ({"parent": "closure", "shown_when": ["hook"]}, "under which states of closure"),
        ({"places": [["", "front", "moon"]]}, "is no region"),
        ({"state:TAB": ELASTIC}, "one code, whatever its capitals"),
        ({"state:a b": ELASTIC}, "no spaces"),
        ({"state:elastic": {**ELASTIC, "label": ""}}, "write down what is seen"),
        ({"state:elastic": {**ELASTIC, "low": 3.0, "high": 4.0}}, "Bands run upward"),
        ({"state:tab": None}, "“Tab” stays: 1 version rests on it."),
    ],
)
def test_a_feature_that_could_not_be_is_refused_in_words(society, rows, words):
    with pytest.raises(NotDone, match=words):
        drafted(society.ada, society.cuff, rows)
    assert rows_of(society.cuff)["question"] == "cuff?"


@pytest.mark.parametrize(("code", "words"), [("cuff", "There is a feature cuff"), ("Cuff", "cuff"), ("a b", "spaces")])
def test_a_code_that_is_taken_or_unusable_is_refused(society, code, words):
    with pytest.raises(NotDone, match=words):
        begin_new_feature(by=society.ada, garment_type=society.home, code=code, name="X")


def test_a_clash_is_chosen_row_by_row(society):
    mine = sent(society.ada, society.cuff, {"question": "Which cuff?", "state:elastic": ELASTIC})
    both(society, sent(society.sue, society.cuff, {"question": "How does it end?"}))
    with pytest.raises(NotDone, match="choose row by row"):
        decide(mine, society.mo)

    mine.refresh_from_db()
    settle_clashes(proposal=mine, by=society.ada, choices={"question": "theirs"}, revision=mine.revision)
    both(society, mine)

    assert rows_of(society.cuff)["question"] == "How does it end?"
    assert society.cuff.states.filter(code="elastic").exists()


def test_of_two_who_propose_the_same_new_code_the_second_is_refused(society):
    first, second = new_sent(society), new_sent(society)
    both(society, first)

    with pytest.raises(NotDone, match="There is a feature yoke already"):
        decide(second, society.mo)


# ---- revoking


def test_a_revoked_state_goes_as_long_as_nothing_rests_on_it(society):
    proposal = sent(society.ada, society.cuff, {"state:elastic": ELASTIC})
    both(society, proposal)
    revoke(proposal, society.mo)
    made = revoke(proposal, society.mia)

    assert (made.kind, made.feature_record.number) == ("revoked", 2)
    assert not society.cuff.states.filter(code="elastic").exists()
    assert [one.number for one in FeatureRecord.objects.filter(code="cuff")] == [1, 2]


def test_what_a_version_or_a_piece_rests_on_is_not_revoked_and_the_refusal_says_so(society):
    proposal = sent(society.ada, society.cuff, {"state:elastic": ELASTIC})
    both(society, proposal)
    piece_of(society, society.one, cuff="elastic")
    with pytest.raises(NotDone, match="“Elastic” stays: 1 piece rests on it"):
        revoke(proposal, society.mo)
    both(society, sent_of_version(society.ada, society.one, {"feature:cuff": [cell("elastic")]}))
    with pytest.raises(NotDone, match="1 version and 1 piece rest on it"):
        revoke(proposal, society.mo)


def test_a_revoked_new_feature_is_asked_no_more_and_its_addresses_answer(society, client):
    proposal = new_sent(society)
    both(society, proposal)
    both_revoke = [revoke(proposal, one) for one in (society.mo, society.mia)]

    assert both_revoke[-1].kind == "revoked"
    forget_everything()
    assert "yoke" not in type_facts("SMK").features
    assert client.get("/features/yoke/", follow=True).status_code == 200
    history = client.get("/features/yoke/history/").content.decode()
    assert history.count("decided by Mo and Mia") == 2
    assert "to take an approved change back" in history
    assert "approved, revoked since" in history


# ---- pages


def test_an_author_proposes_a_state_and_a_question_on_the_pages_and_two_decide(society, client):
    client.force_login(society.ada)
    page = client.post("/proposals/feature/?feature=cuff", follow=True)
    where = page.request["PATH_INFO"]
    assert "<span>Today:</span> cuff?" in page.content.decode()
    form = page.context["form"]
    given = {name: form[name].value() for name in form.fields if form[name].value() not in (None, "")}
    states = page.context["states"]
    given |= {field.html_name: field.value() for field in states.management_form}
    for one in states:
        given |= {field.html_name: field.value() for field in one if field.value() not in (None, "")}
    given |= {"question": "How does the cuff end?", "grounds": "The late lot.", "cites": "S1",
              "state-2-code": "elastic", "state-2-label": "Elastic"}  # fmt: skip

    refused = client.post(where, given | {"effort": "much", "state-2-code": ""}).content.decode()
    assert "This is not saved yet." in refused
    assert "A state needs a code" in refused
    assert 'value="much"' in refused
    saved = client.post(where, given, follow=True).content.decode()
    assert "How does the cuff end?" in saved
    assert "State elastic" in saved
    number = Proposal.objects.get().pk
    client.post(f"/proposals/{number}/send/")
    for one in (society.mo, society.mia):
        client.force_login(one)
        page = client.post(
            f"/proposals/{number}/", {"decision": "approved", "reason": "Seen.", "sending": 1}, follow=True
        ).content.decode()

    assert "/features/cuff/history/1/" in page
    assert society.cuff.states.get(code="elastic").label == "Elastic"
    assert "Feature Feature cuff: question, state elastic" in client.get("/proposals/?state=approved").content.decode()
    assert "proposal" in client.get("/features/cuff/history/1/").content.decode()


def test_where_to_look_is_chosen_by_pictures_on_the_outline_of_a_garment_that_asks_it(society, client):
    client.force_login(society.ada)
    page = client.post("/proposals/feature/?feature=cuff", follow=True)
    where, shown = page.request["PATH_INFO"], page.content.decode()
    [row] = re.findall(r'<input type="radio" name="place_0" value="\|front\|throat">(.*?)</label>', shown)
    [outline] = re.findall(r'<use href="#(outline-\w+-front)"', row)
    assert 'class="spot"' in row
    assert re.search(r"<span>\w[^<]*</span>", row)
    assert shown.count(f'<symbol id="{outline}"') == 1

    form = page.context["form"]
    given = {name: form[name].value() for name in form.fields if form[name].value() not in (None, "")}
    states = page.context["states"]
    for field in [*states.management_form, *(field for one in states for field in one)]:
        given |= {field.html_name: field.value()} if field.value() not in (None, "") else {}
    client.post(where, given | {"place_0": "|front|throat", "place_1": "|back|yoke"})

    assert Proposal.objects.get().rows["places"] == [["", "front", "throat"], ["", "back", "yoke"]]
    assert re.search(r'name="place_1" value="\|back\|yoke" checked', client.get(where).content.decode())


def test_a_new_feature_is_begun_on_its_page_with_what_was_typed_kept(society, client):
    client.force_login(society.ada)
    refused = client.post("/proposals/new-feature/", {"home": "SMK", "code": "cuff", "name": "Cuff end"})
    assert "There is a feature cuff already" in refused.content.decode()
    assert 'value="Cuff end"' in refused.content.decode()
    page = client.post("/proposals/new-feature/", {"home": "SMK", "code": "yoke", "name": "Yoke"}, follow=True)

    assert page.status_code == 200
    assert "Centre front" in page.content.decode()


def test_whatever_is_wrong_with_a_state_is_listed_above_the_form_and_leads_to_it(society, client):
    client.force_login(society.ada)
    edit = f"/proposals/{drafted(society.ada, society.cuff, {'question': 'What?'}).pk}/edit/feature/"
    given = Sent(text(client, edit)).sent
    free = given["state-INITIAL_FORMS"]
    shown = client.post(edit, given | {f"state-{free}-code": "loop"}).content.decode()
    above = shown[shown.index('role="alert"') : shown.index("<form class=")]

    assert f'<a href="#id_state-{free}-label">State loop, What is seen</a>: Write down what is seen.' in above


SIGN_IN, OK, NO, NOT_THERE = 302, 200, 403, 404


@pytest.mark.parametrize(
    ("address", "expected"),
    [
        ("/proposals/feature/?feature=cuff", (SIGN_IN, OK, OK, OK, OK)),
        ("/proposals/feature/?feature=nothing", (SIGN_IN, NOT_THERE, NOT_THERE, NOT_THERE, NOT_THERE)),
        ("/proposals/new-feature/", (SIGN_IN, NO, OK, OK, OK)),
        ("/proposals/{number}/edit/feature/", (SIGN_IN, NOT_THERE, OK, NOT_THERE, NOT_THERE)),
        ("/proposals/{number}/edit/profile/", (SIGN_IN, NOT_THERE, 302, NOT_THERE, NOT_THERE)),
    ],
)
def test_everybody_gets_what_is_theirs(society, client, address, expected):
    number = drafted(society.ada, society.cuff, {"question": "What?"}).pk
    found = []
    for person in (None, society.ben, society.ada, society.mo, society.sue):
        client.logout()
        if person:
            client.force_login(person)
        found.append(client.get(address.format(number=number)).status_code)

    assert tuple(found) == expected


@pytest.mark.parametrize(
    "given",
    [
        {},
        {"state-TOTAL_FORMS": "x", "state-INITIAL_FORMS": "-1"},
        {"state-TOTAL_FORMS": "9999", "state-INITIAL_FORMS": "2", "revision": "99999999999999999999"},
        {"state-TOTAL_FORMS": "3", "state-INITIAL_FORMS": "3", "effort": "nan", "error": "1e999", "parent": "nothing"},
        {"place_0": "a|b", "types": ["SMK", "nothing"], "kind": "count", "state-TOTAL_FORMS": "0"},
    ],
)
def test_an_odd_form_is_refused_in_words_and_writes_nothing(society, client, given):
    made = drafted(society.ada, society.cuff, {"question": "What?"})
    client.force_login(society.ada)
    answer = client.post(f"/proposals/{made.pk}/edit/feature/", given)

    assert answer.status_code == 200
    assert "This is not saved yet." in answer.content.decode()
    made.refresh_from_db()
    assert made.rows == {"question": "What?"}


def test_a_member_is_asked_only_for_what_members_may_change_and_nothing_else_of_theirs_is_read(society, client):
    client.force_login(society.ben)
    page = client.post("/proposals/feature/?feature=cuff", follow=True)
    where, shown = page.request["PATH_INFO"], page.content.decode()
    asked = set(re.findall(r'<(?:input|select|textarea)[^>]* name="([^"]+)"', shown))
    assert {"error_note", "change_note", "group", "basis"} <= asked
    assert not asked & {"question", "name", "seen", "error", "types", "place_0", "state-0-label", "parent"}
    assert "are changed by authors" in shown

    before = rows_of(society.cuff)
    given = {"error_note": "Wear.", "revision": "0", "grounds": "Seen.", "question": "Another?", "error": "0.5"}
    given |= {"types": "SMK", "state-TOTAL_FORMS": "1", "state-INITIAL_FORMS": "0", "state-0-code": "elastic"}
    client.post(where, given | {"state-0-label": "Elastic", "place_0": "|front|throat"})

    kept = Proposal.objects.get()
    assert (kept.base, kept.rows, kept.weight) == (before, {"error_note": "Wear."}, "small")
