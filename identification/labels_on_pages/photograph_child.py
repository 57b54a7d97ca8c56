"""The process that reads letters in a picture: `python -m identification.labels_on_pages.photograph_child`.

A picture comes in, made by this site; a line of JSON goes out: `[[corners, text, score], …]`. It may write no file and
reach no network, and its memory and time are bounded before the library is loaded.
"""

import json
import os
import resource
import sys
from io import BytesIO

import numpy as np
from PIL import Image

MEGABYTE = 1024 * 1024
# Addresses, of which the reader uses some 2 GB for a picture of 1600 pixels; a third of them are ever resident.
MOST_ADDRESSES = 3500 * MEGABYTE
MOST_SECONDS = 60
THREADS = 2
# The library would fetch models that are not in its own package: it finds nobody who could bring them.
NOWHERE = "http://127.0.0.1:9"


def main() -> None:
    answers = os.fdopen(os.dup(1), "w", encoding="utf-8")
    os.dup2(2, 1)
    bound()
    picture = sys.stdin.buffer.read()
    json.dump(read(reader(), picture), answers)
    answers.flush()


def bound() -> None:
    for what, most in (
        (resource.RLIMIT_FSIZE, 0),
        (resource.RLIMIT_CORE, 0),
        (resource.RLIMIT_AS, MOST_ADDRESSES),
        (resource.RLIMIT_CPU, MOST_SECONDS),
    ):
        resource.setrlimit(what, (most, most))
    os.environ.update(http_proxy=NOWHERE, https_proxy=NOWHERE, OMP_NUM_THREADS=str(THREADS))


def reader():
    """The library's reader with the models in its package; loading it takes some seconds."""
    from rapidocr import RapidOCR

    return RapidOCR(
        params={
            "EngineConfig.onnxruntime.intra_op_num_threads": THREADS,
            "EngineConfig.onnxruntime.inter_op_num_threads": 1,
        }
    )


def read(reads, picture: bytes) -> list:
    """Runs of letters in a picture: corners in pixels, text, and how sure `reads` is of it, 0 to 1."""
    pixels = np.asarray(Image.open(BytesIO(picture)).convert("RGB"))[:, :, ::-1]
    found = reads(pixels)
    return (
        [
            [box.tolist(), text, float(score)]
            for box, text, score in zip(found.boxes, found.txts, found.scores, strict=True)
        ]
        if found.txts
        else []
    )


if __name__ == "__main__":
    main()
