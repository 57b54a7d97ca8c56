"""The reader against libraries and tables that others made."""

import csv
import random
import unicodedata

import pytest
from edtf import parse_edtf

from identification.label_reading import Context, read_label
from identification.label_reading.fibre_words import likeness, longer_words, words_like
from identification.label_reading.page import page_of
from identification.label_reading.stock_numbers import passes_ean
from identification.label_reading.tables import LISTS, codifiers, fibre_codes, fibre_words
from tests.identification.label_reading.check_rows import rows_of

BARE = Context(2026)


def test_the_retail_check_is_that_of_the_gs1_tables():
    """python-stdnum: module ean, after the GS1 General Specifications."""
    ean = pytest.importorskip("stdnum.ean")
    generator = random.Random(7)
    numbers = ["".join(generator.choices("0123456789", k=13)) for _ in range(2000)]

    assert {n for n in numbers if passes_ean(n)} == {n for n in numbers if ean.is_valid(n)} != set()


def test_a_gs1_element_string_with_a_stock_number_reads_as_that_number():
    """python-stdnum: module gs1_128, whose table gives application identifier 7001 thirteen figures."""
    gs1 = pytest.importorskip("stdnum.gs1_128")
    element = gs1.encode({"7001": "8415013940215"}, parentheses=True)

    assert read_label(element, BARE)["stock_number"]["value"] == "8415-01-394-0215"


def test_every_date_that_the_reader_writes_is_edtf():
    """edtf 5, an implementation of ISO 8601-2 by the Library of Congress's specification."""
    texts = [
        "1984", "c. 1960", "1984?", "1970s", "Q2 1984", "IV/72", "12/84", "06/03", "3/1/1979", "MAR 1967", "1984/85",
        "KW 23 1984", "circa 1970s", "15 MARCH 1967", "2/79",
    ]  # fmt: skip
    for text in texts:
        date = read_label(text, BARE)["date"]
        written = [date["edtf"]] if date["edtf"] else date["candidates"]
        assert written
        for edtf in written:
            assert str(parse_edtf(edtf)).replace(", ", ",") == edtf, text


def test_quarters_are_not_read_as_months_as_a_text_converter_does():
    """EDTF level 2 codes 33 to 36 are the quarters of a year (ISO 8601-2:2019, 4.8.1.2)."""
    found = [read_label(f"Q{quarter} 1984", BARE)["date"]["edtf"] for quarter in (1, 2, 3, 4)]

    assert found == ["1984-33", "1984-34", "1984-35", "1984-36"]


def test_likeness_is_the_normalised_indel_similarity():
    """rapidfuzz: fuzz.ratio. Short cuts before counting must throw away nothing that is near enough."""
    everything = list(enumerate(fibre_words().items()))
    fuzz = pytest.importorskip("rapidfuzz.fuzz")
    generator = random.Random(3)
    words = sorted(fibre_words())
    for _ in range(3000):
        one = generator.choice(words)
        other = generator.choice(words) if generator.random() < 0.5 else one[:-1] + generator.choice("aeost") + "n"
        assert likeness(one, other) == pytest.approx(fuzz.ratio(one, other))
    for _ in range(60):
        word = generator.choice(words)[:-1] + generator.choice("aeost") + "n"
        near = [(fuzz.ratio(word, known), place, names) for place, (known, names) in everything if len(known) > 4]
        near = sorted((one for one in near if one[0] >= 80), key=lambda one: (-one[0], one[1]))
        assert [one[1:] for one in words_like(word, 80)] == [one[1:] for one in near], word
    assert round(likeness("coton", "cotton")) == 91
    assert round(likeness("polyethylene", "polyester")) == 67
    assert sum(map(len, longer_words().values())) > 200


@pytest.mark.parametrize("character", [chr(c) for c in range(0x110000) if unicodedata.category(chr(c)) == "Nd"][::7])
def test_a_decimal_digit_of_any_script_reads_by_its_unicode_value(character):
    value = unicodedata.decimal(character)

    assert page_of(f"a{character}b").text == f"a{value}b"


@pytest.mark.parametrize("dash", [chr(c) for c in range(0x3000) if unicodedata.category(chr(c)) == "Pd"])
def test_every_unicode_dash_is_a_hyphen(dash):
    """Category Pd of the Unicode database; NFKC alone leaves U+2010 to U+2015 as they are."""
    assert read_label(dash.join(["8415", "12", "345", "6789"]), BARE)["stock_number"]["value"] == "8415-12-345-6789"


def test_the_lists_hold_what_their_sources_say():
    """All 100 country codes of the list of 2026, 83 of them assigned; Annex I of Regulation (EU) No 1007/2011."""
    with (LISTS / "ncb_codes.csv").open(encoding="utf-8", newline="") as file:
        codes = [row["code"] for row in csv.DictReader(file)]
    assert codes == [f"{number:02}" for number in range(100)]
    assert len(codifiers()) == 83
    assert codifiers()["00"].alpha3 == codifiers()["01"].alpha3 == "USA"
    with (LISTS / "fibres.csv").open(encoding="utf-8", newline="") as file:
        numbers = {row["annex_no"] for row in csv.DictReader(file)}
    assert {str(number) for number in range(1, 51)} <= numbers
    many = {code for code, owners in fibre_codes().items() if len(owners) > 1}
    assert many == {"AC", "CA", "EA", "EL", "HA", "LY", "PE"}


def test_the_published_rows_stand_for_themselves():
    published = [row for row in rows_of("checks.csv") if row.id in {"D018", "D026", "D032", "D035", "D037"}]

    assert [row.text for row in published] == [
        "4210-196-5439",
        "5905-00-734-5199",
        "SPM1C1-13-D-1074",
        "DSA-400-66-B-4413",
        "QM-36-030-55-203",
    ]
