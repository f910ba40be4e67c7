"""Layouts that publications call good or bad, held against the publication's own rule set.

Each test names its publication. A layout is a grid of bays; "complies" means no error of the rule in
question, as the publications give one figure where the checks know two steps.
"""

import pytest

from checked import (
    Rule,
    Severity,
    broken,
    errors,
    feet,
    findings,
    grid_slab,
    joint,
    of,
    rules,
)
from kerfline.checks.given import given_layout
from kerfline.checks.verdict import Ruling, verdicts
from kerfline.model.slab import Column
from kerfline.units import MM_PER_FOOT, MM_PER_INCH, MM_PER_METRE


def ruled(rule, slab, name):
    """The verdict on one rule under a rule set."""
    layout = given_layout(slab)
    found = findings(slab, name, layout=layout)
    return {v.rule: v for v in verdicts(found, slab, layout, rules(name))}[rule]


@pytest.mark.parametrize(("bay", "passes"), [(8, True), (12, True), (15, False), (30, False)])
def test_four_inches_carry_eight_to_twelve_feet_and_panels_of_15_and_30_ft_fail(bay, passes):
    """ACI 302.1R-80 as a trade question quotes it: 4 in slab 8 to 12 ft; panels of 30 and 15 ft both fail."""
    span = ruled(Rule.SPAN, grid_slab(2, 2, bay=bay), "floor")
    assert span.ruling is (Ruling.COMPLIES if passes else Ruling.FAILS)
    assert span.worst == pytest.approx(bay * MM_PER_FOOT)
    assert span.errors == (0 if passes else 4)


@pytest.mark.parametrize(("inches", "spacing"), [(6, 12), (7, 15), (9, 15), (10, 20)])
def test_streets_keep_the_table_and_an_inch_more_fails(inches, spacing):
    """SUDAS Design Manual 5G-2, Table 5G-2.01: 6 in 12 ft, 7 in 15 ft, 9 in 15 ft, 10 in and over 20 ft.

    By its own 24 T a 7 in slab would have 14 ft only; the table is what is held.
    """
    thickness = inches * MM_PER_INCH
    at_limit = grid_slab(2, 2, bay=spacing, thickness=thickness)
    beyond = grid_slab(2, 2, bay=spacing + 1 / 12, thickness=thickness)
    assert ruled(Rule.SPAN, at_limit, "streets").ruling is Ruling.COMPLIES
    assert ruled(Rule.SPAN, beyond, "streets").ruling is Ruling.FAILS


def test_a_garage_with_one_joint_each_way_is_four_square_panels():
    """Trade question: garage 20 x 20 ft, 4 in: one joint each way, four panels of 10 x 10 ft."""
    slab = grid_slab(2, 2, bay=10)
    layout = given_layout(slab)
    assert len(layout.joints) == 2
    assert [(p.length, p.width) for p in layout.panels] == [
        (pytest.approx(10 * MM_PER_FOOT), pytest.approx(10 * MM_PER_FOOT))
    ] * 4
    assert findings(slab, layout=layout) == ()
    bare = grid_slab(2, 2, bay=10, joints=())
    assert errors(findings(bare)) == {Rule.SPAN}


def test_a_drive_of_15_by_18_ft_with_one_joint_each_way_keeps_a_quarter_longer_than_wide():
    """Trade question: drive 15 x 18 ft, 4 in: one joint each way, panels 9 x 7.5 ft; 1.2 is within 1.25."""
    slab = grid_slab(2, 2, bay=9, aside=7.5)
    aspect = ruled(Rule.ASPECT, slab, "floor")
    assert (aspect.ruling, aspect.count) == (Ruling.COMPLIES, 0)
    assert aspect.worst == pytest.approx(1.2)
    assert findings(slab) == ()
    assert ruled(Rule.ASPECT, slab, "military-floor").ruling is Ruling.COMPLIES


@pytest.mark.parametrize(("spacing", "passes"), [(5.0, True), (6.25, True), (6.5, False)])
def test_a_walk_of_five_feet_takes_joints_six_feet_three_apart(spacing, passes):
    """Agency notes on walks: joint spacing no more than 1.25 times the width; 5 ft wide, 6.25 ft."""
    walk = grid_slab(4, 1, bay=spacing, aside=5)
    aspect = ruled(Rule.ASPECT, walk, "walks")
    assert aspect.ruling is (Ruling.COMPLIES if passes else Ruling.FAILS)
    assert (Rule.ASPECT in broken(findings(walk, "walks"))) is not passes


