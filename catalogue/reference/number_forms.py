"""How a service wrote its numbers, as data: what a form must be to be read, and whether a number is one of it."""

import re

from identification.label_reading.number_patterns import Compiled, FaultyPattern, compiled


def fault_in_form(pattern: str, year_group: int | None, example: str) -> tuple[str, str, str] | None:
    """The column that is wrong, what stands there and what would be right; None where labels can be read by the form.

    A form that cannot be read would be passed over when a label is read, and nobody told.
    """
    try:
        read = compiled(pattern)
    except (FaultyPattern, re.error) as problem:
        return "pattern", pattern, f"a pattern that can be read: {problem}"
    if year_group and year_group > read.exact.groups:
        there = f"1 to {read.exact.groups}" if read.exact.groups else "no group, since the pattern has no brackets"
        return "year_group", str(year_group), f"a group of the pattern: {there}"
    if example and not is_one(read, example):
        return "example", example, f"a number that fits {pattern}"
    return None


def fits(pattern: str, number: str) -> bool:
    """Whether the number is written as the form says. A form that cannot be read refuses none."""
    try:
        return is_one(compiled(pattern), number)
    except (FaultyPattern, re.error):
        return True


def is_one(read: Compiled, number: str) -> bool:
    return bool(read.exact.fullmatch(number))
