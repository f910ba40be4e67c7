"""Where cuts end: on what, at which angle, and a hair beyond it."""

import pytest
from shapely import LineString

from kerfline.engine.cut_ends import HAIR, arrival, overshot, tangent, under

EDGE = LineString([(0, 0), (4000, 0)])
FAR = LineString([(0, 900), (4000, 900)])


def test_a_path_reaches_a_hair_beyond_both_ends():
    (x0, y0), (x1, y1) = overshot(((0.0, 0.0), (3000.0, 4000.0)))
    assert (x0, y0) == pytest.approx((-0.6 * HAIR, -0.8 * HAIR))
    assert (x1, y1) == pytest.approx((3000 + 0.6 * HAIR, 4000 + 0.8 * HAIR))


def test_an_end_stops_on_the_line_that_it_touches_or_on_none():
    assert under([FAR, EDGE], (1000.0, 0.0)) is EDGE
    assert under([FAR, EDGE], (1000.0, 400.0)) is None


@pytest.mark.parametrize(
    ("inner", "angle"), [((1000, 700), 90.0), ((300, 700), 45.0), ((1700, 700), 45.0)]
)
def test_a_joint_arrives_at_the_angle_between_it_and_what_it_stops_on(inner, angle):
    assert arrival([EDGE], inner, (1000.0, 0.0)) == pytest.approx(angle)


def test_in_the_open_there_is_no_arrival():
    assert arrival([EDGE], (1000.0, 900.0), (1000.0, 400.0)) is None


def test_a_bent_line_runs_as_its_own_stretch_does():
    bent = LineString([(0, 0), (1000, 0), (1000, 1000)])
    assert tangent(bent, (1000.0, 600.0)) == pytest.approx((0.0, 1.0))
