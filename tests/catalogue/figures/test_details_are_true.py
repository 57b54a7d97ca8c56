"""The close-up pictures say what their state says: the weave's rule, the number of stitches, the side of a label."""

import re
from itertools import product

import pytest

from catalogue.figures.composing import Shown, composed, picture
from catalogue.figures.parts.weaves import COLUMNS, ROWS, RULES, floats
from catalogue.figures.pen import Pen


# The definitions of the basic weaves as ISO 3572 has them (from memory), their figures as the trade counts them.
@pytest.mark.parametrize(
    ("weave", "over", "under"), [("plain", 1, 1), ("twill22", 2, 2), ("herringbone", 2, 2), ("drill", 3, 1)]
)
def test_an_upright_yarn_goes_over_and_under_as_its_weave_is_counted(weave, over, under):
    for col in range(COLUMNS):
        row_of_yarn = [RULES[weave](col, row) for row in range(24)]
        whole = [last - first + 1 for first, last in floats(row_of_yarn) if first > 0 and last < 23]
        gaps = [last - first + 1 for first, last in floats([not up for up in row_of_yarn]) if first > 0 and last < 23]
        assert (set(whole), set(gaps)) == ({over}, {under})


def test_a_twill_steps_on_by_one_yarn_in_each_row_and_a_herringbone_turns():
    crossings = list(product(range(COLUMNS), range(ROWS)))
    twill, turning = RULES["twill22"], RULES["herringbone"]
    assert all(twill(col, row + 1) == twill(col + 1, row) for col, row in crossings)
    assert all(turning(col, row) == turning(COLUMNS - 1 - col, row) for col, row in crossings)


def test_the_binding_points_of_a_satin_never_touch():
    bound = {(col, row) for col, row in product(range(24), range(24)) if not RULES["sateen"](col, row)}
    touching = {(col + dx, row + dy) for col, row in bound for dx, dy in product((-1, 0, 1), repeat=2) if dx or dy}
    assert bound
    assert not bound & touching


@pytest.mark.parametrize(("state", "count"), [("s3", 3), ("s4", 4), ("s5", 5)])
def test_as_many_stitches_stand_between_the_marks_of_a_centimetre_as_the_state_says(state, count):
    holes = [float(x) for x in re.findall(r'<circle class="k" cx="([\d.]+)"', picture("stitch_density", state))]
    assert {18, 78} <= set(holes)
    assert len([x for x in holes if 18 < x <= 78]) == count


def test_the_wheel_has_eight_spokes():
    spokes = re.findall(r"M[\d.]+ [\d.]+L[\d.]+ [\d.]+", picture("property_mark", "wheel"))
    assert len(spokes) == 8


def test_the_figures_under_the_bar_code_end_in_their_check_figure():
    """The rule is the invented service's own: the last figure is the sum of the others, tens left out."""
    figures = re.search(r">(\d{8})<", picture("stock_no", "bar")).group(1)
    assert sum(map(int, figures[:-1])) % 10 == int(figures[-1])


def drawn(view: str, feature: str, state: str, garment: str = "jacket", place: str = "label") -> str:
    pen = Pen()
    composed(pen, garment, view, {feature: Shown(feature, state, "always", (("inside", place),))})
    return pen.svg


@pytest.mark.parametrize(("state", "right_half"), [("left_front", True), ("right_front", False)])
def test_a_label_on_one_front_is_drawn_once_with_the_wearers_left_at_the_viewers_right(state, right_half):
    svg = drawn("inside", "label_place", state)
    parts = re.findall(rf'data-part="label_place:{state}"[^>]*><rect class="b" x="([\d.]+)"', svg)
    assert [float(x) > 250 for x in parts] == [right_half]


def test_a_liner_shows_its_quilting_outside_and_a_jacket_hides_it():
    for view in ("front", "back"):
        assert "lining:quilt" in drawn(view, "lining", "quilt", garment="liner", place="back")
        assert "lining:quilt" not in drawn(view, "lining", "quilt", garment="jacket", place="back")
    assert "lining:quilt" in drawn("inside", "lining", "quilt", garment="jacket", place="back")


def test_an_unlined_garment_shows_its_bare_inside():
    assert "lining" not in drawn("inside", "lining", "none", place="back")
