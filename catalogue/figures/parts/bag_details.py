"""The anchor of a bag's strap, what divides its inside, and its base."""

from catalogue.figures import miniatures
from catalogue.figures.closeups import hatch
from catalogue.figures.halves import across, closed
from catalogue.figures.parts import Place, part
from catalogue.figures.parts.trousers import WHOLE, moved, units
from catalogue.figures.pen import BoxPen

ANCHOR = {"strap": ("anchor",)}


def anchor_page(pen: BoxPen, place: Place, *, strap: bool = True) -> BoxPen:
    """Units over the corner of the bag, from which a strap 42 wide leads to the viewer's right."""
    if not place.small:
        return units(pen)
    page = moved(pen.sheet(288, 192), 88, 8)
    page.path("o", "M-76 32C0 16 60 16 100 24Q116 28 116 46V166Q116 178 100 178H-66Q-78 178 -78 166Z")
    page.path(
        "o", "M-82 32C-20 14 60 16 100 24Q118 28 118 46V100Q118 110 106 111C50 116 -20 116 -72 111Q-84 110 -84 100Z"
    )
    page.path("b", "M6 84H34V136L20 146L6 136Z")
    if strap:
        page.path("o", "M84 26C120 22 156 28 196 26V68C156 70 120 64 84 68Z")
        page.path("t", "M84 32C120 28 156 34 196 32M84 62C120 58 156 64 196 62")
    return page


@part("bag_strap", "none", layer=52, frame=WHOLE)
def no_anchor(pen: BoxPen, place: Place) -> None:
    if place.small:
        miniatures.absent(
            anchor_page(pen, place, strap=False),
            "M84 26C120 22 156 28 196 26M84 68C120 64 156 70 196 68",
            (150, 47),
            reach=14,
        )


@part("bag_strap", "sewn", views=ANCHOR, layer=52, frame=WHOLE)
def sewn_strap(pen: BoxPen, place: Place) -> None:
    page = anchor_page(pen, place)
    page.path("b", "M86 26C60 24 34 24 12 28V70C34 66 60 66 86 68")
    page.path("t", "M18 34L74 31V61L18 64ZL74 61M74 31L18 64")


@part("bag_strap", "hooked", views=ANCHOR, layer=52, frame=WHOLE)
def hooked_strap(pen: BoxPen, place: Place) -> None:
    """A snap hook in a ring that a loop of cloth holds."""
    page = anchor_page(pen, place)
    page.path("b", "M8 33H38V63H8Z")
    page.path("t", "M12 37H34V59H12ZL34 59M34 37L12 59")
    page.path("b", "M34 24C66 20 66 76 34 72ZM39 31C56 32 56 64 39 65Z")
    page.path("b", "M88 38H74C64 26 46 32 48 46H54C53 38 64 36 68 44V52C64 58 60 58 56 55L50 60C58 68 70 68 76 58H88Z")
    page.path("b", "M84 24H92V72H84Z")


@part("bag_strap", "looped", views=ANCHOR, layer=52, frame=WHOLE)
def looped_strap(pen: BoxPen, place: Place) -> None:
    """Through a frame and back on itself, so that it can be taken off."""
    page = anchor_page(pen, place)
    page.path("b", "M4 33H42V63H4Z")
    page.path("t", "M8 37H34V59H8ZL34 59M34 37L8 59")
    page.path("b", "M34 18H58Q62 18 62 22V74Q62 78 58 78H34ZM41 26V70H54V26Z")
    page.path("b", "M48 28C80 24 96 26 112 30L110 64C96 68 80 66 48 66Q44 47 48 28Z")
    page.path("e", "M104 30V65")


DIVIDED = {"inside": ("divider",)}


def room_page(pen: BoxPen) -> BoxPen:
    """Units over the inside of the opened bag, 328 by 150."""
    return pen.sheet(328, 150)


def opened_bag(pen: BoxPen) -> BoxPen:
    """The small picture: a bag with its flap thrown back, so that one looks at the far wall inside."""
    page = pen.sheet(96, 64)
    page.path("o", "M12 20C8 2 16 1 48 1C80 1 88 2 84 20")
    page.path("o", "M8 27C8 4 88 4 88 27C88 50 8 50 8 27Z")
    return page


def near_wall(page: BoxPen) -> None:
    """The wall of the bag that is nearest: it hides what stands behind it."""
    page.path("o", "M8 27C8 50 88 50 88 27L86 58Q86 63 80 63H16Q10 63 10 58Z")
    page.path("t", "M9 33C12 54 84 54 87 33")


@part("bag_divider", "none", layer=42, frame=WHOLE)
def one_room(pen: BoxPen, place: Place) -> None:
    if place.small:
        page = opened_bag(pen)
        miniatures.absent(page, "M9 22C30 27 66 27 87 22", (48, 26), reach=6)
        near_wall(page)


@part("bag_divider", "sewn", views=DIVIDED, layer=42, frame=WHOLE)
def sewn_divider(pen: BoxPen, place: Place) -> None:
    """A wall from side to side, sewn down at both ends."""
    if place.small:
        page = opened_bag(pen)
        page.path("o", "M9 21C30 26 66 26 87 21V44H9Z")
        page.path("e", "M9 24C30 29 66 29 87 24")
        page.path("t", "M14 25V40M18 26V42M82 25V40M78 26V42")
        near_wall(page)
        return
    page = room_page(pen)
    page.path("o", "M-8 58C100 40 228 40 336 58L310 96C220 84 108 84 18 96Z")
    page.path("t", "M-2 63C100 46 228 46 330 63M14 58L30 92M314 58L298 92")


