"""The bound of joints that run through, against every choice of whole chords on small figures and by hand."""

import math
from functools import cache
from itertools import pairwise

import numpy as np
import pytest
import shapely
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from shapely import LineString, Polygon

from kerfline.engine.bounds import through
from kerfline.engine.bounds.chords import chords_of
from kerfline.engine.bounds.length_bound import least_lengths
from kerfline.engine.bounds.through import STEPS, least_through, shortest_choice
from kerfline.engine.regions.region import Cut
from kerfline.model.slab import KeepOut
from kerfline.units import MM_PER_FOOT
from unit.engine.plans import EL, box, feet, region_of, ring, slab

SPAN = 10_000.0
"""A unit of the figures here is a quarter of it."""

UNIT = SPAN / 4
FIGURES = {
    "box": ((0, 0), (9, 0), (9, 5), (0, 5)),
    "L": ((0, 0), (9, 0), (9, 3), (5, 3), (5, 7), (0, 7)),
    "T": ((0, 3), (3, 3), (3, 0), (6, 0), (6, 3), (9, 3), (9, 6), (0, 6)),
    "H": (
        (0, 0),
        (3, 0),
        (3, 2),
        (6, 2),
        (6, 0),
        (9, 0),
        (9, 6),
        (6, 6),
        (6, 4),
        (3, 4),
        (3, 6),
        (0, 6),
    ),
    "S": ((0, 0), (6, 0), (6, 3), (11, 3), (11, 6), (4, 6), (4, 3), (0, 3)),
    "triangle": ((0, 0), (9, 0), (4, 6)),
    "hexagon": ((3, 0), (7, 0), (10, 4), (7, 8), (3, 8), (0, 4)),
    "taper": ((0, 0), (10, 0), (7, 5), (1, 5)),
    "arrow": ((0, 0), (5, 2), (10, 0), (5, 7)),
}
NEAR = 0.94
"""Share of the shortest choice that the bound reaches: a step of it is a third of the brute force's."""


def in_mm(points):
    return [(x * UNIT, y * UNIT) for x, y in points]


def edges_of(figure):
    rings = [figure.exterior, *figure.interiors]
    parts = [shapely.get_coordinates(r) for r in rings]
    return np.concatenate([np.stack([p[:-1], p[1:]], axis=1) for p in parts])


def bound_of(figure, keep_outs=(), *, axis=0):
    chords = tuple(chords_of(edges_of(figure), figure, n) for n in (axis, 1 - axis))
    corners = edges_of(figure).reshape(-1, 2)
    reach = np.full(len(chords[0].high), SPAN)
    kept = shapely.union_all(keep_outs)
    return least_through(chords, corners if axis == 0 else corners[:, ::-1], reach, kept) / UNIT


@cache
def uprights(name):
    """Every whole upright chord at quarter units: its place and its two ends."""
    figure = Polygon(FIGURES[name])
    out = []
    for n in range(1, int(figure.bounds[2] * 4)):
        line = (
            LineString([(n / 4, -1), (n / 4, 99)]).intersection(figure).difference(figure.boundary)
        )
        out += [(n / 4, *sorted(y for _, y in p.coords)) for p in shapely.get_parts(line)]
    return tuple(p for p in out if p[2] - p[1] > 1e-9)


@cache
def gaps(name):
    """For level chords at many heights: their ends, and the uprights that cross them."""
    figure = Polygon(FIGURES[name])
    found = set()
    for n in range(int(figure.bounds[3] * 8)):
        y = n / 8 + 1 / 16
        level = LineString([(-1, y), (99, y)]).intersection(figure)
        for part in shapely.get_parts(level):
            a, _, b, _ = part.bounds
            across = tuple(
                k for k, (x, low, high) in enumerate(uprights(name)) if a < x < b and low < y < high
            )
            found.add((a, b, across))
    return tuple(sorted(found))


def shortest(name):
    """The least length of whole uprights at quarter units that leave no gap over four units.

    Wherever a gap is too wide, one of the uprights within four units of its left end is chosen, each in turn.
    """
    lengths = [high - low for _, low, high in uprights(name)]
    places = [x for x, _, _ in uprights(name)]

    def short_of(chosen):
        """The first gap that is too wide, as the uprights of which one must be chosen."""
        for a, b, across in gaps(name):
            stops = [a, *sorted(places[k] for k in across if k in chosen), b]
            for one, other in pairwise(stops):
                if other - one > 4 + 1e-9:
                    return [k for k in across if one < places[k] <= one + 4 + 1e-9]
        return None

    best = math.inf
    seen = set()
    stack = [(0.0, frozenset())]
    while stack:
        length, chosen = stack.pop()
        if length >= best - 1e-9 or chosen in seen:
            continue
        seen.add(chosen)
        ways = short_of(chosen)
        if ways is None:
            best = length
            continue
        longest_first = sorted(ways, key=lambda k: -lengths[k])
        stack.extend((length + lengths[k], chosen | {k}) for k in longest_first)
    return best


