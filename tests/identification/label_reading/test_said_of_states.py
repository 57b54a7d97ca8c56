"""What a state's label says: read, checked, and compared with what was read on a label."""

import pytest

from identification.label_reading.said_of_states import Signs, is_said, label_says_of


@pytest.mark.parametrize(
    ("says", "signs", "expected"),
    [
        ("size:size_pair | size:letter", Signs(sizes=("letter",)), True),
        ("size:size_pair", Signs(sizes=("size_number",)), False),
        ("fibres:cotton", Signs(cloths=({"cotton": 100},)), True),
        ("fibres:cotton", Signs(cloths=({"cotton": 67, "polyester": 33},)), False),
        ("fibres:polyester, cotton 60-70", Signs(cloths=({"cotton": 67, "polyester": 33},)), True),
        ("fibres:cotton 60-70, polyester", Signs(cloths=({"cotton": 50, "polyester": 50},)), False),
        ("fibres:cotton 60-70, polyester", Signs(cloths=({"cotton": None, "polyester": None},)), True),
        ("fibres:baumwolle", Signs(cloths=({"cotton": 100},)), True),
        ("country:Oskervane", Signs(country="OSKERVANE"), True),
        ("country:Oskervane", Signs(), False),
        ("", Signs(sizes=("letter",), cloths=({"wool": 100},), country="Oskervane"), False),
        ("of no form at all", Signs(sizes=("letter",)), False),
    ],
)
def test_a_state_is_said_by_a_label_that_fits_it(says, signs, expected):
    assert is_said(says, signs) is expected


@pytest.mark.parametrize(
    ("text", "named"),
    [
        ("sizes:4", "sizes:4"),
        ("size:", "size:"),
        ("size:two words", "two words"),
        ("fibres:moonsilk 60", "moonsilk 60"),
        ("fibres:cotton 70-60", "cotton 70-60"),
        ("fibres:cotton 101", "cotton 101"),
        ("fibres:cotton,,", "”"),
    ],
)
def test_what_cannot_be_read_is_named(text, named):
    with pytest.raises(ValueError, match="none of these|not|no percentage") as told:
        label_says_of(text)

    assert named in str(told.value)
