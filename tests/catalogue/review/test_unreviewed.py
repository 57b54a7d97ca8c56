"""Records that nobody proposed: marked until a moderator has looked them through, in batches, and put back again."""

import pytest
from django.db import IntegrityError, connection, transaction
from django.test.utils import CaptureQueriesContext

from catalogue.member_examples.actions import NotDone
from catalogue.reference.actions import write_profile
from catalogue.reference.models import FeatureState
from catalogue.review.models import RecordLook
from catalogue.review.unreviewed.actions import pass_records, take_passes_back
from tests.catalogue.review.proposing import decide, make_society, sent
from tests.making import make_feature, make_version
from tests.reading import text

LIST = "/not-reviewed/?type=SMK"
SIGN_IN, OK, NO = 302, 200, 403


@pytest.fixture
def society(db):
    return make_society()


def passed(society, *versions, by=None, reason="Held against the sheets."):
    records = [version.current_record_id for version in versions]
    return pass_records(records=records, by=by or society.mo, reason=reason)


def by_hand(society, author):
    """A record of the first version by hand, with another closure."""
    zipped = FeatureState.objects.get(feature__code="closure", code="zip")
    cells = {zipped.pk: (("always", None, "", None, None, ""), "", frozenset(), (), ())}
    made = write_profile(version=society.one, cells=cells, author=author, why="Seen so.")
    society.one.refresh_from_db()
    return made


def test_an_imported_record_says_everywhere_that_it_is_not_reviewed_until_it_was_looked_through(client, society):
    assert "record 1, imported, not reviewed" in text(client, "/issue-versions/SMK-61/")
    assert "not reviewed" in text(client, "/issue-versions/")
    assert "not reviewed" in text(client, "/garment-types/SMK/")
    assert "Brought in from the society's spreadsheets, not reviewed" in text(client, "/issue-versions/SMK-61/history/")

    assert passed(society, society.one, society.other).codes == ("SMK-61", "SMK-76")

    assert "record 1, looked through by a moderator" in text(client, "/issue-versions/SMK-61/")
    assert "not reviewed" not in text(client, "/issue-versions/")
    assert "not reviewed" not in text(client, "/garment-types/SMK/")
    history = text(client, "/issue-versions/SMK-61/history/")
    assert "looked through by Mo on" in history
    assert "Held against the sheets." in history


def test_each_record_of_a_batch_has_a_row_of_its_own_which_the_database_keeps(society):
    passed(society, society.one, society.other)

    rows = RecordLook.objects.all()
    assert [(one.record.version.code, one.by, one.turn, one.passed) for one in rows] == [
        ("SMK-61", society.mo, 1, True),
        ("SMK-76", society.mo, 1, True),
    ]
    with pytest.raises(IntegrityError), transaction.atomic():
        rows.update(reason="Never said.")


def test_what_was_passed_is_put_back_by_a_newer_row_and_can_be_passed_again(client, society):
    passed(society, society.one)

    done = take_passes_back(records=[society.one.current_record_id], by=society.mia, reason="The wrong sheet.")

    assert done.codes == ("SMK-61",)
    assert "record 1, imported, not reviewed" in text(client, "/issue-versions/SMK-61/")
    assert "Put back among those not reviewed</strong> by Mia" in text(client, "/issue-versions/SMK-61/history/")
    passed(society, society.one)
    assert list(RecordLook.objects.values_list("turn", "passed")) == [(1, True), (2, False), (3, True)]


def test_a_newer_record_waits_again(client, society):
    passed(society, society.one)

    by_hand(society, society.ada)

    assert "record 2, written by hand, not reviewed" in text(client, "/issue-versions/SMK-61/")


def test_nobody_passes_what_they_brought_in_and_neither_does_a_second_account_of_theirs(society):
    record = by_hand(society, society.mo)
    twin = society.mia
    twin.email = "Mo+two@example.org"
    twin.save()

    with pytest.raises(NotDone, match="brought in by you"):
        passed(society, society.one, by=society.mo)
    with pytest.raises(NotDone, match="your e-mail address"):
        passed(society, society.one, by=twin)
    assert pass_records(records=[record.pk], by=society.max, reason="Seen.").codes == ("SMK-61",)


