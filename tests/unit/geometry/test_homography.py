"""The map between a plan and its picture, against a pinhole camera that shares no code with it."""

import itertools
import math
import random

import pytest

from kerfline.geometry.homography import goes_round, homography, seen_part
from photographs import Camera

SQUARE = [(0, 0), (1000, 0), (1000, 700), (0, 700)]


def cameras(count=40):
    """Cameras that stand anywhere before the plan, up to 60 degrees off, some rolled right over."""
    chance = random.Random(7)
    for _ in range(count):
        yield Camera(
            (chance.uniform(200, 800), chance.uniform(100, 600)),
            chance.uniform(2500, 9000),
            chance.uniform(-60, 60),
            chance.uniform(-60, 60),
            chance.uniform(-180, 180),
            (4000, 3000),
            chance.uniform(2000, 6000),
        )


def test_every_other_point_comes_to_lie_where_the_camera_saw_it():
    for camera in cameras():
        onto = homography([camera.sees(p) for p in SQUARE], SQUARE)
        for point in itertools.product((-300, 0, 120, 555, 1300), (-200, 10, 350, 900)):
            assert onto.at(camera.sees(point)) == pytest.approx(point, abs=1e-5)


def test_the_way_back():
    for camera in cameras(10):
        back = homography([camera.sees(p) for p in SQUARE], SQUARE).inverse()
        for point in ((3, 4), (500, 350), (990, 20)):
            assert back.at(point) == pytest.approx(camera.sees(point), abs=1e-5)
            assert back.depth(point) > 0


def test_a_picture_from_straight_above_keeps_parallels():
    flat = homography([(10, 90), (110, 90), (110, 20), (10, 20)], SQUARE)
    assert flat.rows[2][:2] == (0.0, 0.0)
    assert homography([(10, 90), (110, 90), (100, 20), (10, 20)], SQUARE).rows[2][:2] != (0.0, 0.0)


@pytest.mark.parametrize(
    "corners",
    [
        [(0, 0), (10, 0), (0, 10), (10, 10)],  # crossed
        [(0, 0), (10, 0), (3, 3), (0, 10)],  # bent in
        [(0, 0), (10, 0), (20, 0), (0, 10)],  # three in a line
        [(0, 0), (10, 0), (10, 0), (0, 10)],  # two are one
        [(5, 5)] * 4,
    ],
)
def test_corners_that_no_rectangle_looks_like(corners):
    assert not goes_round(corners)
    assert homography(corners, SQUARE) is None
    assert homography(SQUARE, corners) is None


def test_either_way_round():
    assert goes_round(SQUARE)
    assert goes_round(SQUARE[::-1])


def test_what_reaches_up_to_the_horizon_is_cut_off_before_it():
    """A floor that runs on to the horizon: what is shown of it ends where it is three times as far."""
    camera = Camera((500, 350), 3000, -75, 0, 0, (4000, 3000), 2500)
    onto = homography([camera.sees(p) for p in SQUARE], SQUARE)
    picture = [(0, 0), (4000, 0), (4000, 3000), (0, 3000)]
    assert min(onto.depth(p) for p in picture) < 0
    least = min(onto.depth(camera.sees(p)) for p in SQUARE) / 3
    seen = seen_part(onto, picture, least)

    assert all(math.isfinite(c) for p in seen for c in p)
    far = max(y for _, y in seen)
    # How far before the lens a point lies, by the camera's own turning.
    reach = [camera.away - (camera.turn @ ([0, y - 350, 0]))[2] for y in (far, 700)]
    assert reach[0] / reach[1] == pytest.approx(3, rel=1e-6)


def test_all_of_a_picture_that_lies_before_the_eye_is_shown():
    camera = Camera((500, 350), 9000, 20, 10, 0, (400, 300), 600)
    onto = homography([camera.sees(p) for p in SQUARE], SQUARE)
    picture = [(0, 0), (400, 0), (400, 300), (0, 300)]
    seen = seen_part(onto, picture, 1e-9)
    assert seen == [onto.at(p) for p in picture]


def test_a_picture_of_five_corners_is_cut_off_between_those_that_follow_one_another():
    """Only the first corner lies too far: the cuts are on the two sides that lead to and from it."""
    flat = homography([(0, 0), (10, 0), (9, 8), (1, 8)], [(0, 0), (10, 0), (10, 10), (0, 10)])
    picture = [(5, 30), (2, 10), (0, 0), (10, 0), (8, 10)]
    depths = [flat.depth(p) for p in picture]
    least = (depths[0] + min(depths[1:])) / 2
    assert depths[0] < least < min(depths[1:])
    seen = seen_part(flat, picture, least)
    on_sides = [flat.inverse().at(p) for p in (seen[0], seen[1])]
    for spot, other in zip(on_sides, (picture[-1], picture[1]), strict=True):
        share = (spot[1] - 10) / 20
        assert spot[0] == pytest.approx(other[0] + share * (5 - other[0]), abs=1e-6)
    assert seen[2:] == [flat.at(p) for p in picture[1:]]
