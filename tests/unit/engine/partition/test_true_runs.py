"""Runs on the true slab: what each must meet, where it ends, and what of it is a joint.

Joints of the exact method on surveyed slabs: none ends in the open, however far the grid squared the outline.
"""

from dataclasses import replace
from itertools import product
from random import Random

import numpy as np
import pytest
import shapely
from shapely import LineString, Point, Polygon, box

from kerfline.engine.effort import Effort
from kerfline.engine.method import exact_layout, nearly_square
from kerfline.engine.options import EngineOptions
from kerfline.engine.partition.rectangles import Run
from kerfline.engine.partition.true_runs import in_concrete, true_runs
from kerfline.engine.regions.frames import regions_of
from kerfline.model.slab import Boxout, Column, GivenJoint, Wall
from unit.engine.grids import grid_of, region_on
from unit.engine.plans import RULES, layout, lines, ring, slab

TOUCH = 0.5
"""mm within which an end counts as on an edge or a joint."""


def surveyed(number):
    """A slab of four or six corners, each up to 2 ft from where a square slab has it."""
    rng = Random(number)
    w, h = rng.uniform(14, 34), rng.uniform(12, 26)

    def off(most=2.0):
        return rng.uniform(-most, most)

    points = [(0, 0), (w + off(), off(1)), (w + off(), h + off()), (off(1), h + off())]
    if number % 2:
        c = rng.uniform(0.3, 0.7)
        step = [(w + off(), h * 0.6 + off()), (w * c + off(), h * 0.6 + off())]
        points = [*points[:2], *step, (w * c + off(), h + off()), points[3]]
    return slab(ring(*points))


def exact_region(number):
    """The only region of such a slab and its exact layout; None where there is none."""
    options = EngineOptions(effort=0.2)
    places = regions_of(surveyed(number), RULES, options)
    if len(places) > 1 or not nearly_square(places[0].region):
        return None
    found = exact_layout(places[0].region, options, Effort(0.2), 2)
    return (places[0].region, found) if found else None


def loose_ends(concrete, paths):
    """Ends inside the concrete that lie on no other joint."""
    lines = [LineString(path) for path in paths]
    return [
        end
        for n, path in enumerate(paths)
        for end in (path[0], path[-1])
        if concrete.boundary.distance(Point(end)) > TOUCH
        and concrete.contains(Point(end))
        and all(line.distance(Point(end)) > TOUCH for m, line in enumerate(lines) if m != n)
    ]


@pytest.mark.parametrize("first", [0, 30, 60])
def test_no_joint_of_the_exact_method_ends_in_the_open(first):
    tried = [found for n in range(first, first + 30) if (found := exact_region(n))]
    assert len(tried) > 9
    for region, made in tried:
        paths = [cut.path for cut in made.cuts]
        assert not loose_ends(region.concrete, paths)
        cuts = shapely.union_all([region.concrete.boundary, *(LineString(p) for p in paths)])
        parts = shapely.get_parts(shapely.polygonize([cuts]))
        assert sum(p.area for p in parts) == pytest.approx(region.concrete.area)


FLOOR = box(0, 0, 6000, 4000)
HOLED = FLOOR - box(2000, 1000, 4000, 2000)
GRID = grid_of((0, 3000, 6000), (0, 2000, 4000))
UP = Run(axis=0, line=1, first=0, last=2)
ACROSS = Run(axis=1, line=1, first=0, last=2)


@pytest.mark.parametrize(
    ("path", "parts"),
    [
        (((3000, 0), (3000, 4000)), [((3000, 0), (3000, 4000))]),
        (((3000, -500), (3000, 4500)), [((3000, 0), (3000, 4000))]),
        (((3000, 4500), (3000, -500)), [((3000, 4000), (3000, 0))]),
        (((0, 0), (6000, 0)), []),
        (((-500, 4000), (6500, 4000)), []),
        (((0, 1), (6000, 1)), [((0, 1), (6000, 1))]),
        (((3000, 2000), (3000, 2000)), []),
        (((3000, 2000), (3000.02, 2000)), [((3000, 2000), (3000.02, 2000))]),
        (((7000, 0), (7000, 4000)), []),
        (((-1000, 1000), (1000, -1000)), []),
        (((5999.6, 2000), (7000, 2000)), []),
        (((5999.4, 2000), (7000, 2000)), [((5999.4, 2000), (6000, 2000))]),
    ],
)
def test_the_part_of_a_path_in_concrete(path, parts):
    """What lies along an edge is no joint, nor what is half a millimetre long or less after a cut."""
    found = in_concrete(FLOOR, path)
    assert len(found) == len(parts)
    for one, other in zip(found, parts, strict=True):
        assert one == tuple(pytest.approx(p, abs=1e-6) for p in other)


