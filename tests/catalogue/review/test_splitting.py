"""One version becomes two by proposal: what is written, which pieces go where, what is refused, how it is undone."""

import csv
from types import SimpleNamespace

import pytest
from django.db import IntegrityError, transaction

from catalogue.member_examples.actions import add_attribution
from catalogue.member_examples.models import Example
from catalogue.reference.actions import import_reference
from catalogue.reference.models import IssueVersion, VersionRecord
from catalogue.reference.snapshots import forget_everything, type_facts
from catalogue.reference.spreadsheets.exporting import export_reference
from catalogue.review.examples_queue.actions import keep_as_something_else
from catalogue.review.examples_queue.doubts import open_doubts
from catalogue.review.importing.actions import propose_import
from catalogue.review.models import FurtherRecord, Notice, Proposal
from catalogue.review.proposals.actions import (
    NotDone,
    begin_merge,
    begin_split,
    save_draft,
    send_proposal,
    settle_clashes,
)
from catalogue.review.proposals.standing import rows_of_version
from catalogue.review.records.verifying import faults
from tests.catalogue.review.bringing_in import row
from tests.catalogue.review.proposing import (
    DIVIDED,
    cell,
    decide,
    decide_both,
    drafted,
    make_society_to_split,
    piece_of,
    revoke,
    sent,
    split_drafted,
    split_sent,
)
from tests.catalogue.review.test_merging import queries_of, standing, words
from tests.forms import Sent
from tests.making import make_member, make_type, make_version

CLOSURES = ("feature:closure", "second:feature:closure")


@pytest.fixture
def society(db):
    return make_society_to_split()


def split(society, rows=None):
    """SMK-76 became SMK-76A and SMK-76B."""
    proposal = split_sent(society, rows)
    decide_both(society, proposal)
    forget_everything()
    return proposal


# ---- approving


def test_two_moderators_split_and_all_of_it_is_written_at_once(society):
    tabbed, plain = (piece_of(society, society.other, cuff=seen) for seen in ("tab", "plain"))
    proposal = split_sent(society)
    decide(proposal, society.mo)
    assert FurtherRecord.objects.count() == 0
    assert [standing(one) for one in (tabbed, plain)] == [["SMK-76"], ["SMK-76"]]

    made = decide(proposal, society.mia)

    forget_everything()
    versions = type_facts("SMK").versions
    assert list(versions) == ["SMK-61", "SMK-76A", "SMK-76B"]
    assert [one.name for one in versions.values()] == ["Smock 61", "Smock 76 tabbed", "Smock 76 plain"]
    rows = [rows_of_version(one.record.version) for one in made.further.all()]
    assert [[c["state"] for c in one["feature:cuff"]] for one in rows] == [["tab"], ["plain"]]
    # What the two do not differ in is as it was.
    assert [[c["state"] for c in one["feature:closure"]] for one in rows] == [["buttons"], ["buttons"]]
    assert {one["kind"] for one in rows} == {society.other.kind}
    divided = rows_of_version(society.other)
    assert (divided["retired"], divided["became"]) == ("Two contracts.", ["SMK-76A", "SMK-76B"])
    assert (made.record.version, made.after["became"]) == (society.other, ["SMK-76A", "SMK-76B"])
    assert [one.before["name"] for one in made.further.all()] == ["", ""]
    records = [made.record, *(one.record for one in made.further.all())]
    assert {r.standing for r in records} == {"approved"}
    assert all(r.seal for r in records)
    assert list(faults()) == []
    assert [standing(one) for one in (tabbed, plain)] == [["SMK-76", "SMK-76A"], ["SMK-76", "SMK-76B"]]
    note = tabbed.attributions.last().grounds
    assert note.startswith(f"SMK-76 was split into SMK-76A and SMK-76B: proposal {proposal.pk}.")
    assert Notice.objects.filter(member=society.ben, decision=tabbed.decisions.last()).count() == 1
    assert list(open_doubts()) == []


