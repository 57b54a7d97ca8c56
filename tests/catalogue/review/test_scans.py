"""Scans of sources: put in by a member, shown once one moderator has let them, taken back and taken out."""

from io import BytesIO, StringIO

import pytest
from django.core.files.storage import default_storage
from django.core.management import call_command
from django.utils import timezone
from PIL import Image

from catalogue.accounts.actions import leave_society
from catalogue.accounts.sections import parts_of_a_person
from catalogue.member_examples.photographs.keeping import file_name
from catalogue.reference.models import Source, SourceScan
from catalogue.review.deputies.actions import go_on_leave
from catalogue.review.models import Notice, Proposal
from catalogue.review.proposals.actions import NotDone
from catalogue.review.scans import actions
from catalogue.review.scans.actions import begin_scan
from catalogue.review.scans.demo import load_demo_scans
from tests.catalogue.member_examples.submitting.forms_sent import picture, upload
from tests.catalogue.review.proposing import decide, make_society, revoke
from tests.reading import text

pytestmark = pytest.mark.django_db
SAID = {"shows": "Page 3: the measures of the cuff", "credit": "Ben", "licence": "CC BY 4.0", "names": "none",
        "grounds": "The width of the tab can be read on it.", "cites": ""}  # fmt: skip


@pytest.fixture
def society(db):
    return make_society()


@pytest.fixture
def ben(client, society):
    client.force_login(society.ben)
    return client


@pytest.fixture
def committing(django_capture_on_commit_callbacks):
    """Files go once a transaction ends."""
    return django_capture_on_commit_callbacks


def begun(client, data: bytes | None = None, name: str = "page.jpg") -> Proposal:
    answer = client.post("/proposals/scan/?source=S1", {"file": upload(name, picture() if data is None else data)})
    assert answer.status_code == 302, answer.content.decode()
    return Proposal.objects.select_related("scan").get(pk=answer.url.split("/")[2])


def written(client, made: Proposal, **fields):
    return client.post(f"/proposals/{made.pk}/edit/scan/", SAID | {"revision": made.revision} | fields)


def waiting(client, **fields) -> Proposal:
    """A scan that was sent."""
    made = begun(client)
    assert written(client, made, **fields).status_code == 302
    client.post(f"/proposals/{made.pk}/send/")
    made.refresh_from_db()
    return made


def address(scan: SourceScan, longer: int = 320) -> str:
    return f"/scans/{scan.key}-{longer}.webp"


def kept_files() -> list[str]:
    """Every file of the storage's photographs."""

    def under(folder: str) -> list[str]:
        folders, files = default_storage.listdir(folder)
        return files + [one for inner in folders for one in under(f"{folder}/{inner}")]

    return under("photographs") if default_storage.exists("photographs") else []


def test_a_members_scan_is_shown_at_its_source_once_one_moderator_has_let_it(client, ben, society):
    made = waiting(ben)
    assert made.weight == "small"
    assert made.scan.key not in text(ben, "/sources/S1/")

    decide(made, society.mo)

    client.logout()
    page = text(client, "/sources/S1/")
    assert "Page 3: the measures of the cuff" in page
    for width in (320, 640):  # the picture is 640 wide and never enlarged
        assert f"{width}w" in page
    assert client.get(address(made.scan)).status_code == 200
    whole = text(client, f"/scans/{made.scan_id}/")
    assert "Ben · CC BY 4.0" in whole
    assert "Your name or face is on it? Write to" in whole
    assert Notice.objects.filter(member=society.ben, proposal_decision__scan=made.scan).exists()


def test_who_leaves_is_named_no_more_as_whose_a_scan_is(client, ben, society):
    shown = waiting(ben, credit="Ben the Reader")
    decide(shown, society.mo)
    waits = begun(ben, picture("navy"))
    written(ben, waits, credit="Ben")
    ben.post(f"/proposals/{waits.pk}/send/")

    leave_society(member=society.ben, now=timezone.now())

    assert "a former member the Reader · CC BY 4.0" in text(client, f"/scans/{shown.scan_id}/")
    waits.refresh_from_db()
    assert (waits.rows["credit"], waits.rows["licence"], waits.state) == ("a former member", "CC BY 4.0", "open")


