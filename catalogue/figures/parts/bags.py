"""The form of a bag, its flap and what fastens it."""

from collections.abc import Iterator

from catalogue.figures import miniatures
from catalogue.figures.parts import Place, part
from catalogue.figures.parts.trousers import WHOLE, moved, units
from catalogue.figures.pen import BoxPen
from catalogue.figures.silhouettes.bags import OUTLINES, front_of


@part("bag_form", *OUTLINES, detail=True, frame=WHOLE)
def form(pen: BoxPen, place: Place) -> None:
    """The whole bag from the front; in its views the silhouette itself has the form."""
    state = place.profile["bag_form"]
    if place.small and state == "pouch":  # from near, on the belt that it is threaded on
        page = moved(pen.sheet(450, 300), 225, -118)
        page.path("o", "M-220 180H220V244H-220Z")
        page.path("e", "M150 170H206V254H150ZM178 212H220M-190 212H-188M-160 212H-158M-130 212H-128")
        front_of(page, {"bag_strap": "none"}, state, small=True)
        page.path("t", "M-90 200C-30 204 30 204 90 200")
        return
    front_of(moved(pen.sheet(650, 433), 325, -24), {}, state, small=place.small)


FLAPS = {"front": ("body",), "flap": ("flap",)}


def flap_page(pen: BoxPen, place: Place) -> BoxPen:
    """Percent of the front of the bag; the small picture shows a whole haversack."""
    if not place.small:
        return pen
    page = moved(pen.sheet(440, 293), 220, -158)
    page.path("o", "M-148 172C-60 166 60 166 148 172L152 396C152 424 140 434 118 436H-118C-140 434 -152 424 -152 396Z")
    return pen.within(16, 5, 68, 88)


@part("bag_flap", "none", views=FLAPS, layer=36, frame=WHOLE)
def open_mouth(pen: BoxPen, place: Place) -> None:
    """The far side of the mouth stands a little higher than the near one."""
    page = flap_page(pen, place)
    page.path("o", "M1 0C20 -5 80 -5 99 0C80 7 20 7 1 0Z")
    page.path("t", "M3 7C22 13 78 13 97 7")


@part("bag_flap", "half", views=FLAPS, layer=36, frame=WHOLE)
def half_flap(pen: BoxPen, place: Place) -> None:
    page = flap_page(pen, place)
    page.path("o", "M-2 0C30 -2 70 -2 102 0L103 36Q103 45 93 46C64 49 36 49 7 46Q-3 45 -3 36Z")
    page.path("t", "M1 3L0 35Q0 41 8 42C36 45 64 45 92 42Q100 41 100 35L99 3")


def full(page: BoxPen) -> None:
    page.path("o", "M-2 0C30 -2 70 -2 102 0L104 80Q104 91 94 92C64 95 36 95 6 92Q-4 91 -4 80Z")
    page.path("t", "M1 3L-1 79Q-1 87 7 88C36 91 64 91 93 88Q101 87 101 79L99 3")


@part("bag_flap", "full", views=FLAPS, layer=36, frame=WHOLE)
def full_flap(pen: BoxPen, place: Place) -> None:
    full(flap_page(pen, place))


@part("bag_flap", "pocket", views=FLAPS, layer=36, frame=WHOLE)
def flap_with_pocket(pen: BoxPen, place: Place) -> None:
    """A patch pocket on the flap, its mouth closed by a zip."""
    page = flap_page(pen, place)
    full(page)
    page.path("o", "M20 20H80V64Q80 68 75 68H25Q20 68 20 64Z")
    page.path("e", "M23 30H77M23 34H77" + "".join(f"M{x} 30V34" for x in range(25, 77, 4)))
    page.path("t", "M23 39V62Q23 65 27 65H73Q77 65 77 62V39")
    page.path("b", "M70 28H75V36H70ZM71 36H74V43H71Z")


FASTENED = {"front": ("body",), "flap": ("fastening",)}
# How far down the front of the bag the edge of each flap comes, as a share of its height.
EDGES = {"none": 0.06, "half": 0.47, "full": 0.92, "pocket": 0.92}


def fastening_pages(pen: BoxPen, place: Place) -> Iterator[BoxPen]:
    """Pages 120 wide whose flap ends at 54: one from near, two across the front of a bag."""
    if place.small:
        page = moved(pen.sheet(204, 136), 42, 8)
        page.path("o", "M-32 -20V104Q-32 122 -14 122H134Q152 122 152 104V-20Z")
        page.path("o", "M-38 -20V40Q-38 53 -26 53C20 56 100 56 146 53Q158 53 158 40V-20Z")
        page.path("t", "M-32 -20V36Q-32 46 -22 46C20 49 100 49 142 46Q152 46 152 36V-20")
        yield page
        return
    edge = EDGES[place.profile.get("bag_flap", "full")]
    if place.view == "flap":
        yield moved(pen.sheet(120, 130), 0, (edge - 0.92) * 250)
        return
    front = units(pen)
    for x in (0.26, 0.74):
        yield front.within(pen.box.w * x - 27, pen.box.h * edge - 24, 45, 45)


