"""The comparison of a disputed pair shows what each side holds, and on what."""

import re
from dataclasses import replace

import pytest
from django.template.loader import render_to_string

from catalogue.reference.snapshots import type_facts
from catalogue.templatetags.drawings import compared_figures
from tests.reading import text, words

pytestmark = pytest.mark.django_db


def test_both_opinions_of_a_disputed_pair_stand_on_their_comparison_with_holders_and_sources(client, demo):
    page = text(client, "/compare/?v=BLO-57&v=BLO-64G")
    said = words(page)

    assert "Open question: Is there a Pattern 64 blouse?" in said
    assert "Turnstone holds: Four pieces have a different hand and the tender of 1964 asks for one. S05 S40" in said
    assert "Plover holds: The tender may never have been filled" in said
    assert "Meanwhile: Keep the record, marked unplaced; show both views." in said
    assert 'href="/sources/S40/"' in page


def test_a_settled_dispute_shows_the_view_that_lost_beside_the_one_that_stands(client, demo):
    said = words(text(client, "/compare/?v=COA-54&v=COA-67"))

    assert "Godwit holds: First edition of the book says 1966. S39" in said
    assert "Plover holds (this stands): Earliest dated label is 1967" in said
    assert "Decided: Date changed; old value kept in the history." in said


def test_a_question_about_one_of_the_two_is_only_named(client, demo):
    said = words(text(client, "/compare/?v=BLO-94&v=BLO-71"))

    assert "Settled question about BLO-94: One version or two (by maker)?" in said
    assert "Ruff holds" not in said


def test_a_view_without_a_source_says_so(client, demo):
    assert "Treated ones feel drier. No source is named." in words(text(client, "/compare/?v=COA-85&v=COA-85R"))


def test_where_no_drawing_shows_what_differs_the_comparison_says_so_in_words(demo):
    coats = type_facts("COA")
    felled = coats.versions["COA-85"]
    seams = (replace(felled.cells["main_seam"][0], state="overedged"),)
    overedged = replace(felled, code="COA-92", cells=felled.cells | {"main_seam": seams})

    def compared(*versions, differing: set[str]) -> str:
        return render_to_string("figures/compared.html", compared_figures([coats] * 2, versions, differing))

    said = compared(felled, overedged, differing={"main_seam"})
    assert "The drawings are alike; none shows what differs: main seams." in words(said)

    said = compared(felled, coats.versions["COA-54"], differing={"collar", "hand"})
    assert "drawings are alike" not in said
    assert f"Not marked on the drawings: {coats.features['hand'].name.lower()}." in words(said)

    plain = replace(felled.cells["cloth_pattern"][0], state="plain_dyed")
    said = compared(
        felled, replace(felled, cells=felled.cells | {"cloth_pattern": (plain,)}), differing={"cloth_pattern"}
    )
    assert "drawings are alike" not in said
    assert "Not marked on the drawings: pattern (colourway)." in words(said)


def test_what_only_some_pieces_of_one_version_have_is_marked_on_the_comparison(client, demo):
    """Side tabs are on some blouses of 1971 and on none of 1957; the cord that both may have is not marked."""
    page = text(client, "/compare/?v=BLO-57&v=BLO-71")

    assert "drawings are alike" not in page
    assert re.search(r'data-part="waist_draw:tabs"[^>]* class="unsure changed"', page)
    assert not re.search(r'data-part="waist_draw:cord_in"[^>]* class="[^"]*changed', page)
    assert '<span class="second" data-second="waist_draw:cord_in">' in page
    assert "waist adjustment" in re.search(r'class="marked-parts">Marked:</span>([^<]*)', page).group(1)

    assert 'data-second="front_buttons:n6"' not in page  # either may have it, so it tells nothing
    page = text(client, "/compare/?v=BLO-57&v=BLO-86")
    assert '<span class="second marked-second" data-second="waist_draw:tabs">' in page


def test_a_view_that_marks_only_what_another_has_marked_is_left_out_on_paper(client, demo):
    """The vent under the arm is marked on the front; the two sleeves repeat it for who looks at a screen."""
    page = text(client, "/compare/?v=SMK-76&v=SMK-CC")
    left_out = {
        view: "no-print" in row for row, view in re.findall(r'<tr role="row"([^>]*)><th[^>]*>(\w+ ?\w*) <', page)
    }

    assert "underarm ventilation" in page
    assert not left_out["Front"]
    assert left_out["Right sleeve"]