def test_what_cannot_be_passed_is_left_out_and_named_and_the_rest_is_passed(society):
    old = society.one.current_record_id
    by_hand(society, society.ada)
    passed(society, society.other)
    third = make_version(society.home, "SMK-90", {make_feature("hem", types=[society.home]): "yes"})
    chosen = [old, society.other.current_record_id, third.current_record_id]

    done = pass_records(records=chosen, by=society.mo, reason="Seen.")

    assert done.codes == ("SMK-90",)
    assert done.left == ("SMK-61: a newer record stands by now", "SMK-76: looked through already")


def test_an_approved_record_needs_no_second_look(society):
    proposal = sent(society.ada, society.one, {"date": "1962/1975"})
    decide(proposal, society.mo)
    decide(proposal, society.mia)
    society.one.refresh_from_db()

    with pytest.raises(NotDone, match="approved by a proposal"):
        passed(society, society.one)


@pytest.mark.parametrize(("reason", "records"), [(" ", "all"), ("Seen.", "none"), ("Seen.", "gone")])
def test_without_reason_or_records_nothing_is_written(society, reason, records):
    chosen = {"all": [society.one.current_record_id], "none": [], "gone": [999_999]}[records]

    with pytest.raises(NotDone):
        pass_records(records=chosen, by=society.mo, reason=reason)
    assert not RecordLook.objects.exists()


def test_authors_see_the_list_and_only_moderators_decide(client, society):
    people = {None: SIGN_IN, society.ben: NO, society.ada: OK, society.mo: OK, society.sue: OK}
    for person, status in people.items():
        client.logout()
        if person:
            client.force_login(person)
        assert client.get(LIST).status_code == status, person
        if person != society.mo:
            sent_form = client.post(LIST, {"record": society.one.current_record_id, "reason": "x"})
            assert sent_form.status_code in (SIGN_IN, NO), person
    assert not RecordLook.objects.exists()
    client.force_login(society.ada)
    assert 'name="record"' not in client.get(LIST).content.decode()
    with pytest.raises(NotDone):
        passed(society, society.one, by=society.ada)


def test_a_moderator_passes_what_is_ticked_and_finds_it_among_those_looked_through(client, society):
    client.force_login(society.mo)
    assert "2 wait" in text(client, "/not-reviewed/")

    answer = client.post(LIST, {"record": [society.one.current_record_id, "nonsense"], "reason": "Seen."}, follow=True)

    assert "1 record looked through." in answer.content.decode()
    assert "SMK-61" not in text(client, LIST)
    assert "Looked through by Mo" in text(client, f"{LIST}&state=passed")
    client.post(f"{LIST}&state=passed", {"record": society.one.current_record_id, "reason": "Not seen after all."})
    assert "Put back by Mo" in text(client, LIST)


def test_a_refused_batch_keeps_what_was_ticked_and_typed(client, society):
    client.force_login(society.mo)

    page = client.post(LIST, {"record": society.one.current_record_id, "reason": ""}).content.decode()

    assert f'value="{society.one.current_record_id}" aria-label="Smock 61 (SMK-61), record 1" checked' in page
    assert "This is not done yet." in page
    page = client.post(LIST, {"reason": "All were seen."}).content.decode()
    assert "Tick the records first." in page
    assert "All were seen.</textarea>" in page


@pytest.mark.parametrize("asked", ["?type=nope", "?type=SMK&state=x&page=99", "?type=SMK&page=x", "?type=%00"])
def test_a_list_that_is_asked_for_oddly_answers(client, society, asked):
    client.force_login(society.mo)

    assert client.get(f"/not-reviewed/{asked}").status_code == 200


def test_the_list_asks_the_database_as_often_for_two_records_as_for_forty(client, society):
    client.force_login(society.mo)
    counted = []
    hem = make_feature("hem", types=[society.home])
    for more in (0, 38):
        for _ in range(more):
            make_version(society.home, None, {hem: "yes"})
        client.get(LIST)
        asked = []
        for address in ("/not-reviewed/", LIST):
            with CaptureQueriesContext(connection) as queries:
                assert client.get(address).status_code == 200
            asked.append(len(queries))
        counted.append(asked)

    assert counted[0] == counted[1]
    assert max(counted[0]) <= 10
