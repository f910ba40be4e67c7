"""Spans by thickness and mix: a nominal metric size stands in the row of its inch size, and no thinner one."""

import pytest

from kerfline.model.job import Mix
from kerfline.rules.span import Column, Multiple, Row, Table

INCH = 25.4
ROWS = tuple(Row(start=t * INCH, spans=(t * 1000.0,)) for t in (3, 4, 5, 6))
"""Rows at 3, 4, 5 and 6 in; the span says which row holds."""


@pytest.mark.parametrize(
    ("thickness", "row"),
    [(75.0, 3), (100.0, 4), (101.6, 4), (99.0, 3), (125.0, 5), (124.0, 4), (150.0, 6), (149.0, 5)],
)
def test_metric_sizes_stand_in_the_rows_of_their_inch_sizes(thickness, row):
    """75, 100, 125 and 150 mm are sold as 3, 4, 5 and 6 in (common practice); a millimetre less is not."""
    assert Table(rows=ROWS).span(thickness, Mix()) == row * 1000.0


def test_a_row_above_a_thickness_does_not_hold_at_it():
    table = Table(rows=(ROWS[0], Row(start=4 * INCH, spans=(9000.0,), above=True)))
    assert table.span(4 * INCH, Mix()) == 3000.0
    assert table.span(103.0, Mix()) == 3000.0
    assert table.span(105.0, Mix()) == 9000.0


def test_a_slab_thinner_than_the_first_row_has_its_share():
    assert Table(rows=ROWS).span(50.8, Mix()) == pytest.approx(2000.0)


def test_a_cap_holds_below_its_thickness_only():
    rule = Multiple(times=36, cap=4000.0, cap_below=8 * INCH)
    assert rule.span(150.0, Mix()) == 4000.0
    assert rule.span(198.0, Mix()) == 4000.0
    assert rule.span(200.0, Mix()) == 7200.0


@pytest.mark.parametrize(
    ("mix", "fits"),
    [
        (Mix(), True),
        (Mix(slump=100.0), True),
        (Mix(slump=99.0), False),
        (Mix(slump=150.0), True),
        (Mix(slump=155.0), True),
        (Mix(slump=156.0), False),
        (Mix(slump=100.0, aggregate=18.0), True),
        (Mix(slump=100.0, aggregate=19.0), False),
        (Mix(aggregate=10.0), False),
    ],
)
def test_a_column_is_for_its_slumps_and_aggregates(mix, fits):
    """4 to 6 in of slump, aggregate from 1/2 in to below 3/4 in; nominal metric sizes count as theirs."""
    column = Column(
        title="", slump_from=101.6, slump_to=152.4, aggregate_from=12.7, aggregate_below=19.05
    )
    assert column.fits(mix) is fits


def test_what_is_assumed_says_whether_the_mix_is_unknown_or_in_no_column():
    """Two columns may hold 4 in of slump, the third does not; the least span of the two is taken."""
    columns = (
        Column(title="stiff", slump_to=50.0),
        Column(title="plain", slump_to=150.0),
        Column(title="wet", slump_from=100.0),
    )
    table = Table(rows=(Row(start=0.0, spans=(1000.0, 4000.0, 3000.0)),), columns=columns)
    assert "is not known, so" in table.assumption(Mix(slump=110.0))
    assert "(wet)" in table.assumption(Mix(slump=110.0))
    none = Table(rows=table.rows, columns=(columns[0], columns[0], columns[0]))
    assert "No column of the spacing table" in none.assumption(Mix(slump=110.0))
    assert table.assumption(Mix(slump=40.0)) != ""
    one = Table(rows=table.rows, columns=(columns[0], columns[2], columns[2]))
    assert one.assumption(Mix(slump=40.0)) == ""
