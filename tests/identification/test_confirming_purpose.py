"""A question that all likely versions answer alike says why it is asked: it confirms them together."""

import pytest

from identification.engine import Ask, CellState, Feature, States, Version, compile_pack, next_step
from identification.engine.stepping import ask_for_version
from tests.reading import data, read_caution, text, words


def cells(letters: str) -> dict:
    return {f"f{place}": (CellState(letter),) for place, letter in enumerate(letters)}


def pack_of(*rows: str):
    features = [Feature(f"f{place}", ("x", "y", "z")) for place in range(len(rows[0]))]
    versions = [Version(f"V{place}", cells(row)) for place, row in enumerate(rows)]
    return compile_pack(features, versions, unrecorded=0.1)


def test_what_tells_likely_versions_apart_is_asked_for_the_version():
    assert next_step(pack_of("xxxx", "yxxx"), {}) == Ask("f0", "version")


def test_what_all_likely_versions_show_alike_is_asked_to_confirm_them():
    """The first two features part the versions, the other two do not."""
    pack = pack_of("xxxx", "yyxx", "zzxx")
    belief = pack.weigh({"f0": States(("x",))})

    assert [ask_for_version(pack, belief, f"f{place}").purpose for place in (1, 2, 3)] == [
        "version",
        "confirm",
        "confirm",
    ]


@pytest.mark.django_db
def test_the_page_says_what_another_answer_would_mean(client, demo):
    read_caution(client, "BLO")
    walk = "weave=herringbone&cuff=tab_button&flap_fastening=button_hidden"
    while (step := data(client, f"/which/BLO.json?_accepted=yes&{walk}")["next"])["page"] == "question":
        if step["purpose"] == "confirm":
            break
        walk += f"&{step['feature']}=cannot-tell"

    assert step.get("purpose") == "confirm"
    said = words(text(client, f"/which/BLO/?{walk}"))
    assert "another answer would say that it is none of them" in said
