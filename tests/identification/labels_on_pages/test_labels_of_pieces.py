"""From a piece to what its labels say: read on the page of the label, as everything else there."""

import re
from html import unescape

from catalogue.member_examples.models import Example
from tests.reading import words

FORM = re.compile(r'<form method="post" action="/label/" class="no-print">(.*?)</form>', re.DOTALL)
FIELD = re.compile(r'name="([^"]+)" value="([^"]*)"')


def sent_by(client, address: str) -> dict[str, str]:
    form = FORM.search(client.get(address).content.decode())
    return {name: unescape(value) for name, value in FIELD.findall(form[1])} if form else {}


def test_the_labels_of_a_piece_are_read_each_as_one_of_its_own(client, demo_pieces):
    """E089 has the stamp of the depot beside its label (the demo's pieces)."""
    sent = sent_by(client, "/examples/E089/")
    told = unescape(words(client.post("/label/", sent).content.decode()))

    assert sent["type"] == "SHI"
    assert "mended or altered the piece: it did not make it." in told
    assert "Shirt, Pattern 68, depot-shortened sleeves" in told


def test_labels_with_a_name_that_is_not_masked_yet_are_not_sent_on(client, demo_pieces):
    Example.objects.filter(code="E089").update(name_on_label="to_mask")

    assert sent_by(client, "/examples/E089/") == {}
