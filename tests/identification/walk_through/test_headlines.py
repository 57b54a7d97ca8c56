"""What stands over a verdict: the kind of piece by its own name, and no more names than a phone can show."""

import pytest

from catalogue.reference.snapshots import type_of_version
from tests.reading import data, read_caution, text, words

pytestmark = pytest.mark.django_db


def address(code: str) -> str:
    """The verdict on a perfect piece of a version."""
    facts = type_of_version(code)
    cells = {f: cells[0].state for f, cells in facts.versions[code].cells.items()}
    return f"/which/{facts.code}/?" + "&".join(f"{f}={state}" for f, state in cells.items()) + "&_stop=yes"


def told(client, page_address: str) -> dict:
    return data(client, page_address.replace("/?", ".json?_accepted=yes&", 1))["next"]


@pytest.mark.parametrize(
    ("code", "kind", "line"),
    [
        ("SMK-59X", "trial", "A trial piece"),
        ("SMK-76T", "transitional", "A transitional piece"),
        ("SMK-CV", "conversion", "A conversion"),
        ("SMK-CC", "commercial_copy", "A commercial copy"),
        ("SMK-76", "issue", "An issued piece"),
    ],
)
def test_a_piece_is_headlined_as_what_its_version_is(client, demo, code, kind, line):
    page = words(text(client, address(code)).partition('class="verdict-kind"')[2].partition("</p>")[0])
    said = told(client, address(code))

    assert said["named"][0] == code
    assert kind in said["version_kinds"]
    assert line.split(" ", 1)[1] in page
    assert said["headline"]["kind"] in page
    assert ("issue" in said["version_kinds"]) == ("issued piece" in page)


def test_versions_of_two_kinds_are_both_named(client, demo):
    said = told(client, address("BLO-57"))

    assert set(said["named"]) == {"BLO-57", "BLO-64G"}
    assert said["version_kinds"] == ["issue", "unplaced"]
    assert said["headline"]["kind"].lower().endswith("an issued piece or a piece not placed yet")


def test_several_long_names_stand_below_the_heading_and_not_in_it(client, demo):
    read_caution(client, "BLO")
    page = text(client, address("BLO-57"))
    heading = words(page.partition("<h1>")[2].partition("</h1>")[0])

    assert heading == "One of two versions"
    assert "Pattern 64" in page.partition('class="verdict-names"')[2].partition("</p>")[0]
