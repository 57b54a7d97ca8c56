"""Writing a profile in the back office: a row for each feature, a new record at each saving, nothing overwritten."""

import pytest
from django.contrib.contenttypes.models import ContentType
from django.db import IntegrityError, transaction
from django.urls import reverse

from catalogue.accounts.models import Member
from catalogue.reference.demo import make_sign_ins
from catalogue.reference.models import FeatureState, GarmentType, IssueVersion, Maker, ReferenceState, VersionRecord
from tests.forms import Sent, complaints, profile_fields, refused, send
from tests.making import make_feature, make_member, make_type, make_version
from tests.reading import text, words

pytestmark = pytest.mark.django_db
ADD = "/admin/catalogue/versionrecord/add/"
LARGEST = 80_000


@pytest.fixture
def office(demo, client):
    """An author of the demo society, signed in."""
    make_sign_ins()
    client.force_login(Member.objects.get(username="Plover"))
    return client


def form_of(version: IssueVersion) -> str:
    return f"{ADD}?version={version.pk}"


def first_cell(version: IssueVersion) -> str:
    return f"s{version.current_record.cells.order_by('state').first().state_id}"


@pytest.mark.parametrize("code", ["BLO-71", "SMK-76", "COA-85"])
def test_the_form_offers_only_the_states_of_the_type_and_stays_light(office, code):
    version = IssueVersion.objects.get(code=code)
    page = office.get(form_of(version)).content.decode()
    own = set(FeatureState.objects.filter(feature__garment_types=version.garment_type).values_list("pk", flat=True))

    offered = {int(part.split("-")[0]) for part in page.split('name="s')[1:] if "-how_often" in part[:30]}

    assert offered == own
    assert len(page.encode()) < LARGEST


def test_the_form_has_a_heading_for_each_group_and_a_row_for_each_feature_with_its_states(office):
    home = make_type("T1")
    make_feature("rim", ["narrow", "wide"], types=[home], group="edges")
    make_feature("hood", ["none", "fixed"], types=[home], group="")
    version = make_version(home, "T1-1")

    page = words(text(office, form_of(version)))

    for said in ("Edges", "Feature rim Narrow", "Other features", "Feature hood None", "this is its first record"):
        assert said in page


def test_a_changed_profile_becomes_a_new_record_and_the_old_one_stays(office):
    version = IssueVersion.objects.get(code="BLO-71")
    old = version.current_record
    cells = list(old.cells.order_by("state").values_list("state", "how_often", "certainty", "note"))
    before = ReferenceState.current_number()

    send(
        office,
        form_of(version),
        profile_fields(office, form_of(version)) | {f"{first_cell(version)}-note": "seen on one more piece"},
    )

    version.refresh_from_db()
    new = version.current_record
    assert (new.number, version.records.count(), ReferenceState.current_number()) == (old.number + 1, 2, before + 1)
    assert list(old.cells.order_by("state").values_list("state", "how_often", "certainty", "note")) == cells
    assert new.cells.count() == len(cells)
    assert new.cells.filter(note="seen on one more piece").count() == 1
    assert sorted(kept_citations(new), key=str) == sorted(kept_citations(old), key=str)


def kept_citations(record) -> list[tuple]:
    return list(record.cells.values_list("state", "citations__source__code", "makers__code"))


def test_a_record_by_hand_says_so_with_who_and_why_and_never_that_it_is_approved(office):
    version = IssueVersion.objects.get(code="BLO-71")
    sent = profile_fields(office, form_of(version)) | {f"{first_cell(version)}-note": "new", "standing": "approved"}

    send(office, form_of(version), sent)

    record = version.records.first()
    assert (record.standing, record.written_by.username, record.why) == ("written", "Plover", "A label turned up.")
    assert "written by hand, not reviewed" in text(office, "/issue-versions/BLO-71/")
    assert "approved" not in office.get(form_of(version)).content.decode().lower()


def test_the_database_holds_no_record_by_hand_without_a_person_and_a_reason(db):
    version = make_version(make_type(), profile={})
    for missing in ({"why": "so"}, {"written_by": make_member()}):
        with pytest.raises(IntegrityError), transaction.atomic():
            VersionRecord.objects.create(version=version, number=9, standing="written", **missing)


