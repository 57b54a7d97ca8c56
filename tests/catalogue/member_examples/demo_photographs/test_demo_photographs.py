"""Drawn photographs show what is recorded of the piece, say that they are drawn, and pass the site's own intake."""

import subprocess
import sys
from dataclasses import replace
from io import BytesIO
from pathlib import Path

import numpy as np
import pytest
from PIL import Image, ImageDraw, ImageFont

from catalogue.member_examples.demo_photographs import photograph
from catalogue.member_examples.demo_photographs.camera import WORDS
from catalogue.member_examples.demo_photographs.cloths import tile_of
from catalogue.member_examples.demo_photographs.label_shot import RIBBONS
from catalogue.member_examples.demo_photographs.making import draw_each, most_telling
from catalogue.member_examples.demo_photographs.photograph import demo_photograph
from catalogue.member_examples.demo_photographs.piece import LABEL_SHOTS, SHOTS, DemoPiece
from catalogue.member_examples.demo_photographs.wording import Writing, writings_of
from catalogue.member_examples.photographs.intake import take_in_each
from catalogue.reference.snapshots import all_types, type_facts

ROOT = Path(__file__).resolve().parents[4]
LABEL = "BLOUSE WORKING / 27-114-06 / 8 / T/74/85 / DUNSALLOW 1974"


def piece(version: str = "BLO-71", code: str = "E900", **seen: str) -> DemoPiece:
    facts = type_facts(version.split("-")[0])
    return DemoPiece(code, facts, seen, facts.versions[version], "good", LABEL)


def pixels(data: bytes) -> np.ndarray:
    return np.asarray(Image.open(BytesIO(data)).convert("RGB"), dtype=float)


@pytest.fixture
def small_pictures(monkeypatch):
    """Drawn a third as wide, where only what is drawn matters."""
    monkeypatch.setattr(photograph, "LONGER", 320)


def test_every_garment_type_has_a_front(demo, small_pictures):
    for facts in all_types():
        one = DemoPiece("E901", facts, {}, next(iter(facts.versions.values())))
        image = Image.open(BytesIO(demo_photograph(one, "front")))
        assert image.format == "JPEG"
        assert max(image.size) == 320


def test_the_same_piece_gives_the_same_picture_and_another_piece_another(demo):
    first = demo_photograph(piece(), "front")

    assert demo_photograph(piece(), "front") == first
    assert demo_photograph(piece(code="E902"), "front") != first


def test_another_process_draws_the_same_and_order_is_kept(demo):
    wanted = [(piece(), "front"), (piece(), "palm"), (piece(), "main_label")]

    by_others = list(draw_each(wanted, workers=2))

    assert [(one.code, shot) for one, shot, _ in by_others] == [("E900", "front"), ("E900", "main_label")]
    assert by_others == list(draw_each(wanted, workers=1))


def side_of_change(one: bytes, other: bytes) -> float:
    """Where two pictures differ, across: 0 at the viewer's left, 1 at the right."""
    change = np.abs(pixels(one) - pixels(other)).sum(axis=2)
    change[change < 60] = 0
    columns = change.sum(axis=0)
    return float((columns * np.arange(len(columns))).sum() / columns.sum() / len(columns))


def test_a_pocket_on_the_wearers_left_lies_at_the_viewers_right(demo):
    bare = demo_photograph(piece(chest_pockets="none"), "front")

    assert side_of_change(bare, demo_photograph(piece(chest_pockets="left"), "front")) > 0.53
    assert side_of_change(bare, demo_photograph(piece(chest_pockets="right"), "front")) < 0.47


