"""Joints by kind, once placements meet along some of them."""

import pytest

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


def test_what_is_formed_is_not_sawn():
    """The workshop's own construction joint of 24 ft, and every control joint besides."""
    lines = joint_lines(workshop_layout())
    assert lines.construction_length == pytest.approx(24 * MM_PER_FOOT)
    assert lines.sawn_length + lines.construction_length == pytest.approx(
        workshop_layout().joint_length
    )


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
