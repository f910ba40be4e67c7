"""Openings come, move, take the size that is written, and go."""

import math

import pytest

from kerfline.app.opening_edit import (
    add_opening,
    move_opening,
    place_of,
    place_opening,
    remove_opening,
    resize_opening,
    sizes_of,
)
from kerfline.errors import InputRefused
from kerfline.geometry.ring import Ring, circle
from kerfline.model.slab import Edge, EdgeKind, Slab

PIT = ((1000.0, 1000.0), (2000.0, 1000.0), (2000.0, 1500.0), (1000.0, 1500.0))
TURNED = ((5000.0, 1000.0), (5800.0, 1600.0), (5500.0, 2000.0), (4700.0, 1400.0))
OUTLINE = ((500.0, 200.0), (9000.0, 200.0), (9000.0, 6000.0), (500.0, 6000.0))


def slab(*rings, edges=()):
    return Slab(outline=Ring(OUTLINE), thickness=100.0, openings=rings, edges=edges)


def sizes(ring):
    return {s.field: pytest.approx(s.mm, rel=1e-3) for s in sizes_of(ring)}


def test_an_opening_is_the_rectangle_between_two_corners():
    added = add_opening(slab(), (2000, 1500), (1000, 1000))

    assert added.openings == (Ring(PIT),)
    with pytest.raises(InputRefused, match="no area"):
        add_opening(slab(), (2000, 1500), (2000, 1000))


def test_an_opening_moves_and_is_placed_from_the_slabs_sides():
    moved = move_opening(slab(Ring(PIT)), 1, (100, -50))
    placed = place_opening(place_opening(moved, 1, 0, 700), 1, 1, 900)

    assert moved.openings[0].points[0] == (1100, 950)
    assert place_of(moved, 1) == (600, 750)
    assert placed.openings[0].points[0] == (1200, 1100)


def test_a_rectangle_takes_the_size_that_is_written_and_keeps_its_lower_left():
    wide = resize_opening(slab(Ring(PIT)), 1, "across", 1500)
    high = resize_opening(wide, 1, "up", 250)

    assert high.openings[0].points == ((1000, 1000), (2500, 1000), (2500, 1250), (1000, 1250))


def test_a_turned_rectangle_has_its_own_length_and_width():
    ring = Ring(TURNED)
    assert sizes(ring) == {"length": 1000, "width": 500}

    longer = resize_opening(slab(ring), 1, "length", 2000).openings[0]

    assert sizes(longer) == {"length": 2000, "width": 500}
    assert longer.polygon.area == pytest.approx(2 * ring.polygon.area)


def test_a_circle_keeps_its_centre_and_a_shape_with_arcs_its_shape():
    round_one = circle((3000, 3000), 250)
    slot = Ring(((1000, 1000), (2000, 1000), (2000, 1500), (1000, 1500)), (0.0, 1.0, 0.0, 1.0))
    assert sizes(round_one) == {"diameter": 500}
    assert sizes(slot) == {"across": 1500, "up": 500}

    larger = resize_opening(slab(round_one), 1, "diameter", 800).openings[0]
    double = resize_opening(slab(slot), 1, "up", 1000).openings[0]

    assert larger.polygon.centroid.coords[0] == pytest.approx((3000, 3000))
    assert larger.polygon.area == pytest.approx(math.pi * 400**2, rel=1e-2)
    assert sizes(double) == {"across": 3000, "up": 1000}
    assert double.bulges == slot.bulges


def test_with_an_opening_go_the_words_on_its_edges_and_the_next_takes_its_number():
    edges = tuple(Edge(ring=n, segment=n, kind=EdgeKind.ISOLATED) for n in range(3))

    left = remove_opening(slab(Ring(PIT), Ring(TURNED), edges=edges), 1)

    assert left.openings == (Ring(TURNED),)
    assert [(e.ring, e.segment) for e in left.edges] == [(0, 0), (1, 2)]


@pytest.mark.parametrize("number", [0, 2])
def test_an_opening_that_is_not_there_is_refused(number):
    for do in (
        lambda s: remove_opening(s, number),
        lambda s: move_opening(s, number, (1, 1)),
        lambda s: resize_opening(s, number, "across", 100),
        lambda s: place_opening(s, number, 0, 100),
    ):
        with pytest.raises(InputRefused, match="no such opening"):
            do(slab(Ring(PIT)))
    with pytest.raises(InputRefused, match="no such size"):
        resize_opening(slab(Ring(PIT)), 1, "diameter", 100)