@pytest.mark.parametrize(
    ("colour", "is_so"),
    [
        ("orange", lambda r, g, b: r > g + 40 > b + 60),
        ("slate", lambda r, g, b: b > r + 10),
        ("moss", lambda r, g, b: g > b + 10 and r > b),
        ("yellow", lambda r, g, b: r > b + 60 and g > b + 45),
    ],
)
def test_the_cloth_has_the_colour_that_is_recorded(demo, colour, is_so):
    seen = pixels(demo_photograph(piece(colour=colour, cloth_pattern="plain_dyed"), "front"))

    height, width, _ = seen.shape
    middle = seen[height // 3 : height * 2 // 3, width * 2 // 5 : width * 3 // 5]
    assert is_so(*np.median(middle, axis=(0, 1)))


def test_a_print_shows_its_colours_and_a_copy_prints_it_smaller(demo):
    def roughness(**seen: str) -> float:
        grey = pixels(demo_photograph(piece("SMK-74L", **seen), "back")).mean(axis=2)[200:400, 300:500]
        return float(np.abs(np.diff(grey, axis=1)).mean())

    plain = roughness(cloth_pattern="plain_dyed")
    assert roughness(cloth_pattern="ling", print_repeat="long") > 1.5 * plain
    assert roughness(cloth_pattern="ling", print_repeat="short") > 1.1 * roughness(
        cloth_pattern="ling", print_repeat="long"
    )


@pytest.mark.parametrize("pattern", ["ling", "shingle"])
def test_the_edges_of_a_print_meet(pattern):
    tile = tile_of(pattern)

    for axis in (0, 1):
        inside = np.abs(np.diff(tile, axis=axis)).mean()
        across = np.abs(np.take(tile, 0, axis=axis) - np.take(tile, -1, axis=axis)).mean()
        assert across < 1.6 * inside


def test_every_picture_says_in_itself_that_it_is_drawn(demo):
    """The words are found again by laying them over the corner: light where they should be, dark beside."""
    for shot in ("front", "cuff", "main_label", "seam"):
        picture = Image.open(BytesIO(demo_photograph(piece(), shot))).convert("L")
        font = ImageFont.load_default(max(11, picture.width // 58))
        mask = Image.new("L", picture.size)
        pen = ImageDraw.Draw(mask)
        left, top, right, bottom = pen.textbbox((0, 0), WORDS, font=font)
        x, y = picture.width - (right - left) - 12, picture.height - (bottom - top) - 13
        pen.text((x, y - top + 2), WORDS, font=font, fill=255)
        strip = (x - 4, y, picture.width - 2, picture.height - 2)
        letters = np.asarray(mask.crop(strip), float) / 255
        seen = np.asarray(picture.crop(strip), float)
        assert np.corrcoef(letters.ravel(), seen.ravel())[0, 1] > 0.85
        assert seen[letters > 0.95].mean() - seen[letters < 0.05].mean() > 90


def test_pictures_pass_the_intake_and_stay_small(demo):
    drawn = [
        picture for _, _, picture in draw_each([(piece(), shot) for shot in ("front", "back", "main_label")], workers=1)
    ]

    taken = take_in_each(drawn)

    assert [max(one.width, one.height) for one in taken] == [800, 800, 800]
    assert max(len(one.sizes[800]) for one in taken) < 40_000
    assert len({one.perceptual_hash for one in taken}) == 3


def test_every_standard_shot_is_drawn_or_left_out(demo, small_pictures):
    for shot in (*SHOTS, *LABEL_SHOTS):
        picture = demo_photograph(piece("TRO-74L"), shot)
        assert picture is None or picture.startswith(b"\xff\xd8")
    assert demo_photograph(piece("TRO-74L"), "palm") is None


def label_area(text: str, kind: str = "printed_cotton") -> np.ndarray:
    one = replace(piece(label_kind=kind), label_text=text)
    return pixels(demo_photograph(one, "main_label"))[150:450, 200:600].mean(axis=2)


def test_a_label_is_there_when_the_record_has_one_and_gone_when_it_was_cut_out(demo):
    with_label, without = label_area(LABEL), label_area("(label cut out)")

    assert np.median(with_label) > np.median(without) + 40  # cotton tape is lighter than moss cloth
    assert (with_label < np.median(with_label) - 60).mean() > 0.03  # and has letters on it
    assert (without < np.median(without) - 60).mean() < 0.02


def test_another_text_is_another_picture_and_a_woven_label_is_dark(demo):
    assert np.abs(label_area(LABEL) - label_area(LABEL.replace("74", "81"))).max() > 40
    assert np.median(label_area(LABEL, "woven")) < np.median(label_area(LABEL)) - 60
    assert set(RIBBONS) == {"woven", "printed_cotton", "printed_nylon"}


def test_of_a_piece_that_must_stay_closed_no_label_is_drawn(demo):
    assert demo_photograph(replace(piece(), label_text="(not looked at: do not open)"), "main_label") is None


def test_a_label_text_is_read_as_it_is_recorded():
    assert writings_of("SHIRT WARM STN / 6 // HALLINSCAR REP. (stamp)") == [
        Writing(("SHIRT WARM STN", "6")),
        Writing(("HALLINSCAR REP.",), is_stamp=True),
    ]
    assert writings_of("(illegible: printed cotton, three lines, last figure perhaps 6)") == [Writing((), unreadable=3)]
    assert writings_of("(label cut out)") == [Writing((), missing=True, cut_out=True)]
    assert writings_of("(no label)") == [Writing((), missing=True)]
    assert writings_of("") == []


def test_a_piece_nobody_has_named_is_filled_in_from_the_version_it_is_most_like(demo):
    facts = type_facts("SMK")
    seen = {cell.feature: cell.state for cells in facts.versions["SMK-83S"].cells.values() for cell in cells[:1]}

    unnamed = DemoPiece("E903", facts, seen)

    assert unnamed.likest.code == "SMK-83S"
    assert unnamed.states["cloth_pattern"] == "shingle"


def test_a_detail_of_a_part_that_is_not_there_is_not_drawn(demo):
    assert "front_buttons" in piece().states
    assert "front_buttons" not in piece(front_closure="zip").states


def test_a_close_shot_of_a_pocket_goes_to_one_that_is_there(demo):
    assert piece(chest_pockets="both").places_of("pocket")[0] == "chest_left"
    assert piece("COA-67", chest_pockets="none", lower_pockets="inset_flap").places_of("pocket")[0] == "skirt_left"


def test_the_most_telling_shots_come_first():
    recorded = ["back", "weave", "front", "unheard_of", "main_label", "cuff"]

    assert most_telling(recorded, 4) == ["front", "main_label", "back", "weave"]


def test_nothing_but_pillow_and_numpy_draws():
    code = (
        "import sys\n"
        "import catalogue.member_examples.demo_photographs.camera, catalogue.member_examples.demo_photographs.cloths\n"
        "print([name for name in ('scipy', 'cairo', 'cairosvg', 'playwright', 'matplotlib') if name in sys.modules])\n"
    )
    told = subprocess.run([sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=True).stdout

    assert told.strip() == "[]"


def test_a_photograph_close_to_a_bartack_shows_pale_thread_in_its_middle_and_none_where_nothing_is_secured(demo):
    """Thread is told from cloth by its lightness: by a third at least, beside what lies round it."""
    smock = {"code": "strain points", "version": "SMK-61"}
    height, width, _ = pixels(demo_photograph(piece(**smock, bartack="bartack"), "pocket", close_to="bartack")).shape
    bar = slice(height // 2 - 25, height // 2 + 25), slice(width // 2 - 70, width // 2 + 70)
    below = slice(height // 2 + 100, height // 2 + 200), slice(width // 2 - 70, width // 2 + 70)

    def lighter(state: str) -> float:
        seen = pixels(demo_photograph(piece(**smock, bartack=state), "pocket", close_to="chest_flap")).mean(axis=2)
        return float(seen[bar].mean() / seen[below].mean())

    seen = pixels(demo_photograph(piece(**smock, bartack="bartack"), "pocket", close_to="bartack")).mean(axis=2)
    assert seen[bar].mean() > 1.33 * seen[below].mean()
    assert 0.75 < lighter("none") < 1.33