@pytest.mark.parametrize("height", [1000 - 1e-9, 1000, 1000 + 1e-9, 1500, 2000])
def test_an_opening_parts_a_path_where_it_cuts_and_where_its_edge_lies_along(height):
    first, second = ((0, height), (2000, height)), ((4000, height), (6000, height))
    found = in_concrete(HOLED, ((0, height), (6000, height)))
    assert found == [tuple(pytest.approx(p, abs=0.02) for p in part) for part in (first, second)]
    back = in_concrete(HOLED, ((6000, height), (0, height)))
    assert back == [
        tuple(pytest.approx(p, abs=0.02) for p in reversed(part)) for part in (second, first)
    ]


@pytest.mark.parametrize(("width", "count"), [(0.4, 1), (0.6, 2)])
def test_an_edge_along_a_path_counts_from_half_a_millimetre(width, count):
    nicked = FLOOR - box(3000, 1000, 3000 + width, 1400)
    assert len(in_concrete(nicked, ((0, 1000), (6000, 1000)))) == count


def test_along_a_line_between_cells_a_joint_is_where_both_are_concrete():
    """All slabs of up to six cells, two high and four long with the third column whole: counted cell by cell."""
    tried = 0
    for flags in product((False, True), repeat=6):
        columns = [flags[0:2], flags[2:4], (True, True), flags[4:6]]
        cells = [
            box(1000 * i, 1000 * j, 1000 * i + 1000, 1000 * j + 1000)
            for i, column in enumerate(columns)
            for j, there in enumerate(column)
            if there
        ]
        concrete = shapely.union_all(cells)
        if not isinstance(concrete, Polygon):
            continue
        tried += 1
        expected = []
        for i, (below, above) in enumerate(columns):
            if below and above and expected and expected[-1][1] == 1000 * i:
                expected[-1] = (expected[-1][0], 1000 * i + 1000)
            elif below and above:
                expected.append((1000 * i, 1000 * i + 1000))
        found = in_concrete(concrete, ((-500, 1000), (4500, 1000)))
        assert [(part[0][0], part[1][0]) for part in found] == [
            pytest.approx(e, abs=0.02) for e in expected
        ]
    assert tried > 40


def paths(*runs, concrete=FLOOR, grid=GRID, **more):
    region = replace(region_on(grid), gross=concrete, concrete=concrete, **more)
    return [found.path for found in true_runs(grid, region, runs)]


def near(*points):
    return tuple(pytest.approx(p, abs=1e-3) for p in points)


@pytest.mark.parametrize("top", [3700, 4000, 4400, 4609, 4700, 5500])
def test_a_run_is_carried_to_the_true_edge_however_far_off(top):
    found = paths(UP, concrete=box(0, 0, 6000, top))
    assert found == [near((3000, 0), (3000, top))]


def test_a_run_ends_on_a_slanted_edge_where_it_meets_it():
    """From 3700 mm on the left to 4300 mm on the right: 4000 mm at half."""
    skew = Polygon([(0, 0), (6000, 0), (6000, 4300), (0, 3700)])
    grid = grid_of((0, 1500, 6000), (0, 2000, 4000))
    assert paths(UP, concrete=skew) == [near((3000, 0), (3000, 4000))]
    assert paths(UP, concrete=skew, grid=grid) == [near((1500, 0), (1500, 3850))]


def test_a_run_along_the_edge_is_no_joint():
    rim = Run(axis=0, line=0, first=0, last=2)
    assert paths(rim) == []
    assert paths(rim, UP) == [near((3000, 0), (3000, 4000))]


def column(x, y):
    return Column(id="C", at=(x, y), boxout=Boxout.DIAMOND, size=300.0)


@pytest.mark.parametrize(
    ("off", "at"), [(0, 2000), (100, 2100), (203, 2203), (-203, 1797), (204, 2000)]
)
def test_a_run_passes_through_a_column_within_eight_inches(off, at):
    """Lines are merged within 203.2 mm (8 in): a column that far from the line is on it, one further off is not."""
    assert paths(ACROSS, columns=(column(1000, 2000 + off),)) == [near((0, at), (6000, at))]


@pytest.mark.parametrize(
    ("firm", "at"),
    [((2000, 2150), 2000), ((2150,), 2000), ((2199,), 2000), ((2200,), 2100), ((), 2100)],
)
def test_a_run_passes_a_column_that_another_line_serves(firm, at):
    """A column 100 mm beside the run: a line that something sets serves it where it is nearer than the run's."""
    places = np.array([0.0, *firm, 4000.0])
    grid = replace(GRID, firm=(GRID.places[0], places))
    assert paths(ACROSS, grid=grid, columns=(column(1000, 2100),)) == [near((0, at), (6000, at))]


