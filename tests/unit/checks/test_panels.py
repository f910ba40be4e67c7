"""Span, aspect, width and area of panels."""

import math
from dataclasses import replace

import pytest

from checked import (
    Rule,
    Severity,
    box_ring,
    broken,
    feet,
    findings,
    grid_joints,
    grid_slab,
    joint,
    kinds,
    of,
    rules,
    with_joints,
)
from kerfline.checks.panels import fewest_bays
from kerfline.geometry.ring import Ring
from kerfline.model.slab import KeepOut, Slab, Zone
from kerfline.units import MM_PER_FOOT, MM_PER_INCH, Display


def test_a_clean_grid_has_no_findings():
    assert findings(grid_slab()) == ()


def test_a_panel_just_at_the_advised_span_is_clean_and_a_hair_beyond_is_a_warning():
    assert findings(grid_slab(bay=10.0)) == ()
    longer = findings(grid_slab(2, 2, bay=10.01))
    assert kinds(longer) == [(Rule.SPAN, Severity.WARNING)]
    assert len(longer) == 4


def test_a_panel_beyond_the_greatest_span_is_an_error_with_its_measure_limit_and_place():
    found = of(Rule.SPAN, findings(grid_slab(3, 3, bay=12.5)))
    assert {f.severity for f in found} == {Severity.ERROR}
    assert found[0].measured == pytest.approx(12.5 * MM_PER_FOOT)
    assert found[0].limit == pytest.approx(36 * 4 * MM_PER_INCH)
    assert found[0].subject == "P1"
    assert found[0].message == (
        'P1 at (6\'-3", 6\'-3") is 12\'-6" long; the greatest allowed is 12\'-0" at 4" thick.'
    )
    assert "ACI 302.1R" in found[0].source
    assert found[0].at == pytest.approx((6.25 * MM_PER_FOOT, 6.25 * MM_PER_FOOT))


def test_findings_come_by_rule_then_by_number():
    found = of(Rule.SPAN, findings(grid_slab(4, 3, bay=12.5)))
    assert [f.subject for f in found] == [f"P{n}" for n in range(1, 13)]


def test_the_limits_of_a_zone_hold_in_its_panels():
    zone = Zone(id="Z1", outline=grid_slab(1, 1).outline, thickness=3 * MM_PER_INCH)
    found = findings(grid_slab(2, 2, zones=(zone,)))
    assert kinds(found) == [(Rule.SPAN, Severity.ERROR)]
    assert [(f.subject, f.limit) for f in found] == [("P1", pytest.approx(108 * MM_PER_INCH))]


def test_a_panel_with_two_thicknesses_is_held_against_the_thinner_one():
    half = Ring(feet((0, 0), (5, 0), (5, 10), (0, 10)))
    zone = Zone(id="Z1", outline=half, thickness=76.2, joint_at_border=False)
    found = of(Rule.SPAN, findings(grid_slab(2, 1, zones=(zone,))))
    assert [f.subject for f in found] == ["P1"]


def test_a_zone_that_overlaps_a_panel_by_an_inch_does_not_rule_it():
    wide = Ring(feet((0, 0), (10.08, 0), (10.08, 10), (0, 10)))
    zone = Zone(id="Z1", outline=wide, thickness=76.2)
    found = of(Rule.SPAN, findings(grid_slab(2, 1, zones=(zone,))))
    assert [f.subject for f in found] == ["P1"]


@pytest.mark.parametrize(
    ("aside", "severity"), [(8.0, None), (7.9, "warning"), (6.7, "warning"), (6.6, "error")]
)
def test_aspect_is_held_in_two_steps(aside, severity):
    found = of(Rule.ASPECT, findings(grid_slab(2, 2, bay=10.0, aside=aside)))
    assert {f.severity.value for f in found} == ({severity} if severity else set())


def test_a_narrow_panel_between_joints_is_an_error():
    slab = with_joints(grid_slab(), joint("S", (1.5, 0), (1.5, 30)))
    found = of(Rule.WIDTH, findings(slab))
    assert {f.severity for f in found} == {Severity.ERROR}
    assert [f.measured for f in found] == [pytest.approx(1.5 * MM_PER_FOOT)] * 3


