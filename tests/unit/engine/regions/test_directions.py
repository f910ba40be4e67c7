"""Main directions of outlines and walls."""

import math

import pytest
import shapely
from shapely import LineString, Polygon, affinity

from kerfline.engine.regions.directions import (
    heaviest_direction,
    main_directions,
    misfit,
    segments,
)

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


@pytest.mark.parametrize("turn", [0.0, 12.5, 89.99])
def test_the_direction_is_the_one_that_was_drawn_where_a_side_leans_a_little(turn):
    """One side of four leans by 2 degrees, the others and a wall run along one direction."""
    leaning = Polygon([(0, 0), (9000, 0), (9000, 5700), (0, 5386)])
    wall = LineString([(0, 2000), (9000, 2000)])
    ready, line = (affinity.rotate(x, turn, origin=(0, 0)) for x in (leaning, wall))
    (main,) = main_directions(ready, [line])
    assert misfit(main.angle, turn) < 1e-6


@pytest.mark.parametrize(("height", "drawn"), [(9400.0, True), (9200.0, False)])
def test_a_direction_was_drawn_if_it_is_that_of_half_of_the_length(height, drawn):
    """Two sides square to one another, 9 m and a height, against 18.3 m of two that lean by about 2 degrees."""
    lean = math.tan(math.radians(2.0)) * 9000
    figure = Polygon([(0, 0), (9000, 0), (9000 + lean, 9000), (0, height)])
    (main,) = main_directions(figure)
    assert (misfit(main.angle, 0.0) < 1e-6) is drawn


@pytest.mark.parametrize(("off", "one"), [(4.0, True), (7.0, False)])
def test_sides_were_drawn_along_one_direction_if_they_differ_by_no_more_than_0_03_degrees(off, one):
    """Over 9 m 4 mm are 0.025 degrees and 7 mm 0.045: then no direction has half of the length."""
    figure = Polygon([(0, 0), (9000, 0), (9300, 6000), (0, 6200)])
    wall = LineString([(0, 2000), (9000, 2000 + off)])
    (main,) = main_directions(figure, [wall])
    assert (misfit(main.angle, 0.0) < 0.05) is one


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


@pytest.mark.parametrize(
    "points",
    [
        ((0, 0), (9000, 0), (9000, 5000), (0, 5000)),
        ((0, 0), (9000, 0), (12000, 5000), (4000, 9000)),
        ((0, 0), (6000, 0), (10000, 4000), (8000, 6000), (5200, 3200), (0, 3200)),
        ((0, 0), (5000, 500), (8000, 5000), (3000, 8000), (-2000, 4000)),
    ],
)
def test_the_heaviest_direction_is_the_first_of_all(points):
    piece = Polygon(points)
    edges = segments([piece.exterior])
    assert heaviest_direction(*edges) == main_directions(piece)[0]
