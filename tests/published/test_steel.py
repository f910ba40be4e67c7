"""Dowels, bars, fillers and wall loads against published tables and sums worked by hand.

Sources: UFC 3-260-02 (2001), Table 12-8; a trade answer with a table of floor dowels at about an eighth of
the thickness; a published table of wall loads (k = 100 pci); AASHTO M148 / ASTM C309 (curing compound). The
table of ACI 302.1R-96 is from memory and stands only beside the trade table.
"""

import pytest

from kerfline.quantities.dowels import (
    ACI_FLOOR,
    AIRFIELD,
    TRADE_FLOOR,
    bar_weight,
    dowel_count,
    numbered_bar,
)
from kerfline.quantities.fillers import curing_compound, filler_volume
from kerfline.quantities.wall_load import LOADS_LB_FT, wall_load
from kerfline.units import (
    KG_PER_POUND,
    MM3_PER_GALLON,
    MM3_PER_LITRE,
    MM_PER_FOOT,
    MM_PER_INCH,
    MPA_PER_PSI,
    N_PER_POUND,
)

FOOT, INCH = MM_PER_FOOT, MM_PER_INCH


def inches(dowel):
    return tuple(round(v / INCH, 3) for v in (dowel.diameter, dowel.length, dowel.spacing))


@pytest.mark.parametrize(
    ("thickness", "dowel", "largest"),
    [
        (6, (0.75, 16, 12), 0.75),
        (7.9, (0.75, 16, 12), 0.75),
        (8, (1, 16, 12), 1),
        (10, (1, 16, 12), 1),
        (11.5, (1, 16, 12), 1),
        (12, (1, 20, 15), 1.25),
        (14, (1, 20, 15), 1.25),
        (16, (1, 20, 18), 1.5),
        (21, (2, 24, 18), 2),
        (26, (3, 30, 18), 3),
    ],
)
def test_airfield_dowels(thickness, dowel, largest):
    """UFC 3-260-02 (2001), Table 12-8, thickness and dowel in inches."""
    found = AIRFIELD.dowel(thickness * INCH)
    assert inches(found) == dowel
    assert found.diameter_to / INCH == pytest.approx(largest)


@pytest.mark.parametrize(
    ("thickness", "dowel"),
    [
        (5, (0.625, 12, 12)),
        (6, (0.75, 14, 12)),
        (7, (0.875, 14, 12)),
        (8, (1, 14, 12)),
        (9, (1.125, 16, 12)),
        (10, (1.25, 16, 12)),
    ],
)
def test_trade_floor_dowels(thickness, dowel):
    """Trade answer on floors, all at 12 in; the diameter is an eighth of the thickness."""
    found = TRADE_FLOOR.dowel(thickness * INCH)
    assert inches(found) == dowel
    assert found.diameter == pytest.approx(thickness * INCH / 8)


def test_no_table_goes_beyond_what_it_says():
    """The floor tables begin at 5 in and end at 10 and 11 in."""
    assert TRADE_FLOOR.dowel(4 * INCH) is None
    assert TRADE_FLOOR.dowel(11 * INCH) is None
    assert ACI_FLOOR.dowel(12 * INCH) is None


@pytest.mark.parametrize("thickness", [5, 6, 7, 8, 9, 10])
def test_aci_floor_dowels_from_memory_agree_with_the_trade_table(thickness):
    """ACI 302.1R-96 (from memory): at the trade table's spacing, never thinner than a step below it."""
    memory, trade = ACI_FLOOR.dowel(thickness * INCH), TRADE_FLOOR.dowel(thickness * INCH)
    assert memory.spacing == trade.spacing
    assert memory.diameter >= trade.diameter - INCH / 8


@pytest.mark.parametrize(("feet", "spacing", "count"), [(40, 12, 40), (30, 12, 30), (40, 18, 27)])
def test_dowel_count(feet, spacing, count):
    """By hand: floor((L - 12 in) / s) + 1 with 6 in free at both ends."""
    assert dowel_count(feet * FOOT, spacing * INCH) == count


def test_a_joint_too_short_for_a_dowel_has_none():
    """A stub of 11 in cannot keep 6 in free at both ends; one of 12 in takes one dowel."""
    assert dowel_count(11 * INCH, 12 * INCH) == 0
    assert dowel_count(12 * INCH, 12 * INCH) == 1


