"""Two people at one record of the back office, and what its history keeps."""

import pytest
from django.contrib import admin

from catalogue.accounts.models import Member
from catalogue.reference.admin_base import ReferenceAdmin
from catalogue.reference.demo import make_sign_ins
from catalogue.reference.models import (
    Correction,
    Feature,
    FeatureState,
    GarmentType,
    IssueVersion,
    Maker,
    ReferenceState,
    Source,
)
from tests.forms import complaints, fields_of, refused, send, with_row
from tests.making import make_member
from tests.reading import text, words

pytestmark = pytest.mark.django_db
EDITED = [model for model, own in admin.site._registry.items() if isinstance(own, ReferenceAdmin)]


@pytest.fixture
def office(demo, client):
    make_sign_ins()
    return as_member(client, "Plover")


def as_member(client, username: str):
    client.force_login(Member.objects.get(username=username))
    return client


def address(row, page: str = "change") -> str:
    return f"/admin/catalogue/{row._meta.model_name}/{row.pk}/{page}/"


def test_the_later_of_two_savings_is_refused_and_says_who_changed_what_and_why(office):
    maker = Maker.objects.get(code="GAR")
    opened = fields_of(office, address(maker))
    as_member(office, "Dunlin")
    send(office, address(maker), opened | {"place": "Nethercote", "habits": "double rows", "why": "The 1971 ledger."})
    as_member(office, "Plover")

    response = office.post(address(maker), opened | {"habits": "green thread"})

    page = words(response.content.decode())
    assert "Somebody else changed this record while you had it open." in complaints(response)
    assert "Dunlin changed it on" in page
    assert "“The 1971 ledger.”" in page
    assert "Place" in page
    assert "Nethercote" in page
    maker.refresh_from_db()
    assert (maker.place, maker.habits) == ("Nethercote", "double rows"), "nothing was overwritten"
    form = response.context["adminform"].form
    assert form["habits"].value() == "green thread", "what was typed is kept"
    assert form["place"].value() == "Nethercote", "what was not touched follows the record"
    assert "Changed meanwhile to “double rows”." in complaints(response)


def again(response) -> dict:
    """What a browser would send of the form that came back."""
    sent = {"seen_edition": response.context["edition"]}
    forms = [response.context["adminform"].form]
    for inline in response.context["inline_admin_formsets"]:
        forms += [inline.formset.management_form, *inline.formset.forms]
    for form in forms:
        sent |= {bound.html_name: bound.value() for bound in form if bound.value() not in (None, False)}
    return sent


def test_saved_again_after_comparing_the_form_is_taken_and_both_changes_stand(office):
    maker = Maker.objects.get(code="GAR")
    opened = fields_of(office, address(maker))
    as_member(office, "Dunlin")
    send(office, address(maker), opened | {"place": "Nethercote"})
    as_member(office, "Plover")
    response = office.post(address(maker), opened | {"habits": "green thread"})

    send(office, address(maker), again(response))

    maker.refresh_from_db()
    assert (maker.place, maker.habits) == ("Nethercote", "green thread")


def test_a_third_edition_between_the_two_savings_is_noticed_too(office):
    maker = Maker.objects.get(code="GAR")
    opened = fields_of(office, address(maker))
    send(office, address(maker), opened | {"place": "Nethercote"})
    sent = again(office.post(address(maker), opened | {"habits": "green thread"}))
    Maker.objects.filter(pk=maker.pk).update(mark="GW")

    response = office.post(address(maker), sent)

    assert "Somebody else changed this record" in complaints(response)
    assert "by an import of spreadsheets" in words(response.content.decode())
    assert Maker.objects.get(pk=maker.pk).habits != "green thread"


def test_rows_that_others_added_changed_or_took_away_are_neither_lost_nor_doubled(office):
    feature = Feature.objects.create(code="rim", name="Rim", question="Which rim?")
    for place, code in enumerate(("a", "b", "c")):
        FeatureState.objects.create(feature=feature, code=code, label=code.upper(), position=place)
    opened = fields_of(office, address(feature))
    theirs = opened | {"states-0-label": "A, by Dunlin", "states-2-DELETE": "on"}
    theirs = with_row(theirs, "states", code="d", label="D, by Dunlin", position=9)
    as_member(office, "Dunlin")
    send(office, address(feature), theirs)
    as_member(office, "Plover")

    mine = with_row(opened | {"states-1-label": "B, by Plover"}, "states", code="e", label="E, by Plover", position=9)
    response = office.post(address(feature), mine)
    assert "Somebody else changed this record" in complaints(response)
    assert [state.label for state in feature.states.all()] == ["A, by Dunlin", "B", "D, by Dunlin"]
    send(office, address(feature), again(response))

    labels = set(feature.states.values_list("label", flat=True))
    assert labels == {"A, by Dunlin", "B, by Plover", "D, by Dunlin", "E, by Plover"}


