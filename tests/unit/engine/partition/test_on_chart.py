"""One piece laid out along the lines of one chart."""

from dataclasses import fields, replace
from functools import cache
from itertools import pairwise

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString, Polygon, affinity, box

from kerfline.engine.effort import Effort
from kerfline.engine.lines.candidates import CandidateLine, straight
from kerfline.engine.lines.charts import SquareChart
from kerfline.engine.options import Weights
from kerfline.engine.partition import on_chart
from kerfline.engine.partition.net import net_of
from kerfline.engine.partition.on_chart import best_of, both_families, charted, settled_on
from kerfline.engine.partition.panels import candidate_panels
from kerfline.engine.problem import Problem
from kerfline.engine.regions.features import AskingLine
from kerfline.engine.regions.region import Cut
from kerfline.geometry.span import span_of
from kerfline.model.layout import Reason, WorkingLimits
from strategies import convex_plans

SPAN = 3000.0
LIMITS = WorkingLimits(span=SPAN, aspect=1.5, width=600.0, angle=60.0)
HALL = Problem(concrete=box(0, 0, 9000, 6000), limits=LIMITS)
SKEW = Problem(concrete=Polygon([(0, 0), (9000, 0), (9600, 6000), (0, 6000)]), limits=LIMITS)


def lengths(found):
    return sum(LineString(c.path).length for c in found.cuts)


def test_a_hall_has_squares_and_the_least_joint():
    """Two joints of 6 m and one of 9 m; proven on its lines."""
    found = charted(HALL, SquareChart(), [])
    assert len(found.panels) == 6
    assert lengths(found) == pytest.approx(21_000)
    assert found.bound <= found.cost + 1e-6
    assert found.bound == pytest.approx(found.cost, rel=1e-3)


def test_a_settled_joint_is_no_cut_but_panels_end_on_it():
    found = charted(HALL, SquareChart(), [LineString([(4000, 0), (4000, 6000)])])
    assert all(p.bounds[2] <= 4000.1 or p.bounds[0] >= 3999.9 for p in found.panels)
    assert all({round(x) for x, _ in c.path} != {4000} for c in found.cuts)


def test_a_turned_chart_lays_a_turned_hall_out_the_same_way():
    turned = replace(HALL, concrete=affinity.rotate(HALL.concrete, 30, origin=(0, 0)))
    found = charted(turned, SquareChart(30.0), [])
    assert len(found.panels) == 6
    assert lengths(found) == pytest.approx(21_000, rel=1e-6)


@settings(max_examples=5)
@given(convex_plans(), st.floats(0, 45))
def test_panels_are_within_the_span_and_tile_the_piece(plan, turn):
    found = charted(Problem(concrete=plan, limits=LIMITS), SquareChart(turn), [])
    assert sum(p.area for p in found.panels) == pytest.approx(plan.area, rel=1e-6)
    assert max(span_of(p) for p in found.panels) <= SPAN + 0.3


def test_a_net_of_too_many_cells_is_left(monkeypatch):
    monkeypatch.setattr(on_chart, "MOST_CELLS", 3)
    assert charted(HALL, SquareChart(), []) is None


def test_the_same_lines_are_not_searched_again_where_they_are_remembered():
    hall = replace(HALL, tried=set())
    assert charted(hall, SquareChart(), []) is not None
    assert charted(hall, SquareChart(), []) is None
    assert charted(replace(hall, more=((2345.0,), ())), SquareChart(), []) is not None
    assert charted(hall, SquareChart(30.0), []) is not None


@pytest.mark.parametrize(("hurried", "laid"), [(True, False), (False, True)])
def test_where_little_effort_is_left_a_smaller_net_is_too_large_already(monkeypatch, hurried, laid):
    monkeypatch.setattr(on_chart, "HURRIED_CELLS", 3)
    hall = replace(HALL, effort=Effort(5.0, hurried=hurried))
    assert (charted(hall, SquareChart(), []) is not None) is laid


WALL = AskingLine(name="W1", path=LineString([(4000, 0), (4000, 6000)]), slack=50.0)
UNDER = Cut(path=((4000, 0), (4000, 6000)))
WALLED = replace(HALL, walls=(WALL,), under=(UNDER,))


