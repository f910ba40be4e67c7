"""The least depth of a cut by thickness."""

import pytest

from kerfline.rules.cut import CutRow, row_for
from kerfline.rules.limits import Source

OWN, OTHER = Source(publication="own"), Source(publication="other")


def row(**figures):
    fields = {"advised": 0.25, "least": 0.2, "floor": 25.0, "source": OWN}
    return CutRow(**{**fields, **figures})


@pytest.mark.parametrize(
    ("thickness", "advised", "bound"),
    [(80.0, 25.0, 25.0), (100.0, 25.0, 25.0), (110.0, 27.5, 25.0), (125.0, 31.25, 25.0), (150.0, 37.5, 30.0)],
)  # fmt: skip
def test_a_share_of_the_thickness_holds_where_it_is_more_than_the_floor(thickness, advised, bound):
    figure = row().at(thickness)
    assert (figure.advised, figure.bound) == pytest.approx((advised, bound))


def test_where_no_share_is_given_the_floor_alone_holds():
    figure = row(advised=0.0, least=0.0).at(1000.0)
    assert (figure.advised, figure.bound) == (25.0, 25.0)


def test_advice_has_its_own_source_where_it_is_from_elsewhere():
    assert row().at(100.0).advised_by == OWN
    figure = row(advised_source=OTHER).at(100.0)
    assert (figure.source, figure.advised_by) == (OWN, OTHER)


@pytest.mark.parametrize(
    ("thickness", "floor"),
    [(100.0, 25.0), (229.0, 25.0), (233.0, 25.0), (233.3, 32.0), (300.0, 32.0), (600.0, 40.0)],
)
def test_the_last_row_that_holds_is_taken_and_a_nominal_size_stays_in_its_own(thickness, floor):
    """A row above 9 in (228.6 mm) holds from 2 % more on, 233.27 mm, so that 230 mm counts as 9 in."""
    rows = (row(), row(floor=32.0, above=228.6), row(floor=40.0, above=500.0))
    assert row_for(rows, thickness).floor == floor
