"""Care and fibres on one line: what belongs to which."""

import pytest

from identification.label_reading import read_label
from tests.identification.label_reading.test_demo_labels import demo_context


@pytest.mark.parametrize("words", ["MACHINE WASH", "WASH", "HAND WASH", "WASHABLE"])
@pytest.mark.parametrize("shares", [(95, 5), (65, 35), (30, 70)])
def test_a_share_of_fibre_behind_a_washing_word_is_no_temperature(words, shares):
    answer = read_label(f"{words} {shares[0]}% COTTON {shares[1]} % POLYESTER", demo_context())

    assert not {symbol["max_c"] for symbol in answer["care"]["symbols"]} & set(shares)
    assert answer["fibres"]["status"] == "read"
    assert [fibre["percent"] for part in answer["fibres"]["components"] for fibre in part["fibres"]] == list(shares)


def test_a_temperature_behind_a_washing_word_stays_one():
    answer = read_label("MACHINE WASH 40 65% COTTON 35% POLYESTER", demo_context())

    assert [symbol["max_c"] for symbol in answer["care"]["symbols"]] == [40]
    assert answer["fibres"]["totals"] == [100]
