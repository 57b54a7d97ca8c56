"""Every address of proposals, tried by everybody; what is written on the pages; how often they ask the database."""

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from catalogue.member_examples.models import Example
from catalogue.reference.models import Feature, FeatureState, IssueVersion
from catalogue.reference.snapshots import forget_everything
from catalogue.review.models import Proposal
from catalogue.review.proposals.actions import begin_change, revoke_approval, save_draft, send_proposal
from catalogue.review.proposals.urls import urlpatterns
from tests.catalogue.review.proposing import (
    cell,
    decide,
    decide_both,
    drafted,
    make_society,
    make_society_to_split,
    merge_sent,
    piece_of,
    sent,
    split_sent,
)
from tests.forms import Sent
from tests.reading import text, words

SIGN_IN, OK, NO, NOT_THERE, METHOD, ON = 302, 200, 403, 404, 405, 302
WHO = ("visitor", "ben", "ada", "mo", "sue")  # Ben is a member, Ada an author, Mo a moderator, Sue the secretary
EVERY_MEMBER = (SIGN_IN, OK, OK, OK, OK)
OWN_SENT = (SIGN_IN, NOT_THERE, ON, NOT_THERE, NOT_THERE)
POSTED = (METHOD,) * 5
TABLE = {
    "queue": ("/proposals/", EVERY_MEMBER),
    "new": ("/proposals/new/?version=SMK-61", EVERY_MEMBER),
    "new_version": ("/proposals/new-version/?type=SMK&copy=SMK-61", (SIGN_IN, NO, OK, OK, OK)),
    "merge": ("/proposals/merge/?version=SMK-61", (SIGN_IN, NO, OK, OK, OK)),
    "split": ("/proposals/split/?version=SMK-61", (SIGN_IN, NO, OK, OK, OK)),
    "proposal": ("/proposals/{sent}/", EVERY_MEMBER),
    "edit": ("/proposals/{sent}/edit/", OWN_SENT),
    "edit_profile": ("/proposals/{sent}/edit/profile/", OWN_SENT),
    "edit_second": ("/proposals/{sent}/edit/second/", OWN_SENT),
    "edit_profile_second": ("/proposals/{sent}/edit/second/profile/", OWN_SENT),
    "word": ("/proposals/{sent}/words/", POSTED),
    "settle": ("/proposals/{sent}/settle/", POSTED),
    "revoke": ("/proposals/{sent}/revoke/", POSTED),
    "send": ("/proposals/{sent}/send/", POSTED),
    "withdraw": ("/proposals/{sent}/withdraw/", POSTED),
}
ZIP = {"feature:closure": [cell("zip")]}


@pytest.fixture
def society(db):
    return make_society()


def as_each(client, society, address, **given) -> tuple[int, ...]:
    found = []
    for who in WHO:
        client.logout()
        if who != "visitor":
            client.force_login(getattr(society, who))
        found.append((client.post if given else client.get)(address, given or None).status_code)
    return tuple(found)


def test_no_address_is_left_out_of_the_table():
    assert {pattern.name for pattern in urlpatterns} == set(TABLE)


@pytest.mark.parametrize("name", TABLE)
def test_everybody_gets_what_the_table_says(client, society, name):
    address, expected = TABLE[name]

    assert as_each(client, society, address.format(sent=sent(society.ada, society.one, ZIP).pk)) == expected


def test_only_moderators_decide_whatever_form_is_sent(client, society):
    proposal = sent(society.ada, society.one, {"note": "x"})
    forged = {"decision": "approved", "reason": "x", "sending": 1}
    for act in ("", "revoke/"):
        found = as_each(client, society, f"/proposals/{proposal.pk}/{act}", **forged)
        assert (*found[:3], found[4]) == (SIGN_IN, NO, NO, NO), act


def test_who_comes_too_late_reads_why_and_keeps_what_was_typed(client, society):
    small = sent(society.ben, society.one, {"note": "x"})
    decide(small, society.mo)
    client.force_login(society.mia)
    for act, late in (("", {"decision": "approved"}), ("revoke/", {})):
        if act:
            revoke_approval(proposal=small, decider=society.mo, reason="A slip.", sending=1)
        answer = client.post(f"/proposals/{small.pk}/{act}", late | {"reason": "I saw <it> too.", "sending": 1})
        page = answer.content.decode()
        assert "there is nothing to decide on it" in page
        assert "I saw &lt;it&gt; too." in page
    page = client.post(f"/proposals/{small.pk}/settle/", {"revision": 1}).content.decode()
    assert "There is nothing to settle here any more" in page


