"""What a society's pattern makes of a number: every figure and letter is the one that was printed."""

import re

from hypothesis import given
from hypothesis import strategies as st

from identification.label_reading import context_from, read_label
from identification.label_reading.number_patterns import compiled

# Signs that part groups, and those that stand for figures and letters, in brackets or outside them.
PARTS = st.lists(
    st.sampled_from(["9", "99", "(9)", "(99)", "(9{2-3})", "9{1-2}", "A", "(A)", "X", "\\9", "(C)"]),
    min_size=1,
    max_size=6,
)


def one_of(pattern: str, figures) -> str:
    """A number that the pattern describes."""

    def said(match: re.Match) -> str:
        if match["literal"]:
            return match["literal"]
        if match["low"]:
            most = figures.draw(st.integers(int(match["low"]), int(match["high"])))
            return "".join(figures.draw(st.sampled_from("0123456789")) for _ in range(most))
        if match["sign"] == "9":
            return figures.draw(st.sampled_from("0123456789"))
        return figures.draw(st.sampled_from("BCDFXZ")) if match["sign"] == "A" else match["sign"]

    token = r"\\(?P<literal>.)|9\{(?P<low>\d+)-(?P<high>\d+)\}|(?P<sign>[9A])"
    return re.sub(token, said, pattern.replace("(", "").replace(")", ""))


@given(PARTS, st.data())
def test_the_value_of_a_number_is_the_number(parts, data):
    pattern = "/".join(parts)
    number = one_of(pattern, data)
    read = compiled(pattern)
    match = read.exact.fullmatch(number)

    assert match
    assert read.normal_form(list(match.groups())) == number
    assert len(read.own_groups(match.groups())) == pattern.replace("\\(", "").count("(") == read.own_count
    assert len(read.figure_groups) == len(match.groups())


def test_figures_and_letters_outside_brackets_are_told_as_printed_and_are_no_group_of_the_form():
    form = {"form": "ab", "name": "AB", "pattern": "B/(99)/999-A", "year_group": 1, "years": "1971/2009"}
    (number,) = read_label("B/74/208-K", context_from({"number_forms": [form]}, 2026))["numbers"]

    assert (number["value"], number["groups"], number["year"]) == ("B/74/208-K", ["74"], 1974)
