"""Numbers with their nouns."""


def counted(number: int, one: str, many: str = "") -> str:
    """`1 feature`, `2 features`, `0 features`; `many` for a plural that is no mere s."""
    return f"{number} {one if number == 1 else many or f'{one}s'}"
