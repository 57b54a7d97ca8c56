"""What photographs cost: `python -m tests.benchmarks.photographs [intake] [hashes] [drawn] [search]`.

intake: twelve JPEGs of twelve megapixels taken in, beside Pillow doing the same decode, resizes and encoding in a
process of its own; and the most memory that the child grew to, also for the largest pictures that may be sent.
hashes: of near copies how many are found at each distance, and how many other pictures match.
drawn: the same for sixty drawn pieces of one garment type in one view, and what it costs to draw them.
search: one hash among 100,000.
"""

import os
import resource
import subprocess
import sys
import time
from io import BytesIO
from itertools import combinations
from pathlib import Path
from tempfile import TemporaryDirectory

import django
import numpy as np
from django.core.management import call_command
from PIL import Image

from catalogue.member_examples.demo_photographs.photograph import demo_photograph
from catalogue.member_examples.demo_photographs.piece import DemoPiece
from catalogue.member_examples.photographs.hashing import distance, nearest, perceptual_hash
from catalogue.member_examples.photographs.intake import TakenIn, Worker, take_in_each
from tests.catalogue.member_examples.photographs.pictures import drawn_scene, exif_with_place, file_of, stored_as

ROUNDS, PICTURES = 5, 12
# What the site makes of a picture, with Pillow alone and nothing of the site's care.
BARE = """
import sys
from io import BytesIO
from PIL import Image
for path in sys.argv[1:]:
    image = Image.open(path)
    width, height = image.size
    scale = 1600 / max(width, height)
    size = round(width * scale), round(height * scale)
    image.draft(None, size)
    image = image.resize(size, Image.Resampling.LANCZOS, reducing_gap=3.0)
    for longer in (1600, 800, 320):
        scale = longer / 1600
        image = image.resize((round(size[0] * scale), round(size[1] * scale)), Image.Resampling.LANCZOS)
        image.save(BytesIO(), "WEBP", quality=75, method=2)
"""


def photographs() -> list[bytes]:
    """Twelve megapixels each, as a phone would store them: every other one on its side, with coordinates."""
    found = []
    for seed in range(PICTURES):
        scene = drawn_scene(seed, 2000, 1500).resize((4000, 3000), Image.Resampling.BICUBIC)
        orientation = 6 if seed % 2 else 1
        found.append(file_of(stored_as(scene, orientation), quality=90, exif=exif_with_place(orientation)))
    return found


def seconds_of_children() -> float:
    used = resource.getrusage(resource.RUSAGE_CHILDREN)
    return used.ru_utime + used.ru_stime


def intake() -> None:
    sent = photographs()
    print(f"{PICTURES} JPEGs of 12 megapixels, {sum(map(len, sent)) / 1e6:.0f} MB; CPU seconds, round by round")
    with TemporaryDirectory() as folder:
        paths = [Path(folder, f"{place}.jpg") for place in range(PICTURES)]
        for path, data in zip(paths, sent, strict=True):
            path.write_bytes(data)
        ratios = []
        for _ in range(ROUNDS):
            began, own = seconds_of_children(), time.process_time()
            taken = take_in_each(sent)
            ours = seconds_of_children() - began + time.process_time() - own
            assert all(isinstance(one, TakenIn) for one in taken)
            began = seconds_of_children()
            subprocess.run([sys.executable, "-c", BARE, *map(str, paths)], check=True)
            bare = seconds_of_children() - began
            ratios.append(ours / bare)
            print(f"  ours {ours:.2f}  bare Pillow {bare:.2f}  ratio {ours / bare:.2f}")
    sizes = [sum(len(one.sizes[longer]) for one in taken) / PICTURES / 1000 for longer in (1600, 800, 320)]
    kilobytes = ", ".join(f"{size:.0f}" for size in sizes)
    print(f"  median ratio {np.median(ratios):.2f} (wanted: at most 1.3); kB of each size {kilobytes}")
    print("Most memory of the child, MB, of what is allowed")
    plain = Image.effect_noise((2000, 1500), 40).convert("RGB")
    large = plain.resize((5800, 4100))
    show_peak("the twelve", sent, 200)
    show_peak("JPEG of 60 megapixels", [file_of(plain.resize((8900, 6700)), quality=80)], 200)
    for colours, sampling, size in (("halved", 2, (8000, 6000)), ("half", 1, (7200, 5000)), ("full", 0, (6000, 4000))):
        sent = file_of(plain.resize(size), quality=80, progressive=True, subsampling=sampling)
        show_peak(f"progressive, colours {colours}", [sent], 200)
    for colours, sampling in (("halved", 2), ("full", 0)):
        sent = file_of(plain.resize((8940, 6700)), quality=80, progressive=True, subsampling=sampling)
        show_peak(f"60, colours {colours}", [sent], 500)
    show_peak("PNG of 24", [file_of(large.resize((1000, 700)).resize((5800, 4100)), "PNG", compress_level=1)], 500)
    show_peak("WebP of 24 with alpha", [file_of(large.convert("RGBA"), "WEBP", method=0)], 500)