def test_bays_beside_corners_stay_even():
    """A U with corners seven inches beside the thirds of its base: three bays of 9'-11" and no joint at 9'-4"."""
    u = ((0, 0), (358, 0), (358, 321), (246, 321), (246, 105), (112, 105), (112, 321), (0, 321))
    found = layout(slab(ring(*((x / 12, y / 12) for x, y in u))))
    assert lines(found) == ([9.92, 19.92], [8.75, 17.75])


def test_a_run_through_two_columns_is_as_slanted_as_they_are():
    """100 mm in 4 m: 25 mm lower 1 m before the first and 25 mm higher 1 m after the second."""
    found = paths(ACROSS, columns=(column(1000, 1950), column(5000, 2050)))
    assert found == [near((0, 1925), (6000, 2075))]


def test_a_run_that_stops_at_another_ends_on_its_true_line():
    half = replace(UP, last=1)
    assert paths(half, ACROSS, columns=(column(1000, 2100),))[0] == near((3000, 0), (3000, 2100))
    slanted = (column(1000, 1950), column(5000, 2050))
    upper = replace(UP, first=1)
    assert paths(upper, ACROSS, columns=slanted)[0] == near((3000, 2000), (3000, 4000))


def test_a_run_that_would_end_in_the_open_goes_on_to_the_edge():
    assert paths(replace(UP, last=1)) == [near((3000, 0), (3000, 4000))]


def wall(first, last, start=0.0, end=6000.0, **more):
    return Wall(id="W", path=((start, first), (end, last)), thickness=100.0, **more)


@pytest.mark.parametrize(
    ("over", "ends"),
    [
        (wall(2050, 2050), (2000, 2000)),
        (wall(2050.4, 2050.4), (2050.4, 2050.4)),
        (wall(2052, 2052), (2000, 2000)),
        (wall(2250, 2250), (2000, 2000)),
        (wall(1950, 2050), (2000, 2000)),
        (wall(1940, 2060), (1940, 2060)),
        (wall(2050.4, 2050.4, 1000, 1149), (2000, 2000)),
        (wall(2050.4, 2050.4, 1000, 1151), (2050.4, 2050.4)),
        (wall(2050.4, 2050.4, bearing=True), (2000, 2000)),
    ],
)
def test_a_run_lies_under_a_wall_and_within_its_faces_stays_straight(over, ends):
    """A wall of 100 mm leaves 50 mm to either side, and half a millimetre for the touch; farther off it is none of the run's,
    nor is a stub of less than 150 mm.
    """
    assert paths(ACROSS, walls=(over,)) == [near((0, ends[0]), (6000, ends[1]))]


def test_a_column_comes_before_a_wall_where_no_line_serves_both():
    both = paths(ACROSS, columns=(column(3000, 2030),), walls=(wall(2080, 2080),))
    assert both == [near((0, 2030), (6000, 2030))]
    either = paths(ACROSS, columns=(column(3000, 2010),), walls=(wall(2080, 2080),))
    assert either == [near((0, 2010), (6000, 2010))]


@pytest.mark.parametrize(("off", "at"), [(0.4, 2000.4), (0.6, 2000.0)])
def test_a_run_meets_a_pinned_joint_that_it_touches(off, at):
    pinned = GivenJoint(id="G", path=((0, 2000 + off), (2000, 2000 + off)))
    assert paths(ACROSS, pinned=(pinned,)) == [near((0, at), (6000, at))]


def test_a_run_ends_at_the_true_corner_though_it_lies_off_the_grid():
    el = Polygon([(0, 0), (6000, 0), (6000, 2060), (3080, 2060), (3080, 4000), (0, 4000)])
    grid = grid_of((0, 3000, 6000), (0, 2000, 4000), out=((1, 1),))
    half = replace(UP, last=1)
    assert paths(half, concrete=el, grid=grid) == [near((3080, 0), (3080, 2060))]


def test_a_boxout_cuts_a_run_in_two_pieces_of_one_path():
    holed = FLOOR - box(2800, 1800, 3200, 2200)
    region = replace(region_on(GRID), concrete=holed)
    (found,) = true_runs(GRID, region, [ACROSS])
    assert found.path == near((0, 2000), (6000, 2000))
    assert found.pieces == (near((0, 2000), (2800, 2000)), near((3200, 2000), (6000, 2000)))