def test_the_old_address_says_what_became_of_it_and_leads_to_both(society, client):
    society.other.stock_numbers.create(number="27-114-06")
    society.other.passes_for.add(make_type("CAP"))
    holding = society.ben.holdings.create(version=society.other)
    split(society)

    page = words(client, "/issue-versions/SMK-76/")
    assert "Retired: split into Smock 76 tabbed SMK-76A and Smock 76 plain SMK-76B" in page
    shown = client.get("/issue-versions/SMK-76/").content.decode()
    for code in ("SMK-76A", "SMK-76B"):
        assert f'href="/issue-versions/{code}/"' in shown
        assert client.get(f"/issue-versions/{code}/").status_code == 200
        made = type_facts("SMK").versions[code]
        assert ([n.number for n in made.stock_numbers], made.passes_for) == (["27-114-06"], ("CAP",))
        history = words(client, f"/issue-versions/{code}/history/")
        assert "decided by Mo and Mia, proposal" in history
        for asked in ("SMK-76", "27 114 06"):
            assert f"/issue-versions/{code}/" in client.get(f"/search/?q={asked}").content.decode()
    assert client.get("/issue-versions/SMK-76/history/2/").status_code == 200
    assert "Became: SMK-76A, SMK-76B (before: nothing)" in words(client, "/issue-versions/SMK-76/history/")
    assert client.get("/mistaken-for/SMK-76/")["Location"] == "/issue-versions/SMK-76/"
    holding.refresh_from_db()
    assert [one.code for one in holding.now] == ["SMK-76A", "SMK-76B"]
    assert [one.code for one in type_facts("SMK").in_force("SMK-76")] == ["SMK-76A", "SMK-76B"]


def test_a_number_that_a_split_gives_to_one_of_the_two_leads_to_that_one_alone(society, client):
    number = {"number": "27-114-06", "form": "", "first_year": None, "last_year": None, "misprint_of": "", "note": "",
              "sources": [], "against": []}  # fmt: skip
    society.other.stock_numbers.create(number="27-114-06")
    split(society, DIVIDED | {"stock_numbers": [number], "second:stock_numbers": []})

    found = {code: one.stock_numbers for code, one in type_facts("SMK").versions.items()}
    assert [one.number for one in found["SMK-76A"]] == ["27-114-06"]
    assert found["SMK-76B"] == ()


def test_a_piece_on_which_nothing_tells_the_two_apart_goes_to_the_first_and_waits(society):
    unseen = piece_of(society, society.other, closure="buttons")
    own = piece_of(society, society.other, owner=society.mia, cuff="plain")
    split(society)

    assert standing(unseen) == ["SMK-76", "SMK-76A"]
    doubt = open_doubts().get()
    assert doubt.example == unseen
    assert "It could be SMK-76A or SMK-76B: nothing seen on it tells the two apart." in doubt.doubt
    # Nobody decides on their own piece.
    assert own.decisions.last().moderator == society.mo
    assert standing(own) == ["SMK-76", "SMK-76B"]


def test_the_second_may_continue_the_first(society):
    split(society, DIVIDED | {"second:continues": ["SMK-76A"]})

    assert [one.version for one in type_facts("SMK").versions["SMK-76B"].ancestors] == ["SMK-76A"]


# ---- by the years on labels

BY_DATES = {"date": "1976/1978", "second:date": "1979/1980"}


def dated(society, *years, **seen):
    """Pieces of SMK-76, which was made from 1976 to 1985, with these years on their labels."""
    of_a_decade = {"date": "1976/1985"}
    if society.other.date != "1976/1985":
        decide_both(society, sent(society.ada, society.other, of_a_decade))
        society.other.refresh_from_db()
    made = [piece_of(society, society.other, **seen) for _ in years]
    for piece, year in zip(made, years, strict=True):
        Example.objects.filter(pk=piece.pk).update(label_year=year)
    return made


def test_where_nothing_seen_tells_the_two_apart_the_year_on_the_label_leads_and_the_note_says_so(society):
    early, late = dated(society, 1977, 1980)
    split(society, BY_DATES)

    assert [standing(one)[-1] for one in (early, late)] == ["SMK-76A", "SMK-76B"]
    note = late.attributions.last().grounds
    assert note.endswith("Two contracts. Its label says 1980, which lies within the dates of SMK-76B alone.")
    assert late.decisions.last().reason == note
    assert list(open_doubts()) == []


