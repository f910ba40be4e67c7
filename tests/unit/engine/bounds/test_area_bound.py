"""The bound by area and perimeter: its constant, and floors of full squares."""

import numpy as np
import pytest
import shapely

from kerfline.engine.bounds.area_bound import SQUARE, least_length

SPAN = 3000.0


def rounded_square(radius):
    """A square of side one with its corners rounded."""
    return shapely.box(radius, radius, 1 - radius, 1 - radius).buffer(radius, quad_segs=256)


def test_the_constant_is_that_of_the_best_rounding_of_a_square():
    """Kawohl and Lachand-Robert: of all figures in a square the least perimeter for its area has the square
    with round corners, of the radius one over that constant."""
    radii = np.linspace(0.01, 0.49, 481)
    figures = [rounded_square(r) for r in radii]
    ratios = [f.length / f.area for f in figures]
    assert min(ratios) == pytest.approx(SQUARE, rel=1e-4)
    assert radii[int(np.argmin(ratios))] == pytest.approx(1 / SQUARE, abs=2e-3)


@pytest.mark.parametrize(("across", "up"), [(2, 2), (3, 1), (8, 5), (100, 60)])
def test_no_more_than_the_joints_of_full_squares(across, up):
    """A floor of full squares has the least length that squares can have; the bound stays below it."""
    floor = shapely.box(0, 0, across * SPAN, up * SPAN)
    joints = ((across - 1) * up + (up - 1) * across) * SPAN
    assert least_length(floor, SPAN) <= joints


def test_within_six_percent_of_the_squares_of_a_vast_floor():
    """(2 + sqrt(pi)) / 4 = 0.943."""
    floor = shapely.box(0, 0, 1000 * SPAN, 1000 * SPAN)
    assert least_length(floor, SPAN) == pytest.approx(0.943 * 2 * 999 * 1000 * SPAN, rel=1e-3)


def test_a_single_panel_needs_no_joint():
    assert least_length(shapely.box(0, 0, SPAN, SPAN), SPAN) == 0.0
