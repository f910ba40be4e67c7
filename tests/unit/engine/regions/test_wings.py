"""A piece is split where a wing turns, so that each part has one main direction."""

import math

import pytest
import shapely
from shapely import Polygon, affinity, box

from kerfline.engine.regions.wings import chords, corner_ways, misfit_length, wings_of
from kerfline.geometry.corners import reentrant_corners

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