def test_what_is_not_there_is_told_in_the_words_of_the_site(client, society):
    client.force_login(society.ada)
    for address, said in {
        "/proposals/999/": "There is no such proposal.",
        "/proposals/new-version/?type=SMX": "There is no garment type “SMX”.",
        "/proposals/open-question/?question=D9": "There is no open question “D9”.",
        "/proposals/feature/?feature=x": "There is no such page",
    }.items():
        answer = client.get(address)
        assert answer.status_code == 404
        page = answer.content.decode()
        assert said in page
        assert "matches the given query" not in page


def test_a_draft_is_there_for_its_author_alone(client, society):
    draft = drafted(society.ada, society.one, ZIP)
    for act in ("", "edit/", "edit/profile/"):
        found = as_each(client, society, f"/proposals/{draft.pk}/{act}")
        assert found == (SIGN_IN, NOT_THERE, OK, NOT_THERE, NOT_THERE), act
    for act in ("send/", "withdraw/", "words/", "settle/"):
        draft = drafted(society.ada, society.one, ZIP)
        found = as_each(client, society, f"/proposals/{draft.pk}/{act}", x="1")
        assert (found[1], found[3], found[4]) == (NOT_THERE,) * 3, act


@pytest.mark.parametrize(
    "address",
    ["/proposals/?state=nonsense&page=x", "/proposals/?state=approved&page=99", "/proposals/?state=mine"],
)
def test_a_list_that_is_asked_for_oddly_answers(client, society, address):
    client.force_login(society.ben)

    assert client.get(address).status_code == 200


@pytest.mark.parametrize("address", ["/proposals/99999/", "/proposals/new/?version=nope", "/proposals/new/"])
def test_what_is_not_there_is_not_there(client, society, address):
    client.force_login(society.ada)

    assert client.get(address).status_code == 404


def test_a_change_is_written_sent_and_decided_on_the_pages(client, society):
    client.force_login(society.ada)
    assert "Propose a change" in text(client, "/issue-versions/SMK-61/")
    made = client.post("/proposals/new/?version=SMK-61", {"kind": "profile"})["Location"]
    zip_, buttons = (FeatureState.objects.get(code=code).pk for code in ("zip", "buttons"))
    form = Sent(text(client, made)).sent
    assert form[f"s{buttons}-how_often"] == "always"
    kept = client.post(made, form | {f"s{buttons}-how_often": "", f"s{zip_}-how_often": "usually"})["Location"]
    assert kept.endswith("/edit/")

    form = Sent(text(client, kept)).sent
    page = client.post(kept, form | {"grounds": "A dated label.", "cites": "S1", "date": "1961/1974"})["Location"]
    shown = text(client, page)
    assert "Zip (usually)" in shown
    assert "1961–74" in shown
    assert "Told apart by it:</strong> Smock 76 (SMK-76)" not in shown  # cuffs told them apart before, too
    assert "versions (100 %) can be identified, in about" in shown
    client.post(f"{page}send/")

    for who in (society.mo, society.mia):
        client.force_login(who)
        assert "Smock 61" in text(client, page)
        client.post(page, Sent(text(client, page)).sent | {"decision": "approved", "reason": "Seen.", "sending": 1})
    assert Proposal.objects.get().state == "approved"
    assert "Zip" in text(client, "/issue-versions/SMK-61/")
    assert "record 2" in text(client, page)


def test_what_cannot_be_read_is_kept_as_it_was_typed(client, society):
    draft = drafted(society.ada, society.one, ZIP)
    client.force_login(society.ada)
    edit = f"/proposals/{draft.pk}/edit/"
    form = Sent(text(client, edit)).sent
    shown = client.post(edit, form | {"date": "some day", "cites": "S9", "note": "typed long"}).content.decode()

    assert all(words in shown for words in ("Not a date that can be read", "There is no code “S9”", "typed long"))
    zip_ = FeatureState.objects.get(code="zip").pk
    profile = f"/proposals/{draft.pk}/edit/profile/"
    form = Sent(text(client, profile)).sent
    shown = client.post(profile, form | {f"s{zip_}-source_codes": "S9"}).content.decode()
    assert "There is no code “S9”" in shown
    shown = client.post(profile, Sent(text(client, profile)).sent | {"revision": "0"}).content.decode()
    assert "saved elsewhere" in shown


