"""What fills a flat's cloth: a hatch of its own for each colour, a motif for each print, light and faint."""

import csv
import gzip
from xml.etree import ElementTree

import pytest
from django.conf import settings

from catalogue.figures.cloth_fills import fill_for


def demo_states(feature: str) -> list[str]:
    with open(settings.BASE_DIR / "fixtures/demo_society/states.csv", encoding="utf-8-sig") as file:
        return [row["state"] for row in csv.DictReader(file) if row["feature"] == feature]


PROFILES = [
    {"cloth_pattern": print_, "colour": colour}
    for print_ in demo_states("cloth_pattern")
    for colour in demo_states("colour")
]


@pytest.mark.parametrize("profile", PROFILES, ids=lambda profile: "-".join(profile.values()))
def test_a_fill_is_one_well_formed_pattern_of_at_most_250_bytes(profile):
    markup, reference = fill_for(profile, "c1")
    if not markup:
        assert (profile, reference) == ({"cloth_pattern": "plain_dyed", "colour": "mix"}, "")
        return
    tree = ElementTree.fromstring(markup)
    assert (tree.tag, tree.get("id"), reference) == ("pattern", "c1", "url(#c1)")
    assert len(gzip.compress(markup.encode(), 9)) <= 250


def test_every_colour_of_plain_cloth_has_a_hatch_of_its_own():
    colours = [colour for colour in demo_states("colour") if colour != "mix"]
    fills = {fill_for({"cloth_pattern": "plain_dyed", "colour": colour}) for colour in colours}
    assert len(fills) == len(colours)


def test_a_print_hides_the_hatch_of_its_ground():
    fills = {fill_for({"cloth_pattern": "ling", "colour": colour}) for colour in demo_states("colour")}
    assert len(fills) == 1
    assert fills != {fill_for({"cloth_pattern": "shingle"})}


def test_seams_stay_readable_over_a_fill_because_its_lines_are_faint():
    for profile in PROFILES:
        markup, _ = fill_for(profile)
        if markup:
            lines = ElementTree.fromstring(markup).find("path")
            assert float(lines.get("stroke-opacity")) <= 0.35


def test_nothing_is_filled_where_neither_print_nor_colour_is_recorded():
    assert fill_for({}) == ("", "")
    assert fill_for({"cloth_pattern": "plain_dyed"}) == ("", "")
