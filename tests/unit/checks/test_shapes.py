"""The shape of panels, and whether they tile the slab."""

import math
from dataclasses import replace

import pytest
from shapely import Polygon

from checked import (
    Rule,
    Severity,
    box_ring,
    errors,
    feet,
    findings,
    grid_slab,
    joint,
    kinds,
    of,
    with_joints,
)
from kerfline.checks.given import given_layout
from kerfline.geometry.ring import Ring, circle
from kerfline.model.layout import Panel
from kerfline.model.slab import Boxout, Column
from kerfline.units import MM_PER_FOOT


def test_an_l_shaped_panel_is_an_error_at_its_corner():
    # The joints between three bays stop at their middles' corner: they make one L.
    slab = grid_slab(2, 2, joints=(joint("A", (10, 0), (10, 10)), joint("B", (0, 10), (10, 10))))
    found = of(Rule.SHAPE, findings(slab))
    assert [(f.severity, f.at) for f in found] == [(Severity.ERROR, feet((10, 10))[0])]
    assert (
        "turns a corner 10'-0\" deep" not in found[0].message
    )  # measured to the hull, not along it
    assert found[0].measured > 7 * MM_PER_FOOT


def test_a_jog_of_an_inch_in_the_edge_is_advice():
    outline = Ring(feet((0, 0), (5, 0), (5, 0.08), (10, 0.08), (10, 10), (0, 10)))
    found = of(Rule.SHAPE, findings(grid_slab(1, 1, outline=outline)))
    assert [f.severity for f in found] == [Severity.ADVICE]


def test_a_bite_of_a_foot_is_a_warning():
    outline = Ring(feet((0, 0), (5, 0), (5, 1), (10, 1), (10, 10), (0, 10)))
    found = of(Rule.SHAPE, findings(grid_slab(1, 1, outline=outline)))
    assert [f.severity for f in found] == [Severity.WARNING]


def test_a_panel_round_an_opening_is_an_error_even_where_the_opening_is_round():
    square = grid_slab(openings=(box_ring(3, 3, 7, 7),))
    assert Rule.SHAPE in errors(findings(square))
    round_one = grid_slab(openings=(circle(feet((5, 5))[0], 600.0),))
    found = findings(round_one)
    assert kinds(found) == [(Rule.SHAPE, Severity.ERROR)]
    assert "wraps round an opening" in found[0].message


def test_a_panel_that_no_joint_closes_off_is_an_error():
    slab = grid_slab(2, 1)
    layout = given_layout(slab)
    two = layout.panels
    claimed = replace(layout, joints=())
    found = of(Rule.SHAPE, findings(slab, layout=claimed))
    assert {f.subject for f in found} >= {p.id for p in two}
    assert all("close off" in f.message for f in found if f.subject in {"P1", "P2"})


def test_an_area_that_no_panel_covers_is_an_error():
    slab = grid_slab(2, 1)
    layout = given_layout(slab)
    found = findings(slab, layout=replace(layout, panels=layout.panels[:1]))
    assert kinds(found) == [(Rule.SHAPE, Severity.ERROR)]
    assert "none of the panels" in found[0].message


def test_a_panel_drawn_other_than_its_joints_run_is_an_error():
    slab = grid_slab(2, 1)
    layout = given_layout(slab)
    wrong = Polygon(feet((0, 0), (9.9, 0), (9.9, 10), (0, 10)))
    claimed = replace(layout, panels=(Panel(id="P1", polygon=wrong), layout.panels[1]))
    found = of(Rule.SHAPE, findings(slab, layout=claimed))
    assert sorted(f.severity for f in found) == [Severity.ERROR] * 2


def test_panels_named_in_another_order_are_the_same_panels():
    slab = with_joints(grid_slab(), joint("S", (1.5, 0), (1.5, 30)))
    layout = given_layout(slab)
    names = [f"Q{i}" for i in range(len(layout.panels))]
    renamed = tuple(replace(p, id=n) for p, n in zip(reversed(layout.panels), names, strict=True))
    found = findings(slab, layout=replace(layout, panels=renamed))
    assert not of(Rule.SHAPE, found)
    assert all(f.subject.startswith("Q") for f in of(Rule.WIDTH, found))


def test_a_step_the_width_of_a_cut_is_no_shape():
    step = 4.0 / MM_PER_FOOT
    outline = Ring(feet((0, 0), (5, 0), (5, step), (10, step), (10, 10), (0, 10)))
    assert not of(Rule.SHAPE, findings(grid_slab(1, 1, outline=outline)))


def test_of_two_bites_the_deeper_is_told():
    outline = Ring(
        feet((0, 0), (3, 0), (3, 1), (5, 1), (5, 0), (10, 0), (10, 7), (7, 7), (7, 10), (0, 10))
    )
    (found,) = of(Rule.SHAPE, findings(grid_slab(1, 1, outline=outline)))
    assert found.at == feet((7, 7))[0]
    assert found.measured == pytest.approx(3 * math.sqrt(0.5) * MM_PER_FOOT)


def test_a_panel_drawn_within_a_joints_tolerance_is_the_panel():
    """Its side 0.3 mm from the joint, where an end may miss a line by 0.5 mm."""
    slab = grid_slab(2, 1)
    layout = given_layout(slab)
    off = 10 - 0.3 / MM_PER_FOOT
    drawn = Polygon(feet((0, 0), (off, 0), (off, 10), (0, 10)))
    left = next(p for p in layout.panels if p.polygon.bounds[0] == 0.0)
    claimed = tuple(replace(p, polygon=drawn) if p is left else p for p in layout.panels)
    assert not of(Rule.SHAPE, findings(slab, layout=replace(layout, panels=claimed)))


@pytest.mark.parametrize(("deep", "told"), [(4.8, False), (5.4, True)])
def test_a_bite_as_shallow_as_a_cut_is_wide_is_no_shape(deep, told):
    """5 mm: a notch a foot wide in the middle of the lower side."""
    up = deep / MM_PER_FOOT
    outline = Ring(feet((0, 0), (4, 0), (4, up), (5, up), (5, 0), (10, 0), (10, 10), (0, 10)))
    found = of(Rule.SHAPE, findings(grid_slab(1, 1, outline=outline)))
    assert bool(found) is told


@pytest.mark.parametrize(
    ("size", "shapes"), [(600.0, []), (1720.0, []), (1730.0, [Severity.ERROR])]
)
def test_a_bare_corner_of_a_square_boxout_is_told_once_unless_it_makes_an_l(size, shapes):
    """Joints end at the middles of its sides: each of four bays turns one of its corners.

    The bite is half the side over the root of two deep: 24 in, the least width, at 1724 mm.
    """
    size_ft, middle = size / MM_PER_FOOT, 10.0
    ends = (middle - size_ft / 2, middle + size_ft / 2)
    joints = (
        joint("A", (10, 0), (10, ends[0])),
        joint("B", (10, ends[1]), (10, 20)),
        joint("C", (0, 10), (ends[0], 10)),
        joint("D", (ends[1], 10), (20, 10)),
    )
    column = Column(id="C1", at=feet((10, 10))[0], boxout=Boxout.SQUARE, size=size)
    found = findings(grid_slab(2, 2, joints=joints, columns=(column,)))
    assert len(of(Rule.CORNER, found)) == 4
    assert [f.severity for f in of(Rule.SHAPE, found)] == shapes * 4