def test_a_split_by_dates_that_leaves_labels_nowhere_is_refused_when_it_is_sent_and_when_it_is_decided(society):
    early, one, other = dated(society, 1977, 1981, 1985)
    fault = (
        f"{one.code} \\(1981\\), {other.code} \\(1985\\) are accepted as SMK-76 and would be neither SMK-76A nor "
        "SMK-76B. The years on their labels lie within its dates and outside those of both"
    )
    with pytest.raises(NotDone, match=fault):
        split_sent(society, BY_DATES)
    assert Proposal.objects.get(kind="split").state == "draft"

    Example.objects.filter(pk__in=[one.pk, other.pk]).update(label_year=None)
    proposal = split_sent(society, BY_DATES, codes=("SMK-76C", "SMK-76D"))
    decide(proposal, society.mo)
    Example.objects.filter(pk=one.pk).update(label_year=1984)
    before = VersionRecord.objects.count()
    with pytest.raises(NotDone, match=f"{one.code} \\(1984\\) is accepted as SMK-76 and would be neither"):
        decide(proposal, society.mia)

    proposal.refresh_from_db()
    assert (proposal.state, VersionRecord.objects.count()) == ("open", before)
    assert [standing(piece) for piece in (early, one)] == [["SMK-76"], ["SMK-76"]]


def test_a_label_that_lay_outside_the_dates_already_hinders_no_split(society):
    (stray,) = dated(society, 1999)
    split(society, BY_DATES)

    assert standing(stray)[-1] == "SMK-76A"
    assert "nothing seen on it tells the two apart" in open_doubts().get().doubt


def test_who_decides_reads_which_labels_lie_outside_the_dates_of_where_the_pieces_go(society, client):
    (led_by_cuff,) = dated(society, 1980, cuff="tab")
    (fits,) = dated(society, 1977, cuff="tab")
    proposal = split_sent(society, DIVIDED | BY_DATES)
    (nowhere,) = dated(society, 1984)
    client.force_login(society.mo)

    page = words(client, f"/proposals/{proposal.pk}/")
    assert "Accepted pieces outside these dates The year on the label of 1 accepted piece lies within" in page
    assert f"{led_by_cuff.code} (1980, goes to SMK-76A)." in page
    assert f"{nowhere.code} label of 1984" in page
    assert page.count(nowhere.code) == 1
    assert f"{led_by_cuff.code} , to SMK-76A. Its label says 1980, outside the dates of SMK-76A." in page
    assert f"{fits.code} (1977" not in page

    Example.objects.filter(pk=nowhere.pk).update(label_year=None)
    decide_both(society, proposal)
    doubts = {one.example_id: one.doubt for one in open_doubts()}
    assert doubts[led_by_cuff.pk] == "Its label says 1980, outside the dates of SMK-76A."
    assert fits.pk not in doubts


def test_two_that_nothing_separates_are_said_to_be_so_beside_the_count(society, client):
    dated(society, 1977)
    client.force_login(society.mo)

    page = words(client, f"/proposals/{split_sent(society, BY_DATES).pk}/")

    assert "The two are not told apart on record" in page
    assert "No two versions become told apart" not in page
    assert "Each of the two is told apart from the same other versions as SMK-76 is today." in page
    count = "Then 0 of 3 versions (0 %) can be identified"
    assert count in page
    assert (
        "SMK-76A and SMK-76B cannot be told apart from each other on record, so neither counts"
        in (page.split(count)[1].split("Health of")[0])
    )
    apart = words(client, f"/proposals/{split_sent(society, codes=('SMK-76C', 'SMK-76D')).pk}/")
    assert "cannot be told apart from each other" not in apart


# ---- beside what members hold and sellers said


def test_who_held_a_piece_to_be_the_divided_version_disputes_neither_of_the_two(society, client):
    tabbed, plain = (piece_of(society, society.other, cuff=seen) for seen in ("tab", "plain"))
    for piece in (tabbed, plain):
        add_attribution(example=piece, member=society.max, version=society.other, grounds="The cuff.")
    add_attribution(example=plain, member=society.mia, version=society.one, grounds="The print.")
    Example.objects.update(sold_as="smock 76", sold_as_version=society.other)
    disputed = "Pieces that members hold to be something else"
    before = words(client, "/health/").split(disputed)[1]
    split(society)

    shown = words(client, "/health/").split(disputed)[1]
    assert f"{plain.code} is held as SMK-76B; Mia holds it to be SMK-61" in shown
    assert "Max holds it" not in shown
    assert before.count("holds it to be") == shown.count("holds it to be") == 1
    assert "the society does not agree" not in words(client, f"/examples/{plain.code}/")


# ---- refused in words


