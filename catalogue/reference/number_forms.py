"""How a service wrote its numbers, as data: what a form must be to be read, whether a number is one of it, and how one
that is tried is read."""

import re

from identification.label_reading import Context, Form, read_label
from identification.label_reading.check_rules import fault_in_rule, keeps_rule
from identification.label_reading.number_patterns import Compiled, FaultyPattern, compiled, figures_of_groups

YEAR_FIGURES = ((2, 2), (4, 4))


def fault_in_form(
    pattern: str, year_group: int | None, example: str, check_rule: str = ""
) -> tuple[str, str, str] | None:
    """The column that is wrong, what stands there and what would be right; None where labels can be read by the form.

    A form that cannot be read would be passed over when a label is read, and nobody told.
    """
    try:
        read = compiled(pattern)
    except (FaultyPattern, re.error) as problem:
        return "pattern", pattern, f"a pattern that can be read ({problem})"
    figures = figures_of_groups(pattern)
    if year_group and year_group > read.own_count:
        there = f"1 to {read.own_count}" if read.own_count else "no group, since the pattern has no brackets"
        return "year_group", str(year_group), f"a group of the pattern: {there}"
    if year_group and figures[year_group - 1] not in YEAR_FIGURES:
        return "year_group", str(year_group), f"a group of two or four figures; group {year_group} is none"
    if fault := fault_in_rule(check_rule, figures):
        return "check_rule", check_rule, f"a rule that can be worked out ({fault})"
    if example and not is_one(read, example):
        return "example", example, f"a number that fits {pattern}"
    if example and check_rule and not keeps_rule(check_rule, read.own_groups(read.exact.fullmatch(example).groups())):
        return "example", example, f"a number that keeps the check rule “{check_rule}”"
    return None


def fits(pattern: str, number: str) -> bool:
    """Whether the number is written as the form says. A form that cannot be read refuses none."""
    try:
        return is_one(compiled(pattern), number)
    except (FaultyPattern, re.error):
        return True


def is_one(read: Compiled, number: str) -> bool:
    return bool(read.exact.fullmatch(number))


def tried(form: Form, text: str, this_year: int) -> list[str]:
    """How a label with this text is read by the form alone, in words; the same reader reads labels."""
    answer = read_label(text, Context(this_year, number_forms=(form,)))
    lines = [line for number in answer["numbers"] for line in number_lines(number, form)]
    lines += [line for near in answer["near_numbers"] for reading in near["readings"] for line in near_lines(reading)]
    return lines or [f"“{text}” is not read as a number of this form."]


def number_lines(number: dict, form: Form) -> list[str]:
    meanings = [part.strip().lstrip("0123456789 ") for part in form.groups.split(";")]
    meanings += [""] * len(number["groups"])
    value = number["value"] or " or ".join(number.get("values") or number.get("candidates") or [])
    lines = [f"“{number['as_printed']}” is read as {value}." if value else f"“{number['as_printed']}” is not read."]
    lines += [
        f"Group {place} is {group}{f': {meaning}' if meaning else ''}."
        for place, (group, meaning) in enumerate(zip(number["groups"], meanings, strict=False), 1)
    ]
    if number.get("year"):
        lines.append(f"The year is {number['year']}.")
    elif number.get("years"):
        lines.append(f"The year is {' or '.join(map(str, number['years']))}: none is chosen.")
    elif number.get("years") == []:
        lines.append("No year of those in which the form was in use ends so.")
    reasons = {number.get("reason"), *number.get("reasons", ())}
    if "letters_in_number" in reasons:
        lines.append("Letters that look like figures were taken for them: a person has to confirm it.")
    if "too_many_repairs" in reasons:
        lines.append("Too many letters stand where figures should be.")
    if form.check_rule and "too_many_repairs" not in reasons:
        verb = "breaks" if "check_rule_broken" in reasons else "keeps"
        lines.append(f"It {verb} the rule “{form.check_rule}”.")
    return lines


def near_lines(reading: dict) -> list[str]:
    """What is nearly a number of the form, and what is wrong with it."""
    perhaps = f" Perhaps {' or '.join(reading['candidates'])}." if reading["candidates"] else ""
    if reading["reason"] == "bad_grouping":
        return [f"Nearly one: other signs stand between its figures.{perhaps}"]
    least, most = reading["digits_of_form"]
    wanted = str(least) if least == most else f"{least} to {most}"
    where = f" in group {reading['group']}" if reading["group"] else ""
    return [f"Nearly one: it has {reading['digits_found']} figures{where}, and the form {wanted}.{perhaps}"]
