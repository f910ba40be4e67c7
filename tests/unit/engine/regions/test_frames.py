"""The pieces that a slab is laid out in, each in the frame of its own main direction."""

import math

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString, Point, Polygon, affinity

from kerfline.checks.check import check
from kerfline.engine.lay_out import lay_out
from kerfline.engine.options import EngineOptions
from kerfline.engine.regions import frames
from kerfline.engine.regions.directions import QUARTER, Direction, misfit
from kerfline.engine.regions.frames import (
    chords,
    corner_chords,
    corner_ways,
    frame_angle,
    misfit_length,
    regions_of,
    wings_of,
)
from kerfline.geometry.corners import reentrant_corners
from kerfline.geometry.faces import faces, points_of
from kerfline.geometry.ring import Ring
from kerfline.model.finding import Severity
from kerfline.model.layout import Reason
from kerfline.model.slab import Boxout, Column, KeepOut, Pattern, Slab, Wall
from kerfline.units import Display
from strategies import turned
from unit.engine.plans import RULES, box, feet, ring, slab
from unit.engine.slabs import SHAPES, bent_walk


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


SPAN = 3000.0
NONE = Polygon()
BENT = shapely.union(
    shapely.box(0, 0, 12_000, 6000),
    affinity.rotate(shapely.box(12_000, 0, 24_000, 6000), 45, origin=(12_000, 0)),
)
"""Two wings of 12 x 6 m at 45 degrees, which meet in the outer corner."""


def wings(piece, barred=NONE, span=SPAN):
    return wings_of(piece, span, barred)


def test_a_rectangle_or_an_ell_stays_whole():
    ell = shapely.union(shapely.box(0, 0, 12_000, 6000), shapely.box(0, 0, 6000, 12_000))
    for piece in (shapely.box(0, 0, 12_000, 6000), ell):
        assert wings(piece) == ([piece], [])


def test_two_wings_at_45_degrees_are_two_parts_with_one_line_between():
    parts, lines = wings(BENT)
    assert len(parts) == 2
    assert len(lines) == 1
    assert sum(p.area for p in parts) == pytest.approx(BENT.area)
    assert sum(misfit_length(p) for p in parts) < misfit_length(BENT) / 2


@pytest.mark.parametrize("degrees", [10.0, 90.0, 200.0])
def test_a_turned_piece_is_split_the_same_way(degrees):
    spun = affinity.rotate(BENT, degrees, origin=(0, 0))
    areas = sorted(p.area for p in wings(BENT)[0])
    assert sorted(p.area for p in wings(spun)[0]) == pytest.approx(areas, rel=1e-6)


def test_a_mirrored_piece_is_split_the_same_way():
    mirrored = affinity.scale(BENT, -1, 1, origin=(0, 0))
    areas = sorted(p.area for p in wings(BENT)[0])
    assert sorted(p.area for p in wings(mirrored)[0]) == pytest.approx(areas, rel=1e-6)


def test_no_line_runs_where_no_joint_may_lie():
    _, (line,) = wings(BENT)
    barred = line.interpolate(0.5, normalized=True).buffer(200)
    _, others = wings(BENT, barred)
    assert all(other.intersection(barred).length == 0 for other in others)


def test_nothing_smaller_than_six_tenths_of_a_square_of_the_span_becomes_a_part():
    assert len(wings(BENT, span=20_000.0)[0]) == 1


@pytest.mark.parametrize(
    ("piece", "length"),
    [
        (shapely.box(0, 0, 9000, 4000), 0.0),
        (affinity.rotate(shapely.box(0, 0, 9000, 4000), 30), 0.0),
        (
            Polygon([(0, 0), (9000, 0), (9000, 4000), (4000, 9000), (0, 9000)]),
            math.hypot(5000, 5000),
        ),
    ],
)
def test_misfit_is_the_length_of_edge_along_neither_axis(piece, length):
    assert misfit_length(piece) == pytest.approx(length, abs=1e-6)


