"""Stock numbers and names as they are compared: without what printing and typing change."""

import unicodedata


def folded(text: str) -> str:
    """Lower case without accents: "Größe" and "grosse" meet. Used on both sides of every search."""
    decomposed = unicodedata.normalize("NFKD", text.casefold())
    return "".join(c for c in decomposed if not unicodedata.combining(c))


def bare_number(number: str) -> str:
    """Letters and figures only, capitals: `c/14-61`, `C 14 61` and `C/14/61` are one number."""
    return "".join(c for c in unicodedata.normalize("NFKC", number).upper() if c.isalnum())


def by_years(first_year: int | None, number: str) -> tuple[int, str]:
    """Where a stock number stands among those of its version: those without a year first, which databases put at either
    end."""
    return first_year or 0, number
