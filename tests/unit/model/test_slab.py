"""What is given: boxouts by their form, walls, pipes, and the concrete that is left between them."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString

from kerfline.geometry.ring import Ring
from kerfline.model.slab import (
    BearingRule,
    Boxout,
    Column,
    GivenJoint,
    Penetration,
    Slab,
    Wall,
    Zone,
)
from strategies import slabs, turned

FORMS = {
    Boxout.DIAMOND: (4, False, False),
    Boxout.SQUARE: (0, True, False),
    Boxout.CIRCLE: (0, False, True),
    Boxout.NONE: (0, False, False),
}


@pytest.mark.parametrize("boxout", Boxout)
def test_a_boxout_has_points_or_sides_or_a_round_edge(boxout):
    column = Column(id="C1", at=(1000.0, 2000.0), boxout=boxout, size=600.0)
    assert (len(column.points), column.is_square, column.is_round) == FORMS[boxout]
    assert (column.outline is None) is (boxout is Boxout.NONE)


def test_a_diamonds_points_lie_along_the_columns_axes():
    points = Column(id="C1", at=(0.0, 0.0), size=600.0).points
    reach = 300.0 * 2**0.5
    found = sorted((round(x, 3) + 0.0, round(y, 3) + 0.0) for x, y in points)
    expected = sorted([(reach, 0.0), (-reach, 0.0), (0.0, reach), (0.0, -reach)])
    assert found == [(round(x, 3), round(y, 3)) for x, y in expected]


def box_ring(x0, y0, x1, y1):
    return Ring(((x0, y0), (x1, y0), (x1, y1), (x0, y1)))


FLOOR = box_ring(0, 0, 6000, 4000)


def slab(**more):
    return Slab(outline=FLOOR, thickness=100.0, **more)


@pytest.mark.parametrize(
    ("boxout", "area"),
    [
        (Boxout.DIAMOND, 600.0**2),
        (Boxout.SQUARE, 600.0**2),
        (Boxout.CIRCLE, math.pi * 300.0**2),
    ],
)
def test_a_boxout_is_left_out_of_the_concrete(boxout, area):
    made = slab(columns=(Column(id="C1", at=(3000, 2000), boxout=boxout, size=600.0),))
    assert made.gross.area - made.concrete.area == pytest.approx(area, rel=1e-3)


def test_a_square_boxout_turns_with_its_column():
    turned_column = Column(id="C1", at=(0, 0), boxout=Boxout.SQUARE, size=600.0, turn=45.0)
    x0, y0, x1, y1 = turned_column.outline.polygon.bounds
    assert (x0, y0, x1, y1) == pytest.approx([s * 300 * 2**0.5 for s in (-1, -1, 1, 1)])


def test_a_column_cast_in_takes_nothing_away():
    made = slab(columns=(Column(id="C1", at=(3000, 2000), boxout=Boxout.NONE),))
    assert made.boxouts == ()
    assert made.concrete.area == 24e6


def test_a_wall_hides_joints_within_its_thickness_and_not_beyond_its_ends():
    wall = Wall(id="W1", path=((0, 0), (1000, 0), (1000, 1000)), thickness=100.0)
    assert wall.footprint.bounds == (0, -50, 1050, 1000)
    assert wall.footprint.area == pytest.approx(2 * 1000 * 100)


@pytest.mark.parametrize(
    ("bearing", "rule", "takes"),
    [
        (False, BearingRule.BESIDE, True),
        (True, BearingRule.BESIDE, False),
        (True, BearingRule.DOWELED, True),
    ],
)
def test_a_plain_joint_lies_under_a_bearing_wall_only_doweled(bearing, rule, takes):
    wall = Wall(id="W1", path=((0, 0), (1, 0)), bearing=bearing, bearing_rule=rule)
    assert wall.takes_joint is takes


def test_a_pipe_is_a_hole_of_its_diameter_and_none_where_that_is_not_known():
    assert Penetration(id="N1", at=(0, 0), diameter=100.0).footprint.bounds == pytest.approx(
        (-50, -50, 50, 50)
    )
    assert Penetration(id="N2", at=(0, 0)).footprint.is_empty


@pytest.mark.parametrize(
    ("y", "hidden"), [(0, 1000), (49.9, 1000), (50.1, 0), (-49.9, 1000), (-50.1, 0)]
)
def test_a_line_is_hidden_as_long_as_it_lies_under_walls(y, hidden):
    made = slab(walls=(Wall(id="W1", path=((0, 0), (1000, 0)), thickness=100.0),))
    assert made.under_walls(LineString([(-500, y), (3000, y)])) == pytest.approx(hidden)


def test_what_two_walls_hide_counts_once():
    twice = tuple(Wall(id=n, path=((0, 0), (1000, 0)), thickness=100.0) for n in ("W1", "W2"))
    assert slab(walls=twice).under_walls(LineString([(0, 0), (3000, 0)])) == pytest.approx(1000)
    assert slab().under_walls(LineString([(0, 0), (3000, 0)])) == 0


ZONES = (
    Zone(id="Z1", outline=box_ring(0, 0, 1000, 1000), thickness=150.0),
    Zone(id="Z2", outline=box_ring(500, 0, 2000, 1000), thickness=200.0),
)


@pytest.mark.parametrize(
    ("x", "thickness"), [(500, 150), (1000, 150), (1000.1, 200), (2000, 200), (2000.1, 100)]
)
def test_the_first_zone_that_covers_a_point_gives_its_thickness(x, thickness):
    assert slab(zones=ZONES).thickness_at(x, 500) == thickness


def test_a_slab_without_zones_is_as_thick_everywhere():
    assert slab().thickness_at(-1e6, 0) == 100.0


def test_pinned_and_forbidden_lines_are_apart():
    kept, barred = (
        GivenJoint(id=n, path=((0, 0), (1, 1)), forbidden=n == "G2") for n in ("G1", "G2")
    )
    made = slab(joints=(kept, barred))
    assert (made.pinned, made.forbidden) == ((kept,), (barred,))


def test_boxouts_from_edge_to_edge_part_the_concrete():
    row = tuple(
        Column(id=f"C{i}", at=(3000, y), boxout=Boxout.SQUARE, size=1000.0)
        for i, y in enumerate((500, 1500, 2500, 3500), 1)
    )
    pieces = slab(columns=row).pieces
    assert [p.bounds for p in pieces] == [(0, 0, 2500, 4000), (3500, 0, 6000, 4000)]


ELL = Ring(((0, 0), (6000, 0), (6000, 2000), (3000, 2000), (3000, 4000), (0, 4000)))


def test_corners_that_point_inward_are_those_of_edges_openings_and_square_boxouts():
    made = Slab(
        outline=ELL,
        thickness=100.0,
        openings=(box_ring(1000, 500, 2000, 1000),),
        columns=(
            Column(id="C1", at=(1500, 3000), boxout=Boxout.SQUARE, size=600.0),
            Column(id="C2", at=(4500, 1000), boxout=Boxout.DIAMOND, size=600.0),
            Column(id="C3", at=(1500, 1800), boxout=Boxout.CIRCLE, size=600.0),
        ),
    )
    found = sorted(c.at for c in made.reentrant_corners)
    square = [(x, y) for x in (1200, 1800) for y in (2700, 3300)]
    opening = [(x, y) for x in (1000, 2000) for y in (500, 1000)]
    assert found == sorted([(3000, 2000), *square, *opening])


@given(slabs(), st.floats(0, 360))
def test_turning_a_slab_turns_its_concrete_and_corners_with_it(made, degrees):
    other = turned(made, degrees)
    assert other.concrete.area == pytest.approx(made.concrete.area, rel=1e-6)
    assert len(other.reentrant_corners) == len(made.reentrant_corners)