ELL = Polygon([(0, 0), (9000, 0), (9000, 3000), (3000, 3000), (3000, 9000), (0, 9000)])


def test_a_joint_may_leave_a_corner_on_with_its_edges_square_to_them_or_halving_it():
    (corner,) = reentrant_corners(ELL)
    ways = {(round(x, 3) + 0.0, round(y, 3) + 0.0) for x, y in corner_ways(corner)}
    half = round(-math.sqrt(0.5), 3)
    assert {(-1, 0), (0, -1), (half, half)} <= ways
    assert all(ELL.contains(shapely.Point(3000 + x, 3000 + y)) or 0 in (x, y) for x, y in ways)


def ends_of(found):
    return [[points_of(line) for line in group] for group in found]


def test_chords_are_the_stretches_of_a_line_in_the_piece():
    assert ends_of(chords(ELL, (1500, 1500), (1, 0))) == [[((0, 1500), (9000, 1500))]]
    you = ELL.union(shapely.box(6000, 0, 9000, 9000))
    assert ends_of(chords(you, (0, 6000), (1, 0))) == [
        [((0, 6000), (3000, 6000))],
        [((6000, 6000), (9000, 6000))],
    ]


def test_only_the_chord_through_the_point_is_taken_where_that_is_asked():
    you = ELL.union(shapely.box(6000, 0, 9000, 9000))
    found = chords(you, (3000, 6000), (1, 0), through=True)
    assert ends_of(found) == [[((0, 6000), (3000, 6000))]]


def test_a_piece_with_a_hole_takes_the_whole_line():
    holed = shapely.box(0, 0, 9000, 9000) - shapely.box(3000, 3000, 6000, 6000)
    (group,) = ends_of(chords(holed, (0, 4000), (1, 0)))
    assert group == [((0, 4000), (3000, 4000)), ((6000, 4000), (9000, 4000))]
    assert chords(holed, (0, 20_000), (1, 0)) == []


def test_chords_leave_every_re_entrant_corner_and_go_through_it():
    found = list(corner_chords(ELL))
    assert ((3000.0, 3000.0), (0.0, 3000.0)) in [
        p for g in ends_of(found) for p in (g[0], g[0][::-1])
    ]
    assert all(line.distance(shapely.Point(3000, 3000)) <= 1.0 for (line,) in found)
    assert list(corner_chords(shapely.box(0, 0, 9000, 9000))) == []


def cut_corner(degrees):
    """30 x 12 m with one upper corner cut by an edge of 5 m that leans so much from upright."""
    turn = math.radians(degrees)
    across, up = 5000 * math.sin(turn), 5000 * math.cos(turn)
    return Polygon(
        [(0, 0), (30_000, 0), (30_000, 12_000 - up), (30_000 - across, 12_000), (0, 12_000)]
    )


@pytest.mark.parametrize(
    ("degrees", "weight"),
    [(2.9, 0.0), (3.1, 0.062), (15.0, 0.3), (29.9, 0.598), (30.5, 1.0), (59.5, 1.0), (75.0, 0.3)],
)
def test_an_edge_is_a_misfit_by_how_far_it_is_off_both_axes(degrees, weight):
    """None within 3 degrees, six tenths at 30, and whole between 30 and 60."""
    assert misfit_length(cut_corner(degrees)) == pytest.approx(5000 * weight, abs=1e-3)


@pytest.mark.parametrize(
    ("part", "sharpness"),
    [
        (shapely.box(0, 0, 4, 3), 0.0),
        (Polygon([(0, 0), (4, 0), (2, 2 * math.sqrt(3))]), 1 / 3),
        (Polygon([(0, 0), (4, 0), (0, 4)]), 0.5),
        (Polygon([(0, 0), (4, 0), (7, 3), (3, 3)]), 0.5),
        (ELL, 0.0),
    ],
)
def test_a_part_is_as_sharp_as_its_sharpest_corner_is_under_square(part, sharpness):
    assert frames._sharpness([part]) == pytest.approx(sharpness)
    assert frames._sharpness([part, part]) == pytest.approx(2 * sharpness)


