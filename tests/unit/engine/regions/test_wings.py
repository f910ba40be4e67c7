"""A piece is split where a wing turns, so that each part has one main direction."""

import math

import pytest
import shapely
from shapely import LineString, Polygon, affinity, box

from kerfline.engine.regions import wings as module
from kerfline.engine.regions.wings import chords, corner_ways, misfit_length, wings_of
from kerfline.geometry.corners import reentrant_corners
from kerfline.geometry.faces import faces

SPAN = 3000.0
NONE = Polygon()
BENT = shapely.union(
    box(0, 0, 12_000, 6000),
    affinity.rotate(box(12_000, 0, 24_000, 6000), 45, origin=(12_000, 0)),
)
"""Two wings of 12 x 6 m at 45 degrees, which meet in the outer corner."""


def wings(piece, barred=NONE, span=SPAN):
    return wings_of(piece, span, barred)


def test_a_rectangle_or_an_ell_stays_whole():
    ell = shapely.union(box(0, 0, 12_000, 6000), box(0, 0, 6000, 12_000))
    for piece in (box(0, 0, 12_000, 6000), ell):
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
        (box(0, 0, 9000, 4000), 0.0),
        (affinity.rotate(box(0, 0, 9000, 4000), 30), 0.0),
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
    ways = {(round(x, 3) + 0.0, round(y, 3) + 0.0) for x, y in corner_ways(ELL, corner)}
    half = round(-math.sqrt(0.5), 3)
    assert {(-1, 0), (0, -1), (half, half)} <= ways
    assert all(ELL.contains(shapely.Point(3000 + x, 3000 + y)) or 0 in (x, y) for x, y in ways)


def test_chords_are_the_stretches_of_a_line_in_the_piece():
    assert chords(ELL, (1500, 1500), (1, 0)) == [(((0, 1500), (9000, 1500)),)]
    you = ELL.union(box(6000, 0, 9000, 9000))
    found = chords(you, (0, 6000), (1, 0))
    assert [group[0] for group in found] == [
        ((0, 6000), (3000, 6000)),
        ((6000, 6000), (9000, 6000)),
    ]


def test_only_the_chord_through_the_point_is_taken_where_that_is_asked():
    you = ELL.union(box(6000, 0, 9000, 9000))
    found = chords(you, (3000, 6000), (1, 0), through=True)
    assert found == [(((0, 6000), (3000, 6000)),)]


def test_a_piece_with_a_hole_takes_the_whole_line():
    holed = box(0, 0, 9000, 9000) - box(3000, 3000, 6000, 6000)
    (group,) = chords(holed, (0, 4000), (1, 0))
    assert group == (((0, 4000), (3000, 4000)), ((6000, 4000), (9000, 4000)))
    assert chords(holed, (0, 20_000), (1, 0)) == []


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
        (box(0, 0, 4, 3), 0.0),
        (Polygon([(0, 0), (4, 0), (2, 2 * math.sqrt(3))]), 1 / 3),
        (Polygon([(0, 0), (4, 0), (0, 4)]), 0.5),
        (Polygon([(0, 0), (4, 0), (7, 3), (3, 3)]), 0.5),
        (ELL, 0.0),
    ],
)
def test_a_part_is_as_sharp_as_its_sharpest_corner_is_under_square(part, sharpness):
    assert module._sharpness([part]) == pytest.approx(sharpness)
    assert module._sharpness([part, part]) == pytest.approx(2 * sharpness)


def test_the_parts_on_both_sides_of_a_slanted_line_are_alike_sharp():
    """A square parted along its diagonal: half of 90 degrees on either side, twice."""
    parts = faces(box(0, 0, 4000, 4000), [LineString([(0, 0), (4000, 4000)])])
    assert len(parts) == 2
    assert module._sharpness(parts) == pytest.approx(1.0)


def test_a_corner_looks_at_the_nearest_edge_that_it_sees():
    """Its own two edges are no nearer than the corner; across the leg of 2 m, not of 3 m."""
    ell = Polygon([(0, 0), (9000, 0), (9000, 2000), (3000, 2000), (3000, 9000), (0, 9000)])
    (corner,) = reentrant_corners(ell)
    assert module._facing(ell, corner) == [pytest.approx((0.0, -1.0))]
    upright = Polygon([(0, 0), (9000, 0), (9000, 4000), (3000, 4000), (3000, 9000), (0, 9000)])
    (corner,) = reentrant_corners(upright)
    assert module._facing(upright, corner) == [pytest.approx((-1.0, 0.0))]


def wing_of(length):
    """A hall of 12 x 6 m, from the right half of whose top a wing of 5 m width leaves at 45 degrees."""
    arm = affinity.rotate(box(9000, 3000, 9000 + length, 8000), 45, origin=(9000, 3000))
    return shapely.union(box(0, 0, 12_000, 6000), arm)


@pytest.mark.parametrize("length", [9000, 12_000, 15_000])
def test_a_split_gains_at_least_what_it_must(length):
    piece = wing_of(length)
    found = module._best_split(piece, SPAN, NONE)
    assert found is not None
    gain = misfit_length(piece) - sum(misfit_length(p) for p in found.parts)
    joint = sum(line.length for line in found.lines)
    assert gain >= max(0.6 * SPAN, 0.25 * joint)
    assert min(p.area for p in found.parts) >= 0.6 * SPAN**2
    assert shapely.union_all(found.parts).symmetric_difference(piece).area < 0.01 * piece.length


def test_a_piece_is_split_only_from_six_tenths_of_a_span_of_misfit_on():
    """The wings at 45 degrees: at spans up to what their misfit is worth there is a split, beyond none."""
    parts, (line,) = wings(BENT)
    gain = misfit_length(BENT) - sum(misfit_length(p) for p in parts)
    room = (min(p.area for p in parts) / 0.6) ** 0.5
    most = min(gain / 0.6, room)
    assert line.length * 0.25 < gain
    assert module._best_split(BENT, 0.999 * most, NONE) is not None
    beyond = module._best_split(BENT, misfit_length(BENT) / 0.6 + 1.0, NONE)
    assert beyond is None
