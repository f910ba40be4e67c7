"""ACPA (American Concrete Pavement Association), guidance on joint layout.

L = Cs x T in one unit: Cs 24 on subgrade or granular base, 21 on stabilised base, lean concrete or old
pavement, 12 to 15 for overlays bonded to asphalt; 15 ft at most below 10 in; length over width below 1.5;
no panel narrower than 2 ft; no angle under 60 degrees; at a curved or skew edge the last 1.5 to 3.0 ft
(0.5 to 1.0 m) of a joint are bent to meet it square.
"""

import math

import pytest

from checked import Rule, broken, findings, grid_slab, joint
from checked import feet as feet_of
from kerfline.engine.lay_out import lay_out
from kerfline.geometry.ring import Ring
from kerfline.model.job import Mix
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from kerfline.units import MM_PER_FOOT, MM_PER_INCH
from unit.engine.slabs import SHAPES


def feet(name, inches, step="bound"):
    return getattr(load(name).limits(inches * MM_PER_INCH, Mix()).span, step) / MM_PER_FOOT


def test_six_inches_on_the_subgrade():
    assert feet("pavement", 6) == pytest.approx(12)


def test_six_inches_on_a_stabilised_base():
    """Worked from the formula: 21 x 6 in."""
    assert feet("pavement-stabilised", 6) == pytest.approx(10.5)


def test_eight_inches_would_be_sixteen_feet_but_for_the_cap():
    assert feet("pavement", 8) == pytest.approx(15)


def test_the_cap_holds_below_ten_inches_only():
    assert feet("pavement", 9.5) == pytest.approx(15)
    assert feet("pavement", 10) == pytest.approx(20)
    assert feet("pavement-stabilised", 10) == pytest.approx(17.5)


@pytest.mark.parametrize(("inches", "low", "high"), [(4, 4, 5), (6, 6, 7.5)])
def test_overlays_bonded_to_asphalt(inches, low, high):
    assert feet("overlay", inches, "advised") == pytest.approx(low)
    assert feet("overlay", inches) == pytest.approx(high)


def test_shape():
    limits = load("pavement").limits(150.0, Mix())
    assert limits.aspect.bound == 1.5
    assert limits.width.bound == pytest.approx(2 * MM_PER_FOOT)
    assert limits.angle.bound == 60
    assert load("floor").limits(100.0, Mix()).width.bound == pytest.approx(2 * MM_PER_FOOT)
    assert load("floor").limits(100.0, Mix()).angle.bound == 60


def beside_a_skew_edge(*joint_points):
    """Rules on angle and shape broken where one joint runs to an edge that stands at 59 degrees."""
    outline = Ring(feet_of((0, 0), (16, 0), (22, 10), (0, 10)))
    upright = joint("V", (10, 0), (10, 10))
    slab = grid_slab(1, 1, outline=outline, joints=(upright, joint("A", *joint_points)))
    return broken(findings(slab)) & {Rule.ANGLE, Rule.SHAPE}


def test_a_joint_bent_square_in_its_last_two_feet_is_neither_sharp_nor_odd():
    knee, foot = (17, 5), (16 + 6 * 0.41176, 10 * 0.41176)
    assert math.dist(knee, foot) == pytest.approx(1.715, abs=0.001)  # within 1.5 to 3.0 ft
    assert beside_a_skew_edge((0, 5), (19, 5)) == {Rule.ANGLE}
    assert beside_a_skew_edge((0, 5), knee, foot) == set()


def test_a_joint_that_turns_off_earlier_makes_odd_panels():
    assert Rule.SHAPE in beside_a_skew_edge((0, 5), (13, 5), (16 + 6 * 0.23, 10 * 0.23))


@pytest.mark.parametrize("name", ["tapered drive", "triangle", "wing at 45 degrees"])
def test_the_engine_bends_a_joint_within_three_feet_of_where_it_ends(name):
    layout = lay_out(SHAPES[name], SlabRules(rule_set=load("floor")))
    for first, *knees, last in (j.line.coords for j in layout.joints):
        if not knees:
            continue
        stretches = sorted([math.dist(first, knees[0]), math.dist(last, knees[-1])])
        bent = stretches if len(knees) > 1 else stretches[:1]  # one knee bends one end
        assert all(1.5 <= s / MM_PER_FOOT <= 3.3 for s in bent)
