"""A joint leaves every re-entrant corner."""

from dataclasses import replace

import pytest

from checked import Rule, Severity, box_ring, feet, findings, grid_slab, joint, of
from kerfline.geometry.ring import Ring
from kerfline.model.slab import Boxout, Column, Slab
from kerfline.units import MM_PER_FOOT, Display
from shapes import workshop_layout, workshop_slab

L_SHAPE = Ring(feet((0, 0), (20, 0), (20, 10), (10, 10), (10, 20), (0, 20)))


def l_slab(*joints):
    return Slab(outline=L_SHAPE, thickness=101.6, joints=joints)


@pytest.mark.parametrize("end", [(0, 10), (10, 0), (0, 0)])
def test_one_joint_from_the_corner_is_enough(end):
    assert not of(Rule.CORNER, findings(l_slab(joint("A", (10, 10), end))))


def test_a_bare_corner_is_a_warning_that_says_how_far_the_nearest_joint_is():
    found = of(Rule.CORNER, findings(l_slab(joint("A", (9.5, 0), (9.5, 20)))))
    assert [(f.severity, f.at, f.subject) for f in found] == [
        (Severity.WARNING, feet((10, 10))[0], "R1")
    ]
    assert found[0].measured == pytest.approx(0.5 * MM_PER_FOOT)
    assert "A, passes 0'-6\" away" in found[0].message
    assert "No. 4 bars" in found[0].remedy
    assert "local code and the engineer decide" in found[0].remedy


def test_bars_are_metric_in_a_metric_job():
    found = of(Rule.CORNER, findings(l_slab(), display=Display.METRIC))
    assert "12 mm" in found[0].remedy
    assert found[0].measured is None


def test_a_joint_that_only_runs_along_the_edge_past_a_corner_does_not_leave_it():
    assert of(Rule.CORNER, findings(l_slab(joint("A", (10, 10), (20, 10)))))


def test_a_joint_that_starts_within_half_a_millimetre_leaves_the_corner():
    near = joint("A", (10, 10 - 0.4 / MM_PER_FOOT), (0, 10 - 0.4 / MM_PER_FOOT))
    assert not of(Rule.CORNER, findings(l_slab(near)))
    off = joint("A", (10, 10 - 5 / MM_PER_FOOT), (0, 10 - 5 / MM_PER_FOOT))
    assert of(Rule.CORNER, findings(l_slab(off)))


def test_a_surveyed_jog_of_an_inch_is_advice():
    outline = Ring(feet((0, 0), (5, 0), (5, 0.08), (10, 0.08), (10, 10), (0, 10)))
    found = of(Rule.CORNER, findings(grid_slab(1, 1, outline=outline)))
    assert [f.severity for f in found] == [Severity.ADVICE]
    assert "jog" in found[0].message


def test_a_chamfered_corner_is_one_corner_and_one_joint_serves_it():
    inch = 1 / 12
    outline = Ring(
        feet((0, 0), (20, 0), (20, 10), (10 + inch, 10), (10, 10 + inch), (10, 20), (0, 20))
    )
    bare = Slab(outline=outline, thickness=101.6)
    assert [f.severity for f in of(Rule.CORNER, findings(bare))] == [Severity.WARNING]
    served = Slab(
        outline=outline, thickness=101.6, joints=(joint("A", (10, 10 + inch), (0, 10 + inch)),)
    )
    assert not of(Rule.CORNER, findings(served))


def test_every_corner_of_a_pit_and_of_a_square_boxout_counts():
    pit = grid_slab(joints=(), openings=(box_ring(12, 12, 18, 18),))
    assert len(of(Rule.CORNER, findings(pit))) == 4
    square = Column(id="C1", at=feet((15, 15))[0], boxout=Boxout.SQUARE)
    assert len(of(Rule.CORNER, findings(grid_slab(joints=(), columns=(square,))))) == 4


def test_the_points_of_diamonds_are_left_to_the_rule_on_columns():
    diamond = Column(id="C1", at=feet((15, 15))[0])
    assert not of(Rule.CORNER, findings(grid_slab(joints=(), columns=(diamond,))))


def test_the_workshop_has_a_joint_at_its_notch_and_none_at_its_pit():
    found = of(Rule.CORNER, findings(workshop_slab(), layout=workshop_layout()))
    assert sorted(f.at for f in found) == sorted(feet((40, 4), (44, 4), (44, 8), (40, 8)))


@pytest.mark.parametrize(
    ("boxout", "corners"), [(Boxout.SQUARE, 4), (Boxout.DIAMOND, 0), (Boxout.CIRCLE, 0)]
)
def test_a_bare_corner_of_a_square_boxout_says_that_it_may_be_turned(boxout, corners):
    """Turned to a diamond, one joint meets its point (common practice)."""
    column = Column(id="C7", at=feet((10, 10))[0], boxout=boxout, size=600.0)
    slab = Slab(outline=box_ring(0, 0, 20, 20), thickness=101.6, columns=(column,))
    found = of(Rule.CORNER, findings(slab))
    assert len(found) == corners
    assert all(
        "turn the boxout of column C7 so that a joint meets its point" in f.remedy for f in found
    )


def test_a_bare_corner_that_is_no_boxouts_says_nothing_of_turning():
    column = Column(id="C7", at=feet((5, 5))[0], boxout=Boxout.SQUARE, size=600.0)
    found = of(Rule.CORNER, findings(replace(l_slab(), columns=(column,))))
    assert len(found) == 5
    assert sum("turn the boxout" in f.remedy for f in found) == 4
