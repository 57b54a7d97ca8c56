"""Labels and marks: their kind, their place, and what is written on them. All wording is invented."""

from catalogue.figures import miniatures
from catalogue.figures.closeups import WHOLE, loom_letters, opened_crown, opened_garment, sheet, wording
from catalogue.figures.parts import Place, part
from catalogue.figures.pen import BoxPen


def neck_inside(page: BoxPen) -> None:
    """The inside of the neck, where a label is looked for first."""
    page.path("o", "M2 62V14C12 8 20 4 26 2C32 14 64 14 70 2C76 4 84 8 94 14V62Z")
    page.path("e", "M23 6C30 20 66 20 73 6")
    page.path("t", "M20 9C28 25 68 25 76 9")


@part("label_kind", "none", detail=True, frame=WHOLE)
def no_label(pen: BoxPen, place: Place) -> None:
    page = sheet(pen)
    neck_inside(page)
    miniatures.absent(page, "M32 26H64V46H32Z", (48, 36), reach=6)


@part("label_kind", "none", classes=("cap", "hat"), detail=True, frame=WHOLE)
def no_label_in_the_crown(pen: BoxPen, place: Place) -> None:
    page = sheet(pen)
    opened_crown(page)
    miniatures.absent(page, "M34 20H62V38H34Z", (48, 29), reach=6)


@part("label_kind", "woven", detail=True, frame=WHOLE)
def woven_label(pen: BoxPen, place: Place) -> None:
    """Ribbed all over by its threads, letters and borders woven in, the ends folded under."""
    page = sheet(pen)
    page.path("b", "M4 8H92V56H4Z")
    page.path("f", "".join(f"M4 {y}H92" for y in range(10, 56, 2)))
    page.path("k", "M4 11H92V14H4ZM4 50H92V53H4Z")
    page.path("e", "M9 8V56M87 8V56")
    page.path("k", loom_letters("SFS", 20, 17, 4))


@part("label_kind", "printed_cotton", detail=True, frame=WHOLE)
def printed_cotton_label(pen: BoxPen, place: Place) -> None:
    """A matt tape, printed, cut off with frayed ends, sewn down along both edges."""
    page = sheet(pen)
    fray = "".join(f"L{90 + x} {y}" for y, x in zip(range(14, 54, 4), (3, 0, 2, -1, 3, 1, 2, -1, 3, 0), strict=True))
    back = "".join(f"L{6 - x} {y}" for y, x in zip(range(50, 10, -4), (3, 0, 2, -1, 3, 1, 2, -1, 3, 0), strict=True))
    page.path("b", f"M6 10H90{fray}L90 54H6{back}Z")
    page.path("t", "M7 14H89M7 50H89")
    page.path("e", "M90 18H95M91 30H95M90 42H95M1 22H6M1 34H5M1 46H6" + wording(16, 40, 46, 30))
    page.text(48, 33, "No. 4  1957", size=13)


@part("label_kind", "printed_nylon", detail=True, frame=WHOLE)
def printed_nylon_label(pen: BoxPen, place: Place) -> None:
    """Thin and glossy, its cut edges melted, and it curls; small crisp print."""
    page = sheet(pen)
    page.path("b", "M10 4H86V46C86 52 80 58 70 60C52 62 30 56 10 60Z")
    page.path("b", "M86 46C80 42 70 44 66 50C64 54 66 60 70 60C80 58 86 52 86 46Z")
    page.path("t", "M12 8H84")
    page.path("f", "M70 12L50 42M76 12L56 42M82 14L66 38M28 48L24 56M34 48L30 55")
    page.path("e", wording(16, 16, 40, 32, 40, 24, 36, 28))