def test_whatever_is_wrong_is_listed_above_a_long_form_and_leads_to_its_field(client, society):
    draft = drafted(society.ada, society.one, ZIP)
    client.force_login(society.ada)
    edit = f"/proposals/{draft.pk}/edit/"
    shown = client.post(edit, Sent(text(client, edit)).sent | {"date": "some day", "cites": "S9"}).content.decode()
    above = shown[shown.index('role="alert"') : shown.index("<form class=")]

    assert '<a href="#id_date">Dates</a>: Not a date that can be read' in above
    assert '<a href="#id_cites">Sources cited for the change</a>: There is no code “S9”' in above
    assert 'id="id_cites"' in shown


def test_the_page_of_a_garment_type_leads_to_proposing_a_version_that_is_missing(client, society):
    assert 'href="/proposals/new-version/?type=SMK">Propose a version that is missing</a>' in text(
        client, "/garment-types/SMK/"
    )


def test_every_code_that_is_not_there_is_named_with_the_one_that_is_meant(client, society):
    draft = drafted(society.ada, society.one, ZIP)
    client.force_login(society.ada)
    edit = f"/proposals/{draft.pk}/edit/"
    form = Sent(text(client, edit)).sent
    sizes = "4; sleeve; 590; S11\n5; sleeve; 600; rubbish\n6; sleeve; 610; S11"
    shown = client.post(edit, form | {"cites": "S11 S1 nothing S22", "sizes": sizes}).content.decode()

    for told in ("“S11”. Nearest: S1.", "“nothing”. ", "“S22”. Nearest: S2."):
        assert f"There is no code {told}" in shown
    assert "There is no code “S1”" not in shown
    assert shown.count("There is no source “S11”. Nearest: S1.") == 2  # in the list above the form, and at its field
    assert "There is no source “rubbish”." in shown
    many = client.post(edit, form | {"cites": " ".join(f"X{n}" for n in range(23))}).content.decode()
    assert "“X19”" in many
    assert "“X20”" not in many
    assert "3 more are not there either." in many


def test_the_features_of_a_draft_are_folded_by_group_and_open_only_where_something_is_changed_or_wrong(client, society):
    Feature.objects.filter(code="closure").update(group="fastening")
    Feature.objects.filter(code="cuff").update(group="sleeves")
    draft = drafted(society.ada, society.one, ZIP)
    client.force_login(society.ada)
    profile = f"/proposals/{draft.pk}/edit/profile/"

    shown = text(client, profile)
    assert '<details class="proposed-group" open><summary>Fastening: 1 feature, 1 changed</summary>' in shown
    assert '<details class="proposed-group"><summary>Sleeves: 1 feature</summary>' in shown

    tab = FeatureState.objects.get(code="tab").pk
    wrong = {f"s{tab}-how_often": "always", f"s{tab}-source_codes": "S9"}
    shown = client.post(profile, Sent(shown).sent | wrong).content.decode()
    assert '<details class="proposed-group" open><summary>Sleeves: 1 feature</summary>' in shown


def test_to_show_grounds_and_limits_opens_the_groups_and_the_states_that_hold_them(client, society):
    Feature.objects.filter(code="closure").update(group="fastening")
    Feature.objects.filter(code="cuff").update(group="sleeves")
    made = drafted(society.ada, society.one, ZIP)
    client.force_login(society.ada)
    profile = f"/proposals/{made.pk}/edit/profile/"
    plain = text(client, profile)
    assert "<details open>" not in plain

    new = FeatureState.objects.filter(feature__code="cuff").exclude(code="tab").first().pk
    shown = client.post(profile, Sent(plain).sent | {f"s{new}-how_often": "seldom", "_show": "1"}).content.decode()
    sleeves = shown.partition('<details class="proposed-group" open><summary>Sleeves: 1 feature</summary>')[2]
    assert sleeves.count("<details open>") == shown.count("<details open>") == 1
    assert f'name="s{new}-source_codes"' in sleeves.partition("<details open>")[2]

    shown = client.post(profile, Sent(plain).sent | {"_show": "1"}).content.decode()
    assert shown.count('<details class="proposed-group" open>') == 2
    assert shown.count("<details open>") == shown.count('-source_codes"') == 2


def test_a_member_cites_a_source_and_can_choose_no_states(client, society):
    client.force_login(society.ben)
    made = client.post("/proposals/new/?version=SMK-61", {"kind": "profile"})["Location"]
    shown = text(client, made)
    zip_, buttons = (FeatureState.objects.get(code=code).pk for code in ("zip", "buttons"))
    assert "how_often" not in shown
    client.post(made, Sent(shown).sent | {f"s{buttons}-source_codes": "S1 S2", f"s{zip_}-how_often": "always"})

    assert Proposal.objects.get().rows == {"feature:closure": [cell("buttons", sources=["S1", "S2"])]}
    assert Proposal.objects.get().weight == "small"