@pytest.mark.parametrize("name", FIGURES)
def test_no_choice_of_whole_chords_is_shorter_and_it_is_near_the_shortest(name):
    least = shortest(name)
    found = bound_of(Polygon(in_mm(FIGURES[name])))
    assert NEAR * least <= found <= least + 1e-6


@given(
    data=st.data(),
    points=st.lists(st.tuples(st.floats(0, 11), st.floats(0, 8)), min_size=3, max_size=8),
)
@settings(max_examples=40, deadline=None)
def test_no_choice_at_random_is_shorter(data, points):
    """On a convex figure: places no farther apart than the span, along its widest chord or along any."""
    figure = shapely.MultiPoint(in_mm(points)).convex_hull
    assume(figure.area > UNIT**2)
    x0, y0, x1, y1 = figure.bounds
    at, length = x0, 0.0
    while at < x1 - SPAN:
        at += SPAN * data.draw(st.floats(0.3, 1.0))
        line = LineString([(at, y0 - 1), (at, y1 + 1)])
        length += line.intersection(figure).length
    assert bound_of(figure) <= length / UNIT + 1e-6


def test_where_no_joint_may_be_another_is_asked_for():
    """40 x 30 ft at 10 ft: three joints through, four where the one in the middle would cross a keep-out."""
    figure = shapely.box(0, 0, 4 * SPAN, 3 * SPAN)
    middle = shapely.box(1.9 * SPAN, SPAN, 2.1 * SPAN, 1.2 * SPAN)
    beside = shapely.box(1.4 * SPAN, SPAN, 1.6 * SPAN, 1.2 * SPAN)
    assert bound_of(figure) == pytest.approx(3 * 12)
    assert bound_of(figure, [middle]) == pytest.approx(4 * 12)
    assert bound_of(figure, [beside]) == pytest.approx(3 * 12)


def test_on_the_line_of_two_corners_a_joint_is_no_longer_than_between_them():
    """Two boxes of 4 x 3 units, the second 4 along and 2 up: where they meet, a joint of 1 is enough for 8."""
    figure = Polygon(in_mm(((0, 0), (4, 0), (4, 2), (8, 2), (8, 5), (4, 5), (4, 3), (0, 3))))
    assert bound_of(figure) == pytest.approx(1.0)


def test_level_joints_are_upright_ones_of_the_figure_seen_the_other_way():
    for points in FIGURES.values():
        figure = Polygon(in_mm(points))
        mirrored = shapely.transform(figure, lambda at: at[:, ::-1])
        assert bound_of(figure, axis=1) == pytest.approx(bound_of(mirrored))


def test_a_keep_out_of_two_halves_with_a_gap_between_bars_none_there():
    """No joint at 2 but in a gap of a step and a hair, or of less: 40 x 30 ft, three through it or four."""
    figure = shapely.box(0, 0, 4 * SPAN, 3 * SPAN)

    def kept(gap):
        sides = [(1.9 * SPAN, 2 * SPAN - gap / 2), (2 * SPAN + gap / 2, 2.1 * SPAN)]
        return [shapely.box(a, SPAN, b, 1.2 * SPAN) for a, b in sides]

    assert bound_of(figure, kept(3 * SPAN / STEPS)) == pytest.approx(3 * 12)
    assert bound_of(figure, kept(0.0)) == pytest.approx(4 * 12)


@pytest.mark.parametrize("side", [-1, 1])
def test_a_keep_out_that_ends_beside_a_joint_bars_it_not(side):
    """It ends a hundredth of a span from the middle, within a step of it."""
    figure = shapely.box(0, 0, 4 * SPAN, 3 * SPAN)
    near, far = sorted(((2.0 + side * 0.01) * SPAN, (2.0 + side * 0.1) * SPAN))
    assert bound_of(figure, [shapely.box(near, SPAN, far, 1.2 * SPAN)]) == pytest.approx(3 * 12)