def test_a_row_that_was_written_to_and_taken_away_by_others_stays_as_a_new_row(office):
    feature = Feature.objects.create(code="rim", name="Rim", question="Which rim?")
    for code in ("a", "b"):
        FeatureState.objects.create(feature=feature, code=code, label=code.upper())
    opened = fields_of(office, address(feature))
    send(office, address(feature), opened | {"states-1-DELETE": "on"})

    response = office.post(address(feature), opened | {"states-1-label": "B, with a note"})
    assert "taken away" in words(response.content.decode())
    send(office, address(feature), again(response))

    assert set(feature.states.values_list("label", flat=True)) == {"A", "B, with a note"}


def test_the_same_change_by_two_people_is_no_clash(office):
    maker = Maker.objects.get(code="GAR")
    opened = fields_of(office, address(maker))
    send(office, address(maker), opened | {"place": "Nethercote"})

    send(office, address(maker), opened | {"place": "Nethercote"})
    assert Correction.objects.filter(table="maker", row=maker.pk).count() == 1


def test_a_record_deleted_meanwhile_gives_back_what_was_typed(office):
    maker = Maker.objects.create(code="NEW", name="Newly typed")
    opened = fields_of(office, address(maker))
    office.post(address(maker, "delete"), {"post": "yes"})

    response = office.post(address(maker), opened | {"habits": "worth keeping"})

    page = response.content.decode()
    assert response.status_code == 410
    assert "worth keeping" in page
    assert "by Plover" in page


def test_who_may_not_change_a_record_is_not_told_what_became_of_it(office):
    maker = Maker.objects.create(code="NEW", name="Newly typed")
    office.post(address(maker, "delete"), {"post": "yes"}, follow=True)  # the notice of it is read
    office.force_login(make_member("Rufous", is_staff=True))

    response = office.post(address(maker), {"name": "x"}, follow=True)

    assert response.status_code in (200, 403)
    assert "Newly typed" not in response.content.decode()


@pytest.mark.parametrize("edition", [None, "", "{}", "[1]", '{"last":0,"sheet":{"":[1]}}', "null"])
def test_a_form_that_does_not_say_its_edition_is_not_trusted(office, edition):
    maker = Maker.objects.get(code="GAR")
    sent = fields_of(office, address(maker)) | {"place": "Nethercote"}
    del sent["seen_edition"]

    said = refused(office, address(maker), sent | ({} if edition is None else {"seen_edition": edition}))

    assert "did not say which edition" in said
    assert Maker.objects.get(pk=maker.pk).place != "Nethercote"


@pytest.mark.parametrize("model", EDITED, ids=lambda model: model.__name__)
def test_every_record_saved_unchanged_is_taken_and_leaves_no_correction(office, model):
    own = admin.site._registry[model]
    for row in model.objects.all()[:3]:
        if own.has_change_permission is not ReferenceAdmin.has_change_permission and model.__name__ == "VersionRecord":
            return
        send(office, address(row), fields_of(office, address(row)))

    assert not Correction.objects.exists()


def test_a_wrong_value_keeps_what_was_typed_and_the_edition_that_was_opened(office):
    maker = Maker.objects.get(code="GAR")
    opened = fields_of(office, address(maker))

    response = office.post(address(maker), opened | {"first_year": "x", "habits": "kept"})

    assert response.context["edition"] == opened["seen_edition"]
    assert response.context["adminform"].form["habits"].value() == "kept"


# ---- history


