"""The same file and near pictures of other pieces are found, others are not, and no draft is given away."""

import pytest

from catalogue.member_examples.models import Photograph
from catalogue.review.examples_queue.likely_duplicates import likely_duplicates
from tests.catalogue.member_examples.pieces import draft, make_society, sent

HASH = 0x0F0F_3C3C_5A5A_1234


@pytest.fixture
def society(db):
    return make_society()


def pictured(piece, digest: str, bits: int | None) -> Photograph:
    files = [{"name": f"{digest}.webp", "longer": 320, "width": 320, "height": 240}]
    return Photograph.objects.create(
        example=piece, width=320, height=240, sha256=digest * 64, perceptual_hash=bits, files=files
    )


def test_the_same_file_comes_first_then_near_pictures_and_none_beyond_four_bits(client, society):
    piece, same, near, far = (sent(society, owner, closure="zip") for owner in (None, society.ben, None, None))
    pictured(piece, "a", HASH)
    pictured(same, "a", HASH)
    pictured(near, "b", HASH ^ 0b1111)
    pictured(far, "c", HASH ^ 0b11111)
    pictured(draft(society, society.ben), "d", HASH)

    assert [(one.code, one.bits, one.same_owner) for one in likely_duplicates(piece)] == [
        (same.code, None, False),
        (near.code, 4, True),
    ]
    client.force_login(society.mo)
    page = client.get(f"/pieces-that-wait/{piece.code}/").content.decode()
    assert "the same file" in page
    assert "4 of 64 bits differ" in page
    assert "Crops, turned pictures" in page


def test_a_hash_with_its_highest_bit_set_is_compared_like_any_other(society):
    piece, other = sent(society, closure="zip"), sent(society, closure="zip")
    pictured(piece, "a", -(2**63))
    pictured(other, "b", -(2**63) + 1)

    assert [one.bits for one in likely_duplicates(piece)] == [1]


def test_a_piece_without_photographs_has_no_duplicates(society):
    pictured(sent(society, closure="zip"), "a", HASH)

    assert likely_duplicates(sent(society, closure="zip")) == []
