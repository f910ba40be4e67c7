"""Where a squared outline is not the true one, by hand on a floor of 3 x 2 m."""

from dataclasses import replace

import pytest
import shapely
from shapely import Polygon

from kerfline.engine.bounds.squared import Squared, squared_off
from unit.engine.grids import grid_of, region_on


def strayed(*upper):
    """How the floor stands to its grid where its upper edge runs through some points, from right to left."""
    net = grid_of([0, 1000, 3000], [0, 2000])
    true = Polygon(((0, 0), (3000, 0), *upper))
    return squared_off(net, replace(region_on(net), gross=true, concrete=true))


def test_a_square_floor_is_its_own_outline():
    found = strayed((3000, 2000), (0, 2000))
    assert found.slack == 0.0
    assert found.places.is_empty


@pytest.mark.parametrize("rise", [10, -10])
def test_the_slack_is_twice_the_greatest_distance(rise):
    """10 mm at a corner; where that falls, a ten-thousandth of a millimetre less, square to the sloping edge."""
    found = strayed((3000, 2000 + rise), (0, 2000))
    assert found.slack == pytest.approx(20, abs=2e-4)
    right, left, below = (2000, 1900, 3000, 2100), (-10, 0, -1, 2000), (0, 0, 3000, 1900)
    assert found.meets([right, left, below]).tolist() == [True, False, False]


def test_the_places_are_where_the_two_differ():
    """A step of 10 mm up in the middle third; they reach a hair beyond it."""
    found = strayed((3000, 2000), (2000, 2000), (2000, 2010), (1000, 2010), (1000, 2000), (0, 2000))
    assert found.slack == pytest.approx(20)
    assert found.places.bounds == pytest.approx((999.99, 1999.99, 2000.01, 2010.01), abs=1e-6)


def test_cells_that_are_no_slab_are_no_part_of_the_outline():
    net = grid_of([0, 1000, 3000], [0, 2000], out=[(0, 0)])
    assert squared_off(net, region_on(net)).slack == 0.0
    whole = replace(region_on(net), gross=shapely.box(0, 0, 3000, 2000))
    assert squared_off(net, whole).slack == pytest.approx(2000)


@pytest.mark.parametrize(("rise", "slack"), [(0.003, 0.0), (0.005, 0.01)])
def test_a_millionth_of_the_area_is_no_difference(rise, slack):
    """6 mm2 of 6 m2: a wedge of 3 m takes 4.5 at 0.003 mm, 7.5 at 0.005."""
    assert strayed((3000, 2000 + rise), (0, 2000)).slack == pytest.approx(slack)


@pytest.mark.parametrize(("rise", "met"), [(0.018, False), (0.022, True)])
def test_what_is_thinner_than_a_hair_on_either_side_is_no_place(rise, met):
    found = strayed((3000, 2000 + rise), (0, 2000 + rise))
    assert found.slack == pytest.approx(2 * rise)
    assert found.meets([(0, 0, 3000, 2000)]).tolist() == [met]


@pytest.mark.parametrize(
    ("box", "met"),
    [
        ((50, 50, 60, 60), True),
        ((-50, -50, 150, 150), True),
        ((100, 0, 200, 100), True),
        ((100.005, 0, 200, 100), True),
        ((100.02, 0, 200, 100), False),
        ((0, 100.02, 100, 200), False),
    ],
)
def test_a_box_meets_a_place_that_it_touches(box, met):
    place = shapely.box(0, 0, 100, 100)
    assert Squared(20.0, place).meets([box]).tolist() == [met]
    assert Squared(0.0, place).meets([box]).tolist() == [False]


def test_no_boxes_meet_nothing():
    assert Squared(20.0, shapely.box(0, 0, 100, 100)).meets([]).tolist() == []