def test_nothing_that_the_file_told_beside_the_picture_is_kept(ben, society):
    made = begun(ben, picture())
    held = Image.open(BytesIO(default_storage.open(file_name(made.scan.key, 1600)).read()))

    assert held.format == "WEBP"
    assert not held.getexif()
    assert "page" not in made.scan.key


def test_until_it_is_shown_only_its_author_and_moderators_see_it(client, ben, society):
    made = begun(ben)
    seen = {}
    for name in (None, society.ben, society.sue, society.mo):
        client.logout()
        if name:
            client.force_login(name)
        seen[str(name)] = client.get(address(made.scan)).status_code
    assert seen == {"None": 404, "Ben": 200, "Sue": 404, "Mo": 404}

    client.force_login(society.ben)
    written(client, made)
    client.post(f"/proposals/{made.pk}/send/")
    client.force_login(society.mo)
    assert client.get(address(made.scan)).status_code == 200
    assert address(made.scan, 800) in text(client, f"/proposals/{made.pk}/")
    client.force_login(society.sue)
    assert client.get(address(made.scan)).status_code == 404
    page = text(client, f"/proposals/{made.pk}/")
    assert made.scan.key not in page
    assert "seen by who put it in and by moderators" in page


@pytest.mark.parametrize(
    ("name", "data", "words"),
    [
        ("page.pdf", b"%PDF-1.7 nothing", "page.pdf"),
        ("empty.jpg", b"", "The file is empty"),
        ("cut.jpg", picture()[:300], "cut.jpg"),
    ],
)
def test_a_bad_file_is_refused_in_words_and_leaves_nothing(ben, name, data, words):
    before = kept_files()
    answer = ben.post("/proposals/scan/?source=S1", {"file": upload(name, data)})

    assert answer.status_code == 400
    assert words in answer.content.decode()
    assert not Proposal.objects.exists()
    assert kept_files() == before


def test_the_same_picture_stands_once_at_a_source_and_a_source_that_is_not_there_is_said(ben, society):
    begun(ben)
    answer = ben.post("/proposals/scan/?source=S1", {"file": upload("again.jpg", picture())})
    assert answer.status_code == 400
    assert "You have put this very picture in already" in answer.content.decode()
    assert SourceScan.objects.count() == 1
    assert ben.get("/proposals/scan/?source=S99").status_code == 404
    assert ben.post("/proposals/scan/?source=S2", {"file": upload("again.jpg", picture())}).status_code == 302


@pytest.mark.parametrize(
    ("left_out", "words"),
    [
        ({"shows": ""}, "Say in words what the scan shows"),
        ({"credit": ""}, "Say whose it is"),
        ({"names": ""}, "Say whether names or faces"),
        ({"names": "masked"}, "Nothing is made unreadable yet"),
        ({"grounds": ""}, "Write down the grounds"),
    ],
)
def test_what_is_missing_is_said_before_it_is_sent(ben, left_out, words):
    made = begun(ben)
    assert written(ben, made, **left_out).status_code == 302

    answer = ben.post(f"/proposals/{made.pk}/send/", follow=True)

    assert words in answer.content.decode()
    made.refresh_from_db()
    assert made.state == "draft"


def test_a_name_keeps_a_scan_from_being_shown_until_a_moderator_has_made_it_unreadable(
    client, ben, society, committing
):
    made = waiting(ben, names="to_mask")
    with pytest.raises(NotDone, match="still to be made unreadable"):
        decide(made, society.mo)
    before = made.scan.key
    assert ben.get(f"/scans/{made.scan_id}/blur/").status_code == 404  # it waits: who decides does it now

    client.force_login(society.mo)
    shown = client.get(f"/proposals/{made.pk}/").content.decode()
    assert "Above is said why it cannot be approved as it stands." in shown
    assert shown.count("still to be made unreadable") == 1
    assert client.post(f"/scans/{made.scan_id}/blur/", {"seen": before}).status_code == 400
    with committing(execute=True):
        client.post(f"/scans/{made.scan_id}/blur/", {"cell": ["0,0", "1,0"], "seen": before})

    made.refresh_from_db()
    assert made.scan.key != before
    assert not any(before in name for name in kept_files())
    decide(made, society.mo)
    made.scan.refresh_from_db()
    assert (made.scan.shown, made.scan.names) == (True, "masked")
    client.logout()
    assert "A part was made unreadable" in text(client, f"/scans/{made.scan_id}/")
    assert client.get(f"/scans/{before}-320.webp").status_code == 404