def test_a_narrow_piece_of_slab_that_no_joint_made_is_advice():
    path = Slab(
        outline=Ring(feet((0, 0), (6, 0), (6, 1.5), (0, 1.5))),
        thickness=101.6,
        joints=tuple(joint(f"V{i}", (i * 1.5, 0), (i * 1.5, 1.5)) for i in range(1, 4)),
    )
    found = findings(path)
    assert kinds(found) == [(Rule.WIDTH, Severity.ADVICE)]
    assert "the slab itself" in found[0].message


def test_area_is_held_where_the_set_has_one():
    # 20 ft bays in an 8 in slab: 400 ft2.
    slab = grid_slab(2, 2, bay=20.0, thickness=8 * MM_PER_INCH)
    large = rules("floor", area={"advised": "300 ft2", "maximum": "350 ft2"})
    found = of(Rule.AREA, findings(slab, by=large))
    assert [f.severity for f in found] == [Severity.ERROR] * 4
    assert found[0].measured == pytest.approx(400 * MM_PER_FOOT**2)
    assert not of(Rule.AREA, findings(slab))


@pytest.mark.parametrize(
    ("length", "width", "bays"),
    [(30, 10, (3, 1)), (20, 20, (2, 2)), (12.5, 10, (2, 2)), (24, 12, (2, 1)), (40, 3, (9, 1))],
)
def test_the_bays_of_a_remedy_keep_every_limit_and_are_the_fewest(length, width, bays):
    limits = rules().limits(4 * MM_PER_INCH)
    found = fewest_bays(length * MM_PER_FOOT, width * MM_PER_FOOT, limits, bound=True)
    assert found == bays
    along, across = length / found[0], width / found[1]
    assert max(along, across) <= 12
    assert max(along, across) <= 1.5 * min(along, across) + 1e-9
    for one, two in ((a, b) for a in range(1, found[0] + 1) for b in range(1, found[1] + 1)):
        sides = sorted((length / one, width / two))
        kept = 1 < one * two < math.prod(found) and sides[1] <= min(12, 1.5 * sides[0])
        assert not kept


def test_the_remedy_for_a_long_panel_really_mends_it():
    slab = with_joints(grid_slab(), without=("V1", "V2", "V3"))
    found = findings(slab)
    assert broken(found) == {Rule.SPAN, Rule.ASPECT}
    assert "Divide it into 4 bays of 10'-0\" x 10'-0\"" in of(Rule.SPAN, found)[0].remedy
    assert findings(with_joints(slab, *grid_joints(4, 3)[:3])) == ()


CLOSER = "Set the joints {} at most {} apart, or divide {} into one bay more."


@pytest.mark.parametrize(
    ("bay", "aside", "said"),
    [
        (10.25, 10.25, CLOSER.format("all round it", "10'-0\"", "its rows")),
        (10.25, 10.0, CLOSER.format("beside it", "10'-0\"", "its row")),
        (10.0, 10.25, CLOSER.format("beside it", "10'-0\"", "its row")),
        (12.0, 10.0, CLOSER.format("beside it", "10'-0\"", "its row")),
        (13.0, 13.0, CLOSER.format("all round it", "12'-0\"", "its rows")),
        (14.39, 12.0, CLOSER.format("beside it", "12'-0\"", "its row")),
        (14.41, 12.0, "Divide it into 2 x 2 bays of 7'-2 1/2\" x 6'-0\""),
    ],
)
def test_a_panel_a_little_too_long_is_mended_by_its_joints(bay, aside, said):
    """Nobody cuts a bay of 10'-3\" into two by two of 5'-2\" for three inches over the advised 10 ft."""
    found = of(Rule.SPAN, findings(grid_slab(2, 2, bay=bay, aside=aside)))
    assert len(found) == 4
    assert all(f.remedy.startswith(said) for f in found)


@pytest.mark.parametrize("wide", [1, 2])
def test_joints_that_are_not_there_are_not_set_closer(wide):
    """10'-3\" both ways: alone, or in a row between two edges that no joint brings closer."""
    found = of(Rule.SPAN, findings(grid_slab(wide, 1, bay=10.25)))
    assert len(found) == wide
    assert all("Set the joints" not in f.remedy for f in found)


