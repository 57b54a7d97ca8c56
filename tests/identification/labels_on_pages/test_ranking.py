"""How the label page ranks versions: by size, country, fibres and the garment that a label names."""

import pytest

from tests.identification.labels_on_pages.label_page import chances_of_walk, read, said, versions_in
from tests.making import make_feature, make_type, make_version

pytestmark = pytest.mark.django_db


@pytest.mark.parametrize(
    "text", ["BLOUSE\n176/100", "BLOUSE\nDUNSALLOW 1986\n176/100", "BLOUSE\nSIZE 4\nDUNSALLOW 1986"]
)
def test_the_page_ranks_by_the_size_as_the_walk_that_it_leads_to_does(client, demo_pieces, text):
    html = read(client, text, type="BLO")
    chances = chances_of_walk(client, html)
    shown = versions_in(html)

    assert shown == sorted(shown, key=lambda code: -chances[code])
    assert "size marking: " in said(html)


def test_a_size_alone_narrows_and_rules_out_what_marks_its_sizes_otherwise(client, demo):
    told = versions_in(read(client, "176/100", type="BLO"))

    assert "BLO-86" in told
    assert not {"BLO-52", "BLO-57"} & set(told)


def test_the_country_of_making_speaks_by_the_places_of_the_makers(client, demo):
    """Vessenholt and Lumvikar lie in Ostrevald, Dunsallow in Oskervane (the demo's makers)."""
    html = read(client, "BLOUSE\nMADE IN OSTREVALD", type="BLO")
    told = said(html)

    assert versions_in(html)[0] == "BLO-94"
    assert "BLO-71" not in versions_in(html)
    assert "made in Ostrevald, where " in told
    assert "_label_country=Ostrevald" in html
    assert "Ostrevald: where it was made." in told
    assert "Not understood" not in told
    assert chances_of_walk(client, html)["BLO-94"] == max(chances_of_walk(client, html).values())


def test_beside_a_known_maker_the_country_counts_no_second_time(client, demo):
    alone, beside = (read(client, text, type="BLO") for text in ("LUMVIKAR", "MADE IN OSTREVALD\nLUMVIKAR"))

    assert "_label_country" not in beside
    assert versions_in(alone) == versions_in(beside)


@pytest.mark.parametrize(("text", "told"), [
    ("MADE IN NOWHERELAND", "nor one where a known maker worked"),
    ("MADE IN OSTREVALD\nMADE IN OSKERVANE", "Two countries stand on it"),
    ("MADE IN FRANCE", "France: where it was made."),
])  # fmt: skip
def test_a_country_that_no_maker_worked_in_says_nothing(client, demo, text, told):
    html = read(client, text)

    assert told in said(html)
    assert versions_in(html) == []


def make_jackets_of_two_cloths() -> None:
    """JAC-1 of cotton, JAC-2 of cotton and polyester, which their labels say."""
    jacket = make_type("JAC", name="Jacket")
    cloth = make_feature("cloth", ("cotton", "mixed"), types=[jacket])
    cloth.states.filter(code="cotton").update(label_says="fibres:cotton")
    cloth.states.filter(code="mixed").update(label_says="fibres:polyester, cotton")
    for code, state in (("JAC-1", "cotton"), ("JAC-2", "mixed")):
        make_version(jacket, code, {cloth: state})


def test_two_compositions_of_no_named_part_are_told_and_rank_nothing(client, db):
    make_jackets_of_two_cloths()
    told = "They differ, and the label does not say of which part"
    two = read(client, "100% COTTON\n60% COTTON 40% POLYESTER")
    named = read(client, "OUTER 100% COTTON\nLINING 60% COTTON 40% POLYESTER")

    assert told in said(two)
    assert versions_in(two) == []
    assert told not in said(named)
    assert versions_in(named)[0] == "JAC-1"


def test_fibres_rank_where_the_society_says_that_labels_name_them(client, db):
    make_jackets_of_two_cloths()

    assert versions_in(read(client, "65% POLYESTER 35% COTTON"))[0] == "JAC-2"
    assert versions_in(read(client, "100% COTTON"))[0] == "JAC-1"
    assert 'name="sewn"' in read(client, "100% COTTON")
    assert versions_in(read(client, "100% WOOL")) == []


def test_the_garment_that_the_label_names_comes_first_and_the_others_stay(client, demo):
    html = read(client, "SMOCK FELL\nGARRADINE 1975")
    told = versions_in(html)

    assert {code[:3] for code in told[:4]} == {"SMK"}
    assert any(code.startswith("BLO") for code in told)
    assert "The label names a garment, so these come first: Fell smock." in said(html)
    assert "come first" not in said(read(client, "GARRADINE 1975"))
    assert "come first" not in said(read(client, "SMOCK FELL\nGARRADINE 1975", type="SMK"))


def test_on_trousers_that_name_themselves_the_size_is_of_the_waist(client, demo):
    assert "waist 84 cm" in said(read(client, "TROUSERS WORKING\n176/84\nEDDLEMUIR"))
    assert "chest 84 cm" in said(read(client, "BLOUSE\n176/84\nEDDLEMUIR"))


def test_one_odd_piece_is_no_reason_for_a_way_to_write_sizes(client, demo_pieces):
    """One accepted BLO-71 is said to have a letter; the copies are what has letters."""
    told = versions_in(read(client, "M", type="BLO"))

    assert told == ["BLO-CC"]
