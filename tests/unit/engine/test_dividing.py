"""Concrete divided without a chart: by halves until every panel is within the span, and large pieces in parts."""

import math

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString, Polygon, affinity, box

from kerfline.engine.dividing import halve, parts_of
from kerfline.engine.lines.charts import SquareChart
from kerfline.engine.problem import Problem
from kerfline.engine.regions.features import AskingLine
from kerfline.geometry.span import span_of
from kerfline.model.layout import WorkingLimits
from strategies import convex_plans

SPAN = 3000.0
LIMITS = WorkingLimits(span=SPAN, aspect=1.5, width=600.0, angle=60.0)
ELL = Polygon([(0, 0), (6000, 0), (6000, 3000), (3000, 3000), (3000, 6000), (0, 6000)])


def halved(piece, **more):
    return halve(Problem(concrete=piece, limits=LIMITS, **more), piece)


def lengths(found):
    return sum(LineString(c.path).length for c in found.cuts)


def test_a_panel_within_the_span_stays_whole():
    found = halved(box(0, 0, 3000, 2500))
    assert (len(found.panels), found.cuts) == (1, ())


@pytest.mark.parametrize(
    ("wide", "count"), [(3000, 1), (3000.2, 1), (3000.3, 2), (4500, 2), (6001, 3)]
)
def test_a_strip_is_cut_into_the_fewest_panels_within_the_span(wide, count):
    """A quarter of a millimetre over is still within it."""
    found = halved(box(0, 0, wide, 2000))
    assert len(found.panels) == count
    assert lengths(found) == pytest.approx(2000 * (count - 1))


def test_an_ell_is_cut_at_its_corner():
    found = halved(ELL)
    assert sum(p.area for p in found.panels) == pytest.approx(ELL.area)
    assert any(LineString(c.path).distance(shapely.Point(3000, 3000)) < 1e-6 for c in found.cuts)
    assert all(len(p.exterior.coords) == 5 for p in found.panels)


def test_no_cut_runs_through_a_barred_area_where_there_is_another_way():
    """A keep-out over the middle of a strip: the cuts go beside it."""
    barred = box(2900, 0, 3100, 2500)
    found = halved(box(0, 0, 6000, 2500), barred=barred)
    assert all(LineString(c.path).intersection(barred).length == 0 for c in found.cuts)
    assert max(span_of(p) for p in found.panels) <= SPAN + 0.25


@settings(max_examples=6)
@given(convex_plans(), st.floats(0, 360))
def test_every_panel_comes_within_the_span_and_they_tile_the_piece(plan, turn):
    small = affinity.scale(plan, 0.5, 0.5, origin=(0, 0))
    piece = affinity.rotate(small, turn, origin=(0, 0))
    found = halved(piece)
    assert max(span_of(p) for p in found.panels) <= SPAN + 0.25
    assert sum(p.area for p in found.panels) == pytest.approx(piece.area, rel=1e-6)
    assert found.cost >= lengths(found) - 1e-6


@pytest.mark.parametrize("turn", [17.0, 133.0, 90.0])
def test_a_turned_piece_takes_as_much_joint(turn):
    plain = halved(box(0, 0, 5000, 4000))
    found = halved(affinity.rotate(box(0, 0, 5000, 4000), turn, origin=(0, 0)))
    assert lengths(found) == pytest.approx(lengths(plain), rel=1e-6)


def parts(piece, most=math.inf, **more):
    return parts_of(Problem(concrete=piece, limits=LIMITS, **more), SquareChart(), most)


LARGEST = 36 * SPAN**2
"""36 squares of the span are solved in one go."""


def test_what_is_solved_in_one_go_is_one_part():
    side = math.sqrt(LARGEST)
    assert parts(box(0, 0, side, side)) == ([box(0, 0, side, side)], [])
    done, cuts = parts(box(0, 0, side, side + 10))
    assert len(done) == 2
    assert len(cuts) == 1


@pytest.mark.parametrize("most", [math.inf, 100e6, 60e6])
def test_parts_are_no_larger_than_asked_and_tile_the_piece(most):
    piece = box(0, 0, 30_000, 20_000)
    done, cuts = parts(piece, most)
    assert max(p.area for p in done) <= min(most, LARGEST) + 1
    assert sum(p.area for p in done) == pytest.approx(piece.area)
    assert len(cuts) == len(done) - 1
    assert min(p.area for p in done) >= 0.2 * min(most, LARGEST) / 2


def test_a_dividing_line_leaves_a_fifth_on_either_side_and_prefers_the_middle():
    done, _ = parts(box(0, 0, 30_000, 15_000), 300e6)
    assert [p.area for p in done] == pytest.approx([225e6, 225e6], rel=0.15)


def test_many_walls_make_a_piece_too_much_for_one_go():
    side = math.sqrt(0.6 * LARGEST)
    piece = box(0, 0, side, side)
    walls = tuple(
        AskingLine(name=f"W{n}", path=LineString([(500 * n, 0), (500 * n, side)]), slack=50.0)
        for n in range(1, 21)
    )
    assert len(parts(piece)[0]) == 1
    assert len(parts(piece, walls=walls)[0]) == 2


def test_the_strips_of_walls_are_united_once_for_all_dividing_lines(monkeypatch):
    def united(count):
        walls = tuple(
            AskingLine(name=f"W{n}", path=LineString([(9000 * n, 0), (9000 * n, 9000)]), slack=50.0)
            for n in range(1, count + 1)
        )
        bands, real, looked = {id(w.band) for w in walls}, shapely.union_all, []

        def counted(shapes, **more):
            looked.extend(s for s in shapes if id(s) in bands)
            return real(shapes, **more)

        with monkeypatch.context() as patch:
            patch.setattr(shapely, "union_all", counted)
            parts(box(0, 0, 9000 * (count + 1), 9000), walls=walls)
        return len(looked)

    assert (united(4), united(8)) == (4, 8)
