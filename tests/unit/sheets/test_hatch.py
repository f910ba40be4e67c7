"""Hatching as plain lines."""

import math

import pytest
import shapely

from kerfline.sheets.hatch import hatch_lines

SQUARE = shapely.box(3, 5, 43, 35)


@pytest.mark.parametrize("angle", [0.0, 45.0, 90.0, 135.0])
def test_lines_run_in_their_direction_at_their_pitch_inside_the_area(angle):
    lines = hatch_lines(SQUARE, 4.0, angle)
    across = math.radians(angle + 90)
    offs = set()
    for line in lines:
        (ax, ay), (bx, by) = line.coords
        assert abs((bx - ax) * math.cos(across) + (by - ay) * math.sin(across)) < 1e-9
        assert SQUARE.buffer(1e-9).covers(line)
        offs.add(round((ax * math.cos(across) + ay * math.sin(across)) / 4.0, 6))
    assert len(offs) == len(lines)
    assert all(off == round(off) for off in offs), "lines of neighbouring areas go on in each other"


def test_lines_break_over_a_hole():
    holed = SQUARE.difference(shapely.box(13, 10, 33, 30))
    level = hatch_lines(holed, 4.0, 0.0)
    assert sum(line.length for line in level) == pytest.approx(
        sum(40 if not 10 < y < 30 else 20 for y in range(8, 35, 4))
    )


def test_an_area_between_two_lines_has_none():
    assert hatch_lines(shapely.box(0, 0.5, 9, 3.5), 4.0, 0.0) == []
