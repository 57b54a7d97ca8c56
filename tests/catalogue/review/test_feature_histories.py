"""What features said at every time: written down whoever changes them, readable for ever, changed by nobody."""

import pytest
from django.db import IntegrityError, transaction

from catalogue.reference.actions import import_reference
from catalogue.reference.models import Feature, FeatureState, ReferenceState
from catalogue.review.features.recording import faults_of_features, record_features, rows_in
from catalogue.review.features.rows import features_to_read, rows_of_feature
from catalogue.review.models import FeatureRecord
from tests.catalogue.review.proposing import make_society
from tests.forms import fields_of
from tests.making import make_feature, make_type


@pytest.fixture
def society(db):
    society = make_society()
    record_features(by=None, why="")
    return society


def written(why: str, by) -> list[FeatureRecord]:
    return record_features(by=by, why=why, standing="written")


def folder_with(tmp_path, **files: str):
    for name, text in files.items():
        (tmp_path / f"{name}.csv").write_text(text, encoding="utf-8")
    return tmp_path


def test_a_record_is_written_of_what_changed_and_of_nothing_else(society):
    assert [(one.code, one.number) for one in FeatureRecord.objects.all()] == [("closure", 1), ("cuff", 1)]
    assert written("Nothing.", society.mo) == []

    Feature.objects.filter(code="cuff").update(question="Is there a tab at the cuff?")
    made = written("The question was taken for that of the sleeve.", society.mo)

    assert [(one.code, one.number, one.standing, one.written_by) for one in made] == [
        ("cuff", 2, "written", society.mo)
    ]
    assert rows_in(made[0])["question"] == "Is there a tab at the cuff?"
    assert rows_in(made[0])["state:tab"] == {"label": "Tab", "low": None, "high": None, "drawing": "", "position": 0}


def test_an_import_writes_down_what_it_changes_with_who_and_why(society, tmp_path):
    states = "feature,state,label\ncuff,elastic,Elastic\n"
    import_reference(folder=folder_with(tmp_path, states=states), by=society.ada, because="Sheet S1.")
    record = FeatureRecord.objects.get(code="cuff", number=2)

    assert (record.standing, record.written_by, record.why) == ("imported", society.ada, "Sheet S1.")
    assert rows_in(record)["state:elastic"]["label"] == "Elastic"
    assert not FeatureRecord.objects.filter(code="closure", number=2).exists()


def test_the_back_office_writes_down_what_it_changes_of_a_feature_and_of_what_uses_it(society, admin_client):
    where = f"/admin/catalogue/feature/{society.cuff.pk}/change/"
    form = fields_of(admin_client, where) | {"name": "Cuff end", "why": "As the tailors say."}

    assert admin_client.post(where, form).status_code == 302
    record = FeatureRecord.objects.get(code="cuff", number=2)
    assert (record.standing, record.why, rows_in(record)["name"]) == ("written", "As the tailors say.", "Cuff end")


def test_the_database_refuses_to_change_or_delete_a_record(society):
    for act in (lambda: FeatureRecord.objects.update(why="x"), lambda: FeatureRecord.objects.all().delete()):
        with pytest.raises(IntegrityError), transaction.atomic():
            act()
    assert list(faults_of_features()) == []


def test_a_feature_that_was_changed_past_everything_is_named_by_the_verification(society):
    FeatureState.objects.filter(code="tab").update(label="strap")

    assert list(faults_of_features()) == ["the feature cuff stands otherwise than its newest record says"]


def test_the_rows_of_a_feature_hold_all_that_the_tables_do(db):
    home = make_type("SMK", name="Smock", garment_class="jacket")
    parent = make_feature("pocket", ("patch", "none"), types=[home])
    detail = make_feature("flap", ("button", "hook"), types=[home], parent=parent)
    detail.shown_when.add(parent.states.get(code="patch"))
    rows = rows_of_feature(features_to_read(Feature.objects.filter(code="flap")).get())
    said = {*rows}
    fields = {field.name.removesuffix("_state") for field in Feature._meta.get_fields()}

    # What a record leaves out: keys, the place in the book, tables that hang on it from elsewhere.
    elsewhere = {
        "id",
        "code",
        "position",
        "details",
        "garment_types",
        "type_features",
        "error_rates_taken",
        "states",
        "observations",
        "photograph",
        "proposals",
        "open_questions",
    }
    assert fields - elsewhere - said == set()
    assert (rows["parent"], rows["shown_when"], rows["types"]) == ("pocket", ["patch"], ["SMK"])


# ---- pages


def test_the_history_says_who_changed_what_and_why_and_any_two_records_are_compared(society, client):
    cuff = Feature.objects.filter(code="cuff")
    for number, question in enumerate(("How does the cuff end?", "Is there a tab?")):
        cuff.update(question=question, error=0.1 + number / 10)
        written(f"Reason {number}.", society.mo)
    ReferenceState.mark_changed()

    page = client.get("/features/cuff/history/").content.decode()
    assert page.index("Record 3") < page.index("Record 2") < page.index("Record 1")
    assert "Written by Mo, not reviewed" in page
    assert "Reason 1." in page
    assert "Chance of a wrong answer: 20 in 100" in page

    compared = client.get("/features/cuff/history/3/?with=1").content.decode()
    assert "Is there a tab?" in compared
    assert "10 in 100" not in compared
    then = client.get("/features/cuff/history/2/").content.decode()
    assert "How does the cuff end?" in then
    assert "An older record." in then
    assert "features/cuff/history/2/" in then.split('id="cite"')[1]
    assert (
        "/features/cuff/history/"
        in client.get("/features/").content.decode() + client.get("/features/other%20features/").content.decode()
    )


@pytest.mark.parametrize(
    ("address", "words"),
    [
        ("/features/cuffs/history/", "There is no feature “cuffs”"),
        ("/features/cuff/history/9/", ""),
        ("/features/no-such/history/1/", "There is no feature"),
    ],
)
def test_what_is_not_there_is_told(society, client, address, words):
    answer = client.get(address)

    assert answer.status_code == 404
    assert words in answer.content.decode()


def test_a_feature_that_was_deleted_keeps_its_history(society, client):
    make_feature("hem", ("turned",))
    written("New.", society.mo)
    Feature.objects.filter(code="hem").delete()

    assert client.get("/features/hem/history/1/").status_code == 200


def test_the_history_asks_as_often_for_thirty_records_as_for_two(society, client, django_assert_max_num_queries):
    for number in range(30):
        Feature.objects.filter(code="cuff").update(effort=number + 2)
        written("Another effort.", society.mo)
    client.get("/features/cuff/history/")
    with django_assert_max_num_queries(6):
        assert client.get("/features/cuff/history/").status_code == 200
