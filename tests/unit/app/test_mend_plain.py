"""A mend by hand's own way: ends carried straight on, panels too long cut across."""

from dataclasses import replace

import pytest

from checked import box_ring, feet, grid_slab, joint, rules, with_joints
from kerfline.app.mend_plain import plain_additions
from kerfline.checks.given import given_layout
from kerfline.geometry.ring import Ring
from kerfline.model.slab import KeepOut, Slab, Zone
from kerfline.units import MM_PER_FOOT, MM_PER_INCH, Display


def in_feet(joint_):
    """The ends of a joint in feet, the lower or left one first."""
    return tuple(sorted(tuple(round(v / MM_PER_FOOT, 2) + 0.0 for v in p) for p in joint_.path))


def plain(slab):
    """What the plain way adds, before anything is taken out again."""
    return plain_additions(slab, given_layout(slab), rules(), Display.FEET_INCHES)


def test_the_plain_way_carries_an_end_on_to_the_next_joint():
    slab = with_joints(grid_slab(2, 2), joint("S", (5, 0), (5, 4)))
    assert in_feet(plain(slab)[0]) == ((5, 4), (5, 10))


def test_the_plain_way_cuts_no_keep_out():
    """Whatever it would clear: neither an end is carried on nor a panel cut across where tubing lies."""
    tubing = KeepOut(id="K1", outline=box_ring(18, 22, 22, 26), what="tubing")
    slab = with_joints(
        grid_slab(keep_outs=(tubing,)), joint("S", (20, 0), (20, 14)), without=("V2",)
    )
    assert not [j for j in plain(slab) if j.line.intersection(tubing.outline.polygon).length > 1.0]


def test_the_plain_way_cuts_a_row_of_long_panels_with_one_line():
    """Three bays of 20 x 10 ft one above the other: one cut of 30 ft, not three that may miss each other."""
    (added,) = plain(with_joints(grid_slab(), without=("V2",)))
    assert in_feet(added) == ((20, 0), (20, 30))
    assert added.depth == pytest.approx(25.4)


def test_the_plain_way_cuts_a_bare_slab_both_ways():
    """24 x 24 ft at 4 in: 12 ft at most each way (36 t, ACI 302.1R, 1996), so one cut each way."""
    bare = grid_slab(1, 1, bay=24.0, joints=(joint("E", (24, 0), (24, 24)),))
    assert sorted(in_feet(j) for j in plain(bare)) == [((0, 12), (24, 12)), ((12, 0), (12, 24))]


def test_the_plain_way_follows_a_turned_panel():
    """A panel at 45 degrees is cut square to its own long side."""
    outline = Ring(feet((0, 0), (14, 14), (7, 21), (-7, 7)))
    slab = Slab(outline=outline, thickness=101.6)
    added = plain(slab)
    (cut,) = added
    (x0, y0), (x1, y1) = cut.path
    assert abs(x1 - x0) == pytest.approx(abs(y1 - y0), abs=1e-3)
    assert cut.length == pytest.approx(7 * 2**0.5 * MM_PER_FOOT, abs=1e-3)
    inches = (x0 + y0) / 2**0.5 / MM_PER_INCH  # from the lowest corner along the long side
    assert round(inches) == 119  # half of 14 ft times the root of 2 is 118.8 in
    assert inches == pytest.approx(119, abs=1e-4)


def test_the_plain_way_cuts_at_whole_inches_from_the_corner_of_the_slab():
    """A bare strip of 30 ft 1/2 in has three bays of 10'-0 1/6": cut at 120 and 240 in, not between."""
    slab = Slab(outline=box_ring(1 / 24, 0, 30 + 1 / 12, 10), thickness=101.6)
    added = plain(slab)
    assert [round((j.path[0][0] - MM_PER_FOOT / 24) / MM_PER_INCH, 6) for j in added] == [120, 240]


def test_the_plain_way_keeps_even_bays_where_whole_inches_would_be_too_long():
    """24 ft 7/8 in in two bays of 12'-0 7/16" at 4.0122 in, 36 t: a whole inch would exceed 12'-0 7/16"."""
    half = 12 + 7 / 16 / 12
    slab = Slab(outline=box_ring(0, 0, 2 * half, half), thickness=half * MM_PER_FOOT / 36)
    (added,) = plain(slab)
    assert added.path[0][0] / MM_PER_FOOT == pytest.approx(half, abs=1e-6)


def test_the_plain_way_works_to_the_thickness_of_a_zone():
    """Half the floor is 6 in thick: 18 ft there (36 t, ACI 302.1R, 1996) need no cut, at 4 in they would."""
    pad = Zone(id="Z1", outline=box_ring(0, 0, 18, 18), thickness=6 * MM_PER_INCH)
    border = (
        joint("G1", (18, 0), (18, 18)),
        joint("G2", (27, 0), (27, 18)),
        joint("G3", (18, 9), (36, 9)),
    )
    slab = Slab(outline=box_ring(0, 0, 36, 18), thickness=101.6, zones=(pad,), joints=border)
    assert plain(slab) == ()
    assert len(plain(replace(slab, zones=()))) == 2


def test_the_plain_way_leaves_a_strip_that_is_too_narrow():
    """Cut into short lengths a strip of 1 ft would be many panels that are too narrow, in place of one."""
    slab = with_joints(grid_slab(), joint("S", (1, 0), (1, 30)))
    assert plain(slab) == ()