def test_without_a_reason_nothing_is_written_and_what_was_typed_is_kept(office):
    version = IssueVersion.objects.get(code="BLO-71")
    cell = first_cell(version)
    sent = profile_fields(office, form_of(version)) | {f"{cell}-note": "kept for me", "why": "  "}

    response = office.post(form_of(version), sent)

    assert "Say why the record is changed" in complaints(response)
    assert 'value="kept for me"' in response.content.decode()
    assert version.records.count() == 1


def test_a_profile_that_says_what_the_record_says_already_writes_nothing(office):
    version = IssueVersion.objects.get(code="BLO-94")

    said = refused(office, form_of(version), profile_fields(office, form_of(version)))

    assert "This is what the current record says already. Nothing was written." in said
    assert version.records.count() == 1


def test_an_empty_profile_is_refused(office):
    version = IssueVersion.objects.get(code="BLO-94")
    sent = {name: value for name, value in profile_fields(office, form_of(version)).items() if "how_often" not in name}

    assert "A record needs at least one state." in refused(office, form_of(version), sent)


def test_what_cannot_be_read_is_said_with_its_place_and_what_was_typed_is_kept(office):
    version = IssueVersion.objects.get(code="BLO-71")
    one, other = (f"s{cell.state_id}" for cell in version.current_record.cells.order_by("state")[:2])
    wrong = {f"{one}-source_codes": "S01 S0I", f"{other}-maker_codes": "GAR GAX", f"{one}-share": "7"}
    wrong |= {f"{other}-first_year": "1990", f"{other}-last_year": "1980"}

    response = office.post(form_of(version), profile_fields(office, form_of(version)) | wrong)

    said, page = complaints(response), response.content.decode()
    for words_said in (
        "There is no code “S0I”. Nearest: S",
        "There is no code “GAX”. Nearest: GAR.",
        "A counted share is a number above 0 and up to 1",
        "The last year lies before the first.",
    ):
        assert words_said in said
    assert f'href="#{one}"' in page
    for value in ("S01 S0I", "GAR GAX", "7", "1990"):
        assert f'value="{value}"' in page
    assert version.records.count() == 1


def test_a_state_that_the_garment_type_lacks_is_refused(office):
    version = IssueVersion.objects.get(code="BLO-71")
    strange = FeatureState.objects.exclude(feature__garment_types=version.garment_type).first()
    sent = profile_fields(office, form_of(version)) | {f"s{strange.pk}-how_often": "always"}

    assert "belongs to no feature of the garment type" in refused(office, form_of(version), sent)
    assert "is not one of the choices here" in refused(
        office, form_of(version), profile_fields(office, form_of(version)) | {f"{first_cell(version)}-how_often": "no"}
    )
    assert version.records.count() == 1


def test_the_grounds_of_a_newly_chosen_state_are_shown_before_anything_is_written(office):
    version = IssueVersion.objects.get(code="BLO-71")
    shown = version.current_record.cells.values("state")
    new = FeatureState.objects.filter(feature__garment_types=version.garment_type).exclude(pk__in=shown).first()
    sent = profile_fields(office, form_of(version)) | {f"s{new.pk}-how_often": "seldom", "_show": "1"}
    del sent["_save"]
    assert f'name="s{new.pk}-source_codes"' not in office.get(form_of(version)).content.decode()

    page = office.post(form_of(version), sent).content.decode()

    assert f'name="s{new.pk}-source_codes"' in page
    assert page.count("<details open>") == 1  # only what was not on the page before
    assert version.records.count() == 1


def test_of_two_who_write_the_same_profile_the_later_is_told_and_overwrites_nothing(office, client):
    version = IssueVersion.objects.get(code="BLO-71")
    mine, theirs, both = (f"s{cell.state_id}" for cell in version.current_record.cells.order_by("state")[:3])
    opened = profile_fields(office, form_of(version))
    client.force_login(Member.objects.get(username="Dunlin"))
    changed = {f"{theirs}-note": "Dunlin saw it", f"{both}-note": "by Dunlin", "why": "The tender says so."}
    send(client, form_of(version), opened | changed)
    client.force_login(Member.objects.get(username="Plover"))

    typed = opened | {f"{mine}-note": "Plover saw it", f"{both}-note": "by Plover"}
    response = client.post(form_of(version), typed)

    page = text_of(response)
    assert "A newer record was written while you had this open." in complaints(response)
    assert "Dunlin wrote record 2" in words(page)
    assert "The tender says so." in page
    assert version.records.count() == 2
    again = {name: value for name, value in sent_of(response).items() if value} | {"why": "Both seen.", "_save": "1"}
    assert again[f"{theirs}-note"] == "Dunlin saw it", "what was not touched follows the record"
    assert (again[f"{mine}-note"], again[f"{both}-note"]) == ("Plover saw it", "by Plover")

    send(client, form_of(version), again)

    notes = dict(version.records.first().cells.exclude(note="").values_list("state", "note"))
    wanted = {theirs: "Dunlin saw it", mine: "Plover saw it", both: "by Plover"}
    assert {f"s{state}": note for state, note in notes.items() if f"s{state}" in wanted} == wanted


