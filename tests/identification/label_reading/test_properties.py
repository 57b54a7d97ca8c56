"""What holds for every text: it never raises, its places are true, its words are declared, and it is quick."""

import json
import random
import time

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from identification.label_reading import LIMIT, REASONS, STATUSES, Context, FaultyContext, context_from, read_label
from tests.benchmarks.label_reading import PIECES, TRUE_LABEL, demo_context, fuzzed

BARE, DEMO = Context(2026), demo_context()
LABELS = st.one_of(
    st.text(max_size=300),
    st.lists(st.sampled_from(PIECES) | st.text(max_size=4), max_size=30).map(" ".join),
    st.lists(st.sampled_from(PIECES), max_size=30).map("".join),
    st.text(alphabet="0123456789OIlBSZ-/. ,%\nXMLQV", max_size=120),
)


def objects_in(answer):
    """Every object of an answer, at every depth."""
    if isinstance(answer, dict):
        yield answer
        for value in answer.values():
            yield from objects_in(value)
    elif isinstance(answer, list):
        for value in answer:
            yield from objects_in(value)


def assert_sound(text: str, answer: dict) -> None:
    json.dumps(answer)
    for item in objects_in(answer):
        if "span" in item:
            start, end = item["span"]
            assert 0 <= start < end <= len(text)
            assert text[start:end] == item["as_printed"]
        if "status" in item:
            assert item["status"] in STATUSES
            reasons = [item["reason"]] if "reason" in item else []
            reasons = item.get("reasons", reasons)
            assert reasons[:1] == ([item["reason"]] if reasons else [])
            assert set(reasons) <= set(REASONS)
            if item["status"] in ("ambiguous", "invalid", "refused"):
                assert item.get("value") is None or item.get("candidates") is not None or "value" not in item or reasons
            assert item.get("characters_changed") != 0
    for piece in answer["label"]["unread"]:
        assert piece == piece.strip() != ""


