"""Joints by kind, once placements meet along some of them."""

import pytest
from shapely import LineString

from kerfline.geometry.ring import Ring
from kerfline.model.edge_lines import edge_lines
from kerfline.model.joint_lines import joint_lines
from kerfline.model.layout import Reason
from kerfline.model.slab import Edge, EdgeKind, JointKind, Slab
from kerfline.units import MM_PER_FOOT
from shapes import feet, layout_of, workshop_layout

ROOM = Slab(outline=Ring(feet((0, 0), (30, 0), (30, 20), (0, 20))), thickness=101.6)


def layout():
    lines = [feet((0, 10), (30, 10)), feet((15, 0), (15, 20))]
    return layout_of(ROOM, [(JointKind.CONTROL, Reason.SPAN, li) for li in lines])


def test_nothing_is_formed_where_nothing_meets():
    """Both joints are sawn whole."""
    lines = joint_lines(layout())
    assert [part.joint for part in lines.sawn] == ["J1", "J2"]
    assert lines.sawn_length == pytest.approx(50 * MM_PER_FOOT)
    assert lines.construction == ()


def test_a_stretch_that_becomes_a_construction_joint_is_not_sawn():
    """One bay placed alone: half of each joint is formed, the other halves are sawn under their names."""
    formed = [LineString(feet((0, 10), (15, 10))), LineString(feet((15, 0), (15, 10)))]
    lines = joint_lines(layout(), formed)
    assert [part.joint for part in lines.sawn] == ["J1", "J2"]
    assert [part.line.length / MM_PER_FOOT for part in lines.sawn] == pytest.approx(
        [15, 10], abs=0.01
    )
    assert lines.construction_length == pytest.approx(25 * MM_PER_FOOT)


def test_a_joint_that_crosses_a_construction_joint_is_sawn_in_two_passes():
    """Its two parts lie in concrete of different age."""
    lines = joint_lines(layout(), [LineString(feet((0, 10), (30, 10)))])
    assert [part.joint for part in lines.sawn] == ["J2", "J2"]
    assert lines.sawn_length == pytest.approx(20 * MM_PER_FOOT, abs=2.0)


def test_planned_construction_joints_count_once():
    """The workshop's own joint, whether or not it is named again."""
    planned = [j.line for j in workshop_layout().joints if j.kind is JointKind.CONSTRUCTION]
    once = joint_lines(workshop_layout())
    again = joint_lines(workshop_layout(), planned)
    assert once.construction_length == pytest.approx(24 * MM_PER_FOOT)
    assert again.construction_length == pytest.approx(24 * MM_PER_FOOT)
    assert again.sawn_length == pytest.approx(once.sawn_length, abs=2.0)


def test_edges_of_a_kind_as_lines():
    """A straight edge as it is, an arc flattened, other kinds left out."""
    ring = Ring(feet((0, 0), (30, 0), (30, 20), (0, 20)), (0.0, 1.0, 0.0, 0.0))
    edges = (
        Edge(ring=0, segment=0, kind=EdgeKind.ISOLATED),
        Edge(ring=0, segment=1, kind=EdgeKind.ISOLATED),
        Edge(ring=0, segment=2, kind=EdgeKind.FREE),
    )
    slab = Slab(outline=ring, thickness=101.6, edges=edges)
    straight, bent = edge_lines(slab, EdgeKind.ISOLATED)
    assert straight.length == pytest.approx(30 * MM_PER_FOOT)
    assert bent.length == pytest.approx(3.14159 * 10 * MM_PER_FOOT, rel=1e-3)