def test_a_code_that_is_there_twice_or_cannot_be_one_is_refused(society):
    def begin(*codes, by=society.ada, version=society.other, names=("A", "B")):
        return begin_split(by=by, version=version, codes=codes, names=names)

    with pytest.raises(NotDone, match="There is a version smk-61 already"):
        begin("smk-61", "SMK-76B")
    with pytest.raises(NotDone, match="There is a version SMK-76 already"):
        begin("SMK-76A", "SMK-76")
    with pytest.raises(NotDone, match="need a code each"):
        begin("SMK-76A", "smk-76a")
    with pytest.raises(NotDone):
        begin("SMK-76A", "a code?")
    with pytest.raises(NotDone, match="need a name"):
        begin("SMK-76A", "SMK-76B", names=("A", " "))
    with pytest.raises(NotDone, match="proposed by authors"):
        begin("SMK-76A", "SMK-76B", by=society.ben)
    assert not Proposal.objects.filter(kind="split").exists()
    with pytest.raises(IntegrityError), transaction.atomic():
        Proposal.objects.update(second_code="SMK-76B")


@pytest.mark.parametrize(
    ("rows", "fault"),
    [
        ({}, "SMK-76A and SMK-76B do not differ"),
        ({"second:note": "Late.", "second:certainty": "inferred"}, "do not differ"),
        ({"second:feature:closure": [cell("buttons", note="Of horn.", sources=["S2"])]}, "do not differ"),
        (DIVIDED | {"second:name": "smock 76 TABBED"}, "need a name each"),
        (DIVIDED | {"continues": ["SMK-76"]}, "SMK-76A would descend from SMK-76, .* circle"),
        (DIVIDED | {"continues": ["SMK-76B"], "second:continues": ["SMK-76A"]}, "circle"),
        (DIVIDED | {"continues": ["SMK-90"]}, "circle"),
        (DIVIDED | {"feature:closure": [cell("zip")], "second:feature:closure": [cell("none")]}, "would be neither"),
    ],
)
def test_what_cannot_be_is_refused_when_it_is_sent_and_what_was_written_is_kept(society, rows, fault):
    later = make_version(society.home, "SMK-90", {})
    later.ancestors.create(ancestor=society.other, role="continues")
    piece_of(society, society.other, closure="buttons")
    before = VersionRecord.objects.count()

    with pytest.raises(NotDone, match=fault):
        split_sent(society, rows)

    made = Proposal.objects.get(kind="split")
    assert made.state == "draft"
    assert rows.items() <= {**made.base, **made.rows}.items()
    assert VersionRecord.objects.count() == before


def test_rows_that_others_changed_are_settled_for_either_version_and_agreed_to_anew(society):
    closures = {"feature:closure": [cell("none")], "second:feature:closure": [cell("zip")]}
    proposal = split_sent(society, DIVIDED | closures)
    decide(proposal, society.mo)
    decide_both(society, sent(society.ada, society.other, {"feature:closure": [cell("buttons"), cell("zip")]}))
    before = VersionRecord.objects.count()
    with pytest.raises(NotDone, match="changed since"):
        decide(proposal, society.mia)
    assert VersionRecord.objects.count() == before
    proposal.refresh_from_db()
    with pytest.raises(NotDone, match="1 left"):
        settle_clashes(
            proposal=proposal, by=society.ada, choices={"feature:closure": "ours"}, revision=proposal.revision
        )

    choices = {"feature:closure": "theirs", "second:feature:closure": "ours"}
    proposal = settle_clashes(proposal=proposal, by=society.ada, choices=choices, revision=proposal.revision)
    assert "SMK-76A: Feature closure: as it stands now; SMK-76B: Feature closure: as proposed" in (
        proposal.words.get().text
    )
    assert decide(proposal, society.mia).kind == "agreed"
    made = decide(proposal, society.max)

    found = [rows_of_version(one.record.version)["feature:closure"] for one in made.further.all()]
    assert [[c["state"] for c in cells] for cells in found] == [["buttons", "zip"], ["zip"]]


