"""The two faces of the slab edge that everything is measured from."""

import math

import pytest
import shapely
from shapely import LineString, affinity

from kerfline.geometry.ring import Ring
from kerfline.model.slab import Slab
from kerfline.sheets.baselines import OUT_OF_SQUARE, Way, baselines, way_of

ELL = shapely.Polygon([(0, 0), (12000, 0), (12000, 4000), (5000, 4000), (5000, 8000), (0, 8000)])


def slab(shape):
    return Slab(outline=Ring.of(shape), thickness=100)


def turned(degrees, shape=ELL):
    return slab(affinity.rotate(shape, degrees, origin=(0, 0)))


def test_a_slab_along_the_axes_is_measured_from_its_lower_left():
    base = baselines(slab(affinity.translate(ELL, 700, -300)))
    assert (base.origin, base.turn, base.corner) == ((700, -300), 0.0, True)
    assert base.local((1700, 200)) == (1000, 500)


@pytest.mark.parametrize(
    ("degrees", "turn"), [(30, 30), (60, -30), (-20, -20), (100, 10), (0.04, 0)]
)
def test_a_turned_slab_is_measured_along_its_own_edge(degrees, turn):
    """The direction lies between -45 and 45 degrees, so that sheets stand upright."""
    base = baselines(turned(degrees))
    assert base.turn == pytest.approx(turn, abs=1e-6)


def test_offsets_of_a_turned_slab_are_those_of_the_slab_before_it_was_turned():
    base = baselines(turned(30))
    for point in ((0, 0), (12000, 0), (5000, 4000)):
        spot = shapely.get_coordinates(affinity.rotate(shapely.Point(point), 30, origin=(0, 0)))[0]
        assert base.local(tuple(spot)) == pytest.approx(point, abs=1e-6)
    line = base.line([base.origin, base.origin])
    assert list(line.coords) == [(0, 0), (0, 0)]


def test_shapes_are_placed_as_points_are():
    base = baselines(turned(30))
    point = (4321.0, 1234.0)
    (shape,) = base.shapes([shapely.Point(point)])
    assert shape.coords[0] == pytest.approx(base.local(point))
    assert base.shape(shapely.Point(point)).equals(shape)


def test_where_no_corner_lies_at_the_lower_left_the_baselines_only_meet_there():
    cut = ELL.difference(shapely.box(-1, -1, 1000, 1000))
    base = baselines(slab(cut))
    assert base.origin == (0, 0)
    assert not base.corner


def test_a_part_of_the_slab_has_baselines_of_its_own():
    base = baselines(slab(ELL), shapely.box(5000, 1000, 12000, 4000))
    assert (base.origin, base.corner) == ((5000, 1000), True)


def test_a_slab_without_a_main_direction_keeps_the_drawings():
    """Nine sides of as many directions: none has a quarter of the edge."""
    corners = [
        (5000 * math.cos(2 * math.pi * n / 9 + 0.2), 5000 * math.sin(2 * math.pi * n / 9 + 0.2))
        for n in range(9)
    ]
    assert baselines(slab(shapely.Polygon(corners))).turn == 0.0


@pytest.mark.parametrize(
    ("lean", "way"),
    [(OUT_OF_SQUARE - 0.1, Way.UPRIGHT), (OUT_OF_SQUARE + 0.1, Way.SLANTING)],
)
def test_a_line_out_of_square_by_three_quarters_of_an_inch_slants(lean, way):
    assert way_of(LineString([(0, 0), (lean, 5000)])) is way
    level = Way.LEVEL if way is Way.UPRIGHT else Way.SLANTING
    assert way_of(LineString([(0, 0), (5000, lean)])) is level
