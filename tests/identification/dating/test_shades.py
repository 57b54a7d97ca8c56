"""The exposed and the protected place of one piece; and the colour difference behind it, against published pairs."""

from pathlib import Path

import pytest

from identification.dating.shades import (
    Protected,
    WithinPiece,
    ciede2000,
    compared_by_eye,
    compared_measured,
    two_places_sentence,
)

PAIRS = [
    tuple(map(float, line.split()))
    for line in (Path(__file__).parent / "ciede2000_pairs.txt").read_text(encoding="utf-8").splitlines()
    if not line.startswith("#")
]


@pytest.mark.parametrize("pair", PAIRS, ids=str)
def test_the_colour_difference_is_that_of_the_published_pairs_whichever_way_round(pair):
    """Sharma, Wu and Dalal 2005, Color Research and Application 30:21-30, table 1, printed to four decimals."""
    one, other, published = pair[:3], pair[3:6], pair[6]

    assert ciede2000(one, other) == pytest.approx(published, abs=6e-5)
    assert ciede2000(other, one) == pytest.approx(published, abs=6e-5)


def test_all_published_pairs_are_there():
    assert len(PAIRS) == 34


@pytest.mark.parametrize(
    ("exposed", "protected", "says"),
    [
        ((48.9, -5.7, 14.0), (40.7, -7.5, 16.8), WithinPiece.FADED),
        ((41.5, -6.8, 13.0), (41.0, -7.0, 13.4), WithinPiece.SAME),
        ((41.0, -3.0, 8.0), (41.0, -8.0, 17.0), WithinPiece.FADED),
        ((35.0, -6.0, 13.0), (41.0, -7.0, 13.0), WithinPiece.DARKER_OUTSIDE),
    ],
)
def test_two_measured_places_say_whether_a_piece_faded(exposed, protected, says):
    assert compared_measured(exposed, protected).says is says


def test_what_the_eye_sees_is_said_with_what_it_means():
    said = {seen: two_places_sentence(compared_by_eye(seen)) for seen in Protected}

    assert said[Protected.DEEPER].startswith("Faded: deeper under a flap")
    assert said[Protected.SAME].startswith("The same in both places, so not faded there.")
    assert said[Protected.CANNOT_TELL] == "Cannot tell whether it has faded."
    published = compared_measured((60.2574, -34.0099, 36.2677), (60.4626, -34.1751, 39.4387))  # 1.2644, as above
    assert "Measured 1.3 units apart" in two_places_sentence(published)