def test_a_piece_that_came_meanwhile_is_not_left_nowhere(society):
    proposal = split_sent(society, DIVIDED | {key: [cell("zip")] for key in CLOSURES})
    decide(proposal, society.mo)
    come = piece_of(society, society.other, cuff="tab", closure="buttons")
    before = VersionRecord.objects.count()

    with pytest.raises(NotDone, match=f"{come.code} is accepted as SMK-76 and would be neither SMK-76A nor SMK-76B"):
        decide(proposal, society.mia)

    proposal.refresh_from_db()
    assert (proposal.state, VersionRecord.objects.count()) == ("open", before)
    assert standing(come) == ["SMK-76"]


def test_of_two_splits_the_second_finds_the_version_retired_or_the_code_taken(society):
    other = split_sent(society, codes=("SMK-76C", "SMK-76D"))
    closures = {"feature:closure": [cell("zip")], "second:feature:closure": [cell("buttons")]}
    of_another = SimpleNamespace(ada=society.ada, other=society.one)
    taken = split_sent(of_another, closures, codes=("SMK-61A", "smk-76b"))
    split(society)
    before = VersionRecord.objects.count()

    with pytest.raises(NotDone, match="Smock 76 is retired"):
        decide(other, society.mia)
    society.other.refresh_from_db()
    with pytest.raises(NotDone, match="SMK-76 is retired already"):
        begin_split(by=society.ada, version=society.other, codes=("SMK-1", "SMK-2"), names=("A", "B"))
    with pytest.raises(NotDone, match="There is a version smk-76b already"):
        decide(taken, society.mia)
    assert VersionRecord.objects.count() == before


def test_a_split_is_never_ones_own_and_takes_two(society):
    made = begin_split(by=society.mo, version=society.other, codes=("SMK-76A", "SMK-76B"), names=("A", "B"))
    made = save_draft(
        proposal=made, by=society.mo, revision=0, wanted=made.base | made.rows | DIVIDED, grounds="Two.", sources=[]
    )
    made = send_proposal(proposal=made, by=society.mo)
    with pytest.raises(NotDone, match="somebody else than its author"):
        decide(made, society.mo)
    assert decide(made, society.mia).kind == "agreed"
    with pytest.raises(NotDone, match="agreed already"):
        decide(made, society.mia)
    assert decide(made, society.max).kind == "approved"


def test_one_begins_a_draft_once(society):
    one = split_drafted(society, {})
    assert one.rows.keys() == {"name", "second:name"}
    begun = [begin_split(by=society.ada, version=society.other, codes=("A1", "B1"), names=("A", "B")) for _ in range(2)]
    assert begun[0] == begun[1]

    again = begin_split(by=society.ada, version=society.other, codes=("A1", "B1"), names=("A", "Another"))
    assert again == begun[0]
    assert again.rows["second:name"] == "Another"


# ---- revoking


def test_a_revoked_split_brings_the_version_and_all_its_pieces_back(society, client):
    follows, since, other = (piece_of(society, society.other, cuff=one) for one in ("tab", "plain", "plain"))
    proposal = split(society)
    first, second = (one.record.version for one in FurtherRecord.objects.order_by("pk"))
    since.refresh_from_db()
    keep_as_something_else(
        example=since, moderator=society.mo, reason="Of the first.", held_as=first, held="", believed="SMK-76B"
    )
    come = piece_of(society, second, cuff="plain")
    other.refresh_from_db()
    keep_as_something_else(
        example=other, moderator=society.mo, reason="None.", held_as=None, held="not_in_reference", believed="SMK-76B"
    )

    assert revoke(proposal, society.max).kind == "undo_agreed"
    made = revoke(proposal, society.mo)
    forget_everything()

    society.other.refresh_from_db()
    assert (society.other.retired_why, society.other.successors.count()) == ("", 0)
    assert list(type_facts("SMK").versions) == ["SMK-61", "SMK-76"]
    assert standing(follows) == ["SMK-76", "SMK-76A", "SMK-76"]
    assert standing(since) == ["SMK-76", "SMK-76B", "SMK-76A", "SMK-76"]
    assert standing(come) == ["SMK-76B", "SMK-76"]
    assert Example.objects.get(pk=other.pk).held_as is None
    assert list(open_doubts()) == []
    client.force_login(society.mo)
    assert "looked at by" not in words(client, f"/proposals/{proposal.pk}/")
    assert [one.after["became"] for one in made.further.all()] == [["SMK-76"], ["SMK-76"]]
    assert list(faults()) == []
    for code in ("SMK-76A", "SMK-76B"):
        assert "The split of SMK-76 was revoked" in words(client, f"/issue-versions/{code}/")
        assert [one.code for one in type_facts("SMK").in_force(code)] == ["SMK-76"]
    with pytest.raises(NotDone, match="There is a version SMK-76A already"):
        begin_split(by=society.ada, version=society.other, codes=("SMK-76A", "SMK-76D"), names=("A", "B"))


