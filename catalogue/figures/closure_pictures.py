"""Small pictures of front closures: at the left how far down the front closes, at the right with what.

Nothing here stands mirrored: the wearer's left front lies on top.
"""

from collections.abc import Callable

from catalogue.figures import hardware, miniatures
from catalogue.figures.hardware import moved
from catalogue.figures.pen import BoxPen

Sketch = Callable[[BoxPen], None]
# Down the miniature front: where a full opening and a short one end.
FULL, SHORT = 56, 26


def overview_and_close_up(pen: BoxPen, overview: Sketch, close_up: Sketch, *, collar: bool = True) -> None:
    page = pen.unflipped().sheet(96, 64)
    body = moved(page, 24, 4, 1.02)
    miniatures.torso(body)
    overview(body)
    if collar:
        miniatures.collar(body)
    near = moved(page, 73, 0)
    near.path("b", "M-20 2H20V62H-20Z")
    close_up(near)


def edge(body: BoxPen, short: bool) -> None:
    body.path("e", f"M-4 6V{SHORT}H4V6" if short else f"M-4 6V{FULL}")


def rows(short: bool) -> tuple[int, ...]:
    return (13, 19) if short else (13, 23, 33, 43, 52)


def near_edge(near: BoxPen) -> None:
    near.path("e", "M-14 2V62")
    near.path("t", "M-10 4V62M15 4V62")


def buttons(pen: BoxPen, short: bool) -> None:
    def overview(body: BoxPen) -> None:
        edge(body, short)
        for y in rows(short):
            body.circle("b", 0, y, 2.2)

    def close_up(near: BoxPen) -> None:
        near_edge(near)
        points = [(2, 16), (2, 48)]
        hardware.buttonholes(near, points, 12)
        hardware.buttons(near, points, 8.5, holes=4)

    overview_and_close_up(pen, overview, close_up)


def zip_chain(pen: BoxPen, short: bool) -> None:
    def overview(body: BoxPen) -> None:
        foot = SHORT if short else FULL
        hardware.chain(body, (0, 9), (0, foot), pitch=2.6, half=1.8)
        if short:
            body.path("t", f"M-5 8V{SHORT + 3}H5V8")

    def close_up(near: BoxPen) -> None:
        near.path("e", "M-9 2V62M9 2V62")
        near.path("t", "M-14 4V62M14 4V62")
        hardware.interlocked(near, 0, 4, 61, pitch=6, reach=5)
        hardware.puller(moved(near, 0, 14), 1.4)

    overview_and_close_up(pen, overview, close_up)


def toggles(pen: BoxPen) -> None:
    def overview(body: BoxPen) -> None:
        edge(body, True)
        body.path("e", "M-7 13H7M-7 20H7M0 11V15M0 18V22")

    def close_up(near: BoxPen) -> None:
        near.path("e", "M-4 2V62")
        near.path("t", "M0 4V62")
        for y in (18, 46):
            hardware.toggle(moved(near, 0, y))

    overview_and_close_up(pen, overview, close_up)


def studs(pen: BoxPen) -> None:
    def overview(body: BoxPen) -> None:
        edge(body, False)
        for y in rows(False):
            body.circle("k", 0, y, 1.6)

    def close_up(near: BoxPen) -> None:
        near_edge(near)
        hardware.studs(near, [(2, 17), (2, 47)], 8)

    overview_and_close_up(pen, overview, close_up)


def tapes(pen: BoxPen) -> None:
    """The upper edge turned back: hooks on it, loops on the edge below."""

    def overview(body: BoxPen) -> None:
        edge(body, False)
        body.path("t", "M4 8V56")

    def close_up(near: BoxPen) -> None:
        hardware.hook_tape(near, -17, 2, 13, 60)
        near.path("b", "M20 2H0C-5 20 -5 44 0 62H20Z")
        near.path("b", "M16 2H4C0 20 0 44 4 62H16Z")
        hardware.specks(near, [(6 + 5 * across, 6 + 5 * down) for down in range(12) for across in (0, 1)])

    overview_and_close_up(pen, overview, close_up)


def bows(pen: BoxPen) -> None:
    def overview(body: BoxPen) -> None:
        hardware.meeting_edges(body, 0, FULL, part_by=3)
        for y in (16, 32):
            body.path("b", f"M0 {y}L-6 {y - 3}V{y + 3}L6 {y - 3}V{y + 3}Z")

    def close_up(near: BoxPen) -> None:
        near.path("e", "M-1 2V62M1 2V62")
        hardware.bow(moved(near, 0, 30), 1.05)

    overview_and_close_up(pen, overview, close_up, collar=False)


def no_closure(pen: BoxPen) -> None:
    def close_up(near: BoxPen) -> None:
        hardware.meeting_edges(moved(near, 0, 2), 0, 60, part_by=8)

    overview_and_close_up(pen, lambda body: hardware.meeting_edges(body, 0, FULL), close_up, collar=False)
