"""The flats' own SVG read as points, against what geometry says of such curves."""

from math import hypot, pi

import numpy as np
import pytest

from catalogue.figures.composing import composed
from catalogue.figures.pen import Pen
from catalogue.figures.profiles import shown_of
from catalogue.figures.silhouettes import all_silhouettes
from catalogue.member_examples.demo_photographs.shapes import LONGEST, shapes_of
from catalogue.reference.snapshots import all_types

# A quarter of a circle by one cubic curve; its error is at most 0.027 % of the radius (Goldapp, "Approximation of
# circular arcs by cubic polynomials", CAGD 8, 1991; from memory).
K = 4 / 3 * (2**0.5 - 1) * 100


def path(data: str) -> np.ndarray:
    [shape] = shapes_of(f'<path class="o" d="{data}"/>')
    return shape.lines[0]


def area(points: np.ndarray) -> float:
    x, y = points.T
    return abs(float(np.sum(x[:-1] * y[1:] - x[1:] * y[:-1])) / 2)


def test_four_cubic_curves_make_a_circle():
    k = K
    points = path(f"M100 0C100 {k:.4f} {k:.4f} 100 0 100C-{k:.4f} 100 -100 {k:.4f} -100 0"
                  f"C-100 -{k:.4f} -{k:.4f} -100 0 -100C{k:.4f} -100 100 -{k:.4f} 100 0Z")  # fmt: skip

    # The short straight lines between the points run a little inside the curve.
    assert max(abs(hypot(x, y) - 100) for x, y in points) < 0.6
    assert area(points) == pytest.approx(pi * 100**2, rel=0.01)


def test_a_quadratic_curve_passes_half_way_between_its_chord_and_its_corner():
    points = path("M0 0Q50 80 100 0L100 100H0Z")

    assert min(hypot(x - 50, y - 40) for x, y in points) < 4
    assert points[:, 1].max() == 100


def test_lines_across_and_down_and_a_second_piece():
    [shape] = shapes_of('<path class="e" d="M10 10H30V40M50 50L60 60"/>')

    assert [tuple(line[-1]) for line in shape.lines] == [(30, 40), (60, 60)]
    assert shape.closed == (False, False)


def test_after_a_piece_is_closed_the_next_may_begin_where_it_began():
    [shape] = shapes_of('<path class="e" d="M0 0L10 0L10 10ZL5 5"/>')

    assert [tuple(line[0]) for line in shape.lines] == [(0, 0), (0, 0)]
    assert shape.closed == (True, False)


def test_no_line_stays_too_long_to_be_bent():
    points = path("M0 0L500 0L500 3Z")

    steps = np.hypot(*np.diff(points, axis=0).T)
    assert steps.max() <= LONGEST


def test_a_rectangle_and_a_circle_have_the_area_they_should():
    square, disc = shapes_of(
        '<rect class="o" x="10" y="20" width="40" height="30"/><circle class="b" cx="5" cy="5" r="4"/>'
    )

    assert area(square.lines[0]) == 1200
    assert area(disc.lines[0]) == pytest.approx(pi * 16, rel=0.07)
    assert disc.round_
    assert not square.round_


def test_the_part_that_a_group_shows_is_known():
    body, part = shapes_of(
        '<g class="body"><path class="o" d="M0 0H9V9Z"/></g>'
        '<g data-part="cuff:tab" data-side="left"><path class="b" d="M0 0H9V9Z"/><text x="1" y="2">R</text></g>'
    )

    assert (body.part, part.part, part.kind) == ("", "cuff", "b")


@pytest.mark.parametrize("data", ["M0 0A5 5 0 0 1 9 9", "m0 0l9 9", "M0 0 S 1 2 3 4"])
def test_what_no_pen_of_ours_writes_is_refused(data):
    with pytest.raises(ValueError, match="Not a path of our pen"):
        shapes_of(f'<path class="o" d="{data}"/>')
    with pytest.raises(ValueError, match="No pen of ours"):
        shapes_of('<ellipse class="o" rx="3" ry="4"/>')


def test_every_flat_of_the_demo_can_be_read(demo):
    read = 0
    for facts in all_types():
        for version in facts.versions.values():
            for garment_class, view in all_silhouettes():
                if garment_class == facts.garment_class:
                    pen = Pen()
                    composed(pen, garment_class, view, shown_of(facts, version))
                    shapes = shapes_of(pen.svg)
                    assert {shape.kind for shape in shapes} <= set("oetfbku")
                    assert all(np.isfinite(line).all() for shape in shapes for line in shape.lines)
                    read += 1
    assert read > 200
