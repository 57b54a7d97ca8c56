"""Addresses of pieces and of lists of them, cheap enough to write many on a page."""

from functools import cache
from urllib.parse import quote, urlencode

from django.urls import reverse

from catalogue.reference.addresses import UNQUOTED


@cache
def frame(page: str) -> tuple[str, str]:
    before, _, after = reverse(f"member_examples:{page}", args=["CODE"]).partition("CODE")
    return before, after


def example_address(code: str) -> str:
    before, after = frame("example")
    return f"{before}{quote(code, safe=UNQUOTED)}{after}"


def set_address(code: str) -> str:
    before, after = frame("set")
    return f"{before}{quote(code, safe=UNQUOTED)}{after}"


def gallery_address(**chosen: str | list[str]) -> str:
    """The accepted pieces narrowed by what is given, such as `version="BLO-86", shows="cuff:tab"`."""
    return f"{reverse('member_examples:gallery')}?{urlencode(chosen, doseq=True)}"