def test_walls_are_chosen_along_the_frame_and_settled_on_a_turned_chart():
    assert settled_on(WALLED, SquareChart()) == (WALLED, ())
    firm, own = settled_on(WALLED, SquareChart(15.0))
    assert (firm.walls, own) == ((), (UNDER,))
    assert settled_on(HALL, SquareChart(15.0)) == (HALL, ())


def test_joints_settled_under_walls_count_in_the_layout_of_a_turned_chart():
    found = charted(WALLED, SquareChart(15.0), [])
    assert UNDER in found.cuts
    assert found.cost >= lengths(found) - 1.0


def test_the_lines_of_a_piece_symmetric_about_its_diagonal_are_images():
    square = Problem(concrete=box(0, 0, 7000, 7000), limits=LIMITS)
    firsts, seconds = both_families(square, SquareChart())
    assert [sorted(y for _, y in line.through) for line in seconds] == [
        sorted(x for x, _ in line.through) for line in firsts
    ]


def test_a_panel_over_the_span_is_divided_further():
    """Without a line the whole hall is one panel: it is halved."""
    net = net_of(HALL.concrete, SquareChart(), [], [], [])
    found = best_of(HALL, net, candidate_panels(HALL, net))
    assert max(span_of(p) for p in found.panels) <= SPAN + 0.3
    assert sum(p.area for p in found.panels) == pytest.approx(54e6)


def test_a_slanted_side_keeps_lines_parallel_to_the_others():
    found = charted(SKEW, SquareChart(), [])
    assert sum(p.area for p in found.panels) == pytest.approx(SKEW.concrete.area)
    assert all(
        min(abs(a[0] - b[0]), abs(a[1] - b[1])) < 1e-3
        for c in found.cuts
        for a, b in [(c.path[0], c.path[-1])]
    )


LENGTH_ONLY = Weights(**{f.name: float(f.name == "length_open") for f in fields(Weights)})
"""Nothing costs but a foot of joint."""


def net_at(piece, up, across, reason=Reason.SPAN):
    firsts = [CandidateLine(straight(x, 0, (-1e4, 1e5)), reason) for x in up]
    seconds = [CandidateLine(straight(y, 1, (-1e4, 1e5)), reason) for y in across]
    return net_of(piece, SquareChart(), firsts, seconds, [])


def least_joint(xs, ys, span):
    """The least joint between rectangles within a span that tile a grid, by trying every way to tile it."""

    @cache
    def rest(covered):
        todo = [
            (i, j) for i in range(len(xs) - 1) for j in range(len(ys) - 1) if (i, j) not in covered
        ]
        if not todo:
            return 0.0
        i, j = todo[0]
        best = float("inf")
        for k in range(i + 1, len(xs)):
            for m in range(j + 1, len(ys)):
                block = frozenset((a, b) for a in range(i, k) for b in range(j, m))
                wide, high = xs[k] - xs[i], ys[m] - ys[j]
                if block & covered or max(wide, high) > span:
                    continue
                best = min(best, wide + high + rest(covered | block))
        return best

    return rest(frozenset()) - (xs[-1] - xs[0]) - (ys[-1] - ys[0])


@pytest.mark.parametrize(
    ("xs", "ys", "span"),
    [
        ((0, 2800, 6000, 9000), (0, 3100, 6000), 6000),
        ((0, 3000, 6000, 9000), (0, 3000, 6000), 3000),
        ((0, 1000, 4000, 9000), (0, 2500, 6000), 5000),
        ((0, 2000, 4500, 7000, 9000), (0, 1500, 4000, 6000), 4500),
        ((0, 2200, 4400, 6800, 9000), (0, 2900, 6000), 4700),
        ((0, 4000, 5100, 9000), (0, 2000, 4100, 6000), 5000),
    ],
)
def test_the_chosen_panels_leave_the_least_joint_of_all_ways_to_tile(xs, ys, span):
    hall = replace(HALL, limits=replace(LIMITS, span=span, aspect=20.0), weights=LENGTH_ONLY)
    net = net_at(hall.concrete, xs[1:-1], ys[1:-1])
    found = best_of(hall, net, candidate_panels(hall, net))
    least = least_joint(tuple(map(float, xs)), tuple(map(float, ys)), span)
    assert found.cost == pytest.approx(least, abs=1.0)
    assert lengths(found) == pytest.approx(least, abs=1.0)
    assert found.bound == pytest.approx(least, abs=2.0)
    drawn = shapely.union_all([hall.concrete.boundary, *(LineString(c.path) for c in found.cuts)])
    faces = shapely.get_parts(shapely.polygonize([drawn]))
    assert sorted(f.area for f in faces) == pytest.approx(sorted(p.area for p in found.panels))


