"""Joints, panels and how good the answer is."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import Polygon, box

from kerfline.model.layout import Joint, Layout, Panel, Reason, Solution, Status
from kerfline.model.slab import JointKind
from shapes import workshop_layout, workshop_slab


def joint(*path, hidden=0.0):
    return Joint(
        id="J1",
        kind=JointKind.CONTROL,
        path=path,
        depth=25.0,
        reason=Reason.SPAN,
        note="",
        hidden=hidden,
    )


def test_a_bent_joint_is_as_long_as_its_stretches():
    assert joint((0, 0), (300, 400), (300, 1000)).length == 1100.0


def test_a_panel_has_the_measures_of_its_smallest_box():
    panel = Panel(id="P1", polygon=box(0, 0, 3000, 4500))
    assert (panel.length, panel.width, panel.aspect) == pytest.approx((4500, 3000, 1.5))
    assert panel.area == 3000 * 4500
    assert panel.span == pytest.approx(4500)


def test_the_longest_side_of_a_triangle_is_its_span_and_half_its_box_its_area():
    panel = Panel(id="P1", polygon=Polygon([(0, 0), (3000, 0), (0, 3000)]))
    assert panel.span == pytest.approx(3000 * math.sqrt(2))
    assert panel.area == 4.5e6


def test_an_opening_in_a_panel_is_no_area_of_it():
    pierced = box(0, 0, 3000, 3000) - box(1000, 1000, 2000, 2000)
    assert Panel(id="P1", polygon=pierced).area == 8e6


@pytest.mark.parametrize(
    ("cost", "bound", "gap"),
    [(100.0, 100.0, 0.0), (100.0, 90.0, 0.1), (100.0, 0.0, 1.0), (100.0, 101.0, 0.0), (0.0, 0.0, 0.0)],
)  # fmt: skip
def test_the_gap_is_the_share_of_the_cost_above_its_bound(cost, bound, gap):
    assert Solution(status=Status.PARTS, cost=cost, bound=bound).gap == pytest.approx(gap)


def test_feet_of_cut_and_feet_under_walls_are_those_of_all_joints():
    joints = (joint((0, 0), (0, 700), hidden=200.0), joint((0, 0), (0, 300), hidden=50.0))
    layout = Layout(joints=joints, panels=(), solution=Solution(status=Status.GIVEN))
    assert (layout.joint_length, layout.hidden_length) == (1000.0, 250.0)


@given(st.floats(0, 1e6), st.floats(0, 1e6))
def test_a_gap_is_a_share(cost, bound):
    assert 0 <= Solution(status=Status.TIME_LIMIT, cost=cost, bound=bound).gap <= 1


def test_the_panels_of_a_workshop_tile_its_concrete():
    panels = workshop_layout().panels
    assert sum(p.area for p in panels) == pytest.approx(workshop_slab().concrete.area)
