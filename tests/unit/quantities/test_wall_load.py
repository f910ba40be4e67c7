"""The line load of a wall on the plain slab, at the edges of the published table."""

import pytest

from kerfline.quantities.wall_load import PCI, TABLE_SUBGRADE, wall_load

INCH, PSI = 25.4, 4.4482216152605 / 25.4**2
LB_FT = 4.4482216152605 / 304.8


def pounds(inches, psi, pci=100.0):
    load = wall_load(inches * INCH, psi * PSI, pci * PCI)
    return load and load / LB_FT


@pytest.mark.parametrize(
    ("inches", "found"), [(3.99, None), (4.0, 425), (4.99, 425), (5.0, 565), (10.0, 1340), (14.0, 1340)]
)  # fmt: skip
def test_the_next_lower_whole_inch_counts_up_to_ten(inches, found):
    """UFC 3-320-06A (2005), Table 3-2, column of 550 psi."""
    assert pounds(inches, 550) == (found and pytest.approx(found))


@pytest.mark.parametrize(
    ("psi", "found"), [(549, None), (550, 425), (575, 440), (600, 455), (625, 470), (700, 510), (900, 510)]
)  # fmt: skip
def test_between_columns_it_is_by_proportion_and_above_the_last_as_the_last(psi, found):
    """The same table's row of 4 in: 425, 455, 485 and 510 lb/ft."""
    assert pounds(4, psi) == (found and pytest.approx(found))


@pytest.mark.parametrize(
    ("pci", "inches", "found"),
    [
        (24.9, 10, None),
        (25, 5.2, 425),
        (25, 5.19, None),
        (49, 5.2, 425),
        (50, 4.4, 425),
        (99, 4.4, 425),
        (100, 4.0, 425),
        (200, 3.6, 425),
        (300, 3.2, 425),
        (900, 3.19, None),
    ],
)
def test_on_other_ground_a_thickness_counts_as_another(pci, inches, found):
    """The table's note: on 25 pci a thickness is the table's times 1.3, on 300 pci times 0.8."""
    assert pounds(inches, 550, pci) == (found and pytest.approx(found))


def test_the_tables_own_ground_is_taken_where_none_is_given():
    assert pytest.approx(100 * PCI) == TABLE_SUBGRADE
    assert wall_load(5 * INCH, 550 * PSI) == wall_load(5 * INCH, 550 * PSI, 100 * PCI)