def test_a_line_of_a_pattern_says_so_and_any_other_is_for_the_span():
    for reason, told in ((Reason.PATTERN, "pattern"), (Reason.COLUMN, ""), (Reason.SPAN, "")):
        net = net_at(HALL.concrete, (3000, 6000), (3000,), reason)
        found = best_of(HALL, net, candidate_panels(HALL, net))
        expected = Reason.PATTERN if told else Reason.SPAN
        assert {(c.reason, c.note) for c in found.cuts} == {(expected, told)}


def test_seams_of_one_line_are_one_saw_pass():
    net = net_at(HALL.concrete, (3000, 6000), (3000,))
    found = best_of(HALL, net, candidate_panels(HALL, net))
    assert sorted(tuple(sorted(c.path)) for c in found.cuts) == [
        ((0, 3000), (9000, 3000)),
        ((3000, 0), (3000, 6000)),
        ((6000, 0), (6000, 6000)),
    ]


@pytest.mark.parametrize(("most", "laid"), [(0, False), (-1, True)])
def test_a_net_of_just_the_most_cells_is_laid_out(monkeypatch, most, laid):
    """The limit is set to the count less one, then to the count itself."""
    firsts, seconds = both_families(HALL, SquareChart())
    count = len(net_of(HALL.concrete, SquareChart(), firsts, seconds, []).cells)
    monkeypatch.setattr(on_chart, "MOST_CELLS", count - 1 - most)
    assert (charted(HALL, SquareChart(), []) is not None) is laid


def test_images_across_the_diagonal_lie_as_far_from_the_corner_of_the_box():
    """A square whose lower left corner is (1000, 3000): a line at x = 1000 + d has its image at y = 3000 + d."""
    square = Problem(concrete=box(1000, 3000, 8000, 10000), limits=LIMITS)
    firsts, seconds = both_families(square, SquareChart())
    up = [[(x - 1000, y - 3000) for x, y in line.through] for line in firsts]
    across = [[(y - 3000, x - 1000) for x, y in line.through] for line in seconds]
    assert up
    assert across == [[pytest.approx(p) for p in line] for line in up]
    assert [line.reason for line in firsts] == [line.reason for line in seconds]


def test_an_oblong_piece_has_lines_of_its_own_on_each_axis():
    firsts, seconds = both_families(HALL, SquareChart())
    assert all(0 < x < 9000 for line in firsts for x, _ in line.through)
    assert all(0 < y < 6000 for line in seconds for _, y in line.through)
    for family in (firsts, seconds):
        axis = 0 if family is firsts else 1
        places = [line.through[0][axis] for line in family]
        assert all(a < b for a, b in pairwise(places))


def test_a_hall_over_the_span_without_lines_is_halved_at_the_price_of_its_cuts():
    """No line: one panel of 9 m by 6 m, which is then divided; the cost is that of the joints alone."""
    hall = replace(HALL, weights=LENGTH_ONLY)
    net = net_at(hall.concrete, (), ())
    found = best_of(hall, net, candidate_panels(hall, net))
    assert lengths(found) == pytest.approx(found.cost)
    assert lengths(found) >= 21_000 - 1.0
    assert found.bound <= found.cost


def test_a_symmetric_hall_is_laid_out_symmetrically_though_it_takes_more_joint():
    """A span of 6 m: one joint at 6 m would do, but two, at 3 m and 6 m, are images of each other."""
    hall = replace(HALL, limits=replace(LIMITS, span=6000, aspect=20.0), weights=LENGTH_ONLY)
    net = net_at(hall.concrete, (3000, 6000), (3000,))
    found = best_of(hall, net, candidate_panels(hall, net))
    assert sorted(round(c.path[0][0]) for c in found.cuts) == [3000, 6000]
    assert found.cost == pytest.approx(12_000)
