"""The demo society's words for seams, stitches, closures, weaves and sides are those of their published sources.

The texts of ISO 4915, ISO 4916 and ISO 3572 themselves were not read: what stands here was taken from what is named
beside each, and is marked where it is from memory.
"""

import csv

import pytest

from catalogue.figures.figure import figures_of
from catalogue.reference.snapshots import type_of_version
from tests.site_server import DEMO_FOLDER

SEAM_CLASSES = "ISO 4916 by way of JIS L 0121:1984: class 2 lapped, to which felled seams belong; class 3 bound"
STITCH_CLASSES = "ISO 4915 by way of course notes (ecoursesonline.iasri.res.in): class 500 runs over the edge"
SLIDE_FASTENERS = "ASTM D2050, terms of zippers; teeth, chain and slider from memory"
WEAVES = "ISO 3572: plain, twill and satin are the basic weaves; drill as a warp-faced twill: all-about-fabrics.com"
PLAIN = "common practice, no source"
# Feature, state, the words that tell it from every other state of the feature, and whose words they are.
TERMS = [
    ("main_seam", "felled", ("felled", "folded into each other"), SEAM_CLASSES),
    ("main_seam", "bound", ("bound", "folded over the raw edge"), SEAM_CLASSES),
    ("main_seam", "overedged", ("overedged", "round the raw edge"), STITCH_CLASSES),
    ("main_seam", "taped", ("tape", "welded"), PLAIN),
    ("front_closure", "zip", ("slide fastener", "teeth", "slider"), SLIDE_FASTENERS),
    ("zip_teeth", "coil", ("coil", "spiral"), SLIDE_FASTENERS),
    ("zip_teeth", "moulded", ("moulded", "teeth"), SLIDE_FASTENERS),
    ("front_closure", "press_studs", ("snap fasteners", "press studs"), PLAIN),
    ("front_closure", "hook_loop", ("hook-and-loop",), PLAIN),
    ("closure_cover", "fly", ("fly", "second layer"), PLAIN),
    ("button_fix", "shank", ("shank", "behind"), "a general article on buttons (chemicalbusiness.blogspot.com, 2009)"),
    ("bartack", "bartack", ("bartack", "bar of close zigzag"), PLAIN),
    ("weave", "plain", ("plain weave", "over one and under one"), WEAVES),
    ("weave", "sateen", ("satin", "floating"), WEAVES),
    ("weave", "drill", ("drill", "warp-faced twill"), WEAVES),
    ("weave", "herringbone", ("twill", "turns back"), WEAVES),
]


def words_of_states(feature: str) -> dict[str, str]:
    with (DEMO_FOLDER / "states.csv").open(encoding="utf-8-sig", newline="") as file:
        rows = [row for row in csv.DictReader(file) if row["feature"] == feature]
    return {row["state"]: f"{row['label']} {row['explained']}".lower() for row in rows}


@pytest.mark.parametrize(("feature", "state", "words", "source"), TERMS)
def test_a_state_carries_the_words_of_its_source_and_no_rival_carries_them_all(feature, state, words, source):
    carrying = [code for code, said in words_of_states(feature).items() if all(word in said for word in words)]

    assert carrying == [state], source


def test_the_features_that_standards_name_say_which():
    with (DEMO_FOLDER / "features.csv").open(encoding="utf-8-sig", newline="") as file:
        basis = {row["feature"]: row["basis"] for row in csv.DictReader(file)}

    assert "ISO 4916" in basis["main_seam"]
    assert "ISO 4915" in basis["main_seam"]
    assert "ISO 3572" in basis["weave"]
    assert "ASTM D2050" in basis["zip_teeth"]


@pytest.mark.django_db
def test_left_and_right_of_a_view_are_the_wearers(demo):
    """Proper left and proper right, American Institute for Conservation wiki: the sides of who wears it. So on a front
    the wearer's right is at the viewer's left, and on a back it is the other way round."""
    facts = type_of_version("BLO-71")
    views = {figure.view: figure.svg for figure in figures_of(facts, facts.versions["BLO-71"])}

    for view, first in (("front", "right"), ("back", "left")):
        other = {"right": "left", "left": "right"}[first]
        sides = views[view].rsplit('class="sides"', 1)[1]
        assert sides.index(f"</tspan>{first}<") < sides.index(f"</tspan>{other}<")
        assert place_of(sides, first) < place_of(sides, other)


def place_of(sides: str, side: str) -> float:
    before = sides.split(f"</tspan>{side}<")[0]
    return float(before.rsplit('<text x="', 1)[1].split('"')[0])
