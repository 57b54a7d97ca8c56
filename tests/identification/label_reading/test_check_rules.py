"""Check rules of number forms, in words and arithmetic."""

import pytest

from identification.label_reading.check_rules import NotUnderstood, fault_in_rule, keeps_rule

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


TWO, THREE, LETTER = (2, 2), (2, 3), None


@pytest.mark.parametrize(
    ("rule", "groups"),
    [
        ("", [TWO]),
        (BAR, [TWO, (3, 3), TWO, (1, 1)]),
        ("group 1 lies between 140 and 210 and group 2 between 55 and 140", [(3, 3), THREE]),
        ("group 3 = (3 * group 1 + group 2) mod 7", [TWO, TWO, (1, 1)]),
        ("group 1 is not 0", [(1, 1)]),
        ("group 1 = sum of the figures in groups 2 to 3", [TWO, LETTER, TWO]),
    ],
)
def test_a_rule_that_numbers_of_the_form_can_keep_has_no_fault(rule, groups):
    assert fault_in_rule(rule, groups) is None


@pytest.mark.parametrize(
    ("rule", "groups", "words"),
    [
        ("the number looks right", [TWO], "“the number looks right” cannot be worked out"),
        ("group 1 is not 0 and nothing else", [TWO], "cannot be worked out"),
        ("group 5 is not 0", [TWO, TWO], "there is no group 5: the pattern has 2"),
        ("group 1 = group 3 mod 7", [TWO, TWO], "there is no group 3"),
        ("group 2 = sum of all figures of groups 1 to 4", [TWO, TWO], "there is no group 3"),
        ("group 1 is not 0", [LETTER], "group 1 has other signs than figures"),
        ("group 1 = (2 + ", [TWO], "cannot be worked out"),
        ("group 1 = 4 mod 0", [TWO], "mod 0"),
        ("group 1 lies between 40 and 1", [TWO], "no number lies between 40 and 1"),
        ("group 1 lies between 100 and 200", [TWO], "no number of 2 figures lies between 100 and 200"),
        ("group 1 lies between 1 and 9", [(3, 3)], None),
        ("group 1 is between 1 and 40; group 2 is funny", [TWO, TWO], "“group 2 is funny” cannot be worked out"),
        ("group 1 is not 0", [], "the pattern has no groups"),
        ("group 1 = 100", [TWO], "no number of 2 figures is 100"),
    ],
)
def test_a_rule_that_says_nothing_or_that_no_number_can_keep_is_told_with_what_is_wrong(rule, groups, words):
    fault = fault_in_rule(rule, groups)

    assert fault is None if words is None else words in fault
