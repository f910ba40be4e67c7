"""Dimension strings drawn: running ones from corner A, chains, and the room that they take."""

import itertools

import pytest
import shapely

from kerfline.sheets.dimension_marks import axis_of, draw_string, margins
from kerfline.sheets.lettering import text_corners
from kerfline.sheets.marks import Board, Text
from kerfline.sheets.stations import EXTENT, JOINT, Station
from kerfline.sheets.strings import Shown, dimension_strings
from kerfline.units import Display
from views import texts

BOX = shapely.box(50.0, 50.0, 170.0, 130.0)


def strings(offsets, scale=100.0):
    """The strings of a slab of 12 x 8 m on paper at 50, 50 with joints at offsets along it, mm."""
    along = [Station(float(x), JOINT, spans=((0.0, 8000.0),)) for x in offsets]
    ends = [Station(x, EXTENT, spans=((0.0, 8000.0),)) for x in (0.0, 12000.0)]
    across = [Station(y, EXTENT, spans=((0.0, 12000.0),)) for y in (0.0, 8000.0)]
    shown = Shown(slab=BOX, bounds=(50.0, 50.0, 170.0, 130.0), origin=(50.0, 50.0), scale=scale)
    return dimension_strings(shown, sorted([*along, *ends]), across)


def drawn(string):
    board = Board()
    axis = axis_of(string, (50.0, 50.0), 100.0, (0.0, 400.0), 2.5)
    draw_string(board, string, axis, Display.METRIC, 2.5)
    return board


def of(offsets, *, running, upright=False):
    return next(s for s in strings(offsets) if s.running is running and s.side.upright is upright)


def test_running_dimensions_tell_each_offset_and_what_they_measure():
    board = drawn(of((3000, 7000), running=True))
    assert texts(board) == ["0", "3000", "7000", "12000"]
    assert [m.end[0] - m.start[0] for m in board.measures] == pytest.approx([0, 30, 70, 120])
    assert all(m.running for m in board.measures)


def test_a_chain_tells_each_bay_and_the_overall_beyond():
    board = drawn(of((3000, 7000), running=False))
    assert texts(board) == ["3000", "4000", "5000", "12000"]
    rows = [t.at[1] for t in board if isinstance(t, Text)]
    assert rows[3] > max(rows[:3])


@pytest.mark.parametrize(
    ("offsets", "told"),
    [((4000, 8000), ["3 @ 4000 = 12000"]), ((6000,), ["6000", "6000", "12000"])],
)
def test_three_equal_bays_on_end_are_told_as_one(offsets, told):
    assert texts(drawn(of(offsets, running=False))) == told


def test_a_bay_too_narrow_for_its_value_has_it_square_to_the_chain():
    board = drawn(of((3000, 3400, 7000), running=False))
    narrow = next(t for t in board if isinstance(t, Text) and t.text == "400")
    wide = next(t for t in board if isinstance(t, Text) and t.text == "3000")
    assert narrow.turn == 90.0
    assert wide.turn == 0.0


def test_no_two_texts_of_a_string_overlap_however_near_its_stations():
    board = drawn(of((3000, 3150, 3300, 3450), running=True))
    boxes = [shapely.Polygon(text_corners(t)) for t in board if isinstance(t, Text)]
    for one, other in itertools.combinations(boxes, 2):
        assert one.intersection(other).area < 1e-9


def test_the_room_beside_the_plan_grows_with_the_texts_and_the_overall_row():
    ends = [Station(0.0, EXTENT), Station(12000.0, EXTENT)]
    joints = [ends[0], Station(4500.0, JOINT), ends[1]]
    few = margins(ends, ends, Display.METRIC, 2.5, 100.0)
    more = margins(joints, ends, Display.METRIC, 2.5, 100.0)
    assert few[0] == few[1] == more[0]
    assert more[3] > few[3], "a chain and the overall dimension beyond it"
    assert margins(joints, ends, Display.METRIC, 2.5, 100.0, overall=False)[3] < more[3]
    assert margins(ends, ends, Display.FEET_INCHES, 2.5, 100.0)[0] > few[0]