@pytest.mark.parametrize(("number", "pounds"), [(3, 0.376), (4, 0.668), (5, 1.043)])
def test_bar_weights(number, pounds):
    """ASTM A615 bar table, lb/ft, by hand from 490 lb/ft3."""
    weight = bar_weight(numbered_bar(number)) * FOOT / KG_PER_POUND
    assert weight == pytest.approx(pounds, rel=0.002)


def test_dowel_weight():
    """By hand: a 3/4 in dowel of 16 in weighs 2.00 lb."""
    assert AIRFIELD.dowel(6 * INCH).weight / KG_PER_POUND == pytest.approx(2.00, abs=0.005)


def test_tee_bars():
    """By hand: three No. 4 bars of 3 ft are 9 ft and 6.0 lb at 0.668 lb/ft."""
    weight = 3 * 3 * FOOT * bar_weight(numbered_bar(4)) / KG_PER_POUND
    assert weight == pytest.approx(6.0, abs=0.02)


@pytest.mark.parametrize(
    ("width", "depth", "gallons", "feet_per_gallon"),
    [(0.125, 1.25, 8.117, 123.2), (0.25, 0.5, 6.494, 154.0)],
)
def test_filler(width, depth, gallons, feet_per_gallon):
    """By hand, 231 in3 to the gallon, for 1000 ft."""
    volume = filler_volume(1000 * FOOT, width * INCH, depth * INCH) / MM3_PER_GALLON
    assert volume == pytest.approx(gallons, abs=0.001)
    assert 1000 / volume == pytest.approx(feet_per_gallon, abs=0.05)


def test_filler_in_litres():
    """By hand: 300 m of 3 x 32 mm is 28.8 L."""
    assert filler_volume(300_000, 3, 32) / MM3_PER_LITRE == pytest.approx(28.8)


def test_curing_compound():
    """AASHTO M148 / ASTM C309 rate of 200 ft2/gal: 1200 ft2 take 6.0 gal."""
    cover = 200 * FOOT**2 / MM3_PER_GALLON
    assert curing_compound(1200 * FOOT**2, cover) / MM3_PER_GALLON == pytest.approx(6.0)


WALLS = """
4 425 455 485 510
5 565 600 640 675
6 710 755 805 850
7 860 920 975 1030
8 1015 1080 1150 1215
9 1175 1255 1330 1410
10 1340 1430 1520 1605
"""


@pytest.mark.parametrize("row", WALLS.strip().splitlines())
def test_wall_loads(row):
    """Published table, lb/ft at flexural strengths of 550, 600, 650 and 700 psi."""
    inches_thick, *loads = (int(word) for word in row.split())
    for strength, load in zip((550, 600, 650, 700), loads, strict=True):
        found = wall_load(inches_thick * INCH, strength * MPA_PER_PSI)
        assert found * FOOT / N_PER_POUND == pytest.approx(load)


@pytest.mark.parametrize(
    ("pci", "factor"), [(25, 1.3), (50, 1.1), (100, 1.0), (200, 0.9), (300, 0.8)]
)
def test_wall_loads_on_other_subgrades(pci, factor):
    """UFC 3-320-06A, Table 3-2, note: the thickness for a load is the table's, times a factor of the subgrade."""
    modulus = pci * N_PER_POUND / INCH**3
    table = wall_load(6 * INCH, 550 * MPA_PER_PSI)
    assert wall_load(6 * factor * INCH, 550 * MPA_PER_PSI, modulus) == pytest.approx(table)
    assert wall_load((6 * factor - 0.01) * INCH, 550 * MPA_PER_PSI, modulus) < table


def test_wall_loads_take_the_softer_ground_and_none_below_the_table():
    """60 pci counts as 50; under 25 the table says nothing."""
    psi, pci = 550 * MPA_PER_PSI, N_PER_POUND / INCH**3
    assert wall_load(8 * INCH, psi, 60 * pci) == wall_load(8 * INCH, psi, 50 * pci)
    assert wall_load(8 * INCH, psi, 24 * pci) is None


def test_wall_loads_grow_with_strength_and_thickness():
    """Along every row and column, and a strength between columns lies between their loads."""
    columns = list(zip(*LOADS_LB_FT.values(), strict=True))
    assert all(sorted(column) == list(column) for column in columns)
    between = wall_load(4 * INCH, 575 * MPA_PER_PSI) * FOOT / N_PER_POUND
    assert between == pytest.approx(440)
    assert wall_load(3 * INCH, 600 * MPA_PER_PSI) is None
