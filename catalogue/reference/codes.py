"""What a code may look like. Codes stand in addresses and in lists inside spreadsheet cells as they are."""

import re
import unicodedata

from django.core.exceptions import ValidationError

from catalogue.reference.words import RESERVED_ANSWERS

TYPE, FEATURE = "type", "feature"

LONGEST = 80
FORBIDDEN = ",;|:"
# A garment type's code stands behind /which/, where the site has pages of its own; of a type in front of /key/.
TYPE_WORDS = ("claim", "any-garment")
TYPE_END = "/key"
# A feature's code names a parameter of addresses, and a place on the page of all features.
FEATURE_WORDS = ("v", "main")
# Behind a code stand the pages of its history, and its drawings.
ENDS_LIKE_AN_ADDRESS = re.compile(r"/(history(/\d+)?|[-\w]+\.svg)$", re.ASCII | re.IGNORECASE)
FEATURE_PLACE = re.compile(r"group-\d+", re.ASCII)


def alike(code: str) -> str:
    """Equal for codes that a reader would take for one: capitals or not, however the accents are stored."""
    return unicodedata.normalize("NFC", code).casefold()


def fault_in_code(code: str, kind: str = "") -> str | None:
    """What is wrong with `code`, in words, or None. `kind`: TYPE or FEATURE, whose addresses have further words.

    A code has 1 to 80 printable characters, no white space, none of , ; | : and does not begin with `_`,
    which is kept for parameters of the site's own. Between its strokes stands something that is no dot or two, and it
    does not end as an address of the site does.
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
    if "/" in code and {"", ".", ".."} & set(code.split("/")):
        return "between, before and behind / a code has something other than nothing or dots"
    if found := ENDS_LIKE_AN_ADDRESS.search(code):
        return f"a code does not end in {found[0]}, where the site has a page of its own"
    return fault_in_kind(code, kind)


def fault_in_kind(code: str, kind: str) -> str | None:
    """What would collide with addresses of the site's own, capitals or not."""
    plain = code.casefold()
    if kind == TYPE and plain in TYPE_WORDS:
        return f"{code} is the name of a page of the site's own"
    if kind == TYPE and plain.endswith(TYPE_END):
        return f"a garment type's code does not end in {TYPE_END}, where the site has a page of its own"
    if kind == FEATURE and (plain in FEATURE_WORDS or FEATURE_PLACE.fullmatch(plain)):
        return f"{code} is a word of the site's own in addresses"
    return None


def validate_code(code: str, kind: str = "") -> None:
    """Django's validator for the same rule."""
    if fault := fault_in_code(code, kind):
        raise ValidationError(f"Not a usable code: {fault}.")


def clean_code(code: str, kind: str) -> None:
    """The further words of a kind, for a model's `clean`; what no code may be its field says already."""
    if fault_in_code(code) is None and (fault := fault_in_kind(code, kind)):
        raise ValidationError({"code": f"Not a usable code: {fault}."})
