"""What a code may look like. Codes stand in addresses and in lists inside spreadsheet cells as they are."""

import unicodedata

from django.core.exceptions import ValidationError

from catalogue.reference.words import RESERVED_ANSWERS

LONGEST = 80
FORBIDDEN = ",;|:"


def fault_in_code(code: str) -> str | None:
    """What is wrong with `code`, in words, or None.

    A code has 1 to 80 printable characters, no white space, none of , ; | : and does not begin with `_`,
    which is kept for parameters of the site's own.
    """
    if not code:
        return "a code is missing"
    if len(code) > LONGEST:
        return f"a code has at most {LONGEST} characters"
    if code.startswith("_"):
        return "a code does not begin with _"
    if any(c.isspace() or c in FORBIDDEN or unicodedata.category(c).startswith("C") for c in code):
        return f"a code has no spaces and none of {' '.join(FORBIDDEN)}"
    if code in RESERVED_ANSWERS or code in ("-", "?", ".", ".."):
        return f"{code} is a word of the site's own"
    return None


def validate_code(code: str) -> None:
    """Django's validator for the same rule."""
    if fault := fault_in_code(code):
        raise ValidationError(f"Not a usable code: {fault}.")