@part("bag_divider", "loose", views=DIVIDED, layer=42, frame=WHOLE)
def loose_divider(pen: BoxPen, place: Place) -> None:
    """A stiff panel that stands askew, held by touch tape, with a tab to lift it out."""
    if place.small:
        page = opened_bag(pen)
        page.path("b", "M20 11L66 3L72 44H24Z")
        page.path("f", hatch(25, 14, 7, 26, 45, 3) + hatch(62, 9, 6, 30, 45, 3))
        page.path("e", "M47 34V18M42 23L47 17L52 23M36 14H56")
        near_wall(page)
        return
    page = room_page(pen)
    page.path("b", "M2 46H26V92H14ZM302 46H326L314 92H302Z")
    page.path("o", "M150 42V14Q150 8 156 8H172Q178 8 178 14V40L300 66L280 112C200 92 120 84 42 92L40 46Z")
    page.path("t", "M48 52C130 46 220 58 290 72M158 15H170V38H158Z")
    page.path("f", hatch(46, 60, 26, 28, 45, 7) + hatch(262, 78, 20, 22, 45, 7))


@part("bag_divider", "pockets", views=DIVIDED, layer=42, frame=WHOLE)
def inside_pockets(pen: BoxPen, place: Place) -> None:
    """Open pockets on the far wall, nothing across the room; in the small picture with what is kept in them."""
    if place.small:
        page = opened_bag(pen)
        page.path("b", "M24 22L26 4H40L41 22ZM60 22L62 7L65 4L68 7V22Z")
        page.path("e", "M29 9H37M29 13H38M65 4V7")
        page.path("o", "M18 19H46V46H18ZM50 19H78V46H50Z")
        page.path("t", "M18 23H46M50 23H78")
        near_wall(page)
        return
    page = room_page(pen)
    page.path(
        "o",
        "M40 24L158 20V84Q158 92 150 92L54 94Q46 94 45 86ZM170 20L288 24L283 86Q282 94 274 94L178 92Q170 92 170 84Z",
    )
    page.path("t", "M41 32L158 28M170 28L287 32M48 38L51 86L152 85V36M176 36V85L277 86L280 38")


BASE = {"back": ("base",)}


def base_page(pen: BoxPen, place: Place) -> BoxPen:
    """Units over the foot of the bag, from its middle, for a base that is taken to be 52 high."""
    if not place.small:
        return moved(units(pen), pen.box.w / 2, 0)
    page = moved(pen.sheet(252, 168), 126, 108)
    page.path("o", "M-92 -102L-98 20Q-98 50 -78 52C-40 56 40 56 78 52Q98 50 98 20L92 -102Z")
    page.path("o", "M-98 -104L-102 -48Q-102 -38 -90 -37C-40 -33 40 -33 90 -37Q102 -38 102 -48L98 -104Z")
    page.path("e", "M-97 2C-50 8 50 8 97 2")
    return page


def half_width(pen: BoxPen, place: Place) -> int:
    return 97 if place.small else round(pen.box.w / 2)


@part("bag_base", "same", layer=40, frame=WHOLE)
def plain_base(pen: BoxPen, place: Place) -> None:
    """Body and base in one hatch, as they are of one cloth."""
    if place.small:
        base_page(pen, place).path("f", hatch(-92, -30, 184, 26, 45, 12) + hatch(-84, 10, 168, 34, 45, 12))


@part("bag_base", "double", views=BASE, layer=40, frame=WHOLE)
def doubled_base(pen: BoxPen, place: Place) -> None:
    """A second layer that reaches up the sides, quilted to the first."""
    page, a = base_page(pen, place), half_width(pen, place)
    page.path("e", f"M{-a} -14C{-a // 2} -8 {a // 2} -8 {a} -14")
    h = a // 2
    rows = (-8, 12, 24, 36)
    page.path("t", "".join(f"M{-a + y // 8} {y}C{-h} {y + 6} {h} {y + 6} {a - y // 8} {y}" for y in rows))


@part("bag_base", "leather", views=BASE, layer=40, frame=WHOLE)
def leather_base(pen: BoxPen, place: Place) -> None:
    """A thick piece with its corners carried up, closely grained, stitched along its edge."""
    page, a = base_page(pen, place), half_width(pen, place)
    # From the middle of its upper edge round the viewer's right corner to the middle of its foot.
    edge = (
        f"M0 0L{a - 56} 0C{a - 44} -2 {a - 36} -6 {a - 30} -26L{a} -26L{a} 18Q{a} 48 {a - 20} 50C{a // 2} 53 20 53 0 53"
    )
    row = f"M0 6L{a - 55} 6C{a - 42} 5 {a - 32} 0 {a - 26} -20L{a - 6} -20L{a - 6} 16"
    page.path("o", closed(edge))
    page.path("t", across(row))
    spots = [(x, y) for y in (18, 34) for x in range(18 - a, a - 20, 36 if place.small else 24)]
    page.path("f", "".join(f"M{x} {y}L{x + 4} {y + 3}L{x + 9} {y - 1}" for x, y in spots))


@part("bag_base", "eyelets", views=BASE, layer=40, frame=WHOLE)
def drained_base(pen: BoxPen, place: Place) -> None:
    """Metal rings through which water runs out."""
    page, a = base_page(pen, place), half_width(pen, place)
    size = page.box.w / 100
    for x in (-a * 0.55, 0, a * 0.55):
        page.circle("b", x, 28, 10 * size)
        page.circle("k", x, 28, 5 * size)