@pytest.mark.parametrize(("shared", "closer"), [(40, False), (60, True)])
def test_a_joint_bounds_a_panel_with_more_than_a_finger_of_side(shared, closer):
    """A door of so many millimetres, with a joint in it, between rooms of 10'-3\" by 8 ft."""
    side = 4 - shared / MM_PER_FOOT
    outline = Ring(
        feet((0, 0), (10.25, 0), (10.25, side), (10.5, side), (10.5, 0), (20, 0), (20, 8))
        + feet((10.5, 8), (10.5, 4), (10.25, 4), (10.25, 8), (0, 8))
    )
    door = joint("J", (10.25, side), (10.25, 4))
    found = of(Rule.SPAN, findings(Slab(outline=outline, thickness=101.6, joints=(door,))))
    assert ["Set the joints" in f.remedy for f in found if f.at[0] < 10 * MM_PER_FOOT] == [closer]


def test_messages_in_metric_jobs_are_metric():
    found = findings(grid_slab(2, 2, bay=12.5), display=Display.METRIC)
    assert found[0].message == (
        "P1 at (1900 mm, 1900 mm) is 3810 mm long; the greatest allowed is 3658 mm at 102 mm thick."
    )


def test_a_panel_round_a_keep_out_longer_than_the_span_is_not_told_to_divide():
    tubing = KeepOut(id="K1", outline=box_ring(1, 1, 15, 7), what="tubing")
    slab = grid_slab(1, 1, 16, 8, joints=(), keep_outs=(tubing,))
    (found,) = of(Rule.SPAN, findings(slab))
    assert "Divide" not in found.remedy
    assert "K1 (tubing)" in found.remedy
    deep = replace(tubing, cover=90.0)
    (found,) = of(Rule.SPAN, findings(replace(slab, keep_outs=(deep,))))
    assert found.remedy.startswith("Divide it into 2 bays")


def test_a_long_side_that_is_left_uncut_counts_as_the_panels_span():
    """A right triangle with legs of 11 ft fits into an 11 ft square, but its long side is 15 ft 7 in."""
    outline = Ring(feet((0, 0), (11, 0), (0, 11)))
    found = of(Rule.SPAN, findings(Slab(outline=outline, thickness=6 * MM_PER_INCH)))
    assert [(f.severity, f.measured) for f in found] == [
        (Severity.WARNING, pytest.approx(11 * math.sqrt(2) * MM_PER_FOOT))
    ]
    assert "leaves a straight run of 15'-6 5/8\" uncut; the greatest advised is 15'-0\"" in (
        found[0].message
    )
    assert found[0].remedy == "End a joint on its longest side, near the middle of it."
    cut = joint("J1", (0, 0), (5.5, 5.5))
    assert not of(
        Rule.SPAN, findings(Slab(outline=outline, thickness=6 * MM_PER_INCH, joints=(cut,)))
    )


@pytest.mark.parametrize(("shared", "severity"), [(40, Severity.ADVICE), (60, Severity.ERROR)])
def test_a_panel_that_shares_a_finger_of_side_is_no_neighbour(shared, severity):
    """A strip 1 ft 6 in wide beside a room, open to it for some millimetres of a joint."""
    up = 1.5 - shared / MM_PER_FOOT
    outline = Ring(
        feet((0, 0), (2.2, 0), (2.2, up), (8, up), (8, 7), (2.2, 7), (2.2, 1.5), (0, 1.5))
    )
    slab = Slab(outline=outline, thickness=101.6, joints=(joint("J", (2.2, up), (2.2, 1.5)),))
    (found,) = of(Rule.WIDTH, findings(slab))
    assert found.measured == pytest.approx(1.5 * MM_PER_FOOT)
    assert found.severity is severity


def test_a_neighbour_along_a_joint_that_would_widen_a_panel_makes_it_the_joints_fault():
    """Two strips side by side: 1.5 ft each, 3 ft together."""
    outline = Ring(feet((0, 0), (2.2, 0), (2.2, 3), (0, 3)))
    apart = joint("J", (0, 1.5), (2.2, 1.5))
    found = of(Rule.WIDTH, findings(Slab(outline=outline, thickness=101.6, joints=(apart,))))
    assert {f.severity for f in found} == {Severity.ERROR}
    assert "the slab itself" not in found[0].message


def test_bays_across_are_no_more_than_are_asked_for():
    """A panel of 24 x 24 ft needs two bays either way, and one across does not do."""
    limits = rules().limits(4 * MM_PER_INCH)
    side = 24 * MM_PER_FOOT
    assert fewest_bays(side, side, limits, bound=True) == (2, 2)
    assert fewest_bays(side, side, limits, bound=True, most_across=1) is None
