"""What a glove is made of: fingers, palm, rows on the back, cuff, its fastening at the wrist, its lining."""

from catalogue.figures import miniatures
from catalogue.figures.parts import Place, part
from catalogue.figures.parts.trousers import WHOLE, moved
from catalogue.figures.pen import BoxPen
from catalogue.figures.silhouettes.gloves import FINGERS, HAND, draw_cuff, draw_fingers, page_of


def hand(pen: BoxPen, x: float, y: float, width: float) -> BoxPen:
    """A near view of the back of a glove, in units of its drawing; `x`, `y`: what lies in the upper corner."""
    page = moved(pen.sheet(width, width * 2 / 3), -x, -y)
    page.path("o", HAND)
    return page


@part("glove_form", *FINGERS, views={"back": ("fingers",), "palm": ("fingers_palm",)}, layer=20, frame=WHOLE)
def form(pen: BoxPen, place: Place) -> None:
    page = hand(pen, -40, 26, 600) if place.small else page_of(pen.pen, place.view)
    draw_fingers(page, place.profile["glove_form"])
    if place.small:
        page.path("o", "M188 402L338 402L342 440H184Z")


PALM = {"palm": ("palm",)}


def palm_page(pen: BoxPen, place: Place) -> BoxPen:
    """Units of the glove's drawing, as the mirror image that the palm is."""
    if not place.small:
        return page_of(pen.pen, "palm")
    # The small picture shows the palm alone, from the forks of the fingers to the wrist.
    page = hand(pen, 60, 206, 330)
    page.path("o", "M174 238V190H352V246")
    page.path("e", "M222 222V190M270 222V190M312 230V190M174 244C196 252 214 278 212 312C210 340 200 362 190 388")
    return page


def facing(pen: BoxPen, place: Place) -> BoxPen:
    page = palm_page(pen, place)
    if place.small:
        page.path(
            "b",
            "M218 240C260 232 300 236 344 252C348 310 340 350 330 386C296 394 244 394 208 388C232 344 236 290 218 240Z",
        )
    else:
        page.path(
            "b",
            "M188 246C240 232 300 236 346 252C350 310 342 350 332 390C296 398 244 398 208 392C228 344 230 280 188 246Z",
        )
    return page


@part("glove_palm", "none", layer=30, frame=WHOLE)
def bare_palm(pen: BoxPen, place: Place) -> None:
    if place.small:
        facing = (
            "M218 240C260 232 300 236 344 252C348 310 340 350 330 386C296 394 244 394 208 388C232 344 236 290 218 240Z"
        )
        miniatures.absent(palm_page(pen, place), facing, (284, 312), reach=26)


@part("glove_palm", "leather", views=PALM, layer=30, frame=WHOLE)
def leather_palm(pen: BoxPen, place: Place) -> None:
    """Creased, its edge cut and stitched twice."""
    page = facing(pen, place)
    page.path(
        "t", "M226 246C264 240 300 243 338 257C341 312 334 348 325 380C296 387 250 387 219 382C240 344 244 294 226 246Z"
    )
    page.path(
        "f",
        "M246 258C262 280 292 292 326 280M248 300C270 296 296 300 316 318M256 340C276 330 300 334 312 350"
        "M270 262C266 276 268 296 278 312M300 356C294 366 282 372 268 370",
    )


@part("glove_palm", "coated", views=PALM, layer=30, frame=WHOLE)
def coated_palm(pen: BoxPen, place: Place) -> None:
    """Small dots in rows that take a grip."""
    page = facing(pen, place)
    rows = enumerate(range(254, 384, 20))
    page.path("e", "".join(f"M{x} {y}H{x + 2}" for turn, y in rows for x in range(242 + turn % 2 * 10, 334, 20)))


@part("glove_palm", "knit", views=PALM, layer=30, frame=WHOLE)
def knitted_palm(pen: BoxPen, place: Place) -> None:
    """Row over row of stitches, each a small V."""
    page = facing(pen, place)
    row = [(x, turn % 2 * 8) for turn, x in enumerate(range(244, 336, 14))]
    page.path("e", "".join("M" + "L".join(f"{x} {y + down}" for x, down in row) for y in range(254, 380, 19)))


# The rows run from the knuckles towards the wrist, between the fingers.
POINTS = {"p1": ("M246 250C247 290 250 330 252 364",), "p3": (
    "M204 254C210 294 220 330 228 362", "M246 246C247 290 250 330 252 366", "M290 252C286 294 280 330 276 362",
)}  # fmt: skip
BACK = {"back": ("back_of_hand",)}


