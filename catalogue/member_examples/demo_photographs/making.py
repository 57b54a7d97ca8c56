"""Drawing many pictures, on as many cores as there are."""

import os
from collections.abc import Iterable, Iterator
from concurrent.futures import ProcessPoolExecutor
from multiprocessing import get_context

from catalogue.member_examples.demo_photographs.photograph import demo_photograph
from catalogue.member_examples.demo_photographs.piece import LABEL_SHOTS, SHOTS, DemoPiece

Wanted = tuple[DemoPiece, str]
# What is shown of each piece before anything else is: its front, then what dates it.
FIRST_SHOTS = ("front", "palm", "main_label", "back")


def most_telling(shots: Iterable[str], most: int) -> list[str]:
    """Of the shots that a record names, those worth drawing first, at most so many; others than ours are left out."""
    known = [shot for shot in shots if shot in SHOTS or shot in LABEL_SHOTS]
    first = [shot for shot in FIRST_SHOTS if shot in known]
    return [*first, *(shot for shot in known if shot not in first)][:most]


def draw_each(wanted: Iterable[Wanted], *, workers: int | None = None) -> Iterator[tuple[DemoPiece, str, bytes]]:
    """Each picture as it is ready, in the order asked for; shots that a piece's class has no drawing of are left out.

    `workers`: processes, as many as there are cores if not said; with 1 all is drawn in this process.
    """
    asked = list(wanted)
    workers = min(workers or os.cpu_count() or 1, max(1, len(asked)))
    if workers == 1:
        yield from drawn(asked, map(draw, asked))
        return
    # Not forked: the site's process may have threads and open connections.
    with ProcessPoolExecutor(workers, mp_context=get_context("spawn")) as pool:
        yield from drawn(asked, pool.map(draw, asked, chunksize=4))


def draw(one: Wanted) -> bytes | None:
    return demo_photograph(*one)


def drawn(asked: list[Wanted], pictures: Iterable[bytes | None]) -> Iterator[tuple[DemoPiece, str, bytes]]:
    for (piece, shot), picture in zip(asked, pictures, strict=True):
        if picture is not None:
            yield piece, shot, picture
