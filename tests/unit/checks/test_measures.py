"""What the checks measure: thickness where joints and panels lie, the nearest joint, what lies on the concrete."""

from dataclasses import replace

import pytest
import shapely
from shapely import LineString

from checked import box_ring, feet, grid_slab, joint, rules
from kerfline.checks.given import given_layout
from kerfline.checks.measures import measures_of
from kerfline.model.slab import Boxout, Column, KeepOut, Penetration, Zone
from kerfline.units import Display

FOOT, INCH = 304.8, 25.4
GRID = grid_slab(2, 1)
"""Two bays of 10 x 10 ft, 4 in."""


def measures(slab=GRID):
    return measures_of(slab, given_layout(slab), rules(), Display.METRIC)


def zone(x0, x1, inches=6.0, name="Z1"):
    return Zone(id=name, outline=box_ring(x0, 0, x1, 10), thickness=inches * INCH)


def line(*points):
    return LineString(feet(*points))


@pytest.mark.parametrize(
    ("x1", "inches"), [(10.0, 6.0), (9.9, 6.0), (9.7, 4.0), (0.1, 4.0), (10.2, 6.0)]
)
def test_the_least_thickness_of_a_panel_rules_it_but_for_a_fiftieth_of_its_area(x1, inches):
    """A joint cut an inch or two off the border of a zone leaves the panel the zone's."""
    made = measures(grid_slab(2, 1, zones=(zone(0, x1),)))
    assert made.thickness_in(made.panels[0].polygon) == pytest.approx(inches * INCH)


def test_a_thinner_zone_rules_the_panel_that_it_lies_in():
    made = measures(grid_slab(2, 1, zones=(zone(0, 3, 3.0),)))
    thin, plain = made.panels
    assert made.limits_in(thin).thickness == pytest.approx(3 * INCH)
    assert made.limits_in(plain).thickness == pytest.approx(4 * INCH)
    assert made.limits_in(plain) is made.slab_limits


@pytest.mark.parametrize(
    ("points", "inches"),
    [
        (((2, 5), (8, 5)), 6.0),
        (((2, 5), (15, 5)), 6.0),
        (((10, 0), (10, 10)), 6.0),
        (((12, 5), (18, 5)), 4.0),
        (((10.0, 5), (18, 5)), 4.0),
    ],
)
def test_the_thickest_concrete_along_a_joint(points, inches):
    made = measures(grid_slab(2, 1, zones=(zone(0, 10),)))
    assert made.thickest_along(line(*points)) == pytest.approx(inches * INCH)


def test_a_joint_all_in_a_thin_zone_is_in_thin_concrete():
    made = measures(grid_slab(2, 1, zones=(zone(0, 10, 3.0),)))
    assert made.thickest_along(line((2, 5), (8, 5))) == pytest.approx(3 * INCH)
    assert made.thickest_along(line((2, 5), (15, 5))) == pytest.approx(4 * INCH)


def test_the_nearest_joint_and_its_distance():
    made = measures(grid_slab(3, 1))
    nearest, distance = made.nearest_joint(feet((12, 5))[0])
    assert (nearest.id, distance) == ("V1", pytest.approx(2 * FOOT))
    assert measures(grid_slab(1, 1)).nearest_joint((0.0, 0.0)) is None


def test_joints_near_a_shape_come_in_the_layouts_order():
    made = measures(grid_slab(3, 2))
    spot = shapely.Point(feet((11, 9))[0])
    assert made.joints_near(spot) == []
    assert [made.joints[i].id for i in made.joints_near(spot, FOOT + 0.1)] == ["V1", "H1"]


def test_what_lies_on_the_concrete_leaves_out_boxouts_and_what_is_beyond_the_edge():
    """From 1 ft off the slab through a box of 2 ft to the far edge: 20 ft less 2."""
    column = Column(id="C1", at=feet((5, 5))[0], boxout=Boxout.SQUARE, size=2 * FOOT)
    made = measures(grid_slab(2, 1, columns=(column,)))
    assert made.on_concrete(line((-1, 5), (20, 5))).length == pytest.approx(18 * FOOT)
    assert made.on_concrete(line((0, 9), (20, 9))).length == pytest.approx(20 * FOOT)


def test_the_boundary_is_that_of_the_concrete_with_its_holes():
    made = measures(grid_slab(2, 1, openings=(box_ring(4, 4, 6, 6),)))
    assert made.boundary.length == pytest.approx((60 + 8) * FOOT)


def test_only_penetrations_of_known_width_can_be_drains():
    known = Penetration(id="N1", at=feet((5, 5))[0], diameter=100.0)
    made = measures(grid_slab(2, 1, penetrations=(known, replace(known, id="N2", diameter=0.0))))
    assert [p.id for p in made.drains] == ["N1"]
    assert list(made.drain_tree.query(shapely.Point(known.at))) == [0]


def test_keep_outs_are_found_by_place():
    keep_out = KeepOut(id="K1", outline=box_ring(1, 1, 3, 3))
    made = measures(grid_slab(2, 1, keep_outs=(keep_out,)))
    assert list(made.keep_out_tree.query(line((2, 0), (2, 9)))) == [0]
    assert list(made.keep_out_tree.query(line((5, 0), (5, 9)))) == []


def test_what_is_made_of_the_slab_is_made_once():
    made, calls = measures(), []

    def make(slab):
        calls.append(slab)
        return len(slab.joints)

    assert (made.of_slab(make), made.of_slab(make)) == (1, 1)
    assert len(calls) == 1


def test_panels_are_named_as_in_the_layout_and_found_by_place():
    made = measures(grid_slab(2, 1, joints=(joint("A", (10, 0), (10, 10)),)))
    assert [p.id for p in made.panels] == ["P1", "P2"]
    assert list(made.panel_tree.query(shapely.Point(feet((15, 5))[0]), "within")) == [1]
