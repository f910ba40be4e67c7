"""Whether the rings of a slab enclose something and lie as they must."""

import math

import pytest

from drawn_curves import box_ring
from kerfline.files.sense_rings import edges, on_earth, openings, rings, size
from kerfline.files.sense_teller import Teller, place_in
from kerfline.geometry.ring import Ring
from kerfline.geometry.tolerance import FARTHEST
from kerfline.model.slab import Edge, EdgeKind, Slab, Zone
from kerfline.units import Display

TELLER = Teller(place_in(""), Display.METRIC)
SQUARE = box_ring(0, 0, 9000, 9000)


def slab(outline=SQUARE, **more):
    return Slab(outline=outline, thickness=100.0, **more)


def told(check, *args, **more):
    return [(m.where, m.what) for m in check(TELLER, slab(*args, **more))]


def test_coordinates_of_a_site_are_numbers_on_the_earth():
    assert on_earth([(FARTHEST, -FARTHEST)])
    assert on_earth([])
    assert not on_earth([(FARTHEST * 1.001, 0)])
    assert not on_earth([(math.nan, 0)])
    assert not on_earth([(0, math.inf)])


@pytest.mark.parametrize(
    ("points", "what"),
    [
        ((), "there is no outline"),
        (((0, 0), (9000, 0)), "a closed line needs three points or more"),
        (
            ((0, 0), (9000, 0), (4500, 0)),
            "the line encloses no area: all its points lie on one line",
        ),
        (
            ((0, 0), (9000, 9000), (9000, 0), (0, 9000)),
            "the line crosses or touches itself at (4500 mm, 4500 mm)",
        ),
        (
            ((0, 0), (math.inf, 0), (0, 9)),
            "a coordinate is not finite, or farther away than any site",
        ),
    ],
)
def test_a_ring_that_is_none_is_told(points, what):
    assert told(rings, Ring(points)) == [("outline", what)]


def test_two_points_with_arcs_are_a_circle():
    assert told(rings, Ring(((0, 0), (9000, 0)), (1.0, 1.0))) == []


def test_every_ring_is_looked_at_under_its_own_name():
    flat = Ring(((0, 0), (9, 0), (5, 0)))
    zone = Zone(id="Z1", outline=flat, thickness=200.0)
    assert [w for w, _ in told(rings, openings=(SQUARE, flat), zones=(zone,))] == [
        "opening 2",
        "Z1",
    ]


@pytest.mark.parametrize(
    ("side", "what"),
    [
        (316.0, "this is too small for a slab"),
        (317.0, None),
        (10e6, None),
        (10e6 + 1, "this is too large for a slab"),
    ],
)
def test_a_slab_is_between_a_square_foot_and_ten_kilometres(side, what):
    found = told(size, box_ring(0, 0, side, side))
    assert found == ([("outline", what)] if what else [])


@pytest.mark.parametrize(("off", "fine"), [(1.0, True), (0.0, False), (-100.0, False)])
def test_an_opening_keeps_off_the_edge(off, fine):
    found = told(openings, openings=(box_ring(off, 1000, 500, 500),))
    assert [w for w, _ in found] == ([] if fine else ["opening 1"])


@pytest.mark.parametrize(("apart", "fine"), [(1.0, True), (0.0, False), (-100.0, False)])
def test_openings_keep_off_each_other(apart, fine):
    two = (box_ring(1000, 1000, 500, 500), box_ring(1500 + apart, 1000, 500, 500))
    what = "the opening overlaps or touches opening 1"
    assert told(openings, openings=two) == ([] if fine else [("opening 2", what)])


def edge(segment, ring=0):
    return Edge(ring=ring, segment=segment, kind=EdgeKind.ISOLATED)


def test_an_edge_is_a_segment_that_there_is_and_told_once():
    assert told(edges, edges=(edge(0), edge(3))) == []
    (missing,) = edges(TELLER, slab(edges=(edge(4),)))
    assert (missing.where, missing.found, missing.allowed) == (
        "edge 0/4",
        "ring 0, segment 4",
        "segment 0 to 3",
    )
    assert told(edges, edges=(edge(1), edge(1))) == [
        ("edge 0/1", "segment 1 of ring 0 is described 2 times")
    ]


def test_the_rings_that_there_are_are_named():
    (alone,) = edges(TELLER, slab(edges=(edge(0, ring=1),)))
    assert alone.allowed == "ring 0 for the outline; there are no openings"
    pit = (box_ring(1000, 1000, 500, 500),)
    (beyond,) = edges(TELLER, slab(openings=pit, edges=(edge(0, ring=1), edge(0, ring=2))))
    assert beyond.allowed == "ring 0 for the outline, 1 to 1 for openings"
