"""Around walls: doors, windows and gates are bridged, notches of the facade stay outside, doubt is kept."""

import pytest
from shapely import LineString, Polygon, box

from kerfline.files.drawing.wall_outline import around_walls

WALL = 200.0


def faces_of(facade, *, gaps=(), inner=()):
    """The lines around the walls of a facade, gaps taken out and inner walls added, in mm."""
    ring = facade.difference(facade.buffer(-WALL, join_style="mitre"))
    for line in inner:
        ring = ring.union(line.buffer(WALL / 2, cap_style="flat")).intersection(facade)
    for gap in gaps:
        ring = ring.difference(gap)
    bodies = getattr(ring, "geoms", [ring])
    return [LineString(r.coords) for body in bodies for r in (body.exterior, *body.interiors)]


def only(faces):
    (around,) = around_walls(faces)
    return around


HOUSE = box(0, 0, 12_000, 8_000)


@pytest.mark.parametrize("width", [900, 2_000, 4_800])
def test_a_door_a_window_and_a_gate_are_bridged(width):
    gap = box(6_000 - width / 2, -10, 6_000 + width / 2, 300)
    found = only(faces_of(HOUSE, gaps=[gap]))
    assert found.area.area == pytest.approx(HOUSE.area, rel=1e-6)
    assert found.doubtful is None
    assert found.gap >= width


@pytest.mark.parametrize("deep", [2_200, 3_500, 6_000])
def test_a_garage_behind_a_gate_nearly_as_wide_belongs_to_the_slab(deep):
    """A gate of 16 ft in a garage of 18 ft between jambs, the room shallower or deeper than the gate is wide."""
    walls = [
        LineString([(5_600, 0), (5_600, deep + 200)]),
        LineString([(0, deep + 100), (5_600, deep + 100)]),
    ]
    gate = box(500, -10, 5_300, 300)
    found = only(faces_of(HOUSE, gaps=[gate], inner=walls))
    assert found.area.area == pytest.approx(HOUSE.area, rel=1e-6)
    assert found.doubtful is None


@pytest.mark.parametrize("width", [1_000, 2_000, 4_000])
def test_a_notch_of_the_facade_stays_outside(width):
    """Closed off by a bridge as wide as itself: a recess, not a room."""
    facade = HOUSE.difference(box(4_000, 0, 4_000 + width, 1_500))
    found = only(faces_of(facade))
    assert found.area.area == pytest.approx(facade.area, rel=1e-6)


def test_a_wall_that_runs_on_beside_a_recess_is_left_out_too():
    """With a wall across from it, a gate's width away, it shows as a wall by itself only once the recess is out."""
    arm = box(12_000, 2_000, 16_500, 2_400)
    wing = box(12_000, 5_000, 16_500, 8_000)
    found = only(faces_of(HOUSE.union(wing).union(arm)))
    assert found.area.area == pytest.approx(HOUSE.union(wing).area, rel=1e-6)
    assert len(found.area.exterior.coords) == 7


def test_the_reveal_of_a_window_is_no_notch():
    """A wing with windows of 1.2 and 1.6 m: the smaller is bridged first, while the room is still open at the other."""
    wing = box(0, 8_000, 6_000, 14_000)
    facade = HOUSE.union(wing)
    windows = [box(-10, 10_400, 300, 11_600), box(5_700, 10_200, 6_010, 11_800)]
    found = only(faces_of(facade, gaps=windows))
    assert found.area.area == pytest.approx(facade.area, rel=1e-6)


@pytest.mark.parametrize("mouth", [2_000, 4_000])
def test_a_court_with_a_narrow_mouth_is_no_room_in_silence(mouth):
    """A court of 9 x 9 m reached by a passage 3 m deep: it may be outside as well."""
    house = box(0, 0, 20_000, 16_000)
    left = 10_000 - mouth / 2
    court = box(5_500, 3_000, 14_500, 12_000).union(box(left, 0, left + mouth, 3_000))
    facade = house.difference(court)
    found = only(faces_of(facade))
    assert found.doubtful is not None
    assert found.doubtful.area == pytest.approx(facade.area, rel=2e-3)


def test_a_recess_that_narrows_without_jambs_may_be_either():
    """A recess whose mouth is nine tenths of its width, with deep cheeks that are no wall's thickness."""
    mouth = Polygon([(4_000, 0), (7_600, 0), (7_600, 1_000), (4_000, 1_000)])
    behind = box(3_800, 1_000, 7_800, 3_000)
    facade = HOUSE.difference(mouth.union(behind))
    found = only(faces_of(facade))
    assert found.doubtful is not None
    areas = sorted((found.area.area, found.doubtful.area))
    # What is cut out is cut with a hair to spare all around.
    assert areas == pytest.approx([facade.area, HOUSE.area], rel=1e-3)