@part("bag_closure", "none", layer=50, frame=WHOLE)
def unfastened(pen: BoxPen, place: Place) -> None:
    """The flap simply lies over the mouth."""
    if place.small:
        for page in fastening_pages(pen, place):
            miniatures.absent(page, "M46 -6H74V104L60 118L46 104Z", (60, 72), reach=14)


@part("bag_closure", "buckle", views=FASTENED, layer=50, frame=WHOLE)
def strap_and_buckle(pen: BoxPen, place: Place) -> None:
    for page in fastening_pages(pen, place):
        page.path("b", "M46 -6H74V104L60 118L46 104Z")
        page.path("t", "M50 -2H70V26H50ZL70 26M70 -2L50 26")
        page.path("b", "M36 58H84V90H36ZM46 66V82H74V66Z")
        page.path("e", "M60 66V88M60 97H60.4M60 106H60.4")


@part("bag_closure", "button", views=FASTENED, layer=50, frame=WHOLE)
def buttoned(pen: BoxPen, place: Place) -> None:
    for page in fastening_pages(pen, place):
        size = page.box.w / 100
        page.circle("b", 60, 30, 14 * size)
        page.path("e", "M55 26H56M64 26H65M55 34H56M64 34H65M60 44V50M60 10V16")
        page.circle("f", 60, 30, 10 * size)


@part("bag_closure", "stud", views=FASTENED, layer=50, frame=WHOLE)
def studded(pen: BoxPen, place: Place) -> None:
    for page in fastening_pages(pen, place):
        size = page.box.w / 100
        page.circle("b", 60, 30, 14 * size)
        page.circle("k", 60, 30, 7 * size)


@part("bag_closure", "quick", views=FASTENED, layer=50, frame=WHOLE)
def two_part_buckle(pen: BoxPen, place: Place) -> None:
    """The prongs of one half spring into slots in the sides of the other."""
    for page in fastening_pages(pen, place):
        page.path("b", "M46 -6H74V30H46ZM48 96H72V124H48Z")
        page.path("b", "M36 28H84V56L88 62H32L36 56ZM44 34V40H76V34Z")
        page.path(
            "b", "M38 62H82L80 78Q90 78 88 68H94C96 84 92 92 82 92L80 100H40L38 92C28 92 24 84 26 68H32Q30 78 40 78Z"
        )


@part("bag_closure", "zip", views={"front": ("mouth",), "flap": ("fastening",)}, layer=50, frame=WHOLE)
def zipped(pen: BoxPen, place: Place) -> None:
    """Along the mouth, a slider with its pull near one end."""
    if place.view == "front":
        page = moved(units(pen), 0, 2)
        w = round(pen.box.w)
    else:
        page, w = moved(next(fastening_pages(pen, place)), -40, 44), 200
    page.path("b", f"M6 4H{w - 6}V24H6Z")
    page.path("e", "".join(f"M{x} 11V17" for x in range(12, w - 10, 5)) + f"M8 14H{w - 8}")
    page.path("b", f"M{w - 48} 8H{w - 30}V20H{w - 48}ZM{w - 42} 14H{w - 36}L{w - 32} 42Q{w - 39} 50 {w - 46} 42Z")


@part("bag_closure", "cord", views={"front": ("mouth",), "flap": ("fastening",)}, layer=50, frame=WHOLE)
def drawn_shut(pen: BoxPen, place: Place) -> None:
    """Through eyelets along the mouth, its ends in a toggle."""
    if place.view == "front":
        page, w = units(pen), pen.box.w
    else:
        page, w = moved(next(fastening_pages(pen, place)), -40, 10), 200
    holes = [w * share for share in (0.08, 0.22, 0.36, 0.64, 0.78, 0.92)]
    for x in holes:
        page.circle("b", x, 20, 4 * page.box.w / 100)
    pairs = zip(holes[::2], holes[1::2], strict=True)
    data = "".join(f"M{a + 4:.0f} 20C{a + 10:.0f} 25 {b - 10:.0f} 25 {b - 4:.0f} 20" for a, b in pairs)
    m = round(w / 2)
    data += f"M{holes[2]:.0f} 22C{m - 16} 28 {m - 8} 36 {m - 4} 44M{holes[3]:.0f} 22C{m + 16} 28 {m + 8} 36 {m + 4} 44"
    page.path("e", data + f"M{m - 4} 58L{m - 8} 84M{m + 4} 58L{m + 9} 82")
    page.path("b", f"M{m - 9} 44H{m + 9}V58H{m - 9}Z")
