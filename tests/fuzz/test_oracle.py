"""The oracle itself: it keeps still over a sound layout, and speaks where something is wrong and unsaid."""

from dataclasses import replace

import pytest
from shapely import Polygon

from checked import feet, grid_slab, joint, with_joints
from fuzz.oracle import faults, own_boxes, own_concrete, own_panels
from kerfline.checks.given import given_layout
from kerfline.geometry.ring import Ring
from kerfline.model.slab import GivenJoint, KeepOut, Slab

GRID = grid_slab(3, 2)
AREA = Ring(feet((2, 2), (8, 2), (8, 8), (2, 8)))


def unsaid(slab, layout=None):
    return list(faults(slab, layout or given_layout(slab), ()))


def test_it_keeps_still_over_a_sound_layout():
    assert unsaid(GRID) == []


def test_a_panel_that_is_lost():
    layout = given_layout(GRID)
    lost = unsaid(GRID, replace(layout, panels=layout.panels[1:]))
    assert any("lie in no panel" in fault for fault in lost)
    assert any("panels are named" in fault for fault in lost)


@pytest.mark.parametrize(
    ("slab", "words"),
    [
        (grid_slab(2, 2, bay=12.2), "over the span"),
        (Slab(outline=Ring(feet((0, 0), (9, 0), (0, 9))), thickness=101.6), "over the span"),
        (grid_slab(2, 2, bay=10, aside=6), "times as long as wide"),
        (with_joints(grid_slab(2, 2), joint("A", (5, 0), (5, 4))), "ends in the concrete"),
        (with_joints(grid_slab(2, 2), joint("A", (5, -2), (5, 20))), "leaves the slab"),
        (
            with_joints(
                grid_slab(2, 2, keep_outs=(KeepOut(id="K1", outline=AREA),)),
                joint("A", (5, 0), (5, 20)),
            ),
            "enters K1",
        ),
    ],
)
def test_what_nobody_said(slab, words):
    assert any(words in fault for fault in unsaid(slab))


def test_a_given_joint_that_is_left_out():
    layout = given_layout(GRID)
    left = replace(layout, joints=layout.joints[1:])
    assert any("is missing" in fault for fault in unsaid(GRID, left))


def test_a_sliver_that_nobody_tells():
    layout = given_layout(GRID)
    tiny = replace(layout.panels[0], polygon=Polygon([(0, 0), (4, 0), (0, 4)]))
    assert any(
        "sliver" in fault for fault in unsaid(GRID, replace(layout, panels=(*layout.panels, tiny)))
    )


def test_a_panel_with_two_smallest_rectangles_may_be_either():
    """The lengths of one are 1.80 to 1, of the other 1.13 to 1, and their areas agree to a millionth."""
    panel = Polygon([(-455.832, 2587.743), (-244.091, 2625.041), (374.299, 3810.356), (-777, 4411)])
    assert min(round(a / b, 2) for a, b in own_boxes(panel)) == 1.13
    assert max(round(a / b, 2) for a, b in own_boxes(panel)) == 1.80


FLOOR = Slab(outline=Ring(((0, 0), (6000, 0), (6000, 3000), (0, 3000))), thickness=101.6)


def own_count(*paths):
    """How many panels the oracle cuts a floor of 6 x 3 m into, along joints."""
    drawn = [GivenJoint(id=f"G{i}", path=path) for i, path in enumerate(paths)]
    return len(own_panels(own_concrete(FLOOR), drawn))


def test_ends_on_both_sides_of_a_narrow_strip_do_not_cross_it():
    strip = ((3000, 0), (3000, 3000)), ((3001, 0), (3001, 3000))
    assert own_count(*strip, ((0, 1500), (3000, 1500)), ((3001, 1500), (6000, 1500))) == 5
    short = ((0, 1500), (2999.8, 1500)), ((3001.2, 1500), (6000, 1500))
    assert own_count(*strip, *short) == 5


@pytest.mark.parametrize(("short", "panels"), [(0.0, 3), (0.5, 3), (5.0, 2)])
def test_an_end_that_stops_short_of_what_it_ends_on(short, panels):
    assert own_count(((3000, 0), (3000, 3000)), ((0, 1500), (3000 - short, 1500))) == panels


def test_an_end_that_stops_short_of_the_edge():
    assert own_count(((3000, 0.5), (3000, 2999.5))) == 2
    assert own_count(((3000, 5.0), (3000, 2999.5))) == 1
