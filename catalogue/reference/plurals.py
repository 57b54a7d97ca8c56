"""Numbers with their nouns, and lists that may be long."""

from collections.abc import Sequence


def counted(number: int, one: str, many: str = "") -> str:
    """`1 feature`, `2 features`, `0 features`; `many` for a plural that is no mere s."""
    return f"{number} {one if number == 1 else many or f'{one}s'}"


def some_of(names: Sequence[str], most: int = 6) -> str:
    """`E1, E2`; of more than `most` the first and how many more."""
    more = len(names) - most
    return ", ".join(names[:most]) + (f" and {more} more" if more > 0 else "")
