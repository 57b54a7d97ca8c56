"""Pages as a person reads them, and the same as data."""

import json
from html import unescape


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