def test_its_author_makes_a_part_unreadable_before_it_is_sent(ben, society):
    made = begun(ben)
    ben.post(f"/scans/{made.scan_id}/blur/", {"area": "0.1,0.1,0.2,0.2", "seen": made.scan.key})
    made = Proposal.objects.select_related("scan").get(pk=made.pk)

    assert (made.rows["names"], made.scan.blurred) == ("masked", True)
    with pytest.raises(NotDone, match="changed or taken out meanwhile"):
        actions.blur(scan=made.scan, by=society.ben, areas=[actions.Area(0, 0, 1, 1)], seen="0" * 32)


def test_a_scan_is_revoked_by_one_person_and_is_gone_with_its_files(client, ben, society, committing):
    made = waiting(ben)
    decide(made, society.mo)
    at, key = address(made.scan), made.scan.key

    with committing(execute=True):
        revoke(made, society.mia)

    client.logout()
    assert client.get(at).status_code == 404
    gone = client.get(f"/scans/{made.scan_id}/")
    assert gone.status_code == 410
    assert "This scan was taken out" in gone.content.decode()
    assert 'href="/sources/S1/"' in gone.content.decode()
    assert "measures of the cuff" not in gone.content.decode()
    assert "measures of the cuff" not in text(client, "/sources/S1/")
    assert not any(key in name for name in kept_files())
    client.force_login(society.sue)
    page = text(client, f"/proposals/{made.pk}/")
    assert "Approved, then revoked" in page
    assert "The picture is gone" in page


def test_nobody_lets_their_own_scan_be_shown(society, client):
    client.force_login(society.mo)
    made = waiting(client)
    with pytest.raises(NotDone, match="somebody else than its author"):
        decide(made, society.mo)
    assert not SourceScan.objects.get().shown


def test_who_stands_in_for_a_moderator_neither_sees_nor_decides_on_a_scan(client, ben, society):
    made = waiting(ben)
    today = timezone.localdate()
    go_on_leave(moderator=society.mia, deputy=society.sue, begins=today, ends=today)
    client.force_login(society.sue)

    assert client.get(address(made.scan)).status_code == 404
    assert client.get(f"/scans/{made.scan_id}/blur/").status_code == 404
    assert "<h2>Decide</h2>" not in text(client, f"/proposals/{made.pk}/")
    with pytest.raises(NotDone, match="moderators decide on it themselves"):
        decide(made, society.sue)


@pytest.mark.parametrize("how", ["declined", "withdrawn", "thrown away"])
def test_what_comes_to_nothing_leaves_no_files(ben, society, how, committing):
    made = begun(ben) if how == "thrown away" else waiting(ben)
    key = made.scan.key
    with committing(execute=True):
        if how == "declined":
            decide(made, society.mo, "declined")
        else:
            ben.post(f"/proposals/{made.pk}/withdraw/")

    assert not any(key in name for name in kept_files())
    assert ben.get(f"/scans/{key}-320.webp").status_code == 404
    assert SourceScan.objects.filter(key=key).count() == 0
    assert Proposal.objects.exists() == (how != "thrown away")


def test_who_put_a_scan_in_takes_it_out_and_nobody_else_does(client, ben, society, committing):
    made = waiting(ben)
    decide(made, society.mo)
    key = made.scan.key
    client.force_login(society.ada)
    client.post(f"/scans/{made.scan_id}/take-out/", {"seen": key})
    assert SourceScan.objects.get().shown

    client.force_login(society.ben)
    assert "Take it out for good" in text(client, f"/scans/{made.scan_id}/")
    with committing(execute=True):
        client.post(f"/scans/{made.scan_id}/take-out/", {"seen": key})

    assert not any(key in name for name in kept_files())
    assert client.get(f"/scans/{made.scan_id}/").status_code == 410
    made.refresh_from_db()
    assert "taken the scan out" in made.words.get().text
    with pytest.raises(NotDone, match="Changed again since"):
        revoke(made, society.mia)


