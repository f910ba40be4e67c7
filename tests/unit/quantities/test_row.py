"""A row of the take-off in the unit that a thing is bought in."""

import pytest

from kerfline.quantities.row import (
    Row,
    area_row,
    length_row,
    liquid_row,
    volume_row,
    weight_row,
)
from kerfline.units import Display


@pytest.mark.parametrize(
    ("make", "amount", "feet", "metric"),
    [
        (volume_row, 1e9, "1.31 yd3", "1.00 m3"),
        (length_row, 3048.0, "10.0 ft", "3.0 m"),
        (area_row, 92903.04 * 12_345, "12,345.0 ft2", "1,146.9 m2"),
        (liquid_row, 3.785411784e6, "1.0 gal", "3.8 L"),
        (weight_row, 0.45359237, "1.0 lb", "0.5 kg"),
    ],
)
def test_amounts_are_told_in_the_unit_that_the_thing_is_sold_in(make, amount, feet, metric):
    """Exact factors: NIST SP 811, appendix B; a gallon is 231 cubic inches."""
    assert make("g", "thing", amount, Display.FEET_INCHES, "").shown == feet
    assert make("g", "thing", amount, Display.METRIC, "").shown == metric


def test_a_row_keeps_what_it_was_made_of():
    row = volume_row("concrete", "slab", 2e9, Display.METRIC, "net")
    assert row == Row(group="concrete", item="slab", amount=2.0, unit="m3", note="net", decimals=2)


def test_pieces_are_shown_whole_unless_told():
    assert Row(group="", item="", amount=1234.0, unit="pieces", note="").shown == "1,234 pieces"
    assert (
        Row(group="", item="", amount=0.12345, unit="in", note="", decimals=3).shown == "0.123 in"
    )
