"""Portland Cement Association, "Concrete Floors on Ground", 2nd edition, 1983: table of joint spacing.

Read on pages that reproduce the table; thicknesses in inches, spacings in feet. Rows 4 to 6 in stand in a
masonry handbook as well. The middle column rounds half feet up, so that it is not 30 times the thickness.
"""

import pytest

from kerfline.model.job import Mix
from kerfline.rules.rule_set import load
from kerfline.units import MM_PER_FOOT, MM_PER_INCH

WET_SMALL = Mix(slump=5 * MM_PER_INCH, aggregate=3 / 8 * MM_PER_INCH)
WET_LARGE = Mix(slump=5 * MM_PER_INCH, aggregate=3 / 4 * MM_PER_INCH)
STIFF = Mix(slump=3 * MM_PER_INCH)

TABLE = [
    (4, 8, 10, 12),
    (5, 10, 13, 15),
    (6, 12, 15, 18),
    (7, 14, 18, 21),
    (8, 16, 20, 24),
    (9, 18, 23, 27),
    (10, 20, 25, 30),
]
METRES = [(4, 2.4, 3.05, 3.66), (6, 3.66, 4.57, 5.49), (10, 6.1, 7.62, 9.14)]


@pytest.mark.parametrize("column", [0, 1, 2])
@pytest.mark.parametrize("row", TABLE, ids=lambda row: f"{row[0]} in")
def test_the_twenty_one_spacings(row, column):
    thickness, *feet = row
    mix = (WET_SMALL, WET_LARGE, STIFF)[column]
    span = load("pca-table").limits(thickness * MM_PER_INCH, mix).span
    assert span.bound == pytest.approx(feet[column] * MM_PER_FOOT)
    assert span.advised == span.bound


@pytest.mark.parametrize("row", METRES)
def test_the_spacings_in_metres_as_printed(row):
    thickness, *metres = row
    for mix, printed in zip((WET_SMALL, WET_LARGE, STIFF), metres, strict=True):
        span = load("pca-table").limits(thickness * MM_PER_INCH, mix).span
        assert span.bound / 1000 == pytest.approx(printed, abs=0.05)


def test_a_plain_multiple_differs_where_the_table_rounds_up():
    """30 times 5 in is 12.5 ft; the table says 13."""
    multiple = load("floor").limits(5 * MM_PER_INCH, Mix()).span.advised
    assert multiple == pytest.approx(12.5 * MM_PER_FOOT)
    table = load("pca-table").limits(5 * MM_PER_INCH, WET_LARGE).span.bound
    assert table == pytest.approx(13 * MM_PER_FOOT)


def test_slump_of_three_inches_counts_as_stiff_with_any_aggregate():
    for size in (3 / 8, 3 / 4, 1.5):
        mix = Mix(slump=3 * MM_PER_INCH, aggregate=size * MM_PER_INCH)
        span = load("pca-table").limits(10 * MM_PER_INCH, mix).span
        assert span.bound == pytest.approx(30 * MM_PER_FOOT)
