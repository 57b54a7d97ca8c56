"""The hash of near copies against a general library, and the search against a slower one."""

import random
import time
from io import BytesIO
from itertools import combinations

import imagehash
import numpy as np
import pytest
from PIL import Image

from catalogue.member_examples.demo_photographs.photograph import demo_photograph
from catalogue.member_examples.demo_photographs.piece import DemoPiece
from catalogue.member_examples.photographs.hashing import NEAR, distance, nearest, perceptual_hash
from catalogue.member_examples.photographs.intake import take_in
from catalogue.reference.snapshots import type_facts
from tests.catalogue.member_examples.photographs.pictures import drawn_scene, file_of


@pytest.mark.parametrize("seed", range(30))
def test_the_hash_is_bit_for_bit_that_of_the_imagehash_library(seed):
    """ImageHash 4.3, `phash` with its own settings: 8 by 8 of 32 by 32."""
    image = drawn_scene(seed, 300 + 7 * seed, 260)

    assert perceptual_hash(image) % 2**64 == int(str(imagehash.phash(image)), 16)


def test_what_is_stored_fits_a_signed_column_of_64_bits():
    hashes = [perceptual_hash(drawn_scene(seed, 60, 60)) for seed in range(40)]

    assert all(-(2**63) <= one < 2**63 for one in hashes)
    assert any(one < 0 for one in hashes)
    assert [distance(one, one % 2**64) for one in hashes] == [0] * 40


@pytest.mark.parametrize(
    "change",
    [
        lambda image: file_of(image, quality=40),
        lambda image: file_of(image.resize((300, 225))),
        lambda image: file_of(image.point(lambda value: min(255, value + 12))),
    ],
    ids=["saved at quality 40", "a quarter of the size", "a little brighter"],
)
def test_a_near_copy_is_found(change):
    original = drawn_scene(7)

    one, other = take_in(file_of(original, quality=90)), take_in(change(original))

    assert distance(one.perceptual_hash, other.perceptual_hash) <= NEAR
    assert one.sha256 != other.sha256


def test_of_drawn_blouses_saved_anew_shrunk_or_cut_so_many_are_found_and_no_other_piece_is(demo):
    """Twelve pieces of one garment type in one pose; `python -m tests.benchmarks.photographs drawn` takes sixty. The
    share of cut ones is why the moderators' page says that crops are not found."""
    facts = type_facts("BLO")
    versions, conditions = list(facts.versions.values()), ("unissued", "good", "worn", "poor")
    pieces = [DemoPiece(f"M{n}", facts, {}, versions[n % len(versions)], conditions[n % 4]) for n in range(12)]
    pictures = [Image.open(BytesIO(demo_photograph(piece, "front"))).convert("RGB") for piece in pieces]
    own = [perceptual_hash(picture) for picture in pictures]

    def found(change) -> float:
        near = [
            distance(one, perceptual_hash(change(picture))) <= NEAR for one, picture in zip(own, pictures, strict=True)
        ]
        return sum(near) / len(near)

    def cut(picture, share=0.03):
        across, down = (round(side * share / 2) for side in picture.size)
        return picture.crop((across, down, picture.width - across, picture.height - down))

    rates = {
        "quality 40": found(lambda picture: Image.open(BytesIO(file_of(picture, quality=40)))),
        "a quarter of the size": found(lambda picture: picture.resize([side // 4 for side in picture.size])),
        "3 % cut off": found(cut),
        "a tenth cut off": found(lambda picture: cut(picture, 0.1)),
    }
    others = sum(distance(one, other) <= NEAR for one, other in combinations(own, 2))
    print(rates, f"{others} of {len(own) * (len(own) - 1) // 2} pairs of others")

    assert (rates["quality 40"], rates["a quarter of the size"], others) == (1, 1, 0)
    assert 0.5 <= rates["3 % cut off"] < 1
    assert rates["a tenth cut off"] < 0.25


def test_other_pictures_are_far_apart():
    hashes = [perceptual_hash(drawn_scene(seed, 200, 150)) for seed in range(12)]

    assert min(distance(a, b) for turn, a in enumerate(hashes) for b in hashes[:turn]) > NEAR


def test_the_search_finds_what_looking_at_each_finds():
    chance = random.Random(4)
    sought = chance.getrandbits(64) - 2**63
    known = [chance.getrandbits(64) - 2**63 for _ in range(500)]
    for bits in (0, 1, 4, 4, 5, 9):
        changed = sought
        for bit in chance.sample(range(63), bits):
            changed ^= 1 << bit
        known.insert(chance.randrange(len(known)), changed)

    by_hand = sorted(
        (((one ^ sought) % 2**64).bit_count(), place) for place, one in enumerate(known)
        if ((one ^ sought) % 2**64).bit_count() <= 4
    )  # fmt: skip
    assert nearest(sought, known) == [(place, apart) for apart, place in by_hand]
    assert len(by_hand) == 4
    assert nearest(sought, np.array(known), within=0) == [(known.index(sought), 0)]
    assert nearest(sought, []) == []


def test_among_a_hundred_thousand_the_search_takes_milliseconds():
    known = np.random.default_rng(1).integers(-(2**63), 2**63, 100_000, dtype=np.int64)

    def seconds() -> float:
        began = time.perf_counter()
        assert nearest(int(known[77]), known)[0] == (77, 0)
        return time.perf_counter() - began

    assert min(seconds() for _ in range(5)) < 0.02


def test_a_picture_lying_on_its_side_has_the_hash_of_the_upright_one():
    image = drawn_scene(9)
    turned = BytesIO()
    exif = Image.Exif()
    exif[0x0112] = 6
    image.transpose(Image.Transpose.ROTATE_90).save(turned, "JPEG", quality=95, exif=exif)

    upright = take_in(file_of(image, quality=95)).perceptual_hash
    assert distance(upright, take_in(turned.getvalue()).perceptual_hash) <= 2
