"""FAA AC 150/5320-6, civil airfield pavement.

Edition 6E, as quoted: no slab larger than 20 ft by 20 ft (6.1 m). The tables by thickness are from memory and
are held here only against what was read.
"""

import pytest

from kerfline.model.job import Mix
from kerfline.rules.rule_set import load
from kerfline.units import MM_PER_FOOT, MM_PER_INCH


@pytest.mark.parametrize("name", ["civil-airfield", "civil-airfield-stabilised"])
@pytest.mark.parametrize("inches", [6, 9, 12, 17, 20])
def test_no_slab_larger_than_twenty_feet(name, inches):
    span = load(name).limits(inches * MM_PER_INCH, Mix()).span
    assert span.bound == pytest.approx(20 * MM_PER_FOOT)
    assert span.advised <= span.bound
    assert span.source.known == "quoted"
    assert span.advised_by.known == "memory"


@pytest.mark.parametrize(
    ("name", "inches", "feet"),
    [
        ("civil-airfield", 6, 12.5),
        ("civil-airfield", 8, 15),
        ("civil-airfield", 10, 20),
        ("civil-airfield-stabilised", 9, 12.5),
        ("civil-airfield-stabilised", 12, 15),
        ("civil-airfield-stabilised", 15, 17.5),
        ("civil-airfield-stabilised", 17, 20),
    ],
)
def test_the_rows_from_memory_stay_within_twenty_feet(name, inches, feet):
    span = load(name).limits(inches * MM_PER_INCH, Mix()).span
    assert span.advised == pytest.approx(feet * MM_PER_FOOT)
    assert span.advised <= 20 * MM_PER_FOOT + 1e-6
