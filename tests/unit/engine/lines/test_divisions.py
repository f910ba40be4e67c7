"""Further candidate lines where panels came out too long or too narrow."""

import pytest
import shapely
from shapely import LineString, Polygon
from shapely.geometry import box

from kerfline.engine.lines.charts import RoundChart, SquareChart
from kerfline.engine.lines.divisions import (
    FreeSpan,
    _pooled,
    _rows,
    divided,
    extent,
    free_spans,
    mending_places,
)
from kerfline.engine.measure.cost import Cost
from kerfline.engine.measure.shape import shape_of
from kerfline.engine.options import Weights
from kerfline.engine.problem import Problem
from kerfline.model.layout import WorkingLimits

LIMITS = WorkingLimits(span=4500.0, aspect=1.5, width=600.0, angle=60.0)


def places(*panels):
    boxes = [p.bounds for p in panels]
    limit = Cost(weights=Weights(), working=LIMITS, advised=LIMITS)
    poor = [not limit.keeps(shape_of(p, LIMITS.angle)) for p in panels]
    return mending_places(boxes, poor, LIMITS)


def test_fair_panels_ask_for_nothing():
    assert places(box(0, 0, 3000, 3000), box(3000, 0, 6000, 3000)) == ((), ())


def test_a_panel_that_is_too_long_is_divided_by_as_few_lines_as_its_aspect_asks_and_one_more():
    assert places(box(0, 0, 4200, 1000)) == (pytest.approx((1050, 1400, 2100, 2800, 3150)), ())


def test_the_place_that_most_panels_ask_for_comes_first():
    """One asks for thirds and quarters, and another, a row away and shorter, for halves and thirds."""
    firsts, _ = places(box(0, 0, 4200, 1000), box(0, 5000, 2100, 6000))
    assert firsts == pytest.approx((1050, 1400, 700, 2100, 2800, 3150))


def test_a_narrow_panel_is_divided_evenly_together_with_the_one_beside_it():
    firsts, seconds = places(box(0, 0, 500, 700), box(500, 0, 3500, 3000))
    assert firsts == (1750.0,)
    assert seconds == ()


def test_panels_that_only_touch_at_a_corner_are_not_beside_one_another():
    assert places(box(0, 0, 500, 700), box(500, 700, 3500, 3500)) == ((), ())


@pytest.mark.parametrize(("gap", "beside"), [(30.0, True), (31.0, False)])
def test_panels_up_to_30_mm_apart_are_beside_one_another(gap, beside):
    """From 0 to 3500 + gap, halved: the narrow one takes half of both."""
    firsts, _ = places(box(0, 0, 500, 700), box(500 + gap, 0, 3500 + gap, 3000))
    assert firsts == ((pytest.approx((3500 + gap) / 2),) if beside else ())


@pytest.mark.parametrize(("low", "beside"), [(349.0, True), (350.0, False)])
def test_panels_are_beside_one_another_along_most_of_the_narrower(low, beside):
    """A poor one 700 mm high: more than 350 of them must be common."""
    firsts, _ = places(box(0, 0, 500, 700), box(500, low, 3500, low + 3000))
    assert bool(firsts) is beside


def test_mending_a_turned_layout_gives_the_turned_places():
    panels = box(0, 0, 4200, 1000), box(4200, 0, 7200, 1000), box(0, 1000, 500, 1700)
    turned = [box(*(p.bounds[n] for n in (1, 0, 3, 2))) for p in panels]
    firsts, seconds = places(*panels)
    assert places(*turned) == (seconds, firsts)
    assert firsts != seconds


def test_a_long_panel_too_narrow_for_bays_of_the_least_width_is_not_divided():
    """Across 100 mm the aspect is that of the least width, 900 mm: two bays, of 600 mm at least; three are too many."""
    assert places(box(0, 0, 1200, 100))[0] == (600.0,)
    assert places(box(0, 0, 1199, 100))[0] == ()


EL = Polygon([(0, 0), (7000, 0), (7000, 2000), (3000, 2000), (3000, 5000), (0, 5000)])


def on(piece):
    return Problem(concrete=piece, limits=LIMITS)


@pytest.mark.parametrize(
    ("axis", "spans"),
    [
        (0, [(0, 3000, 3000, 5000), (0, 7000, 2000, 2000)]),
        (1, [(0, 2000, 4000, 7000), (0, 5000, 3000, 3000)]),
    ],
)
def test_each_row_between_corners_has_its_free_span(axis, spans):
    """(low, high, height, clear): the clear height is that of the concrete at the span's middle."""
    assert free_spans(on(EL), SquareChart(), axis, []) == [FreeSpan(*span) for span in spans]