def test_a_split_is_not_revoked_once_one_of_the_two_went_on(society):
    proposal = split(society)
    first, second = (one.record.version for one in FurtherRecord.objects.order_by("pk"))
    later = begin_merge(by=society.ada, stays=society.one, goes=second)
    later = save_draft(
        proposal=later, by=society.ada, revision=0, wanted=later.base | later.rows, grounds="One.", sources=[]
    )
    decide_both(society, send_proposal(proposal=later, by=society.ada))
    forget_everything()

    assert [one.code for one in type_facts("SMK").in_force("SMK-76")] == ["SMK-76A", "SMK-61"]
    with pytest.raises(NotDone, match="SMK-76B was retired since: revoke that first"):
        revoke(proposal, society.mo)
    with pytest.raises(NotDone, match="circle|retired already"):
        begin_merge(by=society.ada, stays=society.other, goes=first)


# ---- the pages


def test_an_author_splits_on_the_pages_and_sees_the_record_of_today_beside_each_of_the_two(society, client):
    tabbed, plain = (piece_of(society, society.other, cuff=seen) for seen in ("tab", "plain"))
    unseen = piece_of(society, society.other, closure="buttons")
    client.force_login(society.ada)
    assert "/proposals/split/?version=SMK-76" in client.get("/proposals/new/?version=SMK-76").content.decode()
    address = "/proposals/split/?version=SMK-76"
    named = {"first_code": "SMK-76", "first_name": "Tabbed", "second_code": "SMK-76B", "second_name": "Plain"}
    refused = client.post(address, named).content.decode()
    assert "There is a version SMK-76 already" in refused
    assert 'value="SMK-76B"' in refused
    begun = client.post(address, named | {"first_code": "SMK-76A"}).url
    proposal = Proposal.objects.get(kind="split")
    assert begun == f"/proposals/{proposal.pk}/edit/"

    page = words(client, begun)
    assert "This is what SMK-76A shows" in page
    assert "Today, SMK-76: Smock 76 As written, SMK-76B: Plain" in page
    fields = Sent(client.get(begun).content.decode()).sent
    fields |= {"grounds": "Two contracts.", "cites": "S1", "continues": "SMK-61", "to_page": "1"}
    assert client.post(begun, fields).status_code == 302
    second = f"{begun}second/"
    fields = Sent(client.get(second).content.decode()).sent
    assert "grounds" not in fields
    later = client.post(second, fields | {"date": "when?", "to_profile": "1"}).content.decode()
    assert 'value="when?"' in later
    assert client.post(second, fields | {"date": "1979", "to_profile": "1"}).url == f"{second}profile/"
    for where, state in ((f"{begun}profile/", "tab"), (f"{second}profile/", "plain")):
        page = client.get(where).content.decode()
        chosen = society.cuff.states.get(code=state)
        sent_back = client.post(where, Sent(page).sent | {f"f{society.cuff.pk}": chosen.pk, "_save": "1"})
        assert sent_back.url == f"/proposals/{proposal.pk}/"
    proposal.refresh_from_db()
    assert proposal.rows == {
        "name": "Tabbed", "continues": ["SMK-61"], "feature:cuff": [cell("tab")],
        "second:name": "Plain", "second:date": "1979", "second:feature:cuff": [cell("plain")],
    }  # fmt: skip
    assert proposal.grounds == "Two contracts."

    client.post(f"/proposals/{proposal.pk}/send/")
    client.force_login(society.mo)
    page = words(client, f"/proposals/{proposal.pk}/")
    assert "Split SMK-76 into SMK-76A and SMK-76B: Smock 76" in page
    assert "Feature cuff SMK-76, today Tab (usually); or Plain (sometimes) SMK-76A Tab (always) SMK-76B Plain" in page
    assert "Dates SMK-76, today not recorded SMK-76A: as SMK-76 not recorded SMK-76B 1979" in page
    assert f"To SMK-76A 2 pieces: {tabbed.code} , {unseen.code}" in page
    assert f"To SMK-76B 1 piece: {plain.code}" in page
    assert f"{unseen.code} , to SMK-76A. It could be SMK-76B as well: nothing seen on it tells" in page
    assert "The two are told apart by feature cuff." in page
    assert "SMK-76B from Smock 61 (SMK-61), by feature cuff" in page
    assert "Then 1 of 3 versions (33 %) can be identified, in about" in page
    for who in (society.mo, society.mia):
        client.force_login(who)
        client.post(f"/proposals/{proposal.pk}/", {"decision": "approved", "reason": "Yes.", "sending": 1})
    page = words(client, f"/proposals/{proposal.pk}/")
    assert "Feature cuff SMK-76, before Tab (usually)" in page
    assert f"To SMK-76B 1 piece: {plain.code}" in page
    assert f"{unseen.code} , to SMK-76A. It could be SMK-76A or SMK-76B" in page
    assert "Also recorded as Smock 76 SMK-76" in words(client, "/issue-versions/SMK-76B/")


