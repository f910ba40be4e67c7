"""The pieces that a slab is laid out in, each in the frame of its own main direction."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString, Point, Polygon, affinity

from kerfline.engine.options import EngineOptions
from kerfline.engine.regions import frames
from kerfline.engine.regions.directions import QUARTER, Direction, misfit
from kerfline.engine.regions.frames import frame_angle, regions_of
from kerfline.geometry.ring import Ring
from kerfline.model.layout import Reason
from kerfline.model.slab import Boxout, Column, KeepOut, Pattern, Slab, Wall
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


HEAVY_LEFT = Polygon([(0, 0), (9000, 0), (9000, 2000), (3000, 2000), (3000, 4000), (0, 4000)])
"""9 x 4 m along the axes, most of it in its left half."""


@pytest.mark.parametrize(
    ("spun", "said", "angle"),
    [
        (30.0, 30.0, 30.0),
        (30.0, 120.0, 210.0 - 180.0),
        (210.0, 30.0, 210.0),
        (120.0, 30.0, 120.0),
        (300.0, 30.0, 300.0),
        (0.0, 0.0, 0.0),
        (180.0, 0.0, 0.0),
        (0.01, 0.01, 0.0),
        (0.03, 0.03, 0.03),
    ],
)
def test_a_frame_runs_along_the_longer_side_towards_the_lighter_half(spun, said, angle):
    """Of the four axes along a direction there is one that turns with the piece."""
    piece = affinity.rotate(HEAVY_LEFT, spun, origin=(0, 0))
    found = frame_angle(piece, Direction(said, 1.0))
    assert found % 360.0 == pytest.approx(angle, abs=1e-9)


@pytest.mark.parametrize(("deep", "angle"), [(8999.5, 30.0), (9000.5, 30.0), (9002.0, 120.0)])
def test_a_side_is_the_longer_one_from_a_millimetre_on(deep, angle):
    piece = affinity.rotate(Polygon([(0, 0), (9000, 0), (9000, deep), (0, deep)]), 30, (0, 0))
    assert frame_angle(piece, Direction(30.0, 1.0)) == pytest.approx(angle)


@pytest.mark.parametrize(("drift", "square"), [(4.9, True), (5.1, False)])
def test_edges_are_square_within_five_mm(drift, square):
    along = Polygon([(0, 0), (12_000, drift), (12_000, 9000), (0, 9000)])
    assert frames._is_square(along, Direction(0.0, 1.0)) is square
    spun = affinity.rotate(along, 37.0, origin=(0, 0))
    assert frames._is_square(spun, Direction(37.0, 1.0)) is square
    hole = Polygon([(3000, 3000), (4000, 3000), (4000, 4000), (3000 + drift, 4000)])
    holed = Polygon([(0, 0), (12_000, 0), (12_000, 9000), (0, 9000)]) - hole
    assert frames._is_square(holed, Direction(0.0, 1.0)) is square


@pytest.mark.parametrize(("right", "wished"), [(39.0, True), (40.0, False), (45.0, False)])
def test_a_pattern_bears_on_a_piece_that_it_reaches_into(right, wished):
    """The piece lies from 0 to 40 ft, the pattern goes on from somewhere there to 60 ft."""
    area = Ring(feet((right, 0), (60, 0), (60, 20), (right, 20)))
    given_slab = slab(box(60, 20), patterns=(Pattern(id="A1", area=area),))
    assert frames._has_pattern(given_slab, box(40, 20).polygon) is wished


def test_no_region_ends_in_a_keep_out_or_a_boxout():
    """4 square feet of keep-out and a boxout of 2 x 2 ft; a column without one bars nothing."""
    boxed = Column(id="C1", at=feet((20, 10))[0], boxout=Boxout.SQUARE, size=2 * 304.8)
    bare = Column(id="C2", at=feet((30, 10))[0], boxout=Boxout.NONE)
    barring = KeepOut(id="K1", outline=box(4, 1, x=5, y=5))
    barred = frames._barred(slab(box(40, 20), columns=(boxed, bare), keep_outs=(barring,)))
    assert barred.area == pytest.approx((4 + 4) * 304.8**2)
    assert barred.contains(Point(feet((20, 10))[0]))
    assert not barred.intersects(Point(feet((30, 10))[0]))
    assert frames._barred(slab(box(40, 20))).is_empty


def test_a_border_is_a_joint_at_the_turn_that_reaches_a_hair_beyond_its_ends():
    border = frames._border(LineString([(0, 0), (3000, 4000)]))
    assert (border.reason, border.note) == (Reason.CORNER, "where the slab turns")
    (x0, y0), (x1, y1) = border.path
    assert math.dist((x0, y0), (x1, y1)) == pytest.approx(5000.01, abs=1e-6)
    assert x0 < 0.0
    assert x1 > 3000.0
    assert y1 == pytest.approx(x1 * 4 / 3)


def test_only_the_stretches_of_walls_in_a_piece_bear_on_its_direction():
    """A wall of 30 ft of which 10 lie in the piece, and one that lies beside it."""
    walls = (
        Wall(id="W1", path=feet((10, 5), (40, 5))),
        Wall(id="W2", path=feet((25, 8), (40, 8))),
    )
    found = frames._walls_on(slab(box(60, 20), walls=walls), box(20, 20).polygon)
    assert [line.length for line in found] == pytest.approx([10 * 304.8])


@pytest.mark.parametrize(("lean", "angle"), [(19.0, 0.0), (21.0, 21.0)])
def test_edges_taper_within_20_degrees_of_the_mirror_line(lean, angle):
    """Two long sides that lean alike to either side of upright, 40 ft long."""
    out = 40 * math.tan(math.radians(lean))
    drive = Polygon(feet((-out - 3, 0), (out + 3, 0), (3, 40), (-3, 40)))
    found = frames._main_direction(drive, [])
    assert misfit(found.angle, 0.0) == pytest.approx(angle, abs=0.5)
