"""A photograph of a label becomes lines of text for a person to correct; nothing of it is kept.

The picture is first made ours, as every picture that is sent (`catalogue.member_examples.photographs`). What comes out
is read in a second process of bounded time and memory, by a library that is an optional extra (`ocr`).
"""

import json
import logging
import subprocess
import sys
import threading
from dataclasses import dataclass
from importlib.util import find_spec
from typing import Any

from catalogue.member_examples.photographs.intake import Refused, environment, take_in
from identification.labels_on_pages.photograph_lines import lines_of

log = logging.getLogger(__name__)
CHILD = "identification.labels_on_pages.photograph_child"
SECONDS = 45
# A reader holds some 800 MB: one at a time in each process of the site, and others wait no longer than a person would.
WAIT_SECONDS = 20
place = threading.BoundedSemaphore(1)

TOO_LONG = "The photograph took too long to read. Cut it down to the label, or type the text."
COULD_NOT = "The photograph could not be read; the site is unharmed. Type the text."
BUSY = "Another photograph is being read. Try again in a minute, or type the text."
NO_LETTERS = "No letters were found in the photograph. Take it from straight above in even light, or type the text."


@dataclass(frozen=True)
class PhotographRead:
    """`text` as it was read, a line for each line of the label; `doubtful`: lines of which the reader was not sure.
    `fault`: why there is no text, as a sentence."""

    text: str = ""
    doubtful: tuple[str, ...] = ()
    fault: str = ""


def can_read_photographs() -> bool:
    """Whether the extra is installed."""
    return find_spec("rapidocr") is not None and find_spec("onnxruntime") is not None


def read_photograph(file: Any) -> PhotographRead:
    """What stands on the label in an uploaded picture. Never raises for what the picture holds.

    `file`: as `take_in` takes it. The largest stored size (1600 pixels) is what is read.
    """
    if not place.acquire(timeout=WAIT_SECONDS):
        return PhotographRead(fault=BUSY)
    try:
        sizes = take_in(file).sizes
        answer = asked(sizes[max(sizes)])
    except Refused as refusal:
        return PhotographRead(fault=str(refusal))
    except subprocess.TimeoutExpired:
        return PhotographRead(fault=TOO_LONG)
    except (OSError, ValueError) as problem:
        log.warning("A child that reads photographs of labels failed: %s", problem)
        return PhotographRead(fault=COULD_NOT)
    finally:
        place.release()
    lines = lines_of(answer)
    if not lines:
        return PhotographRead(fault=NO_LETTERS)
    text = "\n".join(line.text for line in lines)
    return PhotographRead(text, tuple(line.text for line in lines if line.is_doubtful))


def asked(picture: bytes) -> list:
    """The child's answer: for each run of letters its corners in pixels, its text and how sure the reader is, 0 to 1.

    Raises TimeoutExpired, OSError or ValueError.
    """
    done = subprocess.run(  # noqa: S603 - this project's own module, with nothing of the request in it
        [sys.executable, "-m", CHILD],
        input=picture,
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        env=environment(),
        cwd="/",
        timeout=SECONDS,
        start_new_session=True,
        check=False,
    )
    if done.returncode:
        raise ValueError(f"it ended with {done.returncode}")
    return json.loads(done.stdout)