@settings(max_examples=300, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(LABELS, st.sampled_from([BARE, DEMO]))
def test_any_text_is_read_without_a_fault_and_every_place_is_true(text, context):
    assert_sound(text, read_label(text, context))


@settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(LABELS)
def test_reading_twice_gives_the_same(text):
    assert read_label(text, DEMO) == read_label(text, DEMO)


@settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(st.text(alphabet="abcdefghijkmnpqrstuvwxyz ", max_size=60))
def test_no_figure_is_invented_out_of_words(words):
    answer = read_label(words, BARE)

    assert answer["stock_number"]["status"] == answer["contract"]["status"] == answer["date"]["status"] == "absent"


@settings(max_examples=200, deadline=None)
@given(
    st.integers(1000, 9999),
    st.integers(0, 99),
    st.integers(0, 9999999),
    st.sampled_from(["-", " ", "/", ".", "", "\u2013"]),
)
def test_a_well_formed_number_is_read_digit_by_digit(supply_class, country, serial, separator):
    figures = f"{supply_class:04}{country:02}{serial:07}"
    text = separator.join([figures[:4], figures[4:6], figures[6:9], figures[9:]])
    number = read_label(text, BARE)["stock_number"]

    assert number["value"].replace("-", "") == figures
    assert number["as_printed"] == text


@settings(max_examples=100, deadline=None)
@given(st.integers(1900, 2026), st.integers(1, 12), st.integers(1, 28))
def test_an_iso_date_reads_as_itself(year, month, day):
    text = f"{year}-{month:02}-{day:02}"

    assert read_label(text, BARE)["date"]["edtf"] == text


@settings(max_examples=100, deadline=None)
@given(st.integers(0, 99), st.integers(1900, 2026))
def test_two_figures_list_exactly_the_years_that_fit(figures, earliest):
    date = read_label(f"MFD {figures:02}", Context(2026, earliest_year=earliest))["date"]
    fitting = [f"{year}" for year in range(earliest, 2027) if year % 100 == figures]

    if not fitting:
        assert (date["status"], date["reason"], date["edtf"]) == ("invalid", "future_year", None)
    elif len(fitting) == 1:
        assert (date["status"], date["edtf"]) == ("read", fitting[0])
    else:
        assert (date["status"], date["edtf"], date["candidates"]) == ("ambiguous", None, fitting)


@settings(max_examples=100, deadline=None)
@given(st.lists(st.integers(1, 98), min_size=2, max_size=4))
def test_the_sum_is_what_is_printed(percents):
    names = ["COTTON", "WOOL", "SILK", "JUTE"]
    text = " ".join(f"{percent}% {name}" for percent, name in zip(percents, names, strict=False))
    fibres = read_label(text, BARE)["fibres"]
    stated = [fibre["percent"] for part in fibres["components"] for fibre in part["fibres"]]

    assert stated == percents
    if sum(percents) != 100 and len(fibres["totals"]) == 1 and not (len(percents) > 2 and sum(percents) in (99, 101)):
        assert fibres["status"] == "invalid"
        assert fibres["missing"] == 100 - sum(percents)


@pytest.mark.fuzz
def test_fuzzed_labels_are_read_within_half_a_second_each():
    generator = random.Random(20261125)
    for number in range(300):
        text = fuzzed(generator)
        start = time.process_time()
        answer = read_label(text, DEMO if number % 2 else BARE)
        assert time.process_time() - start < 0.5, text
        assert_sound(text, answer)


@pytest.mark.parametrize(
    ("text", "field", "key", "value"),
    [
        ("\u017fEPT 1974\nMAR 1974", "date", "candidates", ["1974-03", "1974-09"]),
        ("MED\u0131UM \u0130RON", "care", "symbols", [{"group": "ironing", "dots": 2}]),
        ("TUMBLE DRY H\u0131GH", "care", "symbols", [{"group": "drying", "tumble": "normal"}]),
        ("100% WOOL EXCEPT F\u0131VE % NYLON ADDED TO TOE", "fibres", "totals", [100, None]),
        ("100% \u017fILK", "fibres", "totals", [100]),
        ("DRIP DRY, 100% SIL\u212a", "fibres", "totals", [100]),
    ],
)
def test_letters_that_differ_from_plain_ones_by_case_alone_are_those(text, field, key, value):
    """To patterns that ignore case they are the same letter (Unicode's CaseFolding and SpecialCasing)."""
    answer = read_label(text, BARE)

    assert_sound(text, answer)
    assert answer[field][key] == value


def test_a_maker_whose_mark_has_such_a_letter_is_found_as_printed_and_with_plain_letters():
    known = context_from({"makers": [{"maker": "X", "name": "\u0130nce Dok\u0131ma"}]}, 2026)

    for text in ("\u0130NCE DOKIMA", "INCE DOKIMA", "\u0130nce Dok\u0131ma"):
        assert read_label(text, known)["maker"]["code"] == "X"


def test_more_labels_than_one_piece_carries_are_refused_in_words_and_as_many_as_it_may_carry_are_all_read():
    many, too_many = (read_label("\n---\n".join(["1984"] * count), DEMO) for count in (24, 25))

    assert [label["date"]["edtf"] for label in many["labels"]] == ["1984"] * 24
    assert too_many["label"] == {
        **{"status": "refused", "reason": "too_many_labels", "unread": [], "count": 25, "removed": 0},
        **{"length": 25 * 4 + 24 * 5, "limit": 24},
    }
    assert too_many["date"] == {"status": "absent", "edtf": None}


def test_a_text_of_full_length_takes_little_time():
    text = (TRUE_LABEL * 20)[:LIMIT]
    read_label(text, DEMO)
    best = min(timed(text) for _ in range(5))

    assert best < 0.1


def timed(text: str) -> float:
    start = time.process_time()
    read_label(text, DEMO)
    return time.process_time() - start


@pytest.mark.parametrize(
    ("given_context", "words"),
    [
        ([], "an object"),
        ({"reference_year": "1984"}, "reference_year"),
        ({"reference_year": True}, "reference_year"),
        ({"garment": 4}, "garment"),
        ({"number_forms": {}}, "number_forms"),
        ({"number_forms": [{"form": "x"}]}, "pattern"),
        ({"makers": [{"maker": "X"}]}, "name"),
        ({"number_forms": [{"form": "x", "pattern": "9", "year_group": "two"}]}, "year_group"),
    ],
)
def test_knowledge_that_cannot_be_used_is_refused_in_words(given_context, words):
    with pytest.raises(FaultyContext, match=words):
        context_from(given_context, 2026)


@pytest.mark.parametrize("pattern", ["(9", "9)", "((9))", "9{3-1}", "9{0-4}", "9{1-900}", "(A)(A", "[", "\\"])
def test_a_pattern_that_cannot_be_read_reads_nothing_and_harms_nothing(pattern):
    context = context_from({"number_forms": [{"form": "x", "pattern": pattern}]}, 2026)
    answer = read_label("8415-12-345-6789 999", context)

    assert answer["stock_number"]["status"] == "read"
