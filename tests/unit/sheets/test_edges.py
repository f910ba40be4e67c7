"""The edges of the concrete from corner to corner."""

import math

import pytest
import shapely

from kerfline.geometry.ring import circle
from kerfline.sheets.edges import STRAIGHT, FormEdge, form_edges

SQUARE = shapely.box(0, 0, 6000, 4000)


def test_a_rectangle_has_four_edges_the_concrete_on_their_left():
    edges = form_edges(SQUARE)
    assert len(edges) == 4
    assert all(edge.cornered and edge.straight for edge in edges)
    for edge in edges:
        middle = edge.line.interpolate(0.5, normalized=True)
        dx, dy = edge.way_at((middle.x, middle.y))
        assert SQUARE.contains(shapely.Point(middle.x - dy, middle.y + dx))


def test_openings_have_theirs_and_round_ones_are_one_edge_without_a_corner():
    ring = circle((3000, 2000), 500)
    edges = form_edges(SQUARE.difference(ring.polygon))
    (round_,) = [edge for edge in edges if not edge.cornered]
    assert len(edges) == 5
    assert round_.points[0] == round_.points[-1]
    assert not round_.straight


@pytest.mark.parametrize(("bow", "straight"), [(STRAIGHT - 0.1, True), (STRAIGHT + 0.1, False)])
def test_a_tape_lies_straight_along_an_edge_that_bows_a_little(bow, straight):
    bowed = shapely.Polygon([(0, 0), (3000, -bow), (6000, 0), (6000, 4000), (0, 4000)])
    lower = next(e for e in form_edges(bowed) if (3000, -bow) in e.points)
    assert len(lower.points) == 3, "too flat to be a corner"
    assert lower.straight is straight


def test_a_tape_grows_along_an_arc_up_to_half_way_round():
    """Beyond the far side of a half circle and more a tape from its start would grow shorter."""
    turns = [math.radians(a) for a in range(0, 271, 5)]
    points = tuple((1000 * math.cos(t), 1000 * math.sin(t)) for t in turns)
    edge = FormEdge(points, cornered=True)
    assert edge.grows_from(points[0], points[30])
    assert not edge.grows_from(points[0], points[50])
    assert edge.grows_from(points[-1], points[30])
