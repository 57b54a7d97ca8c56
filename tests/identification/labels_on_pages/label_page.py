"""The label page, read and as a person sees it."""

import re
from html import unescape

from tests.reading import words

PAGE = "/label/"
LEDGER = "BLOUSE WORKING\nSIZE 4\nC/14/61\nDUNSALLOW 1961"


def read(client, text: str, **more) -> str:
    response = client.post(PAGE, {"text": text, **more})
    assert response.status_code == 200
    return response.content.decode()


def said(html: str) -> str:
    """What a page says, entities as letters."""
    return unescape(words(html))


def versions_in(html: str) -> list[str]:
    part = html.split('id="versions"')[1].split('id="type-it"')[0]
    return [piece.split("<")[0] for piece in part.split('class="code">')[1:]]


def chances_of_walk(client, html: str) -> dict[str, float]:
    """What the walk that the page leads to makes of the same label."""
    address = unescape(re.search(r'href="(/which/[A-Z]+/)(\?[^"]*)"', html)[0])[6:-1]
    path, query = address.split("?")
    return dict(client.get(f"{path.rstrip('/')}.json?_accepted=yes&{query}").json()["posterior"])
