"""What a number that is nearly one of the society's may have been: offered, and typed only by whoever looks again."""

from collections.abc import Iterator
from dataclasses import dataclass

from catalogue.reference.numbers import bare_number
from identification.labels_on_pages.allowed import Carried
from identification.labels_on_pages.explained import visible

MOST_LIKE_IT = 6


@dataclass(frozen=True)
class Suggested:
    """`readings`: each with the whole text as it would be typed. `like_it`: numbers on record that have one figure more
    than is printed; which of them it was the label alone can say."""

    printed: str
    readings: tuple[tuple[str, str], ...]
    like_it: tuple[str, ...]


def suggested(answer: dict, text: str, on_record: dict[str, tuple[Carried, ...]]) -> list[Suggested]:
    """Of each number that is nearly one of the society's, in the order of the label."""
    found = []
    for near in [near for label in answer.get("labels") or [answer] for near in label["near_numbers"]]:
        start, end = near["span"]
        candidates = dict.fromkeys(one for reading in near["readings"] for one in reading["candidates"])
        short = [one["form"] for one in near["readings"] if one["reason"] == "wrong_digit_count" and is_short(one)]
        like = dict.fromkeys(one_figure_more(bare_number(near["as_printed"]), short, on_record))
        found.append(
            Suggested(
                visible(near["as_printed"]),
                tuple((one, text[:start] + one + text[end:]) for one in candidates),
                tuple(like)[:MOST_LIKE_IT],
            )
        )
    return [one for one in found if one.readings or one.like_it]


def is_short(reading: dict) -> bool:
    return reading["digits_found"] < reading["digits_of_form"][0]


def one_figure_more(printed: str, forms: list[str], on_record: dict[str, tuple[Carried, ...]]) -> Iterator[str]:
    for one in sorted((one for rows in on_record.values() for one in rows), key=lambda one: one.number):
        shorter = {one.bare[:at] + one.bare[at + 1 :] for at in range(len(one.bare))}
        if one.form in forms and printed in shorter:
            yield one.number
