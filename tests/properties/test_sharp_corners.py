"""The score and the checks are of one mind on joints that meet a curved edge at about the least angle.

Both measure to the tangent (common practice); the angle is known from how the joint was drawn.
"""

import math

import pytest
from shapely import LineString

from checked import Rule, Severity, feet, findings, joint, of
from kerfline.engine.measure.cost import Cost
from kerfline.engine.measure.score import Floor, panels_between, score_of
from kerfline.engine.options import Weights
from kerfline.geometry.ring import Ring
from kerfline.model.layout import WorkingLimits
from kerfline.model.slab import Slab
from kerfline.units import MM_PER_FOOT

WIDE = WorkingLimits(span=1e6, aspect=1e6, width=1.0, angle=60.0)
"""Limits that nothing breaks but a sharp corner."""


def half_round(degrees, around):
    """A slab of 10 x 10 ft with a half circle on its right, and a joint across to a place on it, so far off the radius."""
    outline = Ring(feet((0, 0), (10, 0), (10, 10), (0, 10)), (0.0, 1.0, 0.0, 0.0))
    turn = math.radians(around)
    x, y = 10 + 5 * math.cos(turn), 5 + 5 * math.sin(turn)
    way = math.radians(180 + around + degrees)
    far = feet((x, y), (x + 40 * math.cos(way), y + 40 * math.sin(way)))
    path = LineString(far).intersection(outline.polygon.buffer(0.2)).coords
    ends = [(x, y), (path[-1][0] / MM_PER_FOOT, path[-1][1] / MM_PER_FOOT)]
    return Slab(outline=outline, thickness=101.6, joints=(joint("A", *ends),))


def faults(slab):
    lines = [LineString(j.path) for j in slab.joints]
    floor = Floor(concrete=slab.concrete, cost=Cost(weights=Weights(), working=WIDE, advised=WIDE))
    return score_of(floor, panels_between(slab.concrete, lines), lines).faults


@pytest.mark.parametrize("around", [-23.0, -11.0, 2.5, 4.0])
@pytest.mark.parametrize(("degrees", "broken"), [(29.0, 0), (29.9, 0), (30.2, 1), (31.0, 1)])
def test_a_joint_that_meets_a_curve_too_flat_is_a_fault_where_the_checks_call_it_an_error(
    around, degrees, broken
):
    slab = half_round(-math.copysign(degrees, around), around)
    errors = [f for f in of(Rule.ANGLE, findings(slab)) if f.severity is Severity.ERROR]
    curved = [f for f in errors if f.at[0] > 10 * MM_PER_FOOT]
    assert len(curved) == broken
    assert faults(slab) == len(errors)
