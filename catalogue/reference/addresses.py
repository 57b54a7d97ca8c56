"""Addresses of records, cheap enough to write fifty on a page."""

from functools import cache
from urllib.parse import quote

from django.urls import reverse

# What RFC 3986, section 3.3, allows in a path as it is; Django's `reverse` leaves the same signs alone.
UNQUOTED = "/~:@!$&'()*+,;="
UNRESERVED = "~"


@cache
def frame(page: str) -> tuple[str, str]:
    """What stands before and behind the code in an address."""
    before, _, after = reverse(f"reference:{page}", args=["CODE"]).partition("CODE")
    return before, after


def address_of(page: str, code: str) -> str:
    """The address of a record: `page` is the name of its page within the reference, such as "version"."""
    before, after = frame(page)
    return f"{before}{quote(code, safe=UNQUOTED)}{after}"


def comparison_address(*codes: str) -> str:
    """The comparison of these versions."""
    chosen = "&".join(f"v={quote(code, safe=UNRESERVED)}" for code in codes)
    return f"{reverse('reference:compare')}?{chosen}"
