"""The year of one piece within its version."""

import pytest

from identification.dating.change_over import DatedPiece, histories
from identification.dating.piece_year import KnownOfPiece, date_piece
from identification.dating.spans import date_version
from identification.dating.words import piece_sentences

YEARS = [1976, 1977, 1978, 1979, 1980, 1981, 1982, 1983, 1984, 1985, 1986, 1987, 1988, 1989, 1990, 1991]
DATES = date_version(YEARS)
CHANGES = {
    "buttons": histories(
        {"buttons": [DatedPiece(year, "slotted" if year > 1985 else "sewn", "DUN", str(year)) for year in YEARS]}
    )["buttons"].changes
}


def dated(**known):
    return date_piece(KnownOfPiece(**known), DATES, YEARS, CHANGES)


def test_without_anything_known_the_version_alone_speaks():
    found = dated()

    assert found.rests_on == ("version",)
    assert found.first <= 1977
    assert found.last >= 1990
    assert sum(found.shares) == pytest.approx(1)
    assert "label years of approved examples, not issue dates" in piece_sentences(found)[0]


def test_a_changed_detail_narrows_it_to_its_side():
    older, newer = dated(details={"buttons": "sewn"}), dated(details={"buttons": "slotted"})

    assert older.last <= 1987
    assert newer.first >= 1984
    assert "buttons" in older.rests_on
    assert "How buttons are fixed" in piece_sentences(older, {"buttons": "How buttons are fixed"})[0]


def test_a_maker_that_had_closed_and_a_contract_bound_it():
    found = dated(maker="PEL", maker_from=1957, maker_to=1984, contract_year=1980)

    assert found.first >= 1980
    assert found.last <= 1984
    assert {"maker", "contract"} <= set(found.rests_on)


def test_one_year_that_no_label_names_is_only_probable():
    found = dated(maker_from=1980, maker_to=1980)

    assert (found.first, found.last) == (1980, 1980)
    assert piece_sentences(found)[0].startswith("Probably 1980. It rests on the years its maker worked")


def test_a_label_settles_it_and_what_is_against_it_is_named():
    found = dated(label_year=1978, details={"buttons": "slotted"})

    assert (found.first, found.about, found.last) == (1978, 1978, 1978)
    assert found.against == ("buttons",)
    assert dated(label_year=1978, details={"buttons": "sewn"}).against == ()


def test_years_that_nothing_leaves_are_not_invented():
    found = dated(maker_from=2020, maker_to=2030)

    assert found.against == ("maker",)
    assert found.first >= DATES.low


def test_a_late_maker_is_not_dated_by_what_the_others_did():
    rows = [DatedPiece(year, "slotted" if year > 1985 else "sewn", "DUN", str(year)) for year in YEARS * 2]
    late = [DatedPiece(year, "sewn", "GAR", f"G{year}") for year in (1984, 1987, 1988, 1989, 1990, 1991)]
    changes = {"buttons": histories({"buttons": rows + late})["buttons"].changes}

    known = KnownOfPiece(maker="GAR", details={"buttons": "sewn"})
    assert date_piece(known, DATES, YEARS, changes).rests_on == ("version",)


def test_a_higher_level_is_never_narrower():
    wide = date_piece(KnownOfPiece(), DATES, YEARS, level=0.99)
    narrow = date_piece(KnownOfPiece(), DATES, YEARS, level=0.5)

    assert wide.first <= narrow.first <= narrow.about <= narrow.last <= wide.last