def points_page(pen: BoxPen, place: Place) -> BoxPen:
    if not place.small:
        return page_of(pen.pen, "back")
    page = hand(pen, 20, 110, 480)
    page.path("o", FINGERS["fingers"])
    page.path("o", "M188 402L338 402L344 450H182Z")
    return page


@part("glove_points", "p0", layer=32, frame=WHOLE)
def plain_back(pen: BoxPen, place: Place) -> None:
    if place.small:
        miniatures.absent(points_page(pen, place), "".join(POINTS["p3"]), (248, 306), reach=26)


@part("glove_points", *POINTS, views=BACK, layer=32, frame=WHOLE)
def rows_on_the_back(pen: BoxPen, place: Place) -> None:
    """Each row is a tuck with stitches beside it."""
    page = points_page(pen, place)
    rows = POINTS[place.profile["glove_points"]]
    page.path("e", "".join(rows))
    if place.small:  # each tuck as a ridge with two edges
        page.within(9, 0, 100, 100).path("e", "".join(rows))
        return
    page.within(5, 0, 100, 100).path("t", "".join(rows))


CUFFED = {"back": ("cuff_back",), "palm": ("cuff_palm",)}


@part("glove_cuff", "short", "gauntlet", views=CUFFED, layer=24, frame=WHOLE)
def cuff(pen: BoxPen, place: Place) -> None:
    """In the small picture with the measure from the seam of the wrist to the edge."""
    length = place.profile["glove_cuff"]
    if not place.small:
        draw_cuff(page_of(pen.pen, place.view), length)
        return
    page = hand(pen, 60, 316, 380)
    draw_cuff(page, length)
    foot = 462 if length == "short" else 538
    page.path(
        "e",
        f"M352 402H416M{356 if length == 'short' else 392} {foot}H416M404 402V{foot}M398 412L404 402L410 412"
        f"M398 {foot - 10}L404 {foot}L410 {foot - 10}",
    )


AT_WRIST = {"back": ("wrist_back",), "cuff": ("wrist",)}


def wrist_page(pen: BoxPen, place: Place) -> BoxPen:
    """Units over a wrist 150 wide whose seam lies at 24."""
    if not place.small:
        return pen.sheet(150, 48)
    page = moved(pen.sheet(204, 136), 15, 82)
    page.path(
        "o",
        "M-12 60C-6 46 0 36 2 24C-2 0 -8 -20 -8 -90H116L118 -26C132 -36 146 -66 166 -62C184 -58 180 -40 172 -26"
        "C162 -10 154 4 148 24C150 36 156 46 162 60Z",
    )
    page.path("e", "M23 -90V-46Q24 -40 25 -46V-90M54 -90V-46Q55 -40 56 -46V-90M85 -90V-46Q86 -40 87 -46V-90")
    # The fastening half as high again as it is: it is what is asked about.
    return page.within(0, -14, 100, 160)


@part("wrist_fastening", "none", layer=46, frame=WHOLE)
def open_wrist(pen: BoxPen, place: Place) -> None:
    if place.small:
        miniatures.absent(wrist_page(pen, place), "M148 12L62 11Q48 23 62 35L148 34", (100, 23), reach=9)


@part("wrist_fastening", "elastic", views=AT_WRIST, layer=46, frame=WHOLE)
def elastic_wrist(pen: BoxPen, place: Place) -> None:
    page = wrist_page(pen, place)
    page.path("e", "".join(f"M{x} 10C{x + 3} 18 {x - 3} 28 {x} 40" for x in range(26, 128, 12 if place.small else 7)))
    page.path("t", "M20 18C50 23 100 23 130 18M20 32C50 37 100 37 130 32")


def tab(page: BoxPen, foot: float = 34) -> None:
    page.path("b", f"M148 14L70 12Q56 23 70 {foot}L148 {foot - 2}Z")
    page.path("t", f"M146 18L73 16Q63 23 73 {foot - 4}L146 {foot - 6}")


@part("wrist_fastening", "button", views=AT_WRIST, layer=46, frame=WHOLE)
def wrist_button(pen: BoxPen, place: Place) -> None:
    page = wrist_page(pen, place)
    tab(page)
    size = page.box.w / 100
    page.circle("b", 78, 23, (13 if place.small else 6) * size)
    if not place.small:
        page.path("e", "M76 21.5H76.4M80 21.5H80.4M76 24.5H76.4M80 24.5H80.4M88 23H96")
        return
    page.path("e", "M93 23H106M60 23H65")
    for x, y in ((73, 20), (83, 20), (73, 26), (83, 26)):
        page.circle("k", x, y, 2.2 * size)