def test_a_returned_scan_is_mended_and_sent_again(ben, society):
    made = waiting(ben)
    decide(made, society.mo, "returned", "Which page is it?")
    made.refresh_from_db()
    written(ben, made, shows="Page 4")
    ben.post(f"/proposals/{made.pk}/send/")
    made.refresh_from_db()
    decide(made, society.mia)
    assert SourceScan.objects.get().shows == "Page 4"


def test_a_draft_goes_with_its_picture_when_its_author_leaves(ben, society, committing):
    key = begun(ben).scan.key
    with committing(execute=True):
        next(part for part in parts_of_a_person() if part.name == "proposals").forget(society.ben)

    assert not SourceScan.objects.exists()
    assert not any(key in name for name in kept_files())


def test_who_put_scans_in_takes_them_along(ben, society):
    made = begun(ben)
    written(ben, made)
    part = next(part for part in parts_of_a_person() if part.name == "scans")

    [told] = part.export(society.ben)
    assert (told["source"], told["shows"], told["shown"]) == ("S1", SAID["shows"], False)
    [(name, data)] = part.files(society.ben)
    assert (name, Image.open(BytesIO(data)).format) == (f"scan-{made.scan_id}.webp", "WEBP")
    assert part.export(society.mo) == []


def test_a_picture_whose_row_is_refused_leaves_no_file(society, monkeypatch):
    before = kept_files()
    monkeypatch.setattr(actions, "home_of", lambda source: (_ for _ in ()).throw(NotDone("no")))
    with pytest.raises(NotDone):
        begin_scan(by=society.ben, source=Source.objects.get(code="S1"), file=BytesIO(picture()))
    assert kept_files() == before


def test_the_demo_shows_one_scan_and_has_one_that_waits(client, demo_pieces):
    assert load_demo_scans()
    assert not load_demo_scans()

    assert list(Proposal.objects.filter(kind="scan").order_by("pk").values_list("state", flat=True)) == [
        "approved", "open",
    ]  # fmt: skip
    assert "Drawn in place of a photograph" in text(client, "/sources/S22/")
    assert "Drawn in place of a photograph" not in text(client, "/sources/S24/")


def test_a_second_tap_leads_to_the_draft_that_the_first_one_made(ben):
    made = begun(ben)
    page = ben.post("/proposals/scan/?source=S1", {"file": upload("again.jpg", picture())}).content.decode()

    assert "Nothing was put in." in page
    assert "it stands in your draft" in page
    assert f'href="/proposals/{made.pk}/edit/scan/"' in page


def test_who_puts_in_what_is_there_is_led_to_it_only_where_they_may_see_it(client, ben, society):
    made, again = waiting(ben), {"file": upload("again.jpg", picture())}
    there = f'href="/scans/{made.scan_id}/"'

    def told(member) -> str:
        client.force_login(member)
        again["file"].seek(0)
        page = client.post("/proposals/scan/?source=S1", again).content.decode()
        assert "stands at this source already, or waits there" in page
        return page

    assert there not in told(society.sue)
    assert there in told(society.mo)
    assert there in told(society.ben)
    decide(made, society.mo)
    assert there in told(society.sue)


@pytest.mark.parametrize("field", ["shows", "credit"])
def test_a_scan_of_which_only_invisible_signs_are_told_is_not_sent(ben, field):
    made = begun(ben)
    written(ben, made, **{field: "\u200b\u2800\u202e"})

    answer = ben.post(f"/proposals/{made.pk}/send/", follow=True)

    made.refresh_from_db()
    assert made.state == "draft"
    assert ("what the scan shows" if field == "shows" else "Say whose it is") in answer.content.decode()


# ---- out with the spreadsheets, and in again


