"""Concrete: take-off, order and delivery against published figures and sums worked by hand.

Sources: a home-improvement estimating handbook, 2018, p. 42 (coverage table, 5 % waste); a trade magazine's
floor of 60,000 ft2; NRMCA CIP 8, "Discrepancies in Yield" (depth); a trade answer on overruns. Where the
expected figure is a sum worked by hand the docstring says so. Feet, inches and cubic yards.
"""

import pytest

from kerfline.geometry.ring import Ring
from kerfline.model.day import Concrete, Ledger
from kerfline.model.slab import Edge, EdgeKind, Slab, Wall, Zone
from kerfline.quantities.concrete import concrete_body
from kerfline.quantities.order import coverage, delivery, shortfall
from kerfline.units import MM3_PER_M3, MM3_PER_YD3, MM_PER_FOOT, MM_PER_INCH, Display
from shapes import feet
from turndown import (
    edge_volume,
    pad_volume,
    section_area,
    section_centroid,
    strip_volume,
)

FT3 = MM_PER_FOOT**3
FT2 = MM_PER_FOOT**2
HALL = ((0, 0), (40, 0), (40, 30), (0, 30))
ELL = ((0, 0), (40, 0), (40, 20), (20, 20), (20, 30), (0, 30))


def slab(corners, thickness=4.0, **parts):
    return Slab(outline=Ring(feet(*corners)), thickness=thickness * MM_PER_INCH, **parts)


def turned_down(corners, slope=0.0):
    """Edge 12 in wide and 18 in deep over all, all round a 4 in slab."""
    edges = tuple(
        Edge(ring=0, segment=i, kind=EdgeKind.TURNDOWN, depth=457.2, width=304.8, slope=slope)
        for i in range(len(corners))
    )
    return slab(corners, edges=edges)


def yards(body):
    return body.volume() / MM3_PER_YD3


def test_420_square_feet_at_4_inches_take_5_18_yards_and_5_44_with_waste():
    """Estimating handbook 2018, p. 42, prints 5.18 and, with 5 %, 5.44 (it cuts off digits)."""
    body = concrete_body(slab(((0, 0), (21, 0), (21, 20), (0, 20))))
    order = delivery(body.volume(), Concrete(allowance=0.05), Display.FEET_INCHES, Ledger())
    assert yards(body) == pytest.approx(5.185, abs=0.001)
    assert order.gross / MM3_PER_YD3 == pytest.approx(5.444, abs=0.001)


def test_60000_square_feet_at_6_inches_take_about_1100_yards():
    """Trade magazine: "1100 yd3"; exact 1111.1."""
    body = concrete_body(slab(((0, 0), (300, 0), (300, 200), (0, 200)), 6))
    assert yards(body) == pytest.approx(1100, rel=0.015)
    assert yards(body) == pytest.approx(1111.11, abs=0.01)


@pytest.mark.parametrize(
    ("inches", "square_feet"),
    [(2, 162), (3, 108), (4, 81), (5, 64.8), (6, 54), (7, 46.2), (8, 40.5)],
)
def test_one_yard_covers_what_the_handbook_prints(inches, square_feet):
    """Estimating handbook 2018, p. 42; 324 / 7 is 46.29, which it cuts to 46.2."""
    assert coverage(inches * MM_PER_INCH) / FT2 == pytest.approx(square_feet, abs=0.1)


def test_a_day_of_60_yards_covers_3888_square_feet_at_5_inches():
    """By hand: 324 x 60 / 5."""
    assert coverage(5 * MM_PER_INCH, 60 * MM3_PER_YD3) / FT2 == pytest.approx(3888)


def test_an_eighth_of_an_inch_in_four_is_one_yard_in_32():
    """NRMCA CIP 8: 1/8 in more in a 4 in slab; exact 1/32 = 3.1 %."""
    assert shortfall(0.125, 4) == pytest.approx(0.031, abs=0.0003)
    assert shortfall(0.125, 4) * 32 == pytest.approx(1.0)


def test_a_quarter_yard_over_in_nine_is_2_8_percent():
    """Trade answer on overruns: 2.8 %; held against the allowance that the order shows."""
    order = delivery(
        9 * MM3_PER_YD3,
        Concrete(allowance=0.25 / 9),
        Display.FEET_INCHES,
        Ledger(),
    )
    assert order.ordered / MM3_PER_YD3 == pytest.approx(9.25)
    assert order.share == pytest.approx(0.028, abs=0.0003)


def test_hall_with_straight_turned_down_edge():
    """By hand: slab 400 ft3; edge 14/12 ft2 x (140 - 8 x 0.5) ft = 158.667 ft3; 20.691 yd3 in all."""
    body = concrete_body(turned_down(HALL))
    parts = body.by_component()
    assert parts["slab"] / MM3_PER_YD3 == pytest.approx(14.815, abs=0.001)
    assert parts["turned-down edge"] / FT3 == pytest.approx(158.667, abs=0.001)
    assert yards(body) == pytest.approx(20.691, abs=0.001)
    assert edge_volume(140 * MM_PER_FOOT, 304.8, 355.6) / FT3 == pytest.approx(158.667, abs=0.001)


