"""A sheet is a pen that keeps round things round, whatever the shape of the box."""

from catalogue.figures.pen import Box, Pen


def test_a_sheet_lies_undistorted_in_the_middle_of_a_wider_box():
    sheet = Pen().in_box(Box(10, 20, 400, 100)).sheet(50, 50)
    assert sheet.xy(0, 0) == (160, 20)
    assert sheet.xy(50, 50) == (260, 120)


def test_a_sheet_stands_mirrored_where_its_box_is_flipped():
    box = Pen().in_box(Box(0, 0, 96, 64), flipped=True)
    assert box.sheet(96, 64).xy(0, 0) == (96, 0)
    assert box.sheet(96, 64).xy(90, 10) == (6, 10)