@part("label_kind", "ink_stamp", detail=True, frame=WHOLE)
def ink_stamp(pen: BoxPen, place: Place) -> None:
    """Ink on the cloth itself: no edge, no stitch, thin where the pad was dry."""
    page = sheet(pen)
    page.path("f", "".join(f"M2 {y}H94" for y in range(4, 64, 5)) + "".join(f"M{x} 2V62" for x in range(5, 94, 5)))
    page.path("e", "M20 50C6 42 8 18 30 12C50 6 78 10 86 24C92 36 82 50 64 54M52 55C44 56 36 55 28 53")
    page.path("e", "M18 38C16 26 30 18 46 18C64 16 78 22 78 32C78 42 64 49 46 48C36 48 26 46 22 43")
    page.text(48, 39, "S F S", size=17)


def label_in_place(pen: BoxPen, place: Place) -> None:
    """The small label on the opened garment."""
    if place.profile.get("label_kind") == "ink_stamp":
        pen.path("e", "M0 50C0 -10 100 -10 100 50C100 110 0 110 0 50Z")
    else:
        pen.rect("b", 0, 0, 100, 100)
    pen.path("e", "M16 36H84M16 64H60")


@part("label_place", "collar", views={"inside": ("label",)}, frame=WHOLE, layer=60)
def label_in_the_neck(pen: BoxPen, place: Place) -> None:
    shown_on_garment(pen, place, 41, 20)


@part("label_place", "left_front", views={"inside": ("label_alt_left",)}, frame=WHOLE, layer=60)
def label_on_the_left_front(pen: BoxPen, place: Place) -> None:
    if place.small or place.side == "left":
        shown_on_garment(pen, place, 73, 28)


@part("label_place", "right_front", views={"inside": ("label_alt_right",)}, frame=WHOLE, layer=60)
def label_on_the_right_front(pen: BoxPen, place: Place) -> None:
    if place.small or place.side == "right":
        shown_on_garment(pen, place, 9, 28)


def shown_on_garment(pen: BoxPen, place: Place, x: float, y: float) -> None:
    """In its region of the flat; in the small picture at that place of an opened garment."""
    if not place.small:
        label_in_place(pen, place)
        return
    page = sheet(pen)
    opened_garment(page)
    page.rect("k", x, y, 14, 9)
    if x != 41:
        page.text(15, 56, "R", size=13)
        page.text(81, 56, "L", size=13)


@part("label_place", "pocket_bag", views={"inside": ("pocket_bag_left",)}, frame=WHOLE, layer=60)
def label_in_a_pocket(pen: BoxPen, place: Place) -> None:
    if not place.small:
        if place.side == "left":
            label_in_place(pen.within(25, 55, 50, 22), place)
        return
    page = sheet(pen)
    page.path("o", "M20 18V52C20 58 24 60 30 60H66C72 60 76 58 76 52V18Z")
    page.path("t", "M24 18V51C24 55 26 57 30 57H66C70 57 72 55 72 51V18")
    page.path("o", "M12 18C30 8 66 8 84 18C66 26 30 26 12 18Z")
    page.path("e", "M2 18H12M84 18H94M12 18C30 12 66 12 84 18")
    page.rect("k", 36, 34, 24, 14)


@part("label_place", "waistband", views={"inside": ("label",)}, frame=WHOLE, layer=60)
def label_in_the_waistband(pen: BoxPen, place: Place) -> None:
    if not place.small:
        label_in_place(pen, place)
        return
    page = sheet(pen)
    page.path("o", "M14 8C36 12 60 12 82 8L88 62H54L48 36L42 62H8Z")
    page.path("e", "M13 20C36 24 60 24 83 20M48 24V36")
    page.path("t", "M14 17C36 21 60 21 82 17")
    page.rect("k", 54, 11, 18, 8)


@part("label_place", "crown", views={"inside": ("label",)}, frame=WHOLE, layer=60)
def label_in_the_crown(pen: BoxPen, place: Place) -> None:
    if not place.small:
        label_in_place(pen, place)
        return
    page = sheet(pen)
    opened_crown(page)
    page.path("f", "M48 11V47M24 30H72M31 17L65 42M65 17L31 42")
    page.rect("k", 38, 24, 20, 12)
