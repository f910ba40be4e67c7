"""Bands of turned-down edges: runs, mitres and what lies across a gap."""

import pytest

from kerfline.geometry.ring import Ring
from kerfline.model.slab import Edge, EdgeKind, Slab
from kerfline.quantities.concrete import concrete_body
from kerfline.quantities.edge_footprint import edge_bands

SQUARE = ((0.0, 0.0), (6000.0, 0.0), (6000.0, 6000.0), (0.0, 6000.0))
SLOT = (
    (0.0, 0.0), (6000.0, 0.0), (6000.0, 6000.0), (3100.0, 6000.0),
    (3100.0, 2000.0), (2900.0, 2000.0), (2900.0, 6000.0), (0.0, 6000.0),
)  # fmt: skip


def edge(segment, width=300.0, depth=400.0, ring=0):
    return Edge(ring=ring, segment=segment, kind=EdgeKind.TURNDOWN, depth=depth, width=width)


def slab(points, *edges):
    return Slab(outline=Ring(points), thickness=100.0, edges=edges)


def test_neighbours_of_one_section_are_one_band_and_count_their_corner_once():
    """Two sides of a square: 2 x 6 m less one square of the width."""
    bands = edge_bands(slab(SQUARE, edge(0), edge(1)))
    assert len(bands) == 1
    assert bands[0].footprint(300).area == pytest.approx(2 * 6000 * 300 - 300**2)


def test_a_run_goes_on_past_the_first_point_of_the_ring():
    """Sides 3 and 0 meet at the ring's start."""
    bands = edge_bands(slab(SQUARE, edge(3), edge(0)))
    assert len(bands) == 1
    assert bands[0].footprint(300).area == pytest.approx(2 * 6000 * 300 - 300**2)


def test_sides_of_different_sections_are_apart_but_count_nothing_twice():
    """The corner that both fill goes to the first, the deeper part of it to the deeper edge."""
    body = concrete_body(slab(SQUARE, edge(0), edge(1, width=500.0, depth=600.0)))
    below = 6000 * 300 * 300 + 6000 * 500 * 500 - 300 * 500 * 300
    assert body.by_component()["turned-down edge"] == pytest.approx(below)


def test_an_edge_does_not_reach_across_a_narrow_gap():
    """A slot of 200 mm with a 300 mm edge on one side leaves the other side alone."""
    bands = edge_bands(slab(SLOT, edge(3)))
    footprint = bands[0].footprint(300)
    assert footprint.bounds == pytest.approx((3100, 2000, 3400, 6000))


def test_an_edge_no_deeper_than_the_slab_adds_nothing():
    """Nor does one without a width."""
    assert edge_bands(slab(SQUARE, edge(0, depth=100.0), edge(2, width=0.0))) == []
