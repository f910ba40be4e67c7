"""Where publications disagree about a layout, both are told and the engineer chooses."""

import pytest

from checked import box_ring, grid_joints, grid_slab, joint, rules
from kerfline.checks.disagreements import disagreements
from kerfline.checks.given import given_layout
from kerfline.model.finding import Rule
from kerfline.units import Display

FOOT = 304.8


def found(slab, display=Display.FEET_INCHES):
    return {d.rule: d for d in disagreements(slab, given_layout(slab), rules(), display)}


def kept(disagreement):
    return [stand.kept for stand in disagreement.stands]


@pytest.mark.parametrize(
    ("bay", "stands"),
    [
        (8.0, None),
        (8.01, [False, True, True, True, True]),
        (10.0, [False, True, True, True, True]),
        (10.01, [False, False, True, True, True]),
        (12.0, [False, False, True, True, True]),
        (12.01, None),
    ],
)
def test_spans_of_a_4_inch_slab_between_24_and_36_times_its_thickness(bay, stands):
    """24 t is 8 ft, 30 t 10 ft, 36 t 12 ft; below the first all are kept, above the last none is."""
    told = found(grid_slab(2, 2, bay=bay)).get(Rule.SPAN)
    assert (told and kept(told)) == stands


def test_the_longest_and_the_narrowest_panel_count():
    """Bays of 11 and 8 ft, 10 ft deep: 11 ft is over 30 t; 10 over 8 is 1.25 and 11 over 10 less."""
    uneven = grid_slab(
        2, 1, joints=(joint("A", (11, 0), (11, 10)),), outline=box_ring(0, 0, 19, 10)
    )
    told = found(uneven)
    assert told[Rule.SPAN].worst == pytest.approx(11 * FOOT)
    assert kept(told[Rule.SPAN])[:2] == [False, False]
    assert Rule.ASPECT not in told


def test_caps_hold_for_thick_slabs():
    """12 in: 24 t is 24 ft; ACI 330R's cap is 15 ft, CSA's 5 m, ACI 302.1R's 18 ft; 36 t is 36 ft."""
    told = found(grid_slab(2, 2, bay=17.0, thickness=12 * 25.4))[Rule.SPAN]
    assert [s.limit for s in told.stands] == pytest.approx(
        [24 * FOOT, 15 * FOOT, 5000, 18 * FOOT, 36 * FOOT]
    )
    assert kept(told) == [True, False, False, True, True]
    assert "30 t, 15'-0\" at most: 15'-0\", not kept" in told.message


@pytest.mark.parametrize(
    ("aside", "stands"),
    [
        (8.0, None),
        (7.9, [False, False, True, True]),
        (6.67, [False, False, True, True]),
        (6.6, [False, False, False, True]),
        (4.9, None),
    ],
)
def test_length_over_width_between_one_and_a_quarter_and_two(aside, stands):
    """10 ft over 8 ft is 1.25, over 6.67 ft 1.5, over 5 ft 2."""
    told = found(grid_slab(2, 2, aside=aside)).get(Rule.ASPECT)
    assert (told and kept(told)) == stands


@pytest.mark.parametrize(
    ("inches", "thickness", "stands"),
    [
        (1.47, 6.0, None),
        (1.5, 6.0, [True, False]),
        (1.97, 6.0, [True, False]),
        (2.0, 6.0, None),
        (1.0, 2.5, None),
        (0.9, 2.5, [False, True]),
    ],
)
def test_depths_between_a_quarter_and_a_third(inches, thickness, stands):
    """ACI 302.1R: a quarter, 1 in at least; a third with fibres. In 2 1/2 in the third is the smaller of the two."""
    joints = tuple(
        joint(j.id, *((x / FOOT, y / FOOT) for x, y in j.path), depth=inches * 25.4)
        for j in grid_joints(2, 2)
    )
    slab = grid_slab(2, 2, joints=joints, thickness=thickness * 25.4)
    told = found(slab).get(Rule.DEPTH)
    assert (told and kept(told)) == stands


def test_joints_without_a_depth_are_no_disagreement():
    bare = tuple(
        joint(j.id, *((x / FOOT, y / FOOT) for x, y in j.path), depth=None)
        for j in grid_joints(2, 2)
    )
    assert Rule.DEPTH not in found(grid_slab(2, 2, joints=bare))


def test_a_disagreement_is_told_in_one_sentence_in_the_jobs_units():
    told = found(grid_slab(2, 2, bay=10.0), Display.METRIC)[Rule.SPAN]
    assert told.worst == pytest.approx(3048)
    assert told.message.startswith("The longest panel is 3048 mm; publications disagree (PCA, ")
    assert told.message.endswith("). The engineer chooses.")
    assert "says 24 t: 2438 mm, not kept; ACI 330R" in told.message
