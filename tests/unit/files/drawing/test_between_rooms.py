"""Inner walls that only show between the outlines of rooms, where the layer of walls shows none inside."""

import pytest
from ezdxf import units

from drawn_candidates import rectangle
from kerfline.files.drawing import read_drawing, reading

ROOMS = [(200, 200, 6_200, 7_800), (6_400, 200, 11_800, 3_200), (6_400, 3_400, 11_800, 7_800)]


def walls_of(drawn):
    """The middles of the inner walls, by the layers that they were read from."""
    read = reading(read_drawing(drawn.save()))
    lines = sorted(tuple(sorted(w.path)) for w in read.parts.walls)
    return read.look.layers.walls, [tuple((round(x), round(y)) for x, y in line) for line in lines]


@pytest.mark.parametrize("layer", ["A-ROOM", "ROOMS", "FP_ROOMS"])
def test_walls_stand_between_rooms_that_are_a_wall_apart(sheet, layer):
    drawn = sheet(units.MM)
    drawn.poly("A-WALL", rectangle(0, 0, 12_000, 8_000))
    for room in ROOMS:
        drawn.poly(layer, rectangle(*room))
    layers, lines = walls_of(drawn)
    assert layers == ("A-WALL", layer)
    assert [line[0][0] for line in lines] == [6_300, 6_300]
    assert {line[1] for line in lines} == {(6_300, 7_800), (11_800, 3_300)}


def test_inner_walls_that_are_drawn_are_not_read_a_second_time(sheet):
    drawn = sheet(units.MM)
    drawn.poly("A-WALL", rectangle(0, 0, 12_000, 8_000))
    drawn.wall("A-WALL", (6_300, 200), (6_300, 7_800), 200)
    for room in ROOMS:
        drawn.poly("A-ROOM", rectangle(*room))
    layers, lines = walls_of(drawn)
    assert layers == ("A-WALL",)
    assert len(lines) == 1


@pytest.mark.parametrize(
    ("layer", "rooms"),
    [
        ("A-AREA", ROOMS),
        ("A-ROOM", ROOMS[:1]),
        ("A-ROOM", [ROOMS[0], (8_000, 1_000, 11_000, 3_000)]),
    ],
)
def test_one_room_or_rooms_farther_apart_or_another_layer_show_no_wall(sheet, layer, rooms):
    drawn = sheet(units.MM)
    drawn.poly("A-WALL", rectangle(0, 0, 12_000, 8_000))
    for room in rooms:
        drawn.poly(layer, rectangle(*room))
    assert walls_of(drawn) == (("A-WALL",), [])