def test_a_recess_whose_sides_splay_may_be_either():
    """A recess wider at each depth than before it, and at none at once: its sides are no jambs."""
    recess = Polygon([(4_000, 0), (6_400, 0), (7_000, 1_500), (3_400, 1_500)])
    facade = HOUSE.difference(recess)
    found = only(faces_of(facade))
    assert found.doubtful is not None
    areas = sorted((found.area.area, found.doubtful.area))
    assert areas == pytest.approx([facade.area, HOUSE.area], rel=1e-3)


@pytest.mark.parametrize(
    ("thick", "long", "left_out"), [(600, 4_000, True), (600, 1_400, False), (800, 4_000, False)]
)
def test_a_wall_that_runs_on_beyond_the_building_is_no_slab(thick, long, left_out):
    arm = box(12_000, 3_000, 12_000 + long, 3_000 + thick)
    found = only(faces_of(HOUSE.union(arm)))
    assert found.area.area == pytest.approx(
        HOUSE.area if left_out else HOUSE.union(arm).area, rel=1e-4
    )


def test_a_door_makes_a_room_of_what_it_swings_in_and_of_nothing_else():
    """Two recesses that may be rooms: what says so of the one says nothing of the other."""
    recesses = []
    for x in (4_000, 14_000):
        mouth = box(x, 0, x + 3_600, 1_000)
        recesses.append(mouth.union(box(x - 200, 1_000, x + 3_800, 3_000)))
    house = box(0, 0, 22_000, 8_000)
    facade = house.difference(recesses[0]).difference(recesses[1])
    middle = recesses[0].centroid
    (found,) = around_walls(faces_of(facade), lambda part: part.contains(middle))
    areas = sorted((found.area.area, found.doubtful.area))
    assert areas == pytest.approx([house.area - recesses[1].area, house.area], rel=1e-3)


def test_sheds_of_some_size_are_slabs_of_their_own_and_petty_ones_none():
    shed = box(20_000, 0, 23_000, 3_000)
    tiny = box(30_000, 0, 31_500, 1_500)
    found = around_walls([*faces_of(HOUSE), *faces_of(shed), *faces_of(tiny)])
    assert [round(f.area.area / 1e6) for f in found] == [96, 9]


@pytest.mark.parametrize("apart", [3_000, 4_500, 6_000])
def test_plans_beside_one_another_on_a_sheet_are_each_found(apart):
    """Nearer than the widest gate, the space between them is bridged at first; it is a notch of both."""
    other = box(12_000 + apart, 0, 24_000 + apart, 9_000)
    found = around_walls([*faces_of(HOUSE), *faces_of(other)])
    assert [f.area.area for f in found] == pytest.approx([other.area, HOUSE.area], rel=1e-6)
    assert all(f.doubtful is None for f in found)


def test_a_building_that_is_closed_off_all_at_once_has_no_bridge_of_its_own():
    """Walls as thick as a gate is wide, in a wrong unit: all that is closed off is edge."""
    facade = box(0, 0, 120_000, 80_000)
    body = box(59_250, 0, 60_750, 80_000)
    faces = [LineString(g.exterior.coords) for g in (facade, body)]
    assert only(faces).area.area == pytest.approx(facade.area, rel=1e-6)
    body_alone = [LineString([(x, 0), (x, 80_000)]) for x in (59_250, 60_750)]
    assert all(a.area.is_valid for a in around_walls(body_alone))


def test_nothing_is_around_lines_that_close_nothing_off():
    assert around_walls([LineString([(0, 0), (9_000, 0)])]) == []


@pytest.mark.parametrize(("count", "asked"), [(1, False), (4, True)])
def test_small_recesses_are_taken_in_only_where_all_of_them_are_little(count, asked):
    """Each recess takes 0.5 % of the floor and splays, so that it may be a room as well as a notch."""
    facade = box(0, 0, 48_000, 20_000)
    for n in range(count):
        at = 4_000 + 9_000 * n
        facade = facade.difference(
            Polygon([(at, 0), (at + 2_000, 0), (at + 2_350, 1_900), (at - 350, 1_900)])
        )
    found = only(faces_of(facade))
    assert (found.doubtful is not None) is asked
