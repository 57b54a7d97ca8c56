"""Check rules of number forms, in words and arithmetic."""

import pytest

from identification.label_reading.check_rules import NotUnderstood, keeps_rule

BAR = "group 4 = (sum of all figures of groups 1 to 3) mod 10"


@pytest.mark.parametrize(
    ("rule", "groups", "kept"),
    [
        ("", ["1"], True),
        (BAR, ["27", "114", "12", "8"], True),
        (BAR, ["27", "131", "06", "8"], False),
        ("group 1 is not 0", ["0"], False),
        ("group 1 is not 0", ["4"], True),
        ("group 1 lies between 1 and 40", ["40"], True),
        ("group 1 lies between 1 and 40", ["41"], False),
        ("group 1 lies between 140 and 210 and group 2 between 55 and 140", ["160", "74"], True),
        ("group 1 lies between 140 and 210 and group 2 between 55 and 140", ["160", "20"], False),
        ("group 3 = (3 * group 1 + group 2) mod 7", ["5", "4", "5"], True),
        ("group 3 = (3 * group 1 + group 2) mod 7", ["5", "4", "6"], False),
        ("group 2 = group 1 - 3; group 1 is not 4", ["10", "7"], True),
    ],
)
def test_a_rule_is_kept_or_broken(rule, groups, kept):
    assert keeps_rule(rule, groups) is kept


@pytest.mark.parametrize(
    ("rule", "groups"),
    [
        ("the number looks right", ["1"]),
        ("group 5 is not 0", ["1"]),
        ("group 1 = (2 + ", ["1"]),
        ("group 1 = (2 + 3", ["5"]),
        ("group 1 = 4 mod 0", ["1"]),
        ("group 1 = 2 2", ["2"]),
        ("group 1 is not 0", ["C"]),
    ],
)
def test_a_rule_that_cannot_be_worked_out_says_so(rule, groups):
    with pytest.raises(NotUnderstood):
        keeps_rule(rule, groups)