def test_the_history_shows_old_value_new_value_who_and_why_in_words(office):
    version = IssueVersion.objects.get(code="BLO-71")
    source = Source.objects.get(code="S40")
    sent = fields_of(office, address(version)) | {"kind": "trial", "why": "The trial report turned up."}
    sent = with_row(sent, "citations", source=source.pk, stance="supports", position=9)

    send(office, address(version), sent)

    said = words(text(office, address(version, "history")))
    assert "changed by Plover" in said
    assert "Why: The trial report turned up." in said
    assert "Kind Issue Trial" in said
    assert f"{source.title} ({source.code})" in said
    assert "None" not in said
    assert "Every record of its profile" in said


def test_a_record_that_was_added_or_deleted_stays_in_the_list_of_changes(office):
    send(office, "/admin/catalogue/maker/add/", fields_of(office, "/admin/catalogue/maker/add/") | {
        "code": "ORR", "name": "Orrin Works", "why": "A label."})  # fmt: skip
    maker = Maker.objects.get(code="ORR")
    office.post(address(maker, "delete"), {"post": "yes"})

    found = [(one.deed, one.title) for one in Correction.objects.all()]
    assert found == [("deleted", "Orrin Works (ORR)"), ("added", "Orrin Works (ORR)")]
    page = words(text(office, address(Correction.objects.last())))
    assert "added by Plover" in page
    assert "Why: A label." in page
    assert "Name – Orrin Works" in page
    assert ["Name", "Orrin Works", ""] in Correction.objects.first().lines


def test_nobody_rewrites_a_correction(office):
    maker = Maker.objects.get(code="GAR")
    send(office, address(maker), fields_of(office, address(maker)) | {"place": "Nethercote"})
    as_member(office, "Knot")
    one = Correction.objects.get()

    assert office.get(address(one, "delete")).status_code == 403
    assert office.post(address(one), {"why": "another"}).status_code == 403
    assert office.get("/admin/catalogue/correction/add/").status_code == 403


def test_saving_without_a_change_is_no_correction_but_a_change_is_marked(office):
    maker, before = Maker.objects.get(code="GAR"), ReferenceState.current_number()

    send(office, address(maker), fields_of(office, address(maker)) | {"place": "Nethercote"})

    assert ReferenceState.current_number() == before + 1
    assert Correction.objects.get().lines == [["Place", maker.place, "Nethercote"]]


# ---- the arrangement


def test_the_index_groups_the_tables_by_what_people_do(office):
    as_member(office, "Knot")
    page = text(office, "/admin/")
    headings = [part.split("</h2>")[0].split(">")[-1] for part in page.split("<h2")[1:]]

    assert headings[:4] == ["The reference", "Evidence and sources", "People", "What was changed"]
    assert page.index("Garment types") < page.index("Issue versions") < page.index("Sources") < page.index("Members")


@pytest.mark.parametrize("model", sorted(admin.site._registry, key=str), ids=lambda model: model.__name__)
def test_every_table_can_be_searched_and_stands_in_a_group(model):
    own = admin.site._registry[model]

    assert own.search_fields
    assert admin.site.place_of(model)[0] != "Other tables"


@pytest.mark.parametrize(
    ("view", "region", "garment", "said"),
    [
        ("frnt", "hem", "BLO", "“frnt” is no view of a jacket. Nearest: front."),
        ("front", "hemm", "BLO", "“hemm” is no region of a jacket in the view “front”. Nearest: hem."),
        ("frontt", "hem", "", "is no view of"),
    ],
)
def test_a_place_that_no_silhouette_has_is_refused_with_the_nearest(office, view, region, garment, said):
    feature = Feature.objects.get(code="front_closure")
    home = GarmentType.objects.get(code=garment).pk if garment else ""
    sent = fields_of(office, address(feature))
    sent = with_row(sent, "places", garment_type=home, view=view, region=region, position=0)

    assert said in refused(office, address(feature), sent)


def test_a_constraint_is_explained_in_words(office):
    feature = Feature.objects.get(code="front_closure")
    sent = fields_of(office, address(feature))

    said = refused(office, address(feature), sent | {"effort": "0", "loss": "2"})

    assert "The effort is a number above 0" in said
    assert "is violated" not in said


@pytest.mark.parametrize("model", EDITED, ids=lambda model: model.__name__)
def test_no_constraint_of_the_reference_speaks_in_its_own_name(model):
    plain = [
        one.name
        for one in model._meta.constraints
        if one.violation_error_message == one.default_violation_error_message and getattr(one, "condition", None)
    ]

    assert plain == [] or model.__name__ == "VersionRecord"
