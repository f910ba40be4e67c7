"""Straight stretches of a line, and what lies along them."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString

from kerfline.checks.along import Run, left_of, merged, runs_of

LEVEL = Run(start=(1000.0, 500.0), way=(1.0, 0.0), length=4000.0)


def beside(*points, half=50.0):
    return [(b.start, b.end, b.off) for b in LEVEL.alongside(LineString(points), half)]


def test_a_place_along_and_across_comes_back_to_itself():
    """3, 4, 5: ten along and five to the left of a stretch that runs up."""
    run = Run(start=(100.0, 200.0), way=(0.6, 0.8), length=1000.0)
    assert run.at(10, 5) == pytest.approx((102, 211))
    assert run.local((102, 211)) == pytest.approx((10, 5))
    assert run.line.length == pytest.approx(1000)


@given(st.floats(-1e4, 1e4), st.floats(-1e4, 1e4), st.floats(0, 2 * math.pi))
def test_along_and_across_are_a_turn_and_nothing_else(along, across, turn):
    run = Run(start=(7.0, -3.0), way=(math.cos(turn), math.sin(turn)), length=1.0)
    assert run.local(run.at(along, across)) == pytest.approx((along, across), abs=1e-6)


@pytest.mark.parametrize(
    ("points", "found"),
    [
        (((2000, 500), (3000, 500)), [(1000, 2000, 0)]),
        (((3000, 510), (2000, 510)), [(1000, 2000, 10)]),
        (((0, 500), (9000, 500)), [(0, 4000, 0)]),
        (((2000, 550), (3000, 550)), [(1000, 2000, 50)]),
        (((2000, 551), (3000, 551)), []),
        (((5000, 500), (9000, 500)), []),
        (((2000, 0), (2000, 1000)), []),
        (((2000, 500), (2000.005, 500)), []),
    ],
)
def test_a_level_line_lies_along_within_half_the_strip_and_between_the_ends(points, found):
    assert beside(*points) == found


def test_a_leaning_line_lies_along_as_far_as_it_is_in_the_strip():
    """One in ten: it leaves a strip of 50 mm after 500 mm, 50 mm off."""
    assert beside((2000, 500), (4000, 700)) == [pytest.approx((1000, 1500, 50))]


def test_off_is_the_greatest_distance_of_a_line_that_crosses_over():
    """From 20 mm on one side to 40 on the other."""
    assert beside((2000, 480), (3000, 540)) == [pytest.approx((1000, 2000, 40))]


@pytest.mark.parametrize(("degrees", "along"), [(19.9, True), (20.1, False)])
def test_a_line_that_turns_more_than_20_degrees_lies_across(degrees, along):
    rise = 1000 * math.tan(math.radians(degrees))
    assert bool(beside((2000, 500), (3000, 500 + rise))) is along


def test_a_bent_line_lies_along_by_each_of_its_segments():
    found = beside((1500, 500), (2000, 500), (2000, 900), (2500, 900), (2500, 520), (3000, 520))
    assert found == [(500, 1000, 0), (1500, 2000, 20)]


def test_the_stretches_of_a_path_leave_out_points_drawn_twice():
    runs = runs_of(((0, 0), (3, 4), (3, 4), (3, 10)))
    assert [(r.start, r.way, r.length) for r in runs] == [
        ((0, 0), (0.6, 0.8), 5),
        ((3, 4), (0, 1), 6),
    ]


@pytest.mark.parametrize(
    ("spans", "found"),
    [
        ([], []),
        ([(5, 9), (0, 3)], [(0, 3), (5, 9)]),
        ([(0, 3), (4, 9)], [(0, 9)]),
        ([(0, 3), (4.01, 9)], [(0, 3), (4.01, 9)]),
        ([(0, 9), (2, 5), (3, 12)], [(0, 12)]),
    ],
)
def test_stretches_that_touch_within_a_millimetre_are_one(spans, found):
    assert merged(spans) == found


@pytest.mark.parametrize(
    ("taken", "found"),
    [
        ([], [(0, 100)]),
        ([(20, 30), (60, 70)], [(0, 20), (30, 60), (70, 100)]),
        ([(-10, 20), (90, 200)], [(20, 90)]),
        ([(-10, 200)], []),
        ([(-20, 0), (100, 120)], [(0, 100)]),
        ([(0.5, 99.4)], [(99.4, 100)]),
        ([(0.4, 99.6)], []),
    ],
)
def test_what_is_left_of_a_stretch_when_others_are_taken_out(taken, found):
    assert left_of((0, 100), taken) == [pytest.approx(f) for f in found]


@given(st.lists(st.tuples(st.floats(0, 1000), st.floats(0, 1000)).map(sorted), max_size=6))
def test_what_is_taken_and_what_is_left_make_the_whole_but_for_half_millimetres(spans):
    taken = merged((a, b) for a, b in spans)
    left = left_of((0.0, 1000.0), taken)
    total = sum(b - a for a, b in (*taken, *left))
    assert total == pytest.approx(1000, abs=0.5 * (len(taken) + 1) + 1e-6)
