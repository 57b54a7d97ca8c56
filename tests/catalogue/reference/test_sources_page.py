"""The list of sources is narrowed by kind, grade and use; a claim without a source is marked as asserted."""

import pytest

from catalogue.reference.models import Citation, ReferenceState, Source
from tests.making import make_feature, make_type, make_version, record
from tests.reading import text, words

pytestmark = pytest.mark.django_db


@pytest.fixture
def sources():
    for code, kind, title, grade in (
        ("S1", "order", "Order on blouses", "A"),
        ("S2", "label", "Label of a blouse", "B"),
        ("S3", "testimony", "A storeman remembers", "D"),
    ):
        Source.objects.create(code=code, kind=kind, title=title, grade=grade, holder="Society")
    return Source.objects.in_bulk(field_name="code")


def listed(client, query: str) -> list[str]:
    page = text(client, f"/sources/{query}")
    return [code for code in ("S1", "S2", "S3") if f'<span class="code">{code}</span>' in page]


@pytest.mark.parametrize(
    ("query", "found"),
    [
        ("", ["S1", "S2", "S3"]),
        ("?kind=order&kind=label", ["S1", "S2"]),
        ("?grade=D", ["S3"]),
        ("?q=blouse+label", ["S2"]),
        ("?kind=order&grade=D", []),
        ("?q=&kind=&cited=", ["S1", "S2", "S3"]),
    ],
)
def test_sources_are_narrowed_by_kind_grade_and_words(client, sources, query, found):
    assert listed(client, query) == found


def test_only_claims_in_force_count_as_use(client, sources):
    garment = make_type()
    version, feature = make_version(garment), make_feature(states=["zip", "buttons"], types=[garment])
    older, _ = record(version, {feature: ["zip"]}), record(version, {feature: ["buttons"]})
    Citation.objects.create(source=sources["S1"], version=version)
    Citation.objects.create(source=sources["S2"], cell=older.cells.get())

    assert listed(client, "?cited=yes") == ["S1"]
    assert listed(client, "?cited=no") == ["S2", "S3"]


def test_what_the_list_cannot_do_is_said_and_kept(client, sources):
    page = text(client, "/sources/?kind=rumour&q=label&colour=red")

    assert "There is no kind of source “rumour”." in page
    assert 'value="label"' in page
    assert "Not understood, and left out of account: colour" in words(page)
    assert '<span class="code">S1' not in page


def test_an_empty_list_says_what_to_take_away_and_an_empty_site_what_a_source_is(client, sources):
    assert "No source has all of this." in text(client, "/sources/?grade=E")
    Source.objects.all().delete()
    ReferenceState.mark_changed()
    assert "No source is recorded yet." in text(client, "/sources/?grade=E")


def test_a_claim_without_a_source_is_marked_on_the_versions_page_and_where_versions_are_compared(client, sources):
    garment = make_type()
    one, other = make_version(garment), make_version(garment)
    feature = make_feature(states=["zip", "buttons"], types=[garment])
    record(one, {feature: ["zip"]})
    cited = record(other, {feature: ["buttons"]}).cells.get()
    Citation.objects.create(source=sources["S1"], cell=cited)
    Citation.objects.create(source=sources["S1"], version=other)

    bare, grounded = (words(text(client, f"/issue-versions/{v.code}/")) for v in (one, other))
    compared = text(client, f"/compare/?v={one.code}&v={other.code}")

    assert "Asserted: no source is named for its name, kind and dates." in bare
    assert "Asserted, no source named" in bare
    assert "no source" not in grounded
    assert compared.count('<span class="hint">asserted</span>') == 1
