"""Every check row holds: published and secondary examples, and rows constructed from a named rule."""

import time

import pytest

from identification.label_reading import context_from, read_label
from tests.identification.label_reading.check_rows import REFERENCE_YEAR, differences, rows_of

ROWS = rows_of("checks.csv") + rows_of("own_rows.csv")


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.id)
def test_a_row_reads_as_expected_and_in_time(row):
    start = time.process_time()
    answer = read_label(row.text, context_from(row.context, REFERENCE_YEAR))
    seconds = time.process_time() - start

    assert differences(row.expected, answer) == []
    assert seconds < row.expected.get("max_seconds", 0.5)


def test_there_are_rows_for_every_field():
    assert len(rows_of("checks.csv")) == 118
    fields = {row.field for row in ROWS}
    assert fields == {"stock_number", "contract", "date", "size", "fibres", "care", "whole_label", "robustness"}


def test_a_wrong_answer_would_be_seen():
    row = next(row for row in ROWS if row.id == "D001")
    answer = read_label(row.text.replace("7625", "7626"), context_from(row.context, REFERENCE_YEAR))

    assert differences(row.expected, answer) != []
    assert differences({"a": [1, 2]}, {"a": [1]}) == [".a: [1] instead of [1, 2]"]
    assert differences({"remark": "any"}, {"remark": ""}) != []
    assert differences({"between": ["a", "b"]}, {"between": ["b", "a"]}) == []
    assert differences({"edtf": None}, {}) == []