def test_the_parts_on_both_sides_of_a_slanted_line_are_alike_sharp():
    """A square parted along its diagonal: half of 90 degrees on either side, twice."""
    parts = faces(shapely.box(0, 0, 4000, 4000), [LineString([(0, 0), (4000, 4000)])])
    assert len(parts) == 2
    assert frames._sharpness(parts) == pytest.approx(1.0)


def wing_of(length):
    """A hall of 12 x 6 m, from the right half of whose top a wing of 5 m width leaves at 45 degrees."""
    arm = affinity.rotate(shapely.box(9000, 3000, 9000 + length, 8000), 45, origin=(9000, 3000))
    return shapely.union(shapely.box(0, 0, 12_000, 6000), arm)


@pytest.mark.parametrize("length", [9000, 12_000, 15_000])
def test_a_split_gains_at_least_what_it_must(length):
    piece = wing_of(length)
    found = frames._best_split(piece, SPAN, NONE)
    assert found is not None
    parts, lines = found
    gain = misfit_length(piece) - sum(misfit_length(p) for p in parts)
    joint = sum(line.length for line in lines)
    assert gain >= max(0.6 * SPAN, 0.25 * joint)
    assert min(p.area for p in parts) >= 0.6 * SPAN**2
    assert shapely.union_all(parts).symmetric_difference(piece).area < 0.01 * piece.length


def test_a_piece_is_split_only_from_six_tenths_of_a_span_of_misfit_on():
    """The wings at 45 degrees: at spans up to what their misfit is worth there is a split, beyond none."""
    parts, (line,) = wings(BENT)
    gain = misfit_length(BENT) - sum(misfit_length(p) for p in parts)
    room = (min(p.area for p in parts) / 0.6) ** 0.5
    most = min(gain / 0.6, room)
    assert line.length * 0.25 < gain
    assert frames._best_split(BENT, 0.999 * most, NONE) is not None
    beyond = frames._best_split(BENT, misfit_length(BENT) / 0.6 + 1.0, NONE)
    assert beyond is None


def bent(straight):
    """A bent walk, 100 mm thick."""
    points = [(float(x), float(y)) for x, y in bent_walk(straight).exterior.coords[:-1]]
    return Slab(outline=Ring(tuple(points)), thickness=100.0)


def test_a_walk_is_parted_where_it_begins_to_bend_and_where_it_ceases():
    """A straight part along each axis, square and searched exactly, and the bend between them."""
    found = regions(bent(9000.0))
    assert sorted(p.orthogonal for p in found) == [False, True, True]
    assert len(found[0].borders) == 2
    assert sum(p.region.gross.area for p in found) == pytest.approx(bent_walk(9000.0).area)


@pytest.mark.parametrize(("straight", "parts"), [(1090.0, 3), (1070.0, 2)])
def test_a_straight_part_shorter_than_six_tenths_of_its_width_stays_with_the_bend(straight, parts):
    """1.8 m wide; at its other end the walk has 3 m, a part of its own."""
    assert len(wings_of(bent_walk(straight), 3000.0, Polygon())[0]) == parts


def test_no_bend_ends_in_a_keep_out():
    bar = shapely.box(2900, 500, 3100, 1000)
    parts, lines = wings_of(bent_walk(9000.0), 3000.0, bar)
    assert len(parts) == 2
    assert [round(x) for line in lines for x, _ in line.coords] == [9200, 11000]


@pytest.mark.parametrize("straight", [3000.0, 9000.0])
def test_a_bent_walk_has_panels_square_to_its_sides_all_along(straight):
    """Warned of nothing: as the trade sets such walks out, from the ends of the bend (common practice)."""
    given_slab = bent(straight)
    laid = lay_out(given_slab, RULES, EngineOptions(display=Display.METRIC))
    assert not [
        f
        for f in check(given_slab, laid, RULES, Display.METRIC)
        if f.severity is not Severity.ADVICE
    ]
    assert all(j.length == pytest.approx(1800.0, rel=0.01) for j in laid.joints)
