"""The edges of one kind as lines."""

import math

import pytest

from kerfline.geometry.ring import Ring
from kerfline.model.edge_lines import edge_lines
from kerfline.model.slab import Edge, EdgeKind, Slab

OUTLINE = Ring(((0, 0), (6000, 0), (6000, 4000), (0, 4000)), (0.0, 1.0, 0.0, 0.0))
OPENING = Ring(((1000, 1000), (2000, 1000), (1000, 2000)))


def slab(*edges):
    return Slab(outline=OUTLINE, openings=(OPENING,), thickness=100.0, edges=edges)


def edge(ring, segment, kind=EdgeKind.ISOLATED):
    return Edge(ring=ring, segment=segment, kind=kind)


def test_only_edges_of_the_kind_are_lines_in_the_order_they_are_given():
    made = slab(edge(0, 2), edge(0, 0, EdgeKind.TURNDOWN), edge(1, 0))
    found = [list(line.coords) for line in edge_lines(made, EdgeKind.ISOLATED)]
    assert found == [[(6000, 4000), (0, 4000)], [(1000, 1000), (2000, 1000)]]
    assert edge_lines(made, EdgeKind.CONTINUOUS) == []


def test_the_last_segment_comes_back_to_the_first_point():
    found = edge_lines(slab(edge(0, 3), edge(1, 2)), EdgeKind.ISOLATED)
    assert [line.coords[-1] for line in found] == [(0, 0), (1000, 1000)]


def test_a_curved_edge_has_the_length_of_its_arc():
    """A half circle over 4 m: 2 pi m."""
    (found,) = edge_lines(slab(edge(0, 1)), EdgeKind.ISOLATED)
    assert found.length == pytest.approx(2000 * math.pi, rel=1e-4)
    assert (found.coords[0], found.coords[-1]) == ((6000, 0), (6000, 4000))


def test_a_slab_whose_edges_are_all_free_has_no_such_line():
    assert edge_lines(slab(), EdgeKind.ISOLATED) == []
