"""The picture of a reading: everything is on the paper, each outline has its number, none on another."""

import math

from kerfline.sheets.marks import Layer, Path
from kerfline.sheets.reading_sheet import NUMBER, Outlined, Picture, reading_sheet
from kerfline.units import Display

SQUARE = ((0.0, 0.0), (9000.0, 0.0), (9000.0, 6000.0), (0.0, 6000.0))
WITHIN = ((100.0, 100.0), (8900.0, 100.0), (8900.0, 5900.0), (100.0, 5900.0))


def picture(**more):
    outlines = [
        Outlined(number=n, ring=ring, label=(4500.0, 3000.0), taken=n == 1, words=f"{n}. it")
        for n, ring in enumerate((SQUARE, WITHIN), start=1)
    ]
    return Picture(
        title="Which?", lines=[((0.0, 0.0), (9000.0, 6000.0))], outlines=outlines, **more
    )


def test_every_outline_is_numbered_where_no_other_number_stands():
    sheet = reading_sheet(picture(), Display.METRIC)
    numbers = [t for t in sheet.texts if t.height == NUMBER]
    assert [t.text for t in numbers] == ["1", "2"]
    assert math.dist(numbers[0].at, numbers[1].at) > 2 * NUMBER
    assert {"Which?", "1. it", "2. it"} <= {t.text for t in sheet.texts}


def test_all_of_it_lies_within_the_frame():
    sheet = reading_sheet(picture(walls=[((0.0, 3000.0), (9000.0, 3000.0))]), Display.FEET_INCHES)
    left, bottom, right, top = sheet.paper.frame
    points = [p for m in sheet.marks if isinstance(m, Path) for p in m.points]
    assert all(left <= x <= right and bottom <= y <= top for x, y in points)
    (wall,) = [m for m in sheet.marks if isinstance(m, Path) and m.layer is Layer.CONTROL]
    (edge,) = [
        m
        for m in sheet.marks
        if isinstance(m, Path) and m.width == 1.0 and len(m.points) == 4 and m.layer is Layer.EDGE
    ]
    # the wall runs from edge to edge at mid-height of the slab that was taken
    xs, ys = zip(*edge.points, strict=True)
    assert [p[0] for p in wall.points] == [min(xs), max(xs)]
    assert math.isclose(wall.points[0][1], (min(ys) + max(ys)) / 2)


def test_what_lies_far_off_is_left_out():
    far = picture()
    lines = [*far.lines, ((9e6, 9e6), (9.1e6, 9e6))]
    sheet = reading_sheet(Picture(title="", lines=lines, outlines=far.outlines), Display.METRIC)
    assert sum(isinstance(m, Path) and m.layer is Layer.WALL for m in sheet.marks) == 1