def test_between_two_edges_that_lean_alike_joints_are_as_long_as_anywhere():
    assert bound_of(Polygon(in_mm(((0, 0), (9, 3), (9, 8), (0, 5))))) == pytest.approx(2 * 5)


def test_two_keep_outs_one_above_the_other_bar_what_either_does():
    figure = shapely.box(0, 0, 4 * SPAN, 3 * SPAN)
    one = shapely.box(1.9 * SPAN, SPAN, 2.02 * SPAN, 1.2 * SPAN)
    other = shapely.box(1.98 * SPAN, 2 * SPAN, 2.1 * SPAN, 2.2 * SPAN)
    assert bound_of(figure, [one, other]) == pytest.approx(4 * 12)


@pytest.mark.parametrize(
    ("costs", "reaches", "least"),
    [
        ([1.0] * (STEPS + 1), 1.01, 1.0),
        ([5.0] * STEPS + [2.0], 1.01, 5.0),
        ([5.0] * STEPS + [2.0] + [7.0] * STEPS, 2.01, 7.0),
        ([2.0] + [5.0] * (2 * STEPS - 2) + [2.0], 2.0, 5.0),
        ([math.inf] * (3 * STEPS), 3.0, 0.0),
        ([math.inf] * STEPS + [1.0] * STEPS, 2.0, 0.0),
        ([1.0] * (STEPS // 2) + [math.inf] * STEPS + [1.0] * (STEPS // 2), 2.0, 0.0),
    ],
)
def test_the_shortest_choice_of_steps_by_hand(costs, reaches, least):
    """One in each reach: a step away from the end of one reach is the next; none where a reach is barred whole."""
    assert shortest_choice(np.array(costs), reaches * SPAN, SPAN / STEPS) == pytest.approx(least)


def cuts(*paths):
    return [Cut(path=feet(*path)) for path in paths]


def test_a_hall_around_a_keep_out():
    """40 x 30 ft, no joint at 20 ft: four across and two along, where joints that end on others would do with
    170 ft. Where a joint here runs through it, others may. Where one does end on another, nothing is said of those
    that run through, nor where there is no need."""
    area = KeepOut(id="K1", outline=ring((19, 12), (21, 12), (21, 18), (19, 18)))
    region = region_of(slab(box(40, 30), keep_outs=(area,)))
    along = [((0, y), (40, y)) for y in (10, 20)]
    across = [((x, 0), (x, 30)) for x in (8, 16, 24, 32)]
    found = least_lengths(region, cuts(*along, *across))
    assert found.of_through == pytest.approx(200 * MM_PER_FOOT)
    assert found.of_any == pytest.approx(170 * MM_PER_FOOT)
    tee = [((8, 0), (8, 10)), *across[1:], ((7, 10), (7, 30))]
    assert least_lengths(region, cuts(*along, *tee)).of_through == 0.0
    over = [((x, 0), (x, 30)) for x in (10, 20, 30)]
    cut = least_lengths(region, cuts(*along, *(((x, 0), (x, 30)) for x in (8, 14, 20, 30))))
    assert cut.of_through == pytest.approx(170 * MM_PER_FOOT)
    even = least_lengths(region, cuts(*along, *over))
    assert (even.of_any, even.of_through) == (pytest.approx(170 * MM_PER_FOOT), 0.0)


def test_a_corner_s_joint_runs_on_where_all_do():
    """The L of 40 x 36 ft with its corner at (22, 18), bays of 7 1/3 and 9 ft: the joint down from the corner is owed
    as far as the first it meets, and where joints run through to the edge."""
    region = region_of(slab(EL))
    across = [((x, 0), (x, 36)) for x in (22 / 3, 44 / 3)] + [((x, 0), (x, 18)) for x in (22, 31)]
    along = [((0, 9), (40, 9)), ((0, 18), (22, 18)), ((0, 27), (22, 27))]
    found = least_lengths(region, cuts(*across, *along))
    assert found.of_through == pytest.approx(192 * MM_PER_FOOT)
    assert found.of_any == pytest.approx(183 * MM_PER_FOOT)


@pytest.mark.parametrize(("large", "told"), [(2, True), (1, False)])
def test_a_part_of_too_many_trapezoids_is_left(large, told, monkeypatch):
    """A box is one of them, either way."""
    monkeypatch.setattr(through, "LARGE", large)
    assert (bound_of(shapely.box(0, 0, 9 * UNIT, 5 * UNIT)) > 0.0) is told
