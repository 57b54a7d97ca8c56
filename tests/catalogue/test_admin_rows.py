"""Two rows of a back office form that cannot both stand, and choices of what does not exist: told, never a failure."""

import pytest
from django.apps import apps
from django.contrib import admin
from django.db.models import UniqueConstraint
from django.urls import reverse

from catalogue.accounts.models import Member
from catalogue.reference.admin_rows import OfficeFields
from catalogue.reference.demo import make_sign_ins
from catalogue.reference.models import Citation, Feature, Issuer, IssueVersion, ProfileCell, Source, StockNumber
from tests.forms import fields_of, profile_fields, refused, send, with_row
from tests.reading import text

pytestmark = pytest.mark.django_db
TWICE = "This source stands here already; one source is cited once for one claim."


@pytest.fixture
def office(demo, client, settings):
    """An author of a society without review, where the whole reference is written in the back office."""
    settings.CATALOGUE_REVIEW = False
    make_sign_ins()
    client.force_login(Member.objects.get(username="Plover"))
    return client


def form_of(kind: str, record=None) -> str:
    if record is None:
        return reverse(f"admin:catalogue_{kind}_add")
    return reverse(f"admin:catalogue_{kind}_change", args=[record.pk])


@pytest.mark.parametrize("kind", ["issueversion", "stocknumber", "issuer"])
def test_a_source_that_is_cited_twice_at_once_is_told_and_nothing_is_written(office, kind):
    record = {
        "issueversion": IssueVersion.objects.get(code="SMK-76"),
        "stocknumber": StockNumber.objects.first(),
        "issuer": Issuer.objects.first(),
    }[kind]
    source = Source.objects.exclude(citations__in=record.citations.all()).first()
    sent = fields_of(office, form_of(kind, record))
    for stance in ("supports", "contradicts"):
        sent = with_row(sent, "citations", source=source.pk, stance=stance, position=0)
    before = Citation.objects.count()

    assert TWICE in refused(office, form_of(kind, record), sent)
    assert Citation.objects.count() == before


def test_a_place_of_a_feature_that_is_written_twice_is_told(office):
    feature = Feature.objects.get(code="collar")
    sent = fields_of(office, form_of("feature", feature))
    for _ in range(2):
        sent = with_row(sent, "places", view="front", region="hem", picked="", position=0)

    assert "This place stands here already for all types." in refused(office, form_of("feature", feature), sent)


@pytest.mark.parametrize(
    ("kind", "sent"),
    [
        ("garmenttype", {"issuer": "abc"}),
        ("garmenttype", {"type_features-TOTAL_FORMS": "1", "type_features-0-feature": "abc"}),
        ("feature", {"parent": "9" * 40}),
        ("issueversion", {"garment_type": "²", "makers": ["abc", "9" * 30]}),
        ("stocknumber", {"version": "abc", "form": "-1"}),
    ],
)
def test_a_choice_that_is_no_record_is_refused_in_words_and_what_was_typed_stands_there(office, kind, sent):
    whole = fields_of(office, form_of(kind)) | sent | {"note": "typed at length"}
    answer = office.post(form_of(kind), whole)

    assert answer.status_code == 200
    assert "is not one of the choices here" in answer.content.decode()


def test_a_stock_number_of_strokes_alone_and_an_issuer_before_itself_are_refused(office):
    number, issuer = StockNumber.objects.first(), Issuer.objects.first()
    sent = fields_of(office, form_of("stocknumber", number)) | {"number": "---"}
    assert "No letter and no figure stands in it." in refused(office, form_of("stocknumber", number), sent)

    sent = fields_of(office, form_of("issuer", issuer)) | {"successor": issuer.pk}
    assert "This is the issuer itself." in refused(office, form_of("issuer", issuer), sent)


def test_a_feature_in_records_stays_and_it_is_said_in_words_what_rests_on_it(office):
    feature = Feature.objects.get(code="collar")
    page = text(office, reverse("admin:catalogue_feature_delete", args=[feature.pk]))

    assert f"“{feature}” stays, because this rests on it:" in page
    assert "Profile cell: kept with the records of which it is a part" in page
    assert "permission" not in page
    cells = ProfileCell.objects.filter(state__feature=feature).count()
    assert f"Profile cell: {cells} of them" in page
    assert page.count("Profile cell: ") == 2


@pytest.mark.parametrize(
    ("kind", "field"),
    [("garmenttype", "description"), ("issueversion", "reason"), ("feature", "error_note"), ("maker", "habits")],
)
def test_no_text_is_longer_than_the_spreadsheets_take_so_that_an_export_can_be_read_in_again(office, kind, field):
    model = apps.get_model("catalogue", kind)
    record = model.objects.first()
    sent = fields_of(office, form_of(kind, record))

    assert "At most 5000 signs; this has 5001." in refused(office, form_of(kind, record), sent | {field: "x" * 5001})
    send(office, form_of(kind, record), sent | {field: "x" * 5000})
    assert len(getattr(model.objects.get(pk=record.pk), field)) == 5000


def test_the_note_of_a_state_in_a_record_is_held_to_the_same_length(office):
    version = IssueVersion.objects.get(code="SMK-76")
    where = f"{reverse('admin:catalogue_versionrecord_add')}?version={version.pk}"
    sent = profile_fields(office, where)
    cell = next(name for name in sent if name.endswith("-how_often") and sent[name]).removesuffix("-how_often")

    answer = office.post(where, sent | {f"{cell}-note": "x" * 5001})
    assert "At most 5000 signs; this has 5001." in answer.content.decode()
    assert version.records.count() == 1


@pytest.mark.parametrize(("kind", "field"), [("maker", "first_year"), ("stocknumber", "last_year")])
def test_a_year_of_five_figures_is_none_here_either(office, kind, field):
    record = apps.get_model("catalogue", kind).objects.first()
    sent = fields_of(office, form_of(kind, record)) | {field: "19555"}

    assert "At most 2100." in refused(office, form_of(kind, record), sent)


def test_a_name_that_the_spreadsheets_would_read_as_two_is_refused(office):
    version = IssueVersion.objects.get(code="SMK-76")
    sent = fields_of(office, form_of("issueversion", version))
    for name, words in (
        ("alpha; beta", "Write each name in a row."),
        ("gamma (never issued)", "Tick that it"),
    ):
        row = with_row(sent, "other_names", name=name, used_by="sellers", position=0)
        assert words in refused(office, form_of("issueversion", version), row)


def test_every_rule_of_rows_is_of_the_kind_that_is_understood_before_they_are_written():
    kinds = {
        kind.model for own in admin.site._registry.values() for kind in own.inlines if issubclass(kind, OfficeFields)
    }
    rules = [
        (model, rule.condition)
        for model in kinds
        for rule in model._meta.constraints
        if isinstance(rule, UniqueConstraint) and rule.fields and rule.condition is not None
    ]

    assert {model.__name__ for model, _ in rules} >= {"Citation", "FeaturePlace", "QuestionView"}
    for model, condition in rules:
        names = {name.removesuffix("__isnull") for name, _ in condition.children}
        assert (condition.connector, condition.negated) == ("AND", False)
        assert names <= {field.name for field in model._meta.concrete_fields}
