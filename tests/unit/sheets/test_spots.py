"""Places that a label could take, best first."""

import math

import pytest
import shapely
from shapely import LineString, MultiLineString

from kerfline.sheets.lettering import text_width
from kerfline.sheets.marks import Anchor, Layer, Text
from kerfline.sheets.spots import (
    Room,
    around,
    beside,
    close_by,
    farther,
    heart,
    inside,
    longest_line,
    middle_of,
    nearest_edge,
    over,
    readable,
)

TEXT = Text(layer=Layer.TAG, at=(0, 0), text="J12", height=2.5)
WIDTH = text_width("J12", 2.5)


@pytest.mark.parametrize(
    ("way", "turn", "against"),
    [
        ((1, 0), 0, False), ((-1, 0), 0, True), ((0, 1), 90, False), ((0, -1), 90, True),
        ((1, 1), 45, False), ((-1, 1), -45, True), ((-1, -1), 45, True),
    ],
)  # fmt: skip
def test_a_text_is_read_from_below_or_from_the_right(way, turn, against):
    found, runs_against = readable(way)
    assert (found, runs_against) == (pytest.approx(turn), against)


@pytest.mark.parametrize(("lean", "turned"), [(2.9, False), (3.1, True)])
def test_a_text_that_leans_back_a_little_is_read_from_the_right_too(lean, turned):
    angle = math.radians(90 + lean)
    assert readable((math.cos(angle), math.sin(angle)))[1] is turned


def test_along_a_line_a_text_stands_above_it_first_and_clear_of_it():
    line = LineString([(0, 0), (100, 0)])
    first, second, *_ = beside(line, TEXT)
    assert first.text.at[0] == pytest.approx(50)
    assert first.text.at[1] > 0
    assert second.text.at[1] + 2.5 < 0
    for spot in beside(line, TEXT):
        assert WIDTH / 2 <= spot.text.at[0] <= 100 - WIDTH / 2


@pytest.mark.parametrize(("over", "any_"), [(0.1, True), (-0.1, False)])
def test_a_line_shorter_than_its_text_has_no_place(over, any_):
    assert bool(list(beside(LineString([(0, 0), (WIDTH + over, 0)]), TEXT))) is any_


def test_inside_an_area_the_heart_is_best_and_every_place_holds_the_text():
    area = shapely.Polygon([(0, 0), (40, 0), (40, 10), (20, 10), (20, 30), (0, 30)])
    spots = list(inside(Room(area), TEXT))
    assert spots
    for spot in spots:
        x, y = spot.text.at
        assert area.covers(shapely.box(x - WIDTH / 2, y, x + WIDTH / 2, y + 2.5))
    assert list(inside(Room(shapely.box(0, 0, WIDTH - 0.1, 9)), TEXT)) == []


def test_a_room_holds_what_lies_in_it_alone():
    ell = Room(shapely.Polygon([(0, 0), (40, 0), (40, 10), (20, 10), (20, 30), (0, 30)]))
    assert ell.sides == (40, 30)
    assert ell.holds((0, 0, 20, 30))
    assert not ell.holds((15, 5, 25, 15)), "in its box but not in it"
    assert not ell.holds((-1, 0, 5, 5))
    box = Room(shapely.box(0, 0, 8, 4))
    assert box.heart == (4, 2)
    assert box.at(0.25, -0.5) == (6, 0)


def test_leaders_lead_from_the_point_to_where_the_text_begins():
    for spot in around((50, 50), TEXT):
        (start, knee) = spot.leader
        assert start == (50, 50)
        left = knee[0] < 50 - 1e-6
        assert spot.text.anchor is (Anchor.END if left else Anchor.START)
        assert abs(spot.text.at[0] - knee[0]) == pytest.approx(0.8)
    near, far = (
        max(math.dist(*s.leader) for s in way((50, 50), TEXT)) for way in (around, farther)
    )
    assert (near, far) == pytest.approx((32, 124))


def test_right_on_a_point_and_right_beside_it():
    (spot,) = over((50, 50), TEXT)
    assert spot.text.at == (50, 50 - 1.25)
    places = [s.text.at for s in close_by((50, 50), 4.0, TEXT)]
    assert all(abs(x - 50) == pytest.approx(3.3) for x, _ in places)
    assert len(places) == 4


def test_a_point_of_an_area_lies_inside_it_whatever_its_shape():
    ring = shapely.box(0, 0, 30, 30).difference(shapely.box(5, 5, 25, 25))
    for find in (heart, nearest_edge):
        assert ring.covers(shapely.Point(find(ring)))
    assert nearest_edge(shapely.box(0, 0, 30, 30)) == (28.5, 28.5)


def test_the_middle_and_the_longest_of_lines():
    assert middle_of(LineString([(0, 0), (4, 0), (4, 4)])) == (4, 0)
    parts = MultiLineString([[(0, 0), (1, 0)], [(5, 0), (9, 0)]])
    assert longest_line(parts).length == 4
    assert longest_line(shapely.Point(0, 0)) is None
