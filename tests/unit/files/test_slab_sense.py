"""Whether a slab makes sense."""

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kerfline.files.slab_sense import check_slab
from kerfline.geometry.ring import Ring, circle
from kerfline.model.slab import (
    Column,
    Edge,
    EdgeKind,
    GivenJoint,
    KeepOut,
    Pattern,
    PatternKind,
    Penetration,
    Slab,
    Wall,
    Zone,
)
from kerfline.units import Display
from strategies import arc_rings, slabs, turned_slabs

SQUARE = Ring(((0, 0), (9000, 0), (9000, 9000), (0, 9000)))
FLOOR = Slab(outline=SQUARE, thickness=100.0)


def told(slab, **kwargs):
    return [str(mistake) for mistake in check_slab(slab, **kwargs)]


@given(slabs())
def test_slabs_by_construction_make_sense(slab):
    assert check_slab(slab) == []


@given(turned_slabs())
def test_a_slab_makes_sense_at_any_angle(slab):
    assert check_slab(slab) == []


@given(arc_rings())
def test_slabs_with_a_swelling_side_make_sense(ring):
    assert check_slab(Slab(outline=ring, thickness=100.0)) == []


def test_a_circle_makes_sense():
    assert check_slab(Slab(outline=circle((0, 0), 3000), thickness=100.0)) == []


@pytest.mark.parametrize("thickness", [0.0, -100.0, 10.0, 1200.0, math.nan, math.inf])
def test_a_thickness_that_no_slab_has(thickness):
    assert (
        "a slab on ground does not have this thickness"
        in told(replace(FLOOR, thickness=thickness))[0]
    )
    zone = Zone(id="Z1", outline=SQUARE, thickness=thickness)
    assert told(replace(FLOOR, zones=(zone,)))[0].startswith(
        "Z1: a slab on ground does not have this thickness"
    )


@pytest.mark.parametrize(
    ("points", "sentence"),
    [
        ((), "outline: there is no outline"),
        (((0, 0), (9000, 0)), "a closed line needs three points or more; found 2"),
        (
            ((0, 0), (9000, 9000), (9000, 0), (0, 9000)),
            "crosses or touches itself at (4500 mm, 4500",
        ),
        (
            ((0, 0), (9000, 0), (4000, 0)),
            "the line encloses no area: all its points lie on one line",
        ),
        (((0, 0), (9000, math.nan), (9000, 9000)), "a coordinate is not finite"),
        (((0, 0), (25, 0), (25, 25), (0, 25)), "too small for a slab; found 25 mm by 25 mm"),
        (((0, 0), (1e8, 0), (1e8, 9000), (0, 9000)), "too large for a slab; found 100000000 mm"),
    ],
)
def test_an_outline_that_is_none(points, sentence):
    assert sentence in told(replace(FLOOR, outline=Ring(points)))[0]


def test_an_arc_that_crosses_the_edge_is_a_crossing():
    ring = Ring(((0, 0), (9000, 0), (9000, 1000), (0, 1000)), (0, 0, 1.0, 0))
    assert check_slab(Slab(outline=ring, thickness=100.0)) == []
    inward = Ring(ring.points, (0, 0, -1.0, 0))
    assert "crosses or touches itself" in told(Slab(outline=inward, thickness=100.0))[0]


@pytest.mark.parametrize(
    ("reach", "fine"), [(0.0, True), (57.0, True), (57.6, True), (58.0, False), (5000.0, False)]
)
def test_a_wall_may_run_half_its_thickness_past_the_edge(reach, fine):
    """A wall of 114.3 mm that ends at the outer face of a wall along the edge."""
    wall = Wall(id="W1", path=((0, 4000), (9000 + reach, 4000)))
    assert (told(replace(FLOOR, walls=(wall,))) == []) is fine


def test_a_wall_across_a_notch_leaves_the_slab_between_its_ends():
    ell = Ring(
        (
            (0, 0),
            (9000, 0),
            (9000, 3000),
            (6000, 3000),
            (6000, 1000),
            (3000, 1000),
            (3000, 3000),
            (0, 3000),
        )
    )
    wall = Wall(id="W1", path=((1000, 2000), (8000, 2000)))
    assert "leaves the slab between its ends" in told(replace(FLOOR, outline=ell, walls=(wall,)))[0]


