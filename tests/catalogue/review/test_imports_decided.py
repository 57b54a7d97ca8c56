"""What one import became is decided together, each by a decision of its own."""

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from catalogue.reference.models import IssueVersion
from catalogue.reference.spreadsheets.exporting import export_reference
from catalogue.review.models import Decision, Proposal, ReferenceImport
from catalogue.review.unreviewed.actions import pass_records
from tests.catalogue.review.bringing_in import brought_in, edited, zip_and_date
from tests.catalogue.review.proposing import make_society, sent
from tests.making import make_version


@pytest.fixture
def society(db):
    """A reference under review: one of its records was looked through."""
    made = make_society()
    pass_records(records=[made.one.current_record_id], by=made.mo, reason="Held against the sheets.")
    return made


@pytest.fixture
def folder(society, tmp_path):
    export_reference(tmp_path)
    return tmp_path


def ticked(*proposals) -> list[str]:
    return [f"{one.pk}:{one.times_sent}" for one in proposals]


def test_the_proposals_of_an_import_are_decided_together_each_by_a_decision_of_its_own(client, society, folder):
    zip_and_date(folder)
    brought_in(folder)
    weighty, small = Proposal.objects.order_by("pk")
    page = f"/proposals/imports/{weighty.brought_in_id}/"
    approving = {"proposal": ticked(weighty, small), "decision": "approved", "reason": "The sheets say so."}

    client.force_login(society.mo)
    assert (
        "Feature closure: Buttons (always) → <strong>Zip (always; on S1)</strong>" in client.get(page).content.decode()
    )
    first = client.post(page, approving, follow=True).content.decode()
    client.force_login(society.mia)
    second = client.post(page, approving, follow=True).content.decode()

    assert "Agreed to, one more is needed: 1; approved: 1." in first
    assert "Approved: 1. Left out: SMK-76: This proposal is approved" in second
    decisions = Decision.objects.order_by("pk").values_list("proposal", "by__username", "kind", "reason")
    assert [one[:3] for one in decisions] == [
        (weighty.pk, "Mo", "agreed"),
        (small.pk, "Mo", "approved"),
        (weighty.pk, "Mia", "approved"),
    ]
    assert {one[3] for one in decisions} == {"The sheets say so."}
    society.one.refresh_from_db()
    assert society.one.date == "1962/1975"


def test_what_clashes_is_left_out_and_named_and_the_rest_is_decided(client, society, folder):
    zip_and_date(folder)
    brought_in(folder)
    weighty, small = Proposal.objects.order_by("pk")
    IssueVersion.objects.filter(pk=society.one.pk).update(date="1960/1975")
    client.force_login(society.mo)

    answer = client.post(
        f"/proposals/imports/{small.brought_in_id}/",
        {"proposal": ticked(weighty, small), "decision": "approved", "reason": "Seen."},
        follow=True,
    ).content.decode()

    assert "Approved: 1. Left out: SMK-61: The version changed since this was written" in answer
    assert [one.proposal for one in Decision.objects.all()] == [small]


@pytest.mark.parametrize("kind", ["returned", "declined"])
def test_several_are_returned_or_declined_with_one_reason(client, society, folder, kind):
    zip_and_date(folder)
    brought_in(folder)
    client.force_login(society.mo)
    chosen = {"proposal": ticked(*Proposal.objects.all()), "decision": kind, "reason": "On which sheet?"}

    client.post(f"/proposals/imports/{ReferenceImport.objects.get().pk}/", chosen)

    assert set(Proposal.objects.values_list("state", flat=True)) == {kind}
    assert Decision.objects.count() == 2


def test_one_who_brought_it_in_and_one_who_is_no_moderator_decide_nothing(client, society, folder):
    zip_and_date(folder)
    brought_in(folder, by="mo@example.org")
    page = f"/proposals/imports/{ReferenceImport.objects.get().pk}/"
    chosen = {"proposal": ticked(*Proposal.objects.all()), "decision": "approved", "reason": "Mine."}
    answers = {}
    for who in ("", "ben", "ada", "sue", "mo"):
        client.logout()
        if who:
            client.force_login(getattr(society, who))
        answers[who] = (client.get(page).status_code, client.post(page, chosen).status_code)

    assert answers == {"": (302, 302), "ben": (200, 403), "ada": (200, 403), "sue": (200, 403), "mo": (200, 302)}
    assert not Decision.objects.exists()


@pytest.mark.parametrize(
    ("chosen", "words"),
    [
        ({"decision": "approved", "reason": "Seen."}, "Tick the proposals first."),
        ({"decision": "", "reason": "Seen."}, "Choose what you decide."),
        ({"decision": "approved", "reason": " ", "proposal": "{one}:1"}, "A decision needs a reason"),
        ({"decision": "approved", "reason": "Seen.", "proposal": "x:y"}, "Tick the proposals first."),
    ],
)
def test_a_decision_that_is_not_whole_is_said_so_and_keeps_what_was_chosen(client, society, folder, chosen, words):
    zip_and_date(folder)
    brought_in(folder)
    client.force_login(society.mo)
    one = Proposal.objects.order_by("pk").first()
    given = {name: value.format(one=one.pk) for name, value in chosen.items()}

    page = client.post(f"/proposals/imports/{one.brought_in_id}/", given).content.decode()

    assert words in page
    assert ("checked" in page) == (chosen["decision"] == "approved")
    assert not Decision.objects.exists()


def test_a_proposal_of_another_import_is_not_decided_here_and_odd_pages_answer(client, society, folder):
    zip_and_date(folder)
    brought_in(folder)
    other = sent(society.ada, society.one, {"note": "Another."})
    client.force_login(society.mo)
    page = f"/proposals/imports/{ReferenceImport.objects.get().pk}/"

    answer = client.post(page, {"proposal": ticked(other), "decision": "approved", "reason": "Seen."}, follow=True)

    assert "not a proposal of this import" in answer.content.decode()
    assert not Decision.objects.exists()
    for address, status in {
        f"{page}?page=x": 200,
        "/proposals/imports/": 200,
        "/proposals/imports/99999/": 404,
    }.items():
        assert client.get(address).status_code == status, address


def test_the_page_of_an_import_asks_the_database_as_often_for_two_proposals_as_for_twenty(client, society, folder):
    for _ in range(18):
        make_version(society.home)
    export_reference(folder)
    counted = []
    for many in (2, 20):
        edited(folder, "versions", lambda rows, many=many: [one.update(name=f"{one['version']} {many}") for one in rows[:many]])  # fmt: skip  # noqa: E501
        brought_in(folder)
        client.force_login(society.mo)
        page = f"/proposals/imports/{ReferenceImport.objects.first().pk}/"
        client.get(page)
        with CaptureQueriesContext(connection) as queries:
            assert client.get(page).content.decode().count('name="proposal"') == many
        counted.append(len(queries))

    assert counted[0] == counted[1] <= 12


# ---- features