def test_an_opening_parts_a_row_in_two_spans():
    holed = box(0, 0, 9000, 6000) - box(3000, 2000, 5000, 4000)
    found = free_spans(on(holed), SquareChart(), 0, [])
    assert [(s.low, s.high, s.height, s.clear) for s in found] == [
        (0, 3000, 2000, 6000),
        (0, 9000, 4000, 2000),
        (5000, 9000, 2000, 6000),
    ]


@pytest.mark.parametrize(
    ("levels", "rows"),
    [
        ([0, 300], [(0, 300)]),
        ([0, 299], []),
        ([0, 299, 700], [(0, 700)]),
        ([700, 0, 300], [(0, 300), (300, 700)]),
        ([5], []),
    ],
)
def test_rows_lower_than_300_mm_are_joined_to_the_next(levels, rows):
    assert _rows(levels) == rows


@pytest.mark.parametrize(("off", "count"), [(59.0, 1), (60.0, 2)])
def test_spans_whose_ends_differ_by_less_than_60_mm_are_one(off, count):
    for second in (FreeSpan(off, 9000, 500, 3000), FreeSpan(0, 9000 + off, 500, 3000)):
        found = _pooled([FreeSpan(0, 9000, 1000, 2000), second])
        assert len(found) == count
        assert sum(span.height for span in found) == 1500
        assert max(span.clear for span in found) == 3000


def test_a_span_is_divided_by_the_fewest_bays_with_three_times_the_weight_of_one_more():
    """Twice the height of 1000 for a whole span: 6000 for the half, 2000 for the thirds."""
    found = divided(FreeSpan(0, 9000, 1000, 6000), [], LIMITS)
    assert found == [(4500, 6000), (3000, 2000), (6000, 2000)]


def test_the_parts_beside_a_taken_line_are_divided_too_with_half_the_weight():
    """At 3000: 3 m by one bay or two, 6 m by two or three."""
    found = set(divided(FreeSpan(0, 9000, 1000, 6000), [3000], LIMITS))
    whole = {(4500, 6000), (3000, 2000), (6000, 2000)}
    assert found - whole == {(1500, 1000), (6000, 3000), (5000, 1000), (7000, 1000)}


@pytest.mark.parametrize(("taken", "parts"), [(1.0, False), (1.5, True), (8999.0, False)])
def test_a_line_within_1_mm_of_an_end_parts_nothing(taken, parts):
    span = FreeSpan(0, 9000, 1000, 6000)
    assert (divided(span, [taken], LIMITS) != divided(span, [], LIMITS)) is parts


@pytest.mark.parametrize(
    ("clear", "counts"),
    [(599.0, {2, 3}), (600.0, {2, 11, 12}), (1000.0, {2, 7, 8}), (4500.0, {2, 3})],
)
def test_the_bays_of_a_corridor_follow_its_width(clear, counts):
    """9 m at 1.5 x 0.95 = 1.425 of the clear height: 8999.5 / 855 = 10.5 and 8999.5 / 1425 = 6.3 bays."""
    found = divided(FreeSpan(0, 9000, 1000, clear), [], LIMITS)
    assert len(found) == sum(n - 1 for n in counts)
    assert {round(9000 / at) for at, _ in found if at <= 4500} >= counts


@pytest.mark.parametrize(("size", "found"), [(1200.0, [600.0]), (1199.0, [])])
def test_no_bay_is_narrower_than_the_least_width(size, found):
    assert [at for at, _ in divided(FreeSpan(0, size, 1000, 6000), [], LIMITS)] == found


def test_the_extent_of_a_ring_is_all_the_way_around_and_of_half_a_ring_half():
    chart = RoundChart((0.0, 0.0), 5000.0, 0.0)
    ring = shapely.Point(0, 0).buffer(5000, quad_segs=30) - shapely.Point(0, 0).buffer(3500)
    assert extent(ring, chart, 0) == (0.0, chart.round)
    half = ring & box(-6000, 0, 6000, 6000)
    low, high = extent(half, chart, 0)
    assert (low, high) == pytest.approx((0.0, chart.round / 2), abs=1.0)
    assert extent(LineString([(4000, 0), (4500, 0)]), chart, 1) == pytest.approx((4000, 4500))
