"""The oracle itself: it keeps still over a sound layout, and speaks where something is wrong and unsaid."""

from dataclasses import replace

import pytest
from shapely import Polygon

from checked import feet, grid_slab, joint, with_joints
from fuzz.oracle import faults, own_boxes
from kerfline.checks.given import given_layout
from kerfline.geometry.ring import Ring
from kerfline.model.slab import KeepOut, Slab

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