def text_of(response) -> str:
    return response.content.decode()


def sent_of(response) -> dict[str, str]:
    return Sent(response.content.decode()).sent


def test_the_second_click_on_save_writes_no_second_record(office):
    version = IssueVersion.objects.get(code="BLO-71")
    sent = profile_fields(office, form_of(version)) | {f"{first_cell(version)}-note": "once"}
    send(office, form_of(version), sent)

    assert "This is what the current record says already" in refused(office, form_of(version), sent)
    assert version.records.count() == 2


def test_the_history_of_a_record_shows_every_change_of_the_profile_in_words(office):
    version = IssueVersion.objects.get(code="BLO-71")
    cell = version.current_record.cells.select_related("state__feature").order_by("state").first()
    sent = profile_fields(office, form_of(version)) | {f"s{cell.state_id}-how_often": "seldom"}
    send(office, form_of(version), sent)

    for page in ("history", "change"):
        address = reverse(f"admin:catalogue_versionrecord_{page}", args=[version.records.first().pk])
        said = words(text(office, address))
        assert f"{cell.state.feature.name}: {cell.state.label}" in said
        assert f"{cell.how_often};" in said
        assert "seldom;" in said
        assert "Plover" in said
        assert "A label turned up." in said


@pytest.mark.parametrize("asked", ["", "0", "999999", "abc", "²", "9" * 40])
def test_a_new_record_of_no_known_version_asks_which_one(office, asked):
    assert "Code of the version" in text(office, f"{ADD}?version={asked}")


def test_a_version_can_be_named_by_its_code_and_a_misspelt_one_is_helped(office):
    assert "New record of BLO-71" in text(office, f"{ADD}?version=blo-71")
    assert "?version=BLO-71" in text(office, f"{ADD}?version=BLO-7l")


def test_a_type_without_features_says_what_is_missing(office):
    version = make_version(GarmentType.objects.create(code="NEW", name="New thing"), "NEW-1")

    assert "The garment type has no features yet." in text(office, form_of(version))


def test_the_form_asks_the_database_far_less_often_than_it_has_states(office, django_assert_max_num_queries):
    version = IssueVersion.objects.get(code="SMK-76")
    sent = profile_fields(office, form_of(version)) | {f"{first_cell(version)}-note": "x"}

    ContentType.objects.get_for_model(VersionRecord)  # asked once in a process, whoever comes first
    with django_assert_max_num_queries(25):
        office.get(form_of(version))
    with django_assert_max_num_queries(60):
        send(office, form_of(version), sent)


def test_a_state_is_limited_to_makers_of_the_version_and_to_any_while_none_is_known(office):
    version = make_version(make_type("T1"), "T1-1")
    make_feature("rim", ["narrow", "wide"], types=[version.garment_type])
    ours, other = (Maker.objects.create(code=code, name=code) for code in ("OUR", "OTH"))
    state = FeatureState.objects.get(feature__code="rim", code="narrow")
    sent = {f"s{state.pk}-how_often": "always", f"s{state.pk}-maker_codes": "OTH", "why": "A label.", "_save": ""}

    version.makers.add(ours)
    page = words(office.post(form_of(version), sent).content.decode())
    assert "A state is limited to makers of the version." in page
    assert not version.records.exists()

    version.makers.set([other])
    send(office, form_of(version), sent)
    assert [maker.code for maker in version.records.get().cells.get().makers.all()] == ["OTH"]
    version.makers.clear()
    send(office, form_of(version), sent | {"begins_with": "1", f"s{state.pk}-maker_codes": "OUR"})
