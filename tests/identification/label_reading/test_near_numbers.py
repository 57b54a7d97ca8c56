"""What is nearly a number of the society's: it is said what is wrong, and nothing is taken for one."""

import pytest

from identification.label_reading import Context, context_from, read_label
from tests.benchmarks.label_reading import demo_context


def near(text: str, context: Context | None = None) -> list[tuple]:
    """Printed form, then form, reason and candidates of each reading."""
    return [
        (one["as_printed"], [(r["form"], r["reason"], r["candidates"]) for r in one["readings"]])
        for one in read_label(text, context or demo_context())["near_numbers"]
    ]


@pytest.mark.parametrize(("text", "form", "candidates"), [
    ("27-114-066", "stores", ["27-114-06", "27-114-66"]),
    ("27-1145-06", "stores", ["27-114-06", "27-115-06", "27-145-06"]),
    ("27-114-6", "stores", []),
    ("C/14/611", "ledger", ["C/14/11", "C/14/61"]),
    ("T/74/2085", "contract_t", ["T/74/085", "T/74/205", "T/74/208", "T/74/285"]),
    ("CON 1994-12", "contract_con", ["CON 94-12"]),
    # Of all that leave a figure out, one alone keeps the check figure.
    ("271141288", "bar", ["27114128"]),
])  # fmt: skip
def test_a_wrong_count_of_figures_is_said_with_what_it_may_have_been(text, form, candidates):
    answer = read_label(f"BLOUSE\n{text}\nDUNSALLOW 1994", demo_context())

    assert near(f"BLOUSE\n{text}\nDUNSALLOW 1994") == [(text, [(form, "wrong_digit_count", candidates)])]
    assert answer["numbers"] == []
    assert answer["near_numbers"][0]["status"] == "invalid"
    assert answer["date"]["edtf"] == "1994"
    assert answer["label"]["unread"] == ["BLOUSE"]


@pytest.mark.parametrize(("text", "form", "candidate"), [
    ("27 114 06", "stores", "27-114-06"),
    ("27.114.06", "stores", "27-114-06"),
    ("C-14-61", "ledger", "C/14/61"),
    ("T-74-208", "contract_t", "T/74/208"),
    ("CON 94/12", "contract_con", "CON 94-12"),
    ("27-114-12-8", "bar", "27114128"),
])  # fmt: skip
def test_other_signs_between_the_figures_are_said_and_not_mended(text, form, candidate):
    assert near(text) == [(text, [(form, "bad_grouping", [candidate])])]
    assert read_label(text, demo_context())["numbers"] == []


def test_a_run_that_two_forms_nearly_are_has_a_reading_of_each():
    assert near("2711406") == [
        ("2711406", [("bar", "wrong_digit_count", []), ("stores", "bad_grouping", ["27-114-06"])])
    ]
    assert near("ARTICLE 2711406 OF THE LIST") == []


@pytest.mark.parametrize("text", [
    "27-114-06", "C/14/61", "27114128", "T/74/208", "CON 94-12", "12-05-61", "180/104", "8415-12-345-6789",
    "27-1", "2-1-5", "274-1144-06", "BLOUSE WORKING", "TRIAL 59 / No. 12", "65% POLYESTER 35% COTTON", "C/14",
])  # fmt: skip
def test_what_is_a_number_or_is_far_from_one_is_not_nearly_one(text):
    assert near(text) == []


def test_what_is_near_follows_from_the_form_alone():
    """Another society's form: two letters of its own and a check rule."""
    form = {"form": "own", "name": "Own number", "pattern": "QX(99).(9{3-4})", "check_rule": "group 2 is not 0"}
    context = context_from({"number_forms": [form]}, 2026)

    likely = ["QX12.1234", "QX12.1235", "QX12.1245", "QX12.1345", "QX12.2345"]

    assert near("QX12.12345", context) == [("QX12.12345", [("own", "wrong_digit_count", likely)])]
    assert near("QX12.0000", context) == []
    assert near("QX12-123", context) == [("QX12-123", [("own", "bad_grouping", ["QX12.123"])])]


def test_several_labels_keep_theirs_apart():
    answer = read_label("27-114-066\n---\nC-14-61", demo_context())

    assert [(one["as_printed"], one["label_no"]) for one in answer["near_numbers"]] == [
        ("27-114-066", 1), ("C-14-61", 2)
    ]  # fmt: skip