def test_a_clash_is_shown_row_by_row_and_settled_on_the_page(client, society):
    mine = sent(society.ben, society.one, {"note": "mine"})
    decide(sent(society.ada, society.one, {"note": "theirs"}), society.mo)
    client.force_login(society.ben)
    page = f"/proposals/{mine.pk}/"
    shown = text(client, page)
    assert "As it stands now: theirs" in shown
    assert "As proposed: mine" in shown
    form = {"revision": Sent(shown).sent["revision"]}
    assert "Choose for each row" in client.post(f"{page}settle/", form).content.decode()
    client.post(f"{page}settle/", form | {"row-note": "ours"})
    assert "As proposed" not in text(client, page).split("<h2>The change")[0]


def test_the_pages_of_a_draft_show_the_record_of_today_beside_what_it_was_begun_on(client, society):
    mine = drafted(society.ada, society.one, {"date": "1961/1974"})
    client.force_login(society.ada)
    page = f"/proposals/{mine.pk}/edit/"
    assert "since the draft was begun" not in text(client, page)
    theirs = sent(society.ada, society.one, {"note": "Keep it hung.", "feature:closure": [cell("none")]})
    decide(theirs, society.mo)
    decide(theirs, society.mia)

    fields, features = words(text(client, page)), words(text(client, f"{page}profile/"))

    assert "Today: Keep it hung. When this was begun: nothing" in fields
    assert "Today: 1961" in fields
    assert fields.count("When this was begun:") == features.count("When this was begun:") == 1
    assert "Today: None (always) When this was begun: Buttons (always)" in features
    assert all("Others changed this version since the draft was begun" in shown for shown in (fields, features))
    # What others changed is not undone by saving the draft again.
    client.post(page, Sent(text(client, page)).sent | {"grounds": "A label."})
    mine.refresh_from_db()
    assert (mine.rows, mine.grounds) == ({"date": "1961/1974"}, "A label.")


def retire(society, version):
    made = begin_change(by=society.ada, version=version, retire=True)
    made = save_draft(
        proposal=made, by=society.ada, revision=made.revision, wanted=made.base | {"retired": "It never was one."},
        grounds="Three pieces.", sources=[],
    )  # fmt: skip
    made = send_proposal(proposal=made, by=society.ada)
    decide(made, society.mo)
    decide(made, society.mia)
    forget_everything()


def test_a_change_of_a_version_that_was_retired_meanwhile_shows_no_figures_as_though_it_came_back(client, society):
    waits = sent(society.ada, society.other, ZIP)
    page = f"/proposals/{waits.pk}/"
    client.force_login(society.max)
    assert "What it does to identification" in text(client, page)
    retire(society, society.other)

    shown = words(text(client, page))

    assert "Smock 76 is retired: what it was stays as it is. Decline this, or let its author withdraw it." in shown
    assert "What it does to identification" not in shown
    assert "Return or decline it." in shown
    answer = client.post(page, {"decision": "approved", "reason": "Seen.", "sending": waits.times_sent})
    assert "Smock 76 is retired: what it was stays as it is." in answer.content.decode()
    waits.refresh_from_db()
    assert (waits.state, waits.decisions.count()) == ("open", 0)


def test_a_merge_with_a_version_that_was_retired_meanwhile_says_so_and_shows_no_figures(client, society):
    waits = merge_sent(society)
    retire(society, society.other)
    client.force_login(society.max)

    shown = words(text(client, f"/proposals/{waits.pk}/"))

    assert "SMK-76 is retired already: only versions that are in force are merged." in shown
    assert "What it does to identification" not in shown


def test_a_proposal_that_brings_a_retired_version_back_says_so_in_words(client, society):
    retire(society, society.other)
    back = sent(society.ada, society.other, {"retired": ""})
    client.force_login(society.max)

    shown = words(text(client, f"/proposals/{back.pk}/"))

    assert "Smock 76 is retired today. Approved, this puts it into force again." in shown
    assert "What it does to identification" in shown


def test_a_change_of_dates_lists_the_accepted_pieces_whose_labels_it_contradicts(client, society):
    pieces = [piece_of(society, society.one, cuff="tab") for _ in range(3)]
    for piece, year in zip(pieces, (1963, 1970, 1999), strict=True):  # the last lies outside today's dates already
        Example.objects.filter(pk=piece.pk).update(label_year=year)
    narrow, other = sent(society.ada, society.one, {"date": "1966/1975"}), sent(society.ada, society.one, ZIP)
    client.force_login(society.max)

    shown = words(text(client, f"/proposals/{narrow.pk}/"))

    assert "of 1 accepted piece lies within the dates of today and would lie outside those proposed:" in shown
    assert f"{pieces[0].code} (1963)" in shown
    assert "(1970)" not in shown
    assert "(1999)" not in shown
    assert "outside these dates" not in text(client, f"/proposals/{other.pk}/")


