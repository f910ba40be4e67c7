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


def grey(sheet):
    """The grey lines of the drawing."""
    return [m for m in sheet.marks if isinstance(m, Path) and m.layer is Layer.WALL]


def test_a_line_that_runs_out_of_the_picture_is_cut_not_left_out():
    lines = [((4_500.0, 3_000.0), (9e6, 3_000.0))]
    sheet = reading_sheet(
        Picture(title="", lines=lines, outlines=picture().outlines), Display.METRIC
    )
    (line,) = grey(sheet)
    left, _, right, _ = sheet.paper.frame
    assert left < line.points[0][0] < line.points[1][0] < right


def test_a_question_shows_what_is_drawn_beside_the_outlines_and_an_answer_the_slab_as_large_as_it_goes():
    beside = ((12_000.0, 0.0), (15_000.0, 6_000.0))
    widths = []
    for taken in (0, 1):
        outline = Outlined(number=1, ring=SQUARE, label=(1.0, 1.0), taken=bool(taken), words="1")
        sheet = reading_sheet(Picture(title="", lines=[beside], outlines=[outline]), Display.METRIC)
        (edge,) = [m for m in sheet.marks if isinstance(m, Path) and m.layer is Layer.EDGE]
        xs = [x for x, _ in edge.points]
        widths.append(max(xs) - min(xs))
        assert len(grey(sheet)) == 1 - taken
    assert widths[1] > 1.5 * widths[0]


def test_sentences_that_find_no_room_are_counted():
    sheet = reading_sheet(picture(words=["a sentence " * 40] * 30), Display.METRIC)
    last = min((t for t in sheet.texts if t.text.startswith("and ")), key=lambda t: t.at[1])
    shown = sum(t.text.startswith("a sentence") for t in sheet.texts)
    assert last.text.endswith("more, for which there is no room here")
    assert int(last.text.split()[1]) < 32
    assert shown > 0
    assert min(t.at[1] for t in sheet.texts if t.text) >= sheet.paper.frame[1]
