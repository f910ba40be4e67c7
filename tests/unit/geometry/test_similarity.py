"""The fit of a plan to the ground, against numpy's own least squares and singular values."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from kerfline.geometry.similarity import fit

coordinate = st.integers(-200_000, 200_000).map(float)
points = st.lists(st.tuples(coordinate, coordinate), min_size=2, max_size=8, unique=True)
noise = st.floats(-20, 20)


def moved(point, turn, shift, scale=1.0):
    c, s = math.cos(turn) * scale, math.sin(turn) * scale
    return (shift[0] + c * point[0] - s * point[1], shift[1] + s * point[0] + c * point[1])


def spread(plan) -> float:
    return float(np.ptp(np.asarray(plan), axis=0).max())


@given(points, st.floats(-4, 4), st.tuples(st.floats(-6e9, 6e9), st.floats(-6e9, 6e9)))
def test_an_exact_motion_is_found_and_undone(plan, turn, shift):
    found = fit(plan, [moved(p, turn, shift) for p in plan])
    assert found is not None
    assert found.largest < 1e-5
    for point in ((0.0, 0.0), (123_456.0, -98_765.4)):
        # Two points a millimetre apart turn a far one by what their own coordinates cannot hold.
        slack = 1e-5 + 1e-5 * 3e5 / spread(plan)
        there = found.similarity.to_site(point)
        assert math.dist(there, moved(point, turn, shift)) < slack
        assert math.dist(found.similarity.to_plan(there), point) < 1e-4


@given(points, st.floats(-3, 3), st.data())
def test_as_the_rigid_motion_by_singular_values(plan, turn, data):
    """The oracle: the turn of least squares from the singular values of the cross-covariance."""
    site = [moved(p, turn, (data.draw(noise), data.draw(noise))) for p in plan]
    found = fit(plan, site)
    p, q = np.asarray(plan), np.asarray(site)
    cross = (p - p.mean(axis=0)).T @ (q - q.mean(axis=0))
    u, values, vt = np.linalg.svd(cross)
    flip = np.diag([1.0, np.sign(np.linalg.det(vt.T @ u.T))])
    turned = vt.T @ flip @ u.T
    if found is None or values[0] - abs(values[1]) < 1e-6 * values[0]:
        return
    expected = (p - p.mean(axis=0)) @ turned.T + q.mean(axis=0)
    laid = np.asarray([found.similarity.to_site(point) for point in plan])
    assert laid == pytest.approx(expected, abs=1e-4)
    assert found.similarity.scale == pytest.approx(1.0, abs=1e-12)


@given(points, st.floats(-3, 3), st.floats(0.9, 1.1), st.data())
def test_as_the_four_parameters_by_least_squares(plan, turn, scale, data):
    """The oracle: the design matrix of the four parameters solved by numpy."""
    site = [moved(p, turn, (data.draw(noise), data.draw(noise)), scale) for p in plan]
    found = fit(plan, site, None)
    assert found is not None
    design = np.asarray([row for x, y in plan for row in ((x, -y, 1, 0), (y, x, 0, 1))])
    parameters, *_ = np.linalg.lstsq(design, np.asarray(site).ravel(), rcond=None)
    expected = (design @ parameters).reshape(-1, 2)
    laid = np.asarray([found.similarity.to_site(point) for point in plan])
    assert laid == pytest.approx(expected, abs=1e-3)


def test_a_held_scale_is_held():
    found = fit([(0, 0), (10_000, 0)], [(0, 0), (0, 10_004)], 0.9996)
    assert found is not None
    assert found.similarity.scale == pytest.approx(0.9996, abs=1e-15)
    # 10 004 - 9 996 = 8 mm, half of it at either end.
    assert found.residuals[0] == pytest.approx((0, -4))
    assert found.residuals[1] == pytest.approx((0, 4))
    assert found.largest == pytest.approx(4)


@pytest.mark.parametrize(
    ("plan", "site"),
    [([(0, 0)], [(1, 1)]), ([(1, 1), (1, 1)], [(0, 0), (5, 0)]), ([(0, 0), (5, 0)], [(1, 1)] * 2)],
)
def test_points_in_one_place_tell_no_turn(plan, site):
    assert fit(plan, site) is None


def test_a_plan_drawn_at_half_its_size_is_brought_to_the_ground_and_back():
    plan = [(0.0, 0.0), (4000.0, 0.0), (4000.0, 3000.0)]
    found = fit(plan, [moved(p, 0.7, (1e6, -2e6), 2.0) for p in plan], scale=None)
    for point in ((0.0, 0.0), (1200.0, -3400.0)):
        there = found.similarity.to_site(point)
        assert math.dist(there, moved(point, 0.7, (1e6, -2e6), 2.0)) < 1e-5
        assert math.dist(found.similarity.to_plan(there), point) < 1e-5