@pytest.mark.parametrize(
    ("length", "width", "area_passes", "aspect_passes"),
    [(25, 24, True, True), (25, 25, False, True), (25, 20, True, True), (25.25, 20, True, False)],
)
def test_a_military_floor_panel_holds_600_square_feet_and_a_quarter_longer_than_wide(
    length, width, area_passes, aspect_passes
):
    """UFC 3-320-06A, par. 5-4: panels of 600 ft2 (55.7 m2) at most, length within 1.25 times the width.

    The 25 ft sides are computed from it; their span is another rule's, and not asked here.
    """
    slab = grid_slab(2, 2, bay=length, aside=width, thickness=10 * MM_PER_INCH)
    area = ruled(Rule.AREA, slab, "military-floor")
    assert area.ruling is (Ruling.COMPLIES if area_passes else Ruling.FAILS)
    assert area.limit == pytest.approx(55.7 * MM_PER_METRE**2, rel=1e-3)
    assert area.worst == pytest.approx(length * width * MM_PER_FOOT**2)
    aspect = ruled(Rule.ASPECT, slab, "military-floor")
    assert aspect.ruling is (Ruling.COMPLIES if aspect_passes else Ruling.FAILS)


@pytest.mark.parametrize(("length", "odd"), [(15.0, False), (15.1, True)])
def test_a_panel_more_than_a_quarter_longer_than_wide_is_odd_shaped(length, odd):
    """EM 1110-3-132, 6-1b: odd-shaped is above 1.25: 15 x 12 ft is not, 15.1 x 12 ft is.

    The airfield set gives 1.25 as the advised step: beyond it is the warning to reinforce.
    """
    slab = grid_slab(2, 2, bay=length, aside=12, thickness=14 * MM_PER_INCH)
    found = of(Rule.ASPECT, findings(slab, "airfield"))
    assert {f.severity for f in found} == ({Severity.WARNING} if odd else set())
    assert all(f.limit == pytest.approx(1.25) for f in found)


@pytest.mark.parametrize(("metres", "passes"), [(6.0, True), (6.1, False)])
def test_british_floors_with_fabric_take_six_metres_at_150_mm(metres, passes):
    """TR34 as the Concrete Society describes it: sawn joints at 6 m with 150 mm or more, 40 times t."""
    bay = metres * MM_PER_METRE / MM_PER_FOOT
    slab = grid_slab(2, 2, bay=bay, thickness=150.0)
    span = ruled(Rule.SPAN, slab, "fabric-reinforced")
    assert span.ruling is (Ruling.COMPLIES if passes else Ruling.FAILS)
    assert span.limit / 150.0 == pytest.approx(40)


def test_fifteen_foot_bays_on_a_25_by_50_ft_column_grid_miss_the_columns():
    """Trade case: 15 ft square bays laid on columns 25 x 50 ft apart; the joints miss the columns.

    Columns at 25 and 50 ft along, 50 ft up: 25 is no multiple of 15 and neither is 50, so the four
    points of each isolation diamond are missed; bays of 12.5 ft meet every one.
    """
    columns = tuple(
        Column(id=f"C{n}", at=feet((x, 50))[0], size=609.6) for n, x in enumerate((25, 50), start=1)
    )
    thickness = 6 * MM_PER_INCH
    missed = grid_slab(5, 5, bay=15, thickness=thickness, columns=columns)
    found = of(Rule.COLUMN, findings(missed))
    assert {f.subject for f in found} == {"C1", "C2"}
    assert len([f for f in found if "No joint meets the point" in f.message]) == 8
    nearest = min(f.measured for f in found)
    assert nearest > 3 * MM_PER_FOOT

    met = grid_slab(6, 8, bay=12.5, thickness=thickness, columns=columns)
    assert not [f for f in of(Rule.COLUMN, findings(met)) if "No joint meets" in f.message]


def test_a_joint_that_stops_inside_a_slab_is_named_a_dead_end():
    """UFC 3-320-06A, par. 5-4: straight and continuous from edge to edge, no staggering."""
    slab = grid_slab(2, 2, joints=(joint("A", (10, 0), (10, 12)), joint("B", (0, 10), (20, 10))))
    found = of(Rule.FREE_END, findings(slab, "military-floor"))
    assert [f.severity for f in found] == [Severity.ERROR]
    assert "UFC 3-320-06A" in found[0].source
