"""UFC 3-260-02, "Pavement Design for Airfields", 2001, Table 12-7: spacing of transverse contraction joints.

Thickness in inches (mm), spacing in feet (m): below 9 (230) 12.5 to 15 (3.8 to 4.6); 9 to 12 15 to 20
(4.6 to 6); above 12 at most 20 (6).
"""

import pytest

from kerfline.model.job import Mix
from kerfline.rules.rule_set import load
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