def test_who_revokes_a_split_reads_what_later_changes_go_with_it(client, db):
    society = make_society_to_split()
    split = split_sent(society)
    decide_both(society, split)
    client.force_login(society.max)
    page = f"/proposals/{split.pk}/"
    assert "was changed since" not in text(client, page)
    decide(sent(society.ben, IssueVersion.objects.get(code="SMK-76A"), {"note": "x"}), society.mo)

    shown = words(text(client, page))

    assert "SMK-76A was changed since: what is new in its record 2 is withdrawn with it." in shown
    assert "SMK-76B was changed since" not in shown


def test_a_notice_of_a_proposal_stands_among_the_others_and_leads_to_it(client, society):
    proposal = sent(society.ada, society.one, ZIP)
    decide(proposal, society.mo, "returned", "Which label?")
    client.force_login(society.ada)
    shown = text(client, "/my/notices/")

    assert f"Proposal {proposal.pk} (SMK-61)" in shown
    assert "Which label?" in shown
    assert f"/proposals/{proposal.pk}/" in shown


def test_the_list_and_a_proposal_ask_as_often_for_one_as_for_thirty(client, society):
    counted = []
    for many in (1, 3, 30):
        while Proposal.objects.count() < many:
            decide(sent(society.ada, society.one, {"date": f"19{60 + Proposal.objects.count()}"}), society.mo)
        client.force_login(society.mia)
        first = Proposal.objects.first().pk
        asked = []
        for address in ("/proposals/", f"/proposals/{first}/"):
            client.get(address)
            with CaptureQueriesContext(connection) as queries:
                assert client.get(address).status_code == 200
            asked.append(len(queries))
        counted.append(asked)

    assert counted[0] == counted[1] == counted[2]
    assert counted[0][0] <= 12


def test_the_history_says_what_a_proposal_changed_beside_the_features_and_who_decided(client, society):
    change = {"date": "1962/1975", "note": "Seen in stores.", "other_names": ["fell smock"]}
    made = sent(society.ada, society.one, change)
    decide(made, society.mo)
    decide(made, society.mia)

    page = text(client, "/issue-versions/SMK-61/history/")
    compared = text(client, "/issue-versions/SMK-61/history/1/?with=2")

    assert "Dates: 1962–75 (before: 1961–75)" in page
    assert "Note: Seen in stores. (before: nothing)" in page
    assert "Names used by members: fell smock (before: nothing)" in page
    assert "nothing that a reader would see" not in page
    assert f'decided by Mo and Mia, <a href="/proposals/{made.pk}/">proposal {made.pk}</a>' in page
    assert "Dates: 1962–75 (before: 1961–75)" in compared
    assert "nothing that a reader would see" not in compared


def test_the_history_names_those_who_revoked_and_what_came_back(client, society):
    made = sent(society.ben, society.one, {"name": "Fell smock"})
    decide(made, society.mo)
    revoke_approval(proposal=made, decider=society.mia, reason="A misprint.", sending=made.times_sent)

    page = text(client, "/issue-versions/SMK-61/history/")

    assert "Name: Smock 61 (before: Fell smock)" in page
    assert f'decided by Mia, <a href="/proposals/{made.pk}/">' in page
    assert words(page).count("Written by Mia to take an approved change back (decided by Mia") == 1
    assert words(page).count("Written by Ben, approved, revoked since (decided by Mo") == 1


def test_a_draft_that_was_sent_meanwhile_is_not_written_on_and_what_was_typed_is_shown_again(society, client):
    client.force_login(society.ada)
    proposal = sent(society.ada, society.one, {"date": "1962"})
    address = f"/proposals/{proposal.pk}/edit/"
    form = {"revision": proposal.revision, "grounds": "Another label says 1963.", "date": "1963", "cites": ""}

    for state in ("waiting", "approved"):
        page = client.post(address, form).content.decode()
        assert f"This proposal is {state}: it is not written on any more. Nothing of what you sent was kept." in page
        assert "grounds: Another label says 1963." in page
        proposal.refresh_from_db()
        assert proposal.rows == {"date": "1962"}
        for who in (society.mo, society.mia):
            if proposal.state == "open":
                decide(proposal, who)
                proposal.refresh_from_db()
    assert client.get(address)["Location"] == f"/proposals/{proposal.pk}/"
    assert "not written on any more" in client.post(f"{address}profile/", {"revision": 0}).content.decode()