def brought_in(folder, *, by: str = "mo@example.org") -> str:
    told = StringIO()
    call_command("import_reference", folder, by=by, because="From the society’s old site.", stdout=told, stderr=told)
    return told.getvalue()


def exported(folder) -> str:
    told = StringIO()
    call_command("export_reference", folder, stdout=told)
    return told.getvalue()


def test_an_export_takes_the_scans_that_are_shown_along_with_whose_they_are(ben, society, tmp_path):
    assert "scans" not in exported(tmp_path / "before")
    made = waiting(ben)
    decide(made, society.mo)
    begun(ben, picture("navy"))

    told = exported(tmp_path / "out")

    assert "scans/: 1 scan of sources" in told
    folder = tmp_path / "out" / "scans"
    assert (folder / "scans.csv").read_text() == (
        "source,file,shows,credit,licence,part_unreadable\nS1,scan-1.webp,Page 3: the measures of the cuff,Ben,"
        "CC BY 4.0,no\n"
    )
    kept = default_storage.open(file_name(made.scan.key, 1600)).read()
    assert (folder / "scan-1.webp").read_bytes() == kept
    assert sorted(one.name for one in folder.iterdir()) == ["scan-1.webp", "scans.csv"]
    exported(tmp_path / "out")  # again, over itself


def test_an_exported_scan_comes_in_as_a_proposal_that_waits_for_a_moderator_and_only_once(
    client, ben, society, tmp_path
):
    made = waiting(ben)
    decide(made, society.mo)
    exported(tmp_path)
    assert "0 proposals written, 1 there already, 0 refused" in brought_in(tmp_path)
    revoke(made, society.mia)

    assert "1 proposal written, 0 there already, 0 refused" in brought_in(tmp_path)
    assert "0 proposals written, 1 there already, 0 refused" in brought_in(tmp_path)

    again = Proposal.objects.exclude(pk=made.pk).get()
    assert (again.state, again.by, again.grounds) == ("open", society.mo, "From the society’s old site.")
    assert not again.scan.shown
    decide(again, society.mia)
    client.logout()
    assert "Page 3: the measures of the cuff" in text(client, "/sources/S1/")


@pytest.mark.parametrize(
    ("cells", "words"),
    [
        ("S9,scan-1.webp,Page,Ben,,no", "line 2: there is no source “S9”."),
        ("S1,../scan-1.webp,Page,Ben,,no", "line 2: there is no picture “../scan-1.webp” beside the list."),
        ("S1,,Page,Ben,,no", "line 2: there is no picture “” beside the list."),
        ("S1,scan-1.webp,\u200b,Ben,,no", "line 2: say what the scan shows, and whose it is."),
        ("S1,scan-1.webp,Page,Ben,all yours,no", "line 2: Choose one of the licences."),
        ("S1,notes.txt,Page,Ben,,no", "line 2: "),
    ],
)
def test_a_row_of_the_list_that_cannot_be_read_is_refused_in_words_and_leaves_nothing(society, tmp_path, cells, words):
    exported(tmp_path)
    folder = tmp_path / "scans"
    folder.mkdir()
    (tmp_path / "scan-1.webp").write_bytes(picture())
    (folder / "scan-1.webp").write_bytes(picture())
    (folder / "notes.txt").write_text("no picture")
    before = kept_files()
    (folder / "scans.csv").write_text(f"source,file,shows,credit,licence,part_unreadable\n{cells}\n")

    told = brought_in(tmp_path)

    assert words in told
    assert "0 proposals written, 0 there already, 1 refused" in told
    assert not SourceScan.objects.exists()
    assert not Proposal.objects.exists()
    assert kept_files() == before


def test_scans_are_left_where_nobody_says_who_puts_them_in_and_the_list_may_be_unreadable(society, tmp_path, settings):
    exported(tmp_path)
    (tmp_path / "scans").mkdir()
    (tmp_path / "scans" / "scans.csv").write_bytes(b"source,file\n\xff\xfe\n")
    assert "scans.csv: cannot be read" in brought_in(tmp_path)
    settings.REVIEW = "no"
    told = StringIO()
    call_command("import_reference", tmp_path, stdout=told)

    assert "The scans beside the spreadsheets are left" in told.getvalue()
