"""The pieces that a slab is laid out in, each in the frame of its own main direction."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kerfline.engine.options import EngineOptions
from kerfline.engine.regions.directions import QUARTER, misfit
from kerfline.engine.regions.frames import regions_of
from kerfline.geometry.ring import Ring
from kerfline.model.slab import Boxout, Column, Pattern, Slab, Wall
from strategies import turned
from unit.engine.plans import RULES, box, feet, ring, slab
from unit.engine.slabs import SHAPES


def regions(given_slab):
    return regions_of(given_slab, RULES, EngineOptions())


def test_a_rectangle_is_one_piece_in_its_own_axes_for_the_exact_search():
    (whole,) = regions(slab(box(40, 30)))
    assert (whole.region.name, whole.angle, whole.orthogonal, whole.borders) == (
        "R1",
        0.0,
        True,
        (),
    )


@settings(max_examples=15)
@given(st.floats(1.0, 359.0))
def test_a_turned_rectangle_has_a_turned_frame_along_its_longer_side(degrees):
    (whole,) = regions(turned(slab(box(40, 30)), degrees))
    assert misfit(whole.angle, degrees) < 1e-6
    x0, y0, x1, y1 = whole.region.gross.bounds
    sizes = sorted((x1 - x0, y1 - y0))
    assert sizes == pytest.approx([30 * 304.8, 40 * 304.8])
    on_axes = misfit(degrees, 0.0) < 0.02
    assert on_axes or x1 - x0 > y1 - y0


@pytest.mark.parametrize(("off", "angle"), [(0.01, 0.0), (0.03, 0.03)])
def test_a_hair_off_the_paper_is_taken_for_it(off, angle):
    (whole,) = regions(turned(slab(box(40, 30)), off))
    assert whole.angle == pytest.approx(angle, abs=1e-6)


def test_a_wing_at_45_degrees_is_a_piece_of_its_own_with_a_shared_border():
    pieces = regions(SHAPES["wing at 45 degrees"])
    assert [p.region.name for p in pieces] == ["R1", "R2"]
    assert sorted(round(misfit(p.angle, 0.0)) for p in pieces) == [0, 45]
    assert [len(p.borders) for p in pieces] == [1, 0]
    assert pieces[0].borders[0].note == "where the slab turns"
    total = sum(p.region.gross.area for p in pieces)
    assert total == pytest.approx(SHAPES["wing at 45 degrees"].gross.area)


@pytest.mark.parametrize(
    ("name", "square"), [("triangle", False), ("parallelogram", False), ("round end", False)]
)
def test_an_outline_with_slanted_or_curved_edges_is_left_to_the_general_method(name, square):
    assert {p.orthogonal for p in regions(SHAPES[name])} == {square}


@pytest.mark.parametrize(("drift", "square"), [(0.0, True), (1.0, True), (500.0, False)])
def test_an_edge_may_stray_a_little_and_the_exact_search_still_takes_it(drift, square):
    outline = Ring(((0, 0), (12_000, drift), (12_000, 9000), (0, 9000)))
    (whole,) = regions(Slab(outline=outline, thickness=101.6))
    assert whole.orthogonal is square


def test_a_wished_pattern_or_a_long_slanted_wall_is_left_to_the_general_method():
    pattern = Pattern(id="A1", area=box(20, 20))
    assert not regions(slab(box(40, 30), patterns=(pattern,)))[0].orthogonal
    aslant = Wall(id="W1", path=feet((5, 0), (35, 30)))
    assert not regions(slab(box(40, 30), walls=(aslant,)))[0].orthogonal


def test_boxouts_from_edge_to_edge_make_two_pieces():
    parting = Column(id="C1", at=feet((20, 2.5))[0], boxout=Boxout.SQUARE, size=5 * 304.8)
    pieces = regions(slab(box(40, 5), columns=(parting,)))
    assert [p.region.name for p in pieces] == ["R1", "R2"]
    assert [round(p.region.gross.area / 304.8**2, 1) for p in pieces] == [87.5, 87.5]


def test_a_tapered_drive_runs_along_its_mirror_line():
    """Its long sides lean by 6.8 degrees to either side; it is laid out straight up the middle."""
    (whole,) = regions(SHAPES["tapered drive"])
    assert misfit(whole.angle, 0.0) < 1e-6
    assert math.isclose(misfit(whole.angle, QUARTER), 0.0, abs_tol=1e-6)


def test_places_go_into_the_frame_and_back():
    (whole,) = regions(turned(slab(ring((0, 0), (40, 0), (40, 20), (0, 20))), 30.0))
    at = (1234.5, -678.9)
    assert whole.to_slab(whole.to_region(at)) == pytest.approx(at)
