"""Dated examples drawn: each once, in its year, with the change between, readable without sight."""

import re
import xml.etree.ElementTree as ET

import pytest

from catalogue.figures.change_charts import MOST_STACKED, TypeRow, detail_chart, issuer_chart, span_chart, span_signs
from catalogue.figures.timelines import PHONE
from identification.dating.change_over import DatedPiece, History, Shown, histories
from identification.dating.spans import Documented, date_version

SEWN = [1978, 1979, 1979, 1980, 1981, 1982, 1983, 1984, 1985]
SLOTTED = [1986, 1986, 1987, 1988, 1989, 1990, 1991]
PIECES = [DatedPiece(year, "sewn", "DUN", f"A{n}") for n, year in enumerate(SEWN)] + [
    DatedPiece(year, "slotted", "DUN", f"B{n}") for n, year in enumerate(SLOTTED)
]
LABELS, MAKERS = {"sewn": "Sewn", "slotted": "Slotted"}, {"DUN": "Dunsallow", "GAR": "Garradine"}


def chart(pieces):
    return detail_chart("Buttons", pieces, histories({"b": pieces})["b"], LABELS, MAKERS)


def shapes(svg: str, kind: str) -> list[str]:
    return [one.get("d") for one in ET.fromstring(svg).iter() if one.get("class") == kind]


def words(svg: str) -> str:
    return " ".join(one.text or "" for one in ET.fromstring(svg).iter() if one.tag.endswith(("text", "title", "desc")))


def test_each_dated_example_is_one_mark_and_the_change_stands_between():
    drawn = chart(PIECES)

    assert len(shapes(drawn.svg, "piece")) == len(PIECES)
    assert len(shapes(drawn.svg, "band")) == len(shapes(drawn.svg, "share")) == 1
    assert drawn.signs == ("mark", "change", "share")
    assert "about 1986 (" in words(drawn.svg)
    assert "1979: Sewn, 2 labels (Dunsallow 2)" in words(drawn.svg)


def test_marks_of_a_state_stand_left_of_those_that_replaced_it():
    edges = [float(re.match(r"M([\d.]+)", path)[1]) for path in shapes(chart(PIECES).svg, "piece")]
    band = float(re.match(r"M([\d.]+)", shapes(chart(PIECES).svg, "turn")[0])[1])

    assert max(edges[: len(SEWN)]) < band < min(edges[len(SEWN) :])


def test_a_cross_stays_so_large_on_a_phone_that_it_is_no_square():
    """Eighty years on the width of a phone leave three for a mark: the arms of a cross in it would run together."""
    states = ["sewn"] * 20 + ["slotted"] * 20
    pieces = [DatedPiece(1910 + 2 * place, state, "DUN", f"p{place}") for place, state in enumerate(states)]
    pieces.append(DatedPiece(1985, "sewn", "DUN", "odd"))
    drawn = detail_chart("Buttons", pieces, histories({"b": pieces})["b"], LABELS, MAKERS, PHONE)
    arms = [abs(float(one)) for one in re.findall(r"l(-?[0-9.]+) ", " ".join(shapes(drawn.svg, "odd")))]

    assert arms
    assert min(arms) >= 9
    assert all("h3v3" in one for one in shapes(drawn.svg, "piece"))


def test_a_maker_apart_is_hollow_and_an_odd_piece_a_cross():
    late = [DatedPiece(year, "sewn", "GAR", f"G{year}") for year in (1983, 1984, 1987, 1988, 1989, 1990, 1991)]
    drawn = chart([*PIECES, *late, DatedPiece(1976, "slotted", "DUN", "odd")])

    assert len(shapes(drawn.svg, "apart")) == len(late)
    assert len(shapes(drawn.svg, "odd")) == 1
    assert drawn.signs == ("mark", "apart", "odd", "change", "share")


def test_more_than_can_be_stacked_are_counted():
    pieces = [DatedPiece(1980, "sewn", "DUN", str(n)) for n in range(40)]
    drawn = chart(pieces)

    assert len(shapes(drawn.svg, "piece")) == MOST_STACKED - 1
    assert f"+{40 - MOST_STACKED + 1}" in words(drawn.svg)


def test_without_a_change_there_is_no_band_and_without_pieces_no_chart():
    assert shapes(chart(PIECES[:5]).svg, "band") == []
    assert chart([]) is None


def test_words_of_a_record_cannot_break_the_drawing():
    drawn = detail_chart("<b>", [DatedPiece(1980, "s")], History(Shown.TOO_FEW, 1), {"s": "a <i> & “b”" * 30}, {})

    assert "<i>" not in drawn.svg
    ET.fromstring(drawn.svg)


def test_nothing_in_a_drawing_is_styled_inline():
    for svg in (chart(PIECES).svg, span_chart("v", date_version(SEWN), SEWN)):
        assert " style=" not in svg


def test_a_span_is_solid_where_it_was_seen_and_dashed_beyond():
    many = [*SEWN, *range(1970, 1978)]
    svg = span_chart("BLO", date_version(many), many)

    assert len(shapes(svg, "sure")) == 1
    assert len(shapes(svg, "about")) == 2
    assert len(shapes(svg, "piece")) == len(many)
    assert "Production probably within" in words(svg)


@pytest.mark.parametrize("years", [[1980, 1981], [1980, 1981, 1984]])
def test_too_few_labels_have_a_question_mark_at_each_end_and_no_dashes(years):
    dates = date_version(years)
    svg = span_chart("BLO", dates, years)

    assert shapes(svg, "about") == []
    assert svg.count(">?</text>") == 2
    assert span_signs(dates) == ("mark", "sure", "unknown")
    assert "Production probably within" not in words(svg)


def test_types_of_an_issuer_stand_on_the_same_years():
    changed = histories({"b": PIECES})["b"]
    rows = [
        TypeRow("Blouse", "/a/", tuple(PIECES), changed, "changed"),
        TypeRow("Cap", "/b/", (DatedPiece(1960, "sewn"),), History(Shown.TOO_FEW, 1), "too few"),
    ]
    svg = issuer_chart("Buttons", rows)

    assert len(shapes(svg, "sure")) == len(shapes(svg, "about")) == len(shapes(svg, "hollow")) == 1
    assert "Cap: too few" in words(svg)
    assert issuer_chart("Buttons", []) == ""


def test_a_state_that_returned_has_its_bar_again():
    back = [DatedPiece(year, "sewn", "DUN", f"C{year}") for year in range(1995, 2004)]
    pieces = tuple(PIECES + back)
    svg = issuer_chart("Buttons", [TypeRow("Blouse", "/a/", pieces, histories({"b": pieces})["b"], "words")])
    bars, outlined = shapes(svg, "sure"), shapes(svg, "hollow")

    assert len(bars) == 2
    assert float(re.search(r"M([\d.]+)", bars[1])[1]) >= float(re.search(r"H([\d.]+)", outlined[0])[1])


def test_the_interval_is_drawn_from_the_year_that_is_told():
    dates = date_version([2005, 2008, 2009], Documented(not_before=1952, not_after=2009))
    told = words(span_chart("LIN", dates, [2005, 2008, 2009]))

    assert dates.low < 1975
    assert "1975" in told.split("Production probably")[-1].split(".", 1)[1]
