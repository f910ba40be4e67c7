"""Numbers in circles."""

import math

import pytest
import shapely
from shapely import LineString

from kerfline.sheets.lettering import text_width
from kerfline.sheets.marks import Layer, Text
from kerfline.sheets.numbered import ROOM, circle_radius, line_spots, number_spots, ring_mark

TEXT = Text(layer=Layer.FINDING, at=(0, 0), text="12", height=3.0)


def test_a_circle_goes_round_the_corners_of_its_number():
    half = text_width("12", 3.0) / 2
    assert circle_radius(TEXT) == pytest.approx(math.hypot(half, 1.5) + ROOM)


def test_the_number_stands_on_its_point_first_then_around_it_with_a_leader():
    first, *others = number_spots((50.0, 40.0), TEXT)
    assert first.leader == ()
    assert (first.text.at[0], first.text.at[1] + 1.5) == (50.0, 40.0)
    assert all(spot.leader for spot in others)
    assert {spot.radius for spot in [first, *others]} == {circle_radius(TEXT)}


def test_a_leader_ends_on_the_circle():
    for spot in number_spots((50.0, 40.0), TEXT):
        if spot.leader:
            centre = (spot.text.at[0], spot.text.at[1] + 1.5)
            assert math.dist(centre, spot.leader[-1]) == pytest.approx(spot.radius)


def test_beside_a_line_the_circle_keeps_off_it_and_its_number_stands_upright():
    line = LineString([(0, 0), (60, 60)])
    spot = next(line_spots(line, TEXT))
    centre = shapely.Point(spot.text.at[0], spot.text.at[1] + 1.5)
    assert spot.text.turn == 0.0
    assert line.distance(centre) > spot.radius


def test_the_ring_is_drawn_around_the_middle_of_the_number():
    spot = next(number_spots((50.0, 40.0), TEXT))
    mark = ring_mark(spot)
    (x0, y0), (x1, y1) = mark.points
    assert ((x0 + x1) / 2, (y0 + y1) / 2) == (50.0, 40.0)
    assert x1 - x0 == pytest.approx(2 * spot.radius)
    assert mark.closed
    assert mark.layer is TEXT.layer