def test_who_decides_is_told_which_pieces_would_be_nowhere_and_what_clashes(society, client):
    proposal = split_sent(society, DIVIDED | {key: [cell("zip")] for key in CLOSURES})
    lost = piece_of(society, society.other, cuff="tab", closure="buttons")
    client.force_login(society.mo)
    address = f"/proposals/{proposal.pk}/"

    assert "1 piece would be nowhere: accepted as SMK-76" in words(client, address)
    refused = client.post(address, {"decision": "approved", "reason": "Because of the zip.", "sending": 1})
    assert f"{lost.code} is accepted as SMK-76 and would be neither" in refused.content.decode()
    assert "Because of the zip.</textarea>" in refused.content.decode()

    decide_both(society, sent(society.ada, society.other, {"feature:closure": [cell("buttons"), cell("zip")]}))
    page = words(client, address)
    assert "SMK-76A: Feature closure When it was written: Buttons (always)" in page
    assert "SMK-76B: Feature closure When it was written: Buttons (always)" in page


def test_no_other_proposal_has_a_second_version_to_write_on(society, client):
    made = drafted(society.ada, society.other, {"date": "1979"})
    client.force_login(society.ada)
    for more in ("second/", "second/profile/"):
        assert client.get(f"/proposals/{made.pk}/edit/{more}").url == f"/proposals/{made.pk}/"


# ---- beside the rest of the site


def test_what_a_split_made_goes_out_in_spreadsheets_and_comes_back_byte_for_byte(society, tmp_path):
    split(society, DIVIDED | {"second:date": "1979", "second:continues": ["SMK-76A"]})
    first, second = tmp_path / "first", tmp_path / "second"
    export_reference(first)
    rows = list(csv.DictReader((first / "versions.csv").open(encoding="utf-8-sig", newline="")))
    assert row(rows, version="SMK-76")["became"] == "SMK-76A SMK-76B"

    assert propose_import(folder=first, by=society.ada, because="As it stands.").written == []
    society.other.successors.all().delete()
    IssueVersion.objects.filter(code="SMK-76A").update(date="", name="Lost")
    import_reference(folder=first)
    export_reference(second)

    for one in first.iterdir():
        assert (second / one.name).read_bytes() == one.read_bytes(), one.name


def test_a_change_that_would_make_a_version_descend_from_itself_is_refused_when_it_is_decided(society):
    one = sent(society.ada, society.one, {"continues": ["SMK-76"]})
    other = sent(society.ada, society.other, {"continues": ["SMK-61"]})
    decide_both(society, one)
    decide(other, society.mo)

    with pytest.raises(NotDone, match="SMK-76 would descend from itself by way of SMK-61"):
        decide(other, society.mia)
    assert list(society.other.ancestors.all()) == []


def test_a_split_with_many_pieces_asks_the_database_no_more_for_its_page(society, client):
    proposal = split_sent(society)
    piece_of(society, society.other, cuff="tab")
    client.force_login(society.mo)
    address = f"/proposals/{proposal.pk}/"
    forget_everything()
    few = queries_of(client, address), queries_of(client, address)
    owner = make_member("Owen")
    for seen in ("tab", "plain", "plain"):
        piece_of(society, society.other, owner=owner, cuff=seen)
    piece_of(society, society.other, owner=owner, closure="buttons")
    forget_everything()

    assert (queries_of(client, address), queries_of(client, address)) == few
