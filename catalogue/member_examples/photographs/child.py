"""The process that opens strangers' pictures: `python -m catalogue.member_examples.photographs.child`.

It reads requests from its input and writes answers to its output, one after the other, until the input ends. A request
is a line of JSON with the number of bytes that follow; so is an answer. It may write no file, and its memory and time
are bounded before a pixel is decoded. It imports nothing of the site but the modules beside it.
"""

import json
import os
import resource
import sys
from collections.abc import Callable, Mapping, Sequence
from contextlib import suppress
from io import BytesIO
from pathlib import Path
from typing import BinaryIO

# Named here so that they are loaded before memory is bounded, and not with the first picture of their kind.
from PIL import Image, JpegImagePlugin, MpoImagePlugin, PngImagePlugin, WebPImagePlugin

from catalogue.member_examples.photographs.file_kinds import kind_of
from catalogue.member_examples.photographs.hashing import perceptual_hash
from catalogue.member_examples.photographs.hiding import Area, hide
from catalogue.member_examples.photographs.limits import MEMORY_FOR_OTHERS, SECONDS_FOR_ONE, SIZES
from catalogue.member_examples.photographs.reading import NotTaken, damaged, size_within, upright_pixels

LOADED = (JpegImagePlugin, MpoImagePlugin, PngImagePlugin, WebPImagePlugin)
STATM = Path("/proc/self/statm")
TOO_COSTLY = (
    "needs more memory to open than the site gives one picture. Save it smaller, or as a plain JPEG, and send it."
)


def main() -> None:
    answers = own_output()
    forbid()
    requests = sys.stdin.buffer
    while line := requests.readline():
        asked = json.loads(line)
        data = requests.read(asked["bytes"])
        allow_seconds(SECONDS_FOR_ONE)
        within = Area(*asked["within"]) if asked["within"] else None
        answer(answers, *answer_to(data, [Area(*numbers) for numbers in asked["hide"]], within))
        allow_memory(MEMORY_FOR_OTHERS)


def own_output() -> BinaryIO:
    """The way back to the parent; whatever a library prints goes nowhere near it."""
    sys.stdout.flush()
    answers = os.fdopen(os.dup(1), "wb")
    os.dup2(2, 1)
    return answers


def forbid() -> None:
    """No file may be written, no image of the memory left behind; addresses end where no picture needs more."""
    for what in (resource.RLIMIT_FSIZE, resource.RLIMIT_CORE):
        resource.setrlimit(what, (0, 0))
    if STATM.exists():
        most = addresses_and_resident()[0] + 2 * MEMORY_FOR_OTHERS
        resource.setrlimit(resource.RLIMIT_AS, (most, most))


def allow_seconds(seconds: int) -> None:
    """So many more seconds of the processor; the system ends the process after them."""
    used = resource.getrusage(resource.RUSAGE_SELF)
    _, hard = resource.getrlimit(resource.RLIMIT_CPU)
    resource.setrlimit(resource.RLIMIT_CPU, (int(used.ru_utime + used.ru_stime) + seconds + 1, hard))


def allow_memory(resident: int) -> None:
    """The process may grow to so many bytes of resident memory.

    The system bounds addresses, not what is resident: what may still be resident is what may still be added to the
    addresses that are there.
    """
    if not STATM.exists():  # only Linux tells, and only there the bound holds
        return
    addresses, now = addresses_and_resident()
    _, hard = resource.getrlimit(resource.RLIMIT_AS)
    wanted = addresses + max(0, resident - now)
    resource.setrlimit(resource.RLIMIT_AS, (wanted if hard == resource.RLIM_INFINITY else min(wanted, hard), hard))


def addresses_and_resident() -> tuple[int, int]:
    """Bytes of addresses that the process has, and of resident memory."""
    addresses, now = STATM.read_text().split()[:2]
    return int(addresses) * resource.getpagesize(), int(now) * resource.getpagesize()


def answer_to(data: bytes, areas: Sequence[Area], within: Area | None = None) -> tuple[Mapping, bytes]:
    """The head of the answer and the bytes that follow it."""
    try:
        return prepared(data, areas, allow_memory, within)
    except NotTaken as refusal:
        return {"refused": str(refusal)}, b""
    except MemoryError:
        return {"refused": TOO_COSTLY}, b""
    except Exception as problem:  # decoders raise many kinds for a damaged file
        return {"refused": damaged(kind_of(data)), "because": f"{type(problem).__name__}: {problem}"[:300]}, b""


def prepared(
    data: bytes, areas: Sequence[Area], allow: Callable[[int], None], within: Area | None = None
) -> tuple[Mapping, bytes]:
    """Every stored size in WebP, the areas hidden in all of them; of `within` only. Raises what reading raises."""
    image = upright_pixels(data, allow)
    hide(image, areas)
    if within:
        image = image.crop(within.in_pixels(*image.size))
    width, height = image.size
    files = []
    for longer in SIZES:
        size = size_within(width, height, longer)
        if size != image.size:
            image = image.resize(size, Image.Resampling.LANCZOS)
        files.append(encoded(image))
    head = {
        "width": width,
        "height": height,
        "hash": perceptual_hash(image),
        "sizes": [[longer, len(file)] for longer, file in zip(SIZES, files, strict=True)],
    }
    return head, b"".join(files)


def encoded(image: Image.Image) -> bytes:
    file = BytesIO()
    image.save(file, "WEBP", quality=75, method=2)
    return file.getvalue()


def answer(answers: BinaryIO, head: Mapping, body: bytes) -> None:
    answers.write(json.dumps({**head, "bytes": len(body)}).encode() + b"\n" + body)
    answers.flush()


if __name__ == "__main__":
    with suppress(BrokenPipeError, KeyboardInterrupt):
        main()
