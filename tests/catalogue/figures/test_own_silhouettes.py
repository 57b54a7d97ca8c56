"""A society's own outline of a garment type stands in place of the site's, and where the site has none."""

import re

import pytest
from django.db import IntegrityError, transaction

from catalogue.figures.figure import drawn_views, figures_of, file_of
from catalogue.figures.outlines import site_outline
from catalogue.figures.shot_guides import shot_guide
from catalogue.figures.silhouettes import all_silhouettes, silhouette_for
from catalogue.reference.actions import FaultyFolder, import_reference
from catalogue.reference.models import GarmentType, OwnSilhouette, ReferenceState
from catalogue.reference.snapshots import type_facts
from catalogue.reference.spreadsheets.exporting import export_reference
from tests.catalogue.reference.test_own_drawings import HOSTILE, PLAIN
from tests.demo_pages import codes
from tests.making import make_feature, make_member, make_type, make_version
from tests.reading import text

OWN = '<svg viewBox="0 0 50 40"><path class="o" d="M1 2L49 3V38H1Z"/><path class="t" d="M1 36H49"/></svg>'
MARK = "M1 2L49 3V38H1Z"


def put(code: str, view: str = "front", drawing: str = OWN) -> None:
    OwnSilhouette.objects.create(garment_type=GarmentType.objects.get(code=code), view=view, drawing=drawing)
    ReferenceState.mark_changed()


def test_an_own_outline_keeps_the_places_and_points_of_the_sites():
    own, usual = silhouette_for("jacket", "front", OWN), silhouette_for("jacket", "front")

    assert (own.width, own.height, own.regions, own.points) == (
        usual.width, usual.height, usual.regions, usual.points,
    )  # fmt: skip
    assert own.draw is not usual.draw


def test_where_the_site_has_none_it_has_its_own_shape():
    own = silhouette_for("belt", "front", OWN)

    assert (own.width, own.height, own.regions) == (500, 400, {})
    assert silhouette_for("belt", "front") is None


@pytest.mark.parametrize("what", HOSTILE)
def test_a_stored_outline_that_is_not_allowed_is_passed_over(what):
    assert silhouette_for("jacket", "front", HOSTILE[what][0]) is all_silhouettes()["jacket", "front"]


def test_a_version_is_drawn_on_the_own_outline_with_its_parts_in_its_cloth_and_on_its_card(demo):
    put("BLO")
    facts = type_facts("BLO")
    front, back = figures_of(facts, facts.versions["BLO-71"])[:2]

    assert MARK in front.svg
    assert MARK not in back.svg
    assert 'data-part="collar:' in front.svg
    # The outline is filled with the recorded cloth; a card, which no style sheet reaches, has its strokes written out.
    assert re.search(rf'd="{MARK}" class="c" fill="url\([^)]*\)"', front.svg)
    # They come out as wide as the site's, 8 units of the card, and dashes too fine for it are left away as there.
    card = file_of(facts, facts.versions["BLO-71"], "front")
    body = silhouette_for("jacket", "front")
    width = 8 / min(body.width / 50, body.height / 40)
    assert f'd="{MARK}" fill="#fff" stroke-width="{width:.3g}"' in card
    assert "M1 36H49" in front.svg
    assert "M1 36H49" not in card


def test_a_type_of_a_class_unknown_to_the_site_gets_its_figure_question_and_board(client, db):
    belt = make_type("BEL", garment_class="belt")
    make_feature("buckle", types=[belt], seen="outside").places.create(view="front", region="middle")
    make_version(belt, "BEL-1")
    make_version(belt, "BEL-2")
    assert drawn_views(type_facts("BEL")) == []
    put("BEL")

    assert drawn_views(type_facts("BEL")) == ["front"]
    client.force_login(make_member("Ada", role="author"))
    for address in (
        "/which/BEL/?_ask=buckle",
        "/figures/board/BEL/",
        "/figures/BEL-1/front.svg",
        "/compare/?v=BEL-1&v=BEL-2",
    ):
        assert MARK in text(client, address), address
    assert client.get("/issue-versions/BEL-1/").status_code == 200
    assert site_outline("belt") == ""


def test_the_own_outline_stands_wherever_the_type_is_shown_small_and_is_fetched_only_when_seen(client, demo):
    put("BLO")
    client.force_login(make_member("Ada"))
    for address in ("/garment-types/", "/which/", "/my-pieces/new/"):
        page = text(client, address)
        others = [code for code in codes("type") if f"/figures/{code}/outline.svg" in page]

        assert others == ["BLO"], address
        assert 'src="/figures/BLO/outline.svg" alt="" width="84" height="84" loading="lazy"' in page
        assert page.count('<svg class="part"') == len(codes("type")) - 1, "the others have the site's, in the page"
    drawn = client.get("/figures/BLO/outline.svg")
    assert drawn["Content-Type"] == "image/svg+xml"
    assert MARK in drawn.content.decode()
    assert client.get("/figures/NONE/outline.svg").status_code == 404


def test_a_type_is_shown_small_in_the_first_view_that_anybody_drew(client, demo):
    """A back of the society's own does not push the site's front away; of a class unknown to the site it is all."""
    put("BLO", "back")
    belt = make_type("BEL", garment_class="belt")
    put("BEL", "back")

    page = text(client, "/garment-types/")
    assert "/figures/BLO/outline.svg" not in page
    assert f'/figures/{belt.code}/outline.svg"' in page
    assert MARK in text(client, "/figures/BEL/outline.svg")


def test_the_guide_of_a_photograph_is_drawn_on_the_own_outline(demo):
    put("BLO")
    facts = type_facts("BLO")

    assert MARK in shot_guide(facts, "front", None, {}).svg
    assert MARK not in shot_guide(facts, "back", None, {}).svg
    assert shot_guide(facts, "moon", None, {}) is None


def test_the_tables_hold_one_outline_a_view_and_no_unknown_view(db):
    make_type("T")
    put("T")
    for view in ("front", "any", "moon"):
        with pytest.raises(IntegrityError), transaction.atomic():
            put("T", view)


def test_outlines_come_in_and_go_out_as_spreadsheets(db, tmp_path):
    make_type("T")
    put("T", "front", PLAIN)
    export_reference(tmp_path)
    exported = (tmp_path / "silhouettes.csv").read_bytes()
    OwnSilhouette.objects.all().delete()

    import_reference(folder=tmp_path)
    import_reference(folder=tmp_path)
    export_reference(tmp_path)

    assert OwnSilhouette.objects.get().drawing == PLAIN
    assert (tmp_path / "silhouettes.csv").read_bytes() == exported


@pytest.mark.parametrize(
    ("row", "said"),
    [
        ("T,moon,<svg viewBox='0 0 1 1'><path d='M0 0H1'/></svg>", "one of front, back"),
        ("T,front,<svg viewBox='0 0 1 1'><script/></svg>", "“script” is not allowed"),
        ("T,front,", "drawing"),
        ("X,front,<svg viewBox='0 0 1 1'><path d='M0 0H1'/></svg>", "a code of types.csv"),
    ],
)
def test_a_faulty_outline_is_named_and_nothing_comes_in(db, tmp_path, row, said):
    make_type("T")
    (tmp_path / "silhouettes.csv").write_text(f"type,view,drawing\n{row}\n", encoding="utf-8")

    with pytest.raises(FaultyFolder) as refused:
        import_reference(folder=tmp_path)

    assert said in str(refused.value)
    assert OwnSilhouette.objects.count() == 0
