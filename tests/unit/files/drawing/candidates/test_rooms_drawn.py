"""Rooms drawn as closed figures in their house's outline: the house is the slab, a room with a name is not."""

import pytest
from ezdxf import units

from drawn_candidates import rectangle, says, signs_of
from kerfline.files.drawing import SlabOpen, read_drawing, reading
from kerfline.files.drawing.candidates import decide, gathered, judged, scene_of

HOUSE = (0, 0, 12_000, 8_000)


@pytest.fixture
def drawn(sheet):
    return sheet(units.MM)


def house_with_room(drawn, gap, words="LIVING", room_to=(6_200, 5_200)):
    drawn.poly("0", rectangle(*HOUSE))
    drawn.poly("0", rectangle(gap, gap, *room_to))
    if words:
        drawn.text("0", words, (2_000, 2_500), 250)


def taken(drawn):
    scene = scene_of(read_drawing(drawn.save()))
    slab = decide(judged(scene, gathered(scene))).slab
    return slab and tuple(round(v) for v in slab.polygon.bounds)


@pytest.mark.parametrize(
    "words", ["LIVING", "Kitchen 12 m2", "BEDROOM 2", "Küche", "Спальня", "ROOM"]
)
def test_a_house_is_taken_where_a_room_behind_its_wall_is_named(drawn, words):
    house_with_room(drawn, 200, words)
    assert taken(drawn) == HOUSE
    assert says(signs_of(drawn, HOUSE), "rooms stand along its edge")
    assert says(signs_of(drawn, (200, 200, 6_200, 5_200)), "a text names it a room")


@pytest.mark.parametrize("words", ["", "NOTE 3", "BALLROOMS"])
def test_without_such_a_text_it_is_asked(drawn, words):
    house_with_room(drawn, 200, words)
    with pytest.raises(SlabOpen):
        reading(read_drawing(drawn.save()))


@pytest.mark.parametrize(("gap", "room"), [(45, False), (50, True), (510, True), (515, False)])
def test_only_a_wall_apart_it_is_a_room(drawn, gap, room):
    house_with_room(drawn, gap)
    assert bool(says(signs_of(drawn, HOUSE), "rooms stand along its edge")) is room


def test_a_plan_in_the_corner_of_a_frame_holds_several_rooms_and_is_none(drawn):
    house_with_room(drawn, 300)
    drawn.text("0", "KITCHEN", (4_500, 4_000), 250)
    assert not says(signs_of(drawn, HOUSE), "rooms stand along its edge")


def test_the_second_line_of_a_border_is_no_room(drawn):
    house_with_room(drawn, 300, room_to=(11_700, 7_700))
    assert not says(signs_of(drawn, HOUSE), "rooms stand along its edge")