@part("wrist_fastening", "stud", views=AT_WRIST, layer=46, frame=WHOLE)
def wrist_stud(pen: BoxPen, place: Place) -> None:
    page = wrist_page(pen, place)
    tab(page)
    size = page.box.w / 100 * (1.8 if place.small else 1)
    page.circle("b", 78, 23, 7 * size)
    page.circle("k", 78, 23, 3.4 * size)


@part("wrist_fastening", "strap", views=AT_WRIST, layer=46, frame=WHOLE)
def wrist_strap(pen: BoxPen, place: Place) -> None:
    """Across the whole back, through a frame with a prong."""
    page = wrist_page(pen, place)
    page.path("b", "M2 15C40 20 110 20 148 15V33C110 38 40 38 2 33Z")
    page.path("b", "M60 10H88V43H60ZM66 16V37H82V16Z")
    page.path("e", "M66 27H86M100 27H101M110 27H111M120 26H121")
    page.path("t", "M4 19C24 22 40 22 58 22M4 30C24 33 40 33 58 33")


@part("wrist_fastening", "hook_loop", views=AT_WRIST, layer=46, frame=WHOLE)
def wrist_tape(pen: BoxPen, place: Place) -> None:
    page = wrist_page(pen, place)
    page.path("b", "M26 14H66V36H26Z")
    page.path("e", "".join(f"M{x} 16L{x + 4} 22M{x} 28L{x + 4} 34M{x + 4} 22L{x} 28" for x in range(29, 62, 6)))
    tab(page, 36)


INSIDE = {"cuff": ("inside_cuff",)}


def mouth_page(pen: BoxPen, place: Place) -> BoxPen:
    """Units over the open end of the cuff, 308 by 96, from its middle."""
    if not place.small:
        return moved(pen.sheet(308, 96), 154, 46)
    page = moved(pen.sheet(300, 200), 142, 128)
    page.path(
        "o",
        "M-90 -140C-86 -110 -96 -90 -104 -66C-112 -44 -118 -20 -124 0C-124 72 124 72 124 0C118 -20 110 -44 104 -62"
        "C130 -84 152 -110 150 -128C146 -146 120 -140 90 -104V-140Z",
    )
    page.path("e", "M-46 -140V-108M0 -140V-106M46 -140V-108")
    page.path("o", "M-124 0C-124 -64 124 -64 124 0C124 58 -124 58 -124 0Z")
    return page


@part("glove_lining", "none", views=INSIDE, layer=40, frame=WHOLE)
def unlined_glove(pen: BoxPen, place: Place) -> None:
    """The turnings of the seams show."""
    page = mouth_page(pen, place)
    page.path("e", "M-60 -38L-46 20M-50 -41L-36 22M60 -38L46 20M50 -41L36 22")
    page.path("t", "M-55 -39L-41 21M55 -39L41 21")


@part("glove_lining", "sewn", views=INSIDE, layer=40, frame=WHOLE)
def sewn_lining(pen: BoxPen, place: Place) -> None:
    """Joined to the edge all round, a little way in."""
    page = mouth_page(pen, place)
    page.path("e", "M-106 0C-104 -46 104 -46 106 0C104 38 -104 38 -106 0Z")
    page.path("t", "M-98 0C-94 -40 94 -40 98 0C94 31 -94 31 -98 0Z")
    page.path("f", "M-60 -20C-50 -8 -48 4 -52 16M0 -30C4 -14 4 2 0 20M60 -20C50 -8 48 4 52 16")


@part("glove_lining", "loose", views=INSIDE, layer=40, frame=WHOLE)
def loose_inner(pen: BoxPen, place: Place) -> None:
    """A knitted inner glove that stands free inside, its ribbed edge showing."""
    page = mouth_page(pen, place)
    page.path("o", "M-70 -8C-68 -38 68 -38 70 -8C72 0 74 6 76 14C50 34 -50 34 -76 14C-74 6 -72 0 -70 -8Z")
    page.path("o", "M-70 -8C-68 -38 68 -38 70 -8C66 16 -66 16 -70 -8Z")
    page.path("e", "".join(f"M{x} {10 - x * x // 420}V{28 - x * x // 420}" for x in range(-64, 68, 8)))


@part("glove_lining", "pile", views=INSIDE, layer=40, frame=WHOLE)
def pile_lining(pen: BoxPen, place: Place) -> None:
    """Tufts all over, and over the edge."""
    page = mouth_page(pen, place)
    rows = ((-30, 48), (-10, 96), (12, 96))
    tufts = "".join(f"M{x} {y}L{x + 5} {y + 10}L{x + 10} {y}" for y, reach in rows for x in range(-reach, reach, 24))
    page.path("e", tufts)
