"""Ends of lines brought onto what they stop on."""

import math

import pytest
from shapely import box

from kerfline.geometry.fitting import EDGE, _tail_moved, fitted

ROOM = [box(0, 0, 1000, 1000).exterior]


def fit(*lines, reach=50.0):
    return fitted(lines, ROOM, [reach] * len(lines))


def test_a_line_that_stops_short_is_carried_on_and_one_that_runs_over_cut_back():
    (line,), (start, end) = fit(((500, 30), (500, 1020)))
    assert line == ((500, 0), (500, 1000))
    assert (start.by, start.onto) == (pytest.approx(30), EDGE)
    assert end.by == pytest.approx(-20)


def test_the_nearest_target_is_taken():
    lines, fits = fit(((0, 960), (1000, 960)), ((500, 0), (500, 990)))
    assert lines[1] == ((500, 0), (500, 1000))
    assert [f.onto for f in fits] == [EDGE]


def test_two_that_stop_short_of_their_corner_meet_in_it():
    lines, fits = fit(((0, 500), (470, 500)), ((500, 1000), (500, 530)))
    assert lines == [((0, 500), (500, 500)), ((500, 1000), (500, 500))]
    assert len(fits) == 2


def test_an_end_that_is_too_far_off_stays():
    line = ((500, 60), (500, 940))
    assert fit(line) == ([line], [])


def test_an_end_beside_a_line_it_is_nearly_parallel_to_stays():
    line = ((400, 400), (600, 410))
    lines, fits = fit(line, ((300, 380), (800, 400)))
    assert lines[0] == line
    assert not [f for f in fits if f.line == 0]


def test_the_last_chord_of_a_curve_is_carried_on_and_a_curve_cut_back_along_itself():
    curve = [
        (500 + 400 * math.cos(math.radians(a)), 400 * math.sin(math.radians(a)))
        for a in range(2, 181, 2)
    ]
    (line,), (head,) = fitted([tuple(curve)], ROOM, [50.0])
    assert line[0][1] == pytest.approx(0, abs=1e-9)
    assert head.by == pytest.approx(14, abs=0.1)
    over = [
        (500 + 400 * math.cos(math.radians(a)), 400 * math.sin(math.radians(a)))
        for a in range(-4, 181, 2)
    ]
    (cut,), _ = fitted([tuple(over)], ROOM, [50.0])
    assert cut[0][1] == pytest.approx(0, abs=0.5)


def test_no_lines_are_no_lines():
    assert fitted([], ROOM, []) == ([], [])


@pytest.mark.parametrize(("degrees", "moves"), [(8.0, False), (12.0, True)])
def test_a_line_is_no_stop_for_one_that_meets_it_at_less_than_ten_degrees(degrees, moves):
    rise = math.tan(math.radians(degrees))
    line = ((300.0, 500.0 - 5.0 - 100.0 * rise), (400.0, 495.0))
    stop = ((100.0, 500.0), (900.0, 500.0))
    _, fits = fitted([line, stop], ROOM, [60.0, 0.0])
    assert any(f.line == 0 and f.onto == 1 for f in fits) == moves


def test_a_line_is_cut_back_beyond_its_last_piece():
    """10 mm at the end and 30 to take off: 20 of the piece before go too."""
    assert _tail_moved(((0.0, 0.0), (100.0, 0.0), (110.0, 0.0)), -30.0) == ((0.0, 0.0), (80.0, 0.0))
    assert _tail_moved(((0.0, 0.0), (100.0, 0.0)), -30.0) == ((0.0, 0.0), (70.0, 0.0))
