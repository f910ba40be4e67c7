"""Corners of the outline and of openings come, move and go; edges keep what is known of them."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kerfline.app.ring_corners import add_corner, move_corner, remove_corner
from kerfline.errors import InputRefused
from kerfline.geometry.ring import Ring, circle, flatten_arc
from kerfline.model.slab import Edge, EdgeKind, Slab

SQUARE = ((0.0, 0.0), (6000.0, 0.0), (6000.0, 4000.0), (0.0, 4000.0))
PIT = ((1000.0, 1000.0), (2000.0, 1000.0), (2000.0, 2000.0), (1000.0, 2000.0))
KINDS = tuple(EdgeKind)


def slab(outline=SQUARE, bulges=(), edges=()):
    return Slab(outline=Ring(outline, bulges), thickness=100.0, openings=(Ring(PIT),), edges=edges)


def kinds(changed, ring=0):
    """What each edge of a ring is, in order."""
    points = (changed.outline, *changed.openings)[ring].points
    known = {e.segment: e.kind.value for e in changed.edges if e.ring == ring}
    assert all(segment < len(points) for segment in known)
    return [known.get(n, "free") for n in range(len(points))]


ALL = tuple(Edge(ring=0, segment=n, kind=KINDS[n + 1]) for n in range(4))


def test_a_corner_moves_alone():
    moved = move_corner(slab(edges=ALL), 0, 2, (7000, 5000))
    inside = move_corner(slab(), 1, 0, (900, 900))

    assert moved.outline.points == (*SQUARE[:2], (7000, 5000), SQUARE[3])
    assert moved.edges == ALL
    assert inside.openings[0].points == ((900, 900), *PIT[1:])
    assert inside.outline.points == SQUARE


def test_a_corner_more_splits_an_edge_and_both_halves_are_what_it_was():
    tapped = add_corner(slab(edges=ALL), 0, (2000, -30))
    last = add_corner(slab(edges=ALL), 0, segment=3)
    longest = add_corner(slab(), 0)

    assert tapped.outline.points == (SQUARE[0], (2000, 0), *SQUARE[1:])
    assert kinds(tapped) == ["turndown", "turndown", "isolated", "construction", "continuous"]
    assert last.outline.points == (*SQUARE, (0, 2000))
    assert kinds(last) == ["turndown", "isolated", "construction", "continuous", "continuous"]
    assert longest.outline.points[1] == (3000, 0)


@pytest.mark.parametrize(
    ("index", "left"),
    [
        (0, ["isolated", "construction", "turndown"]),
        (1, ["turndown", "construction", "continuous"]),
        (3, ["turndown", "isolated", "construction"]),
    ],
)
def test_a_corner_less_makes_one_edge_that_is_what_the_longer_was(index, left):
    """Of the square's edges the lower and the upper one are the longer."""
    assert kinds(remove_corner(slab(edges=ALL), 0, index)) == left


def test_the_edges_of_other_rings_stay():
    edges = (*ALL, Edge(ring=1, segment=2, kind=EdgeKind.ISOLATED))

    assert kinds(add_corner(slab(edges=edges), 0), 1) == ["free", "free", "isolated", "free"]
    assert kinds(add_corner(slab(edges=edges), 1, (1500, 1000)), 1)[3] == "isolated"
    assert kinds(remove_corner(slab(edges=edges), 1, 0), 1) == ["free", "isolated", "free"]


@given(st.floats(0.05, 0.95), st.floats(-0.9, 2.0).filter(lambda b: abs(b) > 0.05))
def test_an_arc_that_is_split_and_joined_is_the_arc_it_was(share, bulge):
    before = slab(bulges=(0.0, bulge, 0.0, 0.0))
    arc = flatten_arc(SQUARE[1], SQUARE[2], bulge)
    spot = arc[round(share * (len(arc) - 1))]

    try:
        split = add_corner(before, 0, spot)
    except InputRefused:
        return
    joined = remove_corner(split, 0, split.outline.points.index(added(before, split)))

    assert split.outline.polygon.symmetric_difference(before.outline.polygon).area < 20000
    assert joined.outline.points == before.outline.points
    assert joined.outline.bulges == pytest.approx(before.outline.bulges, abs=1e-9)


def added(before, after):
    """The corner that is new."""
    return next(p for p in after.outline.points if p not in before.outline.points)


def test_arcs_of_two_circles_become_one_straight_edge():
    before = slab(bulges=(0.3, 0.3, 0.0, 0.0))

    left = remove_corner(before, 0, 1)

    assert left.outline == Ring((SQUARE[0], *SQUARE[2:]))


@pytest.mark.parametrize(
    ("do", "says"),
    [
        (lambda s: move_corner(s, 0, 4, (0, 0)), "no such corner"),
        (lambda s: move_corner(s, 2, 0, (0, 0)), "no such opening"),
        (lambda s: move_corner(s, 0, 0, SQUARE[1]), "a corner already"),
        (lambda s: add_corner(s, 0, (0.2, 0)), "a corner there already"),
        (lambda s: add_corner(s, 0, segment=4), "no such corner"),
        (lambda s: add_corner(s, 0, segment=-1), "no such corner"),
        (lambda s: remove_corner(remove_corner(s, 1, 0), 1, 0), "fewest"),
    ],
)
def test_what_cannot_be_done_to_a_corner_is_refused(do, says):
    with pytest.raises(InputRefused, match=says):
        do(slab())


def test_a_circle_stays_one_when_one_of_its_two_points_moves():
    """Its two half circles stand on the new chord, as a drawing's bulges say."""
    round_slab = Slab(outline=circle((0, 0), 3000), thickness=100.0)

    larger = move_corner(round_slab, 0, 1, (5000, 0))

    assert larger.outline.polygon.area == pytest.approx(math.pi * 4000**2, rel=1e-3)
