"""Pages as a person reads them, and the same as data."""

import json
import re
from html import unescape

# Tables of what was worked out, put away at the first visit after a change: a row lost loses nothing.
KEPT_FIGURES = ("catalogue_typehealth", "catalogue_kepthistories")


def text(client, address: str) -> str:
    """The page at the address, which must be there, with its entities as letters."""
    response = client.get(address)
    assert response.status_code == 200, f"{address}: {response.status_code}"
    return unescape(response.content.decode())


def data(client, address: str) -> dict:
    """What the address says as data, which must be there."""
    response = client.get(address)
    assert response.status_code == 200, f"{address}: {response.status_code}"
    return json.loads(response.content)


def read_caution(visitor, *codes: str, site: str = "") -> None:
    """Say of these garment types that their caution was read. `visitor` keeps cookies: a client, or a browser's own
    requests (then with the site's address)."""
    for code in codes:
        visitor.get(f"{site}/which/{code}/")
        visitor.post(f"{site}/which/{code}/")


def words(page: str) -> str:
    """What a page says, without its tags and with one space between words."""
    return re.sub(r"\s+([.,:;])", r"\1", " ".join(re.sub(r"<[^>]+>", " ", page).split()))
