"""Pockets, their flaps and how the flaps are fastened."""

from catalogue.figures.parts import Place, part
from catalogue.figures.pen import BoxPen


@part("chest_pocket_form", "patch", layer=40)
def patch(pen: BoxPen, place: Place) -> None:
    pen.path("o", "M0 12V92C0 97 4 100 8 100H92C96 100 100 97 100 92V12Z")
    pen.path("t", "M5 12V91C5 94 7 95 9 95H91C93 95 95 94 95 91V12")


@part("flap_shape", "point", layer=42, frame=(15, 25, 70, 45))
def pointed(pen: BoxPen, place: Place) -> None:
    pen.path("o", "M-3 0H103V70L50 120L-3 70Z")
    pen.path("t", "M3 12H97V64L50 106L3 64V12")