def test_hall_with_straight_edge_is_ordered_in_three_loads():
    """By hand: 20.691 x 1.05 = 21.726, up to 21.75 yd3, three loads of 10 yd3."""
    net = concrete_body(turned_down(HALL)).volume()
    concrete = Concrete(allowance=0.05, truck=10 * MM3_PER_YD3)
    order = delivery(net, concrete, Display.FEET_INCHES, Ledger(), earth=net)
    assert order.gross / MM3_PER_YD3 == pytest.approx(21.726, abs=0.001)
    assert order.ordered / MM3_PER_YD3 == pytest.approx(21.75)
    assert order.loads == 3
    assert [size / MM3_PER_YD3 for size in order.sizes] == pytest.approx([10, 6, 5.75])


def test_hall_with_sloping_inner_face():
    """By hand, Pappus: a 1.8472 ft2, centroid 0.82749 ft, edge 246.383 ft3, 23.940 yd3 in all."""
    body = concrete_body(turned_down(HALL, slope=1.0))
    assert section_area(304.8, 355.6, 1.0) / FT2 == pytest.approx(1.8472, abs=1e-4)
    assert section_centroid(304.8, 355.6, 1.0) / MM_PER_FOOT == pytest.approx(0.82749, abs=1e-5)
    assert body.by_component()["turned-down edge"] / FT3 == pytest.approx(246.383, abs=0.001)
    assert yards(body) == pytest.approx(23.940, abs=0.001)


def test_an_edge_no_deeper_than_the_slab_has_no_section():
    """Nothing below the slab: no area, and a centroid that spoils no sum."""
    assert section_area(304.8, 0.0) == 0
    assert edge_volume(140 * MM_PER_FOOT, 304.8, 0.0) == 0


def test_an_ell_of_the_same_perimeter_has_the_same_edge():
    """By hand: a corner taken out leaves the perimeter and four net corners, so 158.667 ft3 again."""
    body = concrete_body(turned_down(ELL))
    assert body.by_component()["turned-down edge"] / FT3 == pytest.approx(158.667, abs=0.001)
    assert body.by_component()["slab"] / FT3 == pytest.approx(1000 / 3, abs=0.001)


def test_interior_strip_between_edges():
    """By hand: 12 in at the bottom, 8 in extra, 45 degrees: 1.1111 ft2 x 28 ft = 31.111 ft3, 1.152 yd3.

    The strip's wall runs from edge to edge of the hall; the turned-down edges take the clear length.
    """
    wall = Wall(
        id="W1",
        path=feet((20, 0), (20, 30)),
        bearing=True,
        strip_width=304.8,
        strip_depth=304.8,
        strip_slope=1.0,
    )
    plain = slab(((0, 0), (40, 0), (40, 28), (0, 28)), walls=(wall,))
    edged = Slab(
        outline=Ring(feet(*HALL)),
        thickness=101.6,
        walls=(wall,),
        edges=turned_down(HALL).edges,
    )
    for case in (plain, edged):
        strip = concrete_body(case).by_component()["strip under W1"]
        assert strip / FT3 == pytest.approx(31.111, abs=0.001)
    assert strip_volume(28 * MM_PER_FOOT, 304.8, 203.2, 1.0) / MM3_PER_YD3 == pytest.approx(
        1.152, abs=0.001
    )


def test_thickened_pad():
    """By hand: 4 x 4 ft, 12 in over all in a 4 in slab: 10.667 ft3 more, 0.395 yd3."""
    zone = Zone(id="Z1", outline=Ring(feet((4, 4), (8, 4), (8, 8), (4, 8))), thickness=304.8)
    body = concrete_body(slab(HALL, zones=(zone,)))
    assert body.by_component()["thicker zone Z1"] / FT3 == pytest.approx(10.667, abs=0.001)
    assert pad_volume(16 * FT2, 203.2) / MM3_PER_YD3 == pytest.approx(0.395, abs=0.001)


def test_metric_slab():
    """By hand: 12 x 9 m at 100 mm is 10.8 m3."""
    outline = Ring(((0.0, 0.0), (12000.0, 0.0), (12000.0, 9000.0), (0.0, 9000.0)))
    body = concrete_body(Slab(outline=outline, thickness=100.0))
    assert body.volume() / MM3_PER_M3 == pytest.approx(10.8)
    order = delivery(body.volume(), Concrete(allowance=0.0), Display.METRIC, Ledger())
    assert order.ordered / MM3_PER_M3 == pytest.approx(11.0)


def test_trucks_come_every_20_minutes_at_30_yards_an_hour():
    """By hand: 10 yd3 at 30 yd3/h is 20 min apart; 23 yd3 take 46 min."""
    concrete = Concrete(allowance=0.0, truck=10 * MM3_PER_YD3, rate=30 * MM3_PER_YD3, cycle=1.25)
    order = delivery(23 * MM3_PER_YD3, concrete, Display.FEET_INCHES, Ledger())
    assert order.interval * 60 == pytest.approx(20)
    assert order.placing_time * 60 == pytest.approx(46)
    assert order.ring == 4
