"""Buildings that only a bridge as wide as a gate joins are taken apart, unless walls stand between."""

import pytest
from shapely import LineString, box

from kerfline.files.drawing.buildings_apart import lines_apart, walled
from kerfline.files.drawing.wall_outline import around_walls
from kerfline.geometry.wrap import wrapped

HOUSE = box(0, 0, 12_000, 8_000)


def faces_of(*areas):
    """The lines around walls of 200 mm."""
    return [
        LineString(ring.coords)
        for area in areas
        for ring in (area.exterior, area.buffer(-200, join_style="mitre").exterior)
    ]


def steps_of(faces):
    return [wrapped(faces, gap) for gap in (2440.0, 4880.0)]


@pytest.mark.parametrize(("apart", "parted"), [(2_600, True), (4_700, True), (5_000, False)])
def test_two_plans_that_the_widest_gap_joins_are_parted(apart, parted):
    """Farther apart nothing joins them."""
    faces = faces_of(HOUSE, box(12_000 + apart, 0, 20_000 + apart, 8_000))
    found = lines_apart(steps_of(faces), faces)
    assert [len(own) for own in found] == ([2, 2] if parted else [])


@pytest.mark.parametrize(("wide", "parted"), [(2_350, False), (2_450, True)])
def test_a_shed_of_under_a_fifth_is_no_building_beside_a_house(wide, parted):
    """Of 96 square metres; a shed 8 m long."""
    faces = faces_of(HOUSE, box(15_000, 0, 15_000 + wide, 8_000))
    assert bool(lines_apart(steps_of(faces), faces)) is parted


def test_what_is_small_is_no_building():
    faces = faces_of(box(0, 0, 3_000, 3_000), box(6_000, 0, 9_000, 3_000))
    assert lines_apart(steps_of(faces), faces) == []


def test_walls_that_stand_between_are_those_of_a_room():
    other = box(15_500, 0, 24_000, 8_000)
    wall = box(13_500, 3_000, 13_700, 5_000)
    faces = [*faces_of(HOUSE, other), LineString(wall.exterior.coords)]
    assert lines_apart(steps_of(faces_of(HOUSE, other)), faces) == []


def test_a_door_that_swings_between_two_plans_makes_no_room_of_the_space():
    other = box(15_200, 0, 24_000, 8_000)
    leaf = box(12_000, 2_000, 12_900, 2_900)
    found = around_walls(faces_of(HOUSE, other), lambda part: part.covers(leaf))
    assert [f.area.area for f in found] == pytest.approx([HOUSE.area, other.area], rel=1e-6)


@pytest.mark.parametrize(("length", "own"), [(1_000, False), (1_100, True)])
def test_a_wall_of_some_length_stands_in_a_part(length, own):
    line = LineString([(1_000, 1_000), (1_000 + length, 1_000)])
    assert walled(HOUSE, [line]) is own
    assert not walled(HOUSE, [LineString([(50, 0), (50, 8_000)])])
