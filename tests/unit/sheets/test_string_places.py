"""How far out each dimension string stands."""

import itertools
from dataclasses import replace

import shapely

from kerfline.sheets.lettering import text_corners
from kerfline.sheets.marks import Board, Layer, Text
from kerfline.sheets.stations import CORNER, EXTENT, JOINT, Station
from kerfline.sheets.string_places import Ink, draw_strings, meetings
from kerfline.sheets.strings import Shown, dimension_strings
from kerfline.units import Display
from views import texts

ELL = shapely.Polygon([(50, 50), (170, 50), (170, 90), (110, 90), (110, 130), (50, 130)])
LIMITS = ((0.0, 400.0), (0.0, 300.0))


def shown_and_strings():
    along = [
        Station(x, rank, spans=((0.0, 8000.0),))
        for x, rank in ((0.0, EXTENT), (6000.0, CORNER), (9000.0, JOINT), (12000.0, EXTENT))
    ]
    across = [
        Station(y, rank, spans=((0.0, 12000.0),))
        for y, rank in ((0.0, EXTENT), (2000.0, JOINT), (4000.0, CORNER), (8000.0, EXTENT))
    ]
    shown = Shown(slab=ELL, bounds=ELL.bounds, origin=(50.0, 50.0), scale=100.0)
    return shown, dimension_strings(shown, along, across)


def test_no_text_stands_on_a_text_a_line_or_the_concrete():
    shown, strings = shown_and_strings()
    board = Board()
    draw_strings(board, strings, shown, LIMITS, Display.METRIC, 2.5)
    boxes = [shapely.Polygon(text_corners(t)) for t in board if isinstance(t, Text)]
    assert boxes
    for one, other in itertools.combinations(boxes, 2):
        assert not one.intersects(other)
    for box in boxes:
        assert not ELL.intersects(box)


def test_a_running_text_steps_aside_of_a_line_through_its_place():
    shown, strings = shown_and_strings()
    running = next(s for s in strings if s.running and not s.side.upright)
    plain = Board()
    draw_strings(plain, [running], shown, LIMITS, Display.METRIC, 2.5)
    (before,) = [m for m in plain if isinstance(m, Text) and m.text == "6000"]
    x, y = before.at
    crossed = Board()
    crossed.line(Layer.DIMENSION, (x - 1.0, y - 30.0), (x - 1.0, y + 5.0))
    draw_strings(crossed, [running], shown, LIMITS, Display.METRIC, 2.5)
    (after,) = [m for m in crossed if isinstance(m, Text) and m.text == "6000"]
    line = shapely.LineString([(x - 1.0, y - 30.0), (x - 1.0, y + 5.0)])
    assert shapely.Polygon(text_corners(before)).intersects(line)
    assert not shapely.Polygon(text_corners(after)).intersects(line)


def test_every_offset_is_told():
    shown, strings = shown_and_strings()
    board = Board()
    draw_strings(board, strings, shown, LIMITS, Display.METRIC, 2.5)
    assert {"0", "6000", "9000", "12000", "2000", "4000", "8000"} <= set(texts(board))


def test_a_string_that_only_repeats_is_left_out_where_it_finds_no_room():
    shown, strings = shown_and_strings()
    blocked = Board(
        [
            Text(layer=Layer.TAG, at=(x, y), text="MMMM", height=8.0)
            for x in range(112, 200, 8)
            for y in range(92, 200, 8)
        ]
    )
    before = len(blocked.marks)
    spare = [replace(s, spare=True) for s in strings if s.stretch.depth > 0]
    assert spare
    draw_strings(blocked, spare[:1], shown, LIMITS, Display.METRIC, 2.5)
    assert len(blocked.marks) == before


def test_ink_counts_texts_on_texts_and_on_lines_of_either_side():
    """Two texts one over the other and a line under both: a text on a text, one text on each other's line."""
    old, new = Board(), Board()
    old.text(Layer.DIMENSION, (10.0, 10.0), "1234", 2.5)
    old.line(Layer.DIMENSION, (9.0, 20.0), (20.0, 20.0))
    new.text(Layer.DIMENSION, (11.0, 10.5), "1234", 2.5)
    new.text(Layer.DIMENSION, (11.0, 19.0), "1234", 2.5)
    new.line(Layer.DIMENSION, (9.0, 11.0), (20.0, 11.0))
    far = shapely.box(100.0, 100.0, 110.0, 110.0)
    found = meetings(Ink.of(new), [Ink.of(old)], far)
    assert found == 3
    assert meetings(Ink.of(old), [Ink.of(new)], far) == found
    assert meetings(Ink.of(new), [Ink.of(old), Ink.of(old)], far) == 2 * found
    assert meetings(Ink.of(new), [], shapely.box(0.0, 0.0, 50.0, 15.0)) == 1
    assert meetings(Ink.of(Board()), [Ink.of(old)], far) == 0
