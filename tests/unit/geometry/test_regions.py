"""What linework encloses."""

import pytest
from shapely import LineString

from kerfline.geometry.paths import Path
from kerfline.geometry.regions import carried_to_meet, enclosed


def lines(*ends):
    return [Path((a, b)) for a, b in ends]


def test_a_grid_encloses_its_outer_boundary():
    # the loops of a 5 x 5 grid are far too many to be tried one by one
    grid = [((i * 100, 0), (i * 100, 500)) for i in range(6)]
    grid += [((0, i * 100), (500, i * 100)) for i in range(6)]
    (ring,) = enclosed(lines(*grid), 5).rings
    assert ring.polygon.area == pytest.approx(250_000)


def test_rings_come_largest_first_and_once():
    small, large = (
        Path(((0, 0), (10, 0), (10, 10)), (), True),
        Path(((0, 0), (90, 0), (90, 90)), (), True),
    )
    rings = enclosed([small, large, large, small.reversed()], 1).rings
    assert [r.polygon.area for r in rings] == [4050, 50]


def test_a_polyline_that_crosses_itself_gives_its_outer_boundary():
    bow = Path(((0, 0), (100, 100), (100, 0), (0, 100)), (), True)
    found = enclosed([bow], 1)
    assert found.crossed == (bow,)
    areas = [r.polygon.area for r in found.rings]
    assert areas == pytest.approx([2500, 2500])


def test_an_end_short_of_a_line_reaches_it():
    reached = carried_to_meet(
        [LineString([(0, 0), (95, 0)]), LineString([(100, -50), (100, 50)])], 10
    )
    assert list(reached[0].coords) == [(0, 0), (100, 0)]


def test_what_is_small_is_left_out_wherever_it_lies():
    """A mark of 100 by 100 mm far from the origin is as small as one at it."""
    mark = [(0, 0), (100, 0), (0, 100)]
    large = [(0, 0), (2000, 0), (0, 2000)]
    for x, y in ((0, 0), (90_000, 0), (0, 90_000), (90_000, 90_000)):
        paths = [Path(tuple((a + x, b + y) for a, b in p), (), True) for p in (mark, large)]
        assert [r.polygon.area for r in enclosed(paths, 1.0, 1e6).rings] == [2e6]


def test_an_end_that_lies_on_a_line_is_carried_on_to_no_other():
    """The next line is 5 mm beyond, within reach; an end that stops short of both goes on to the nearer."""
    walls = [LineString([(x, -500), (x, 500)]) for x in (1000, 1005)]
    on, short = LineString([(0, 0), (1000, 0)]), LineString([(0, 0), (998, 0)])
    for line in (on, short):
        carried = carried_to_meet([line, *walls], 10.0)
        assert list(carried[0].coords) == [(0, 0), (1000, 0)]


def test_what_crossing_lines_enclose_is_woven_and_what_is_drawn_closed_is_not():
    drawn = Path(((0, 0), (900, 0), (900, 600), (0, 600)), closed=True)
    bars = [((2000, 100), (5000, 100)), ((2000, 900), (5000, 900))]
    posts = [((2500, -200), (2500, 1200)), ((4500, -200), (4500, 1200))]
    found = enclosed([drawn, *(Path(line) for line in (*bars, *posts))], 1.0)
    assert sorted(round(r.polygon.area) for r in found.rings) == [900 * 600, 2000 * 800]
    assert [round(r.polygon.area) for r in found.woven] == [2000 * 800]