def show_peak(name: str, sent: list[bytes], allowed: int) -> None:
    worker = Worker()
    began = time.perf_counter()
    heads = [worker.ask(data, ())[0] for data in sent]
    took = time.perf_counter() - began
    status = Path(f"/proc/{worker.child.pid}/status").read_text()
    worker.end()
    peak = int(status.split("VmHWM:")[1].split()[0]) * 1024 / 1e6
    refused = [head["refused"] for head in heads if "refused" in head]
    each = f"{took / len(sent):.2f} s a picture of {len(sent[0]) / 1e6:.1f} MB"
    print(f"  {name:26} {peak:4.0f} of {allowed}  {each}  {refused}")


def changed(image: Image.Image) -> dict[str, Image.Image]:
    width, height = image.size
    low = Image.open(BytesIO(file_of(image, quality=40)))
    cut = round(width * 0.015), round(height * 0.015)
    return {
        "saved at quality 40": low,
        "a quarter of the size": image.resize((width // 4, height // 4), Image.Resampling.LANCZOS),
        "3 % cut off": image.crop((cut[0], cut[1], width - cut[0], height - cut[1])),
        "half as bright again": image.point(lambda value: min(255, round(value * 1.15))),
    }


def hashes(pieces: list[Image.Image] | None = None, name: str = "drawn scenes") -> None:
    pieces = pieces or [drawn_scene(seed, 800, 600) for seed in range(60)]
    own = [perceptual_hash(image) for image in pieces]
    print(f"{len(pieces)} {name}: share of changed copies within so many bits")
    apart: dict[str, list[int]] = {}
    for image, known in zip(pieces, own, strict=True):
        for change, copy in changed(image).items():
            apart.setdefault(change, []).append(distance(known, perceptual_hash(copy)))
    for change, found in apart.items():
        print(f"  {change:24}", *(f"{bits}: {np.mean(np.array(found) <= bits):4.0%}" for bits in (2, 4, 6, 8, 10)))
    others = np.array([distance(a, b) for a, b in combinations(own, 2)])
    print(f"  of {len(others)} pairs of others", *(f"{bits}: {np.sum(others <= bits)}" for bits in (2, 4, 6, 8, 10)))


def drawn() -> None:
    pieces = sixty_blouses()
    began = time.process_time()
    files = [demo_photograph(piece, "front") for piece in pieces]
    print(f"drawn on one core: {(time.process_time() - began) / len(files):.2f} CPU seconds a picture")
    taken = take_in_each(files)
    kilobytes = np.array([len(one.sizes[800]) / 1000 for one in taken])
    print(f"kB at 800 pixels: mean {kilobytes.mean():.0f}, most {kilobytes.max():.0f} (wanted: at most 40)")
    hashes([Image.open(BytesIO(file)) for file in files], "fronts of drawn blouses")


def sixty_blouses() -> list[DemoPiece]:
    """Pieces of every version of the demo's blouse, each its own: where it lies, in what light, how worn."""
    with TemporaryDirectory() as folder:
        os.environ |= {"CATALOGUE_DATA_FOLDER": folder, "DJANGO_SETTINGS_MODULE": "catalogue.settings"}
        django.setup()
        from catalogue.reference.demo import load_demo
        from catalogue.reference.snapshots import type_facts

        call_command("migrate", verbosity=0)
        load_demo()
        facts = type_facts("BLO")
    versions = list(facts.versions.values())
    conditions = ("unissued", "very good", "good", "worn", "poor")
    return [
        DemoPiece(f"M{place:03}", facts, {}, versions[place % len(versions)], conditions[place % 5])
        for place in range(60)
    ]


def search() -> None:
    known = np.random.default_rng(1).integers(-(2**63), 2**63, 100_000, dtype=np.int64)
    as_list = known.tolist()
    for name, given in (("numpy array", known), ("list, as a query gives it", as_list)):
        took = []
        for _ in range(20):
            began = time.perf_counter()
            assert nearest(as_list[77], given)[0] == (77, 0)
            took.append(time.perf_counter() - began)
        print(f"one among 100,000, {name}: {np.median(took) * 1000:.2f} ms")


PARTS = {"intake": intake, "hashes": hashes, "drawn": drawn, "search": search}

if __name__ == "__main__":
    for part in sys.argv[1:] or PARTS:
        PARTS[part]()
