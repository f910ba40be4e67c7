"""ACPA (American Concrete Pavement Association), guidance on joint layout.

L = Cs x T in one unit: Cs 24 on subgrade or granular base, 21 on stabilised base, lean concrete or old
pavement, 12 to 15 for overlays bonded to asphalt; 15 ft at most below 10 in; length over width below 1.5;
no panel narrower than 2 ft; no angle under 60 degrees.
"""

import pytest

from kerfline.model.job import Mix
from kerfline.rules.rule_set import load
from kerfline.units import MM_PER_FOOT, MM_PER_INCH


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