def test_a_wall_may_cross_an_opening():
    pit = Ring(((3000, 3000), (5000, 3000), (5000, 5000), (3000, 5000)))
    wall = Wall(id="W1", path=((0, 4000), (9000, 4000)))
    assert told(replace(FLOOR, openings=(pit,), walls=(wall,))) == []


@pytest.mark.parametrize(
    ("things", "sentence"),
    [
        ({"walls": (Wall(id="W1", path=((0, 0), (0, 0))[:1]),)}, "W1: wall W1 has no length"),
        ({"walls": (Wall(id="W1", path=((0, 9), (9, 9)), thickness=0),)}, "a wall does not have this thickness"),
        ({"walls": (Wall(id="W1", path=((0, math.inf), (9, 9))),)}, "W1: a coordinate is not finite"),
        ({"columns": (Column(id="C1", at=(-5000, 0)),)}, "C1: column C1 stands off the concrete"),
        ({"columns": (Column(id="C1", at=(math.nan, 0)),)}, "C1: a coordinate is not finite"),
        ({"columns": (Column(id="C1", at=(4500, 4500), size=40000),)}, "leave no concrete"),
        ({"penetrations": (Penetration(id="N1", at=(0, -1)),)}, "N1 lies outside the slab"),
        ({"joints": (GivenJoint(id="G1", path=((0, 0),)),)}, "joint G1 has no length"),
        ({"joints": (GivenJoint(id="G1", path=((0, -9), (9, -9))),)}, "does not lie on the slab"),
        ({"zones": (Zone(id="Z1", outline=Ring(((0, 0), (9, 9))), thickness=100),)}, "three points"),
        ({"keep_outs": (KeepOut(id="K1", outline=circle((-9000, 0), 100)),)}, "keep-out K1 does not"),
        ({"patterns": (Pattern(id="A1", area=SQUARE, kind=PatternKind.ALIGNED),)}, "needs a line"),
        ({"edges": (Edge(ring=0, segment=4, kind=EdgeKind.FREE),)}, "edge 0/4: there is no such"),
        ({"edges": (Edge(ring=2, segment=0, kind=EdgeKind.FREE),)}, "there are no openings"),
        ({"edges": (Edge(ring=0, segment=0, kind=EdgeKind.FREE),) * 2}, "is described 2 times"),
        ({"openings": (SQUARE,)}, "opening 1: the opening crosses or touches the slab's edge"),
        ({"openings": (circle((4000, 4000), 900), circle((5000, 4000), 900))}, "touches opening 1"),
        ({"columns": (Column(id="A", at=(999, 999)), Column(id="A", at=(5999, 999)))}, "2 things are called A"),
    ],
)  # fmt: skip
def test_a_thing_that_makes_no_sense(things, sentence):
    mistakes = told(replace(FLOOR, **things))
    assert any(sentence in line for line in mistakes), mistakes


def test_the_place_is_the_file_or_what_the_caller_makes_of_the_subject():
    slab = replace(FLOOR, penetrations=(Penetration(id="N1", at=(0, -1)),))
    assert told(slab, where="plan.dxf")[0].startswith("plan.dxf, N1: penetration N1")
    assert told(slab, where=lambda name: f"<{name}>")[0].startswith("<N1>: penetration N1")


def test_lengths_are_written_as_the_user_works():
    slab = replace(FLOOR, penetrations=(Penetration(id="N1", at=(304.8, -304.8)),))
    assert "(1'-0\", -1'-0\")" in told(slab, display=Display.FEET_INCHES)[0]


def test_mistakes_of_several_kinds_are_told_together():
    slab = replace(
        FLOOR,
        thickness=0.0,
        columns=(Column(id="C1", at=(-5000, 0)),),
        openings=(SQUARE,),
    )
    assert len(check_slab(slab)) == 3


coarse = st.integers(-2, 12).map(lambda n: n * 1000.0)
spots = st.tuples(coarse, coarse)
rings = st.lists(spots, min_size=1, max_size=6).map(lambda points: Ring(tuple(points)))


@given(
    outline=rings,
    openings=st.lists(rings, max_size=2),
    wall=st.lists(spots, min_size=1, max_size=3),
)
def test_any_slab_is_told_its_mistakes_or_has_sound_concrete(outline, openings, wall):
    slab = Slab(
        outline=outline,
        thickness=100.0,
        openings=tuple(openings),
        walls=(Wall(id="W1", path=tuple(wall)),),
        columns=(Column(id="C1", at=wall[0]),),
    )
    if not check_slab(slab):
        assert slab.concrete.is_valid
        assert slab.concrete.area > 0
