"""FHWA Technical Advisory T 5040.30, "Concrete Pavement Joints", 1990, paragraph 4.

Plain pavement: transverse joints 15 ft (4.6 m) apart at most, unless local experience allows more.
"""

import pytest

from kerfline.model.job import Mix
from kerfline.rules.rule_set import load
from kerfline.units import MM_PER_FOOT, MM_PER_INCH


@pytest.mark.parametrize("name", ["pavement", "pavement-stabilised"])
@pytest.mark.parametrize("inches", [6, 8, 10, 12, 14])
def test_no_advised_span_above_fifteen_feet(name, inches):
    span = load(name).limits(inches * MM_PER_INCH, Mix()).span
    assert span.advised <= 15 * MM_PER_FOOT + 1e-6


def test_thick_pavement_reaches_it():
    span = load("pavement").limits(12 * MM_PER_INCH, Mix()).span
    assert span.advised == pytest.approx(4572)
