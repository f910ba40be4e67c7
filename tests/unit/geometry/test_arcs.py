"""Arcs of one circle brought together."""

import math

import pytest

from kerfline.geometry.arcs import arc_runs, paired_arcs
from kerfline.geometry.ring import Arc


def arc(start, sweep, radius=1000.0, centre=(0.0, 0.0)):
    return Arc(centre, radius, start, sweep)


def test_pieces_run_either_way_are_one_arc():
    (run,) = arc_runs([arc(0, 30), arc(60, -30), arc(60, 30)], 0.5)
    assert (run.arc.start, run.arc.sweep) == pytest.approx((0, 90))
    assert run.pieces == (0, 1, 2)
    assert run.gap == pytest.approx(0, abs=1e-9)


def test_pieces_across_the_start_of_the_circle_are_one_arc():
    (run,) = arc_runs([arc(350, 10), arc(0, 20), arc(20, 10)], 0.5)
    assert run.arc.start == pytest.approx(350)
    assert run.arc.sweep == pytest.approx(40)


def test_pieces_all_round_are_a_circle():
    (run,) = arc_runs([arc(a, 90) for a in (0, 90, 180, 270)], 0.5)
    assert run.arc.sweep == pytest.approx(360)


def test_dashes_are_one_arc_and_far_pieces_are_not():
    dashed = [arc(a, 4) for a in range(0, 90, 6)]
    (run,) = arc_runs(dashed, 0.5, 450)
    assert run.gap == pytest.approx(math.radians(2) * 1000)
    assert len(arc_runs(dashed, 0.5)) == 15


def test_other_circles_stay_apart():
    assert (
        len(arc_runs([arc(0, 90), arc(90, 90, radius=1100), arc(90, 90, centre=(50, 0))], 0.5)) == 3
    )
    assert arc_runs([], 1) == []


@pytest.mark.parametrize(("sweep", "pairs"), [(40, 0), (46, 1), (90, 1)])
def test_arcs_that_face_along_half_of_the_longer_are_a_strip(sweep, pairs):
    strips = paired_arcs([arc(0, 90), arc(0, sweep, radius=1200)], 100, 300, 0.5)
    assert len(strips) == pairs
    for strip in strips:
        assert (strip.thickness, strip.middle.radius) == (200, 1100)
        assert (strip.middle.start, strip.middle.sweep) == pytest.approx((0, sweep))


def test_a_strip_starts_where_both_of_its_arcs_do():
    (strip,) = paired_arcs([arc(350, 90), arc(10, 90, radius=1200)], 100, 300, 0.5)
    assert strip.middle.start % 360 == pytest.approx(10)
    assert strip.middle.sweep == pytest.approx(70)


@pytest.mark.parametrize(("least", "most", "pairs"), [(200, 200, 1), (201, 300, 0), (100, 199, 0)])
def test_a_strip_keeps_to_its_thickness(least, most, pairs):
    assert len(paired_arcs([arc(0, 90), arc(0, 90, radius=1200)], least, most, 0.5)) == pairs
