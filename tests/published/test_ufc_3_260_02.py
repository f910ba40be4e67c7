"""UFC 3-260-02, "Pavement Design for Airfields", 2001, Table 12-7: spacing of transverse contraction joints.

Thickness in inches (mm), spacing in feet (m): below 9 (230) 12.5 to 15 (3.8 to 4.6); 9 to 12 15 to 20
(4.6 to 6); above 12 at most 20 (6). Guidance on jointing patterns, paragraph e: spacings without fractions of
an inch, few different ones, the left-over in one or two bays.
"""

from collections import Counter
from itertools import pairwise

import pytest

from checked import box_ring
from checked import feet as feet_of
from kerfline.engine.lay_out import lay_out
from kerfline.geometry.ring import Ring
from kerfline.model.job import Mix
from kerfline.model.slab import Slab
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from kerfline.units import MM_PER_FOOT, MM_PER_INCH


@pytest.mark.parametrize(
    ("inches", "low", "high"),
    [
        (6, 12.5, 15),
        (8, 12.5, 15),
        (9, 15, 20),
        (10, 15, 20),
        (12, 15, 20),
        (13, 20, 20),
        (14, 20, 20),
    ],
)
def test_the_rows_of_the_table(inches, low, high):
    span = load("airfield").limits(inches * MM_PER_INCH, Mix()).span
    assert span.advised == pytest.approx(low * MM_PER_FOOT)
    assert span.bound == pytest.approx(high * MM_PER_FOOT)


@pytest.mark.parametrize(("mm", "low", "high"), [(200, 3.8, 4.6), (250, 4.6, 6.1), (350, 6.1, 6.1)])
def test_the_rows_in_metres(mm, low, high):
    span = load("airfield").limits(mm, Mix()).span
    assert span.advised / 1000 == pytest.approx(low, abs=0.05)
    assert span.bound / 1000 == pytest.approx(high, abs=0.05)


def bays(outline, inches_long):
    """How often each spacing along x occurs, in inches."""
    slab = Slab(outline=outline, thickness=6 * MM_PER_INCH)
    layout = lay_out(slab, SlabRules(rule_set=load("airfield")))
    upright = [j.path for j in layout.joints if abs(j.path[0][0] - j.path[-1][0]) < 1.0]
    places = sorted({round(path[0][0] / MM_PER_INCH, 2) for path in upright})
    return Counter(round(b - a, 2) for a, b in pairwise([0.0, *places, float(inches_long)]))


@pytest.mark.parametrize("inches_long", [605, 783, 1005, 1175, 1441])
def test_spacings_are_whole_inches_and_the_left_over_lies_in_two_bays(inches_long):
    found = bays(box_ring(0, 0, inches_long / 12, 20), inches_long)
    assert all(spacing == round(spacing) for spacing in found)
    assert sum(found.values()) - max(found.values()) <= 2


@pytest.mark.parametrize("inches_long", [605, 783, 1005])
def test_so_they_are_beside_a_splayed_edge(inches_long):
    long = inches_long / 12
    outline = Ring(feet_of((0, 0), (long, 0), (long - 1, 20), (long - 3, 25), (0, 25)))
    found = bays(outline, inches_long)
    assert all(spacing == round(spacing) for spacing in found)
    assert sum(found.values()) - max(found.values()) <= 2
