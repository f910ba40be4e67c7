"""What a wide gap closes off is told by its shape: a recess, a window's reveal, a room behind the jambs of a gate."""

import pytest
import shapely
from shapely import LineString, Polygon, box

from kerfline.files.drawing.recesses import (
    HAIR,
    JAMB,
    SIDED,
    closed_off,
    has_jambs,
    is_recess,
    share_of_width,
)

NOTHING = Polygon()
MOUTH = LineString([(0, 0), (2_000, 0)])


def around(part, *, mouth=True):
    """The lines along a part's edge, its mouth at y = 0 apart."""
    edge = part.exterior
    return [edge if not mouth else edge.difference(box(1, -1, 1_999, 1))]


@pytest.mark.parametrize("turn", [0, 30])
def test_the_share_of_a_bridge_is_that_of_the_width_along_it(turn):
    part = shapely.affinity.rotate(box(-1_000, 0, 3_000, 1_500), turn, origin=(0, 0))
    bridge = shapely.affinity.rotate(MOUTH, turn, origin=(0, 0))
    assert share_of_width(bridge, part) == pytest.approx(0.5)


@pytest.mark.parametrize(("depth", "recess"), [(JAMB[1] + 1, True), (JAMB[1] - 1, False)])
def test_what_is_deeper_than_a_wall_is_a_recess_whatever_stands_behind(depth, recess):
    assert is_recess(MOUTH, box(0, 0, 2_000, depth), [], NOTHING) is recess


def test_a_shallow_recess_has_a_wall_behind_and_at_its_sides():
    part = box(0, 0, 2_000, 400)
    assert is_recess(MOUTH, part, around(part), NOTHING)
    sides = [LineString([(x, 0), (x, 400)]) for x in (0, 2_000)]
    assert not is_recess(MOUTH, part, sides, NOTHING)
    back = LineString([(0, 400), (2_000, 400)])
    assert not is_recess(MOUTH, part, [back], NOTHING)
    inside = box(-500, 400, 2_500, 3_000)
    assert is_recess(MOUTH, part, sides, inside), "a narrower bridge is a back as well"


@pytest.mark.parametrize("walled", [SIDED - 0.05, SIDED + 0.05])
def test_a_window_with_the_end_of_an_inner_wall_behind_it_is_none(walled):
    """The jambs go as deep as the outer wall, and the end of the inner wall stands deeper."""
    part = box(0, 0, 2_000, 400)
    jambs = [LineString([(x, 0), (x, 400 * walled)]) for x in (0, 2_000)]
    inside = box(-500, 400, 2_500, 3_000)
    assert is_recess(MOUTH, part, jambs, inside) is (walled > SIDED)


@pytest.mark.parametrize(("wider", "room"), [(1_000, True), (70, False)])
def test_a_room_is_wider_at_once_behind_the_jambs_of_its_gate(wider, room):
    gate = box(0, 0, 2_000, 240)
    assert has_jambs(MOUTH, gate.union(box(-wider, 240, 2_000 + wider, 5_000))) is room


def test_each_gap_closes_off_what_no_narrower_one_did():
    hall = box(0, 0, 12_000, 8_000)
    yard = box(4_000, 0, 6_000, 3_000)
    narrow, wide = [hall.difference(yard)], [hall]
    ((gap, part, bridge, before),) = closed_off(hall, [narrow, narrow, wide, wide])
    assert gap == 2_440
    assert part.symmetric_difference(yard).area < 1e-6 * yard.area
    assert bridge.length == pytest.approx(2_000, abs=2 * HAIR + 1)
    assert before.area == pytest.approx(narrow[0].area)


@pytest.mark.parametrize(("width", "parts"), [(5_000, 0), (9_000, 1)])
def test_the_corner_of_a_room_belongs_to_its_gate_but_the_building_is_no_corner(width, parts):
    """What a bridge inside closes off is joined to what is closed off later only where it is no more than half."""
    hall = box(0, 0, 10_000, 8_000)
    first = box(0, 0, 10_000 - width, 8_000)
    second = first.union(box(10_000 - width, 1_000, 9_000, 7_000))
    found = list(closed_off(hall, [[first], [second], [hall], [hall]]))
    joined = [part for gap, part, _, _ in found if part.intersects(box(8_000, 3_000, 8_100, 3_100))]
    assert bool(joined) is not bool(parts)
