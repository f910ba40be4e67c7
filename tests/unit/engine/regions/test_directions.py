"""Main directions of outlines and walls."""

import math

import pytest
import shapely
from shapely import LineString, Polygon, affinity

from kerfline.engine.regions.directions import main_directions, misfit

HALL = Polygon([(0, 0), (9000, 0), (9000, 6000), (0, 6000)])


@pytest.mark.parametrize("turn", [0.0, 12.5, 44.0, 89.0])
def test_direction_of_a_turned_hall_is_its_turn(turn):
    (main,) = main_directions(affinity.rotate(HALL, turn))
    assert misfit(main.angle, turn) < 1e-6
    assert main.share == pytest.approx(1.0)


def test_noise_of_a_survey_does_not_make_another_direction():
    noisy = Polygon([(0, 0), (9000, 150), (8900, 6100), (60, 5950)])
    (main,) = main_directions(noisy)
    assert misfit(main.angle, 0.0) < 1.0


def test_wing_at_an_angle_is_a_second_direction():
    wing = affinity.rotate(shapely.box(0, 0, 4000, 2000), 30, origin=(0, 0))
    first, second = main_directions(shapely.union(HALL, affinity.translate(wing, 8500, 1000)))[:2]
    assert misfit(first.angle, 0.0) < 1e-6
    assert misfit(second.angle, 30.0) < 1e-6
    assert first.share > second.share


def test_walls_count_as_edges_do():
    diagonal = LineString([(0, 0), (30000, 30000)])
    assert main_directions(HALL, [diagonal])[0].angle == pytest.approx(45.0)


def test_chords_of_an_arc_have_no_direction():
    disc = shapely.Point(0, 0).buffer(5000, quad_segs=30)
    assert main_directions(disc)[0].angle == 0.0
    assert math.isfinite(main_directions(disc)[0].share)
