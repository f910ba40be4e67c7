"""The measures of a panel, by itself and among many, against figures that are known."""

import math

import pytest
from shapely import Polygon, box

from kerfline.engine.measure.many_shapes import corners_of, shapes_of
from kerfline.engine.measure.shape import DEEP, hollow_of, rectangle_shape, shape_of

HOOK = box(0, 0, 3000, 3000) - box(2000, 1800, 3000, 3000)
WEDGE = Polygon([(0, 0), (4000, 0), (4000, 4000 * math.tan(math.radians(50)))])
OBLONG = box(100, 200, 3100, 2200)


@pytest.mark.parametrize(
    ("panel", "area"),
    [(OBLONG, 6e6), (HOOK, 9e6 - 1.2e6), (WEDGE, 8e6 * math.tan(math.radians(50)))],
)
def test_the_area_is_the_same_by_every_way_of_measuring(panel, area):
    many, _ = shapes_of(corners_of([panel]), [[0]], 60.0)
    assert shape_of(panel, 60.0).area == pytest.approx(area)
    assert many.area == pytest.approx([area])


def test_a_rectangle_is_measured_by_its_sides():
    shape = rectangle_shape(2000.0, 3000.0)
    assert (shape.length, shape.width, shape.span, shape.area) == (3000.0, 2000.0, 3000.0, 6e6)
    assert shape.aspect == pytest.approx(1.5)


def test_a_hook_fills_less_than_its_hull_and_has_a_hollow_as_deep_as_its_corner():
    """Its hull lacks the triangle of 1000 by 1200 mm beyond the bite; the corner lies 768 mm under it."""
    shape = shape_of(HOOK, 60.0)
    assert shape.fullness == pytest.approx(7.8 / 8.4)
    assert shape.deepest == pytest.approx(1000 * 1200 / math.hypot(1000, 1200))
    assert shape.hollow == 1.0


def test_a_corner_under_the_least_angle_is_sharp_by_what_it_lacks():
    shape = shape_of(WEDGE, 60.0)
    assert shape.sharp == pytest.approx(2.0)
    assert shape.short == pytest.approx(10.0 + 20.0)


def test_a_shallow_jog_is_noise_and_a_deep_one_counts_whole():
    assert hollow_of(30.0) == 0.0
    assert hollow_of(DEEP / 2) == 0.5
    assert hollow_of(2 * DEEP) == 1.0
