"""Figures, points and places that are their own images."""

import numpy as np
import pytest
from shapely import Polygon, affinity

from kerfline.engine.symmetry import (
    ALONG_AXES,
    ALONG_DIAGONALS,
    are_symmetric,
    is_diagonal,
    is_mirrored,
    is_symmetric,
    matched,
    with_images,
    with_lower_images,
)

HALL = Polygon([(0, 0), (9000, 0), (9000, 6000), (0, 6000)])

FAR = 30_000.0
"""Away from the origin, so that a place does not pass for a size."""


def turned(shape, turn):
    return affinity.rotate(affinity.translate(shape, FAR, FAR / 3), turn, origin=(0.0, 0.0))


@pytest.mark.parametrize("turn", [0.0, 30.0])
def test_a_piece_is_its_own_image_in_the_directions_of_its_sides_alone(turn):
    hall = turned(HALL, turn)
    assert is_mirrored(hall, turn)
    assert is_symmetric(hall, turn, 0)
    assert is_symmetric(hall, turn, 1)
    assert not is_mirrored(hall, turn + 20)
    assert is_symmetric(hall, turn + 20, 0), "half a turn maps a rectangle on itself from anywhere"


def test_a_wedge_is_symmetric_about_one_axis_and_a_z_under_half_a_turn():
    wedge = turned(Polygon([(0, 0), (9000, 0), (6000, 4000), (3000, 4000)]), 0)
    assert (is_symmetric(wedge, 0.0, 0), is_symmetric(wedge, 0.0, 1)) == (True, False)
    leaning = turned(Polygon([(0, 0), (9000, 0), (11_000, 4000), (2000, 4000)]), 0)
    assert is_symmetric(leaning, 0.0, 0)
    assert not is_mirrored(leaning, 0.0)


@pytest.mark.parametrize("turn", [0.0, 30.0])
def test_a_square_and_an_even_corner_are_their_own_images_across_the_diagonal(turn):
    square, corner = (
        Polygon([(0, 0), (6000, 0), (6000, 6000), (0, 6000)]),
        Polygon([(0, 0), (6000, 0), (6000, 2000), (2000, 2000), (2000, 6000), (0, 6000)]),
    )
    assert is_diagonal(turned(square, turn), turn)
    assert is_diagonal(turned(corner, turn), turn)
    assert not is_diagonal(turned(HALL, turn), turn)
    uneven = Polygon([(0, 0), (6000, 0), (6000, 1500), (2000, 1500), (2000, 6000), (0, 6000)])
    assert not is_diagonal(turned(uneven, turn), turn)


@pytest.mark.parametrize(("rise", "drawn"), [(26.0, True), (27.5, False)])
def test_a_side_may_stray_by_as_much_as_plans_are_off(rise, drawn):
    """4 mm times the 30 m all around are 120,000 mm2; a side of 9 m that rises and its image are 4500 times the rise apart."""
    astray = Polygon([(0, 0), (9000, 0), (9000, 6000 + rise), (0, 6000)])
    assert is_symmetric(astray, 0.0, 0) is drawn


def test_a_square_is_diagonal_and_a_rectangle_is_not_however_little_it_is_longer():
    """6 m and 12 m: beyond 4 mm of 24 m all around."""
    assert is_diagonal(Polygon([(0, 0), (6000, 0), (6000, 6007), (0, 6007)]), 0.0)
    assert not is_diagonal(Polygon([(0, 0), (6000, 0), (6000, 6100), (0, 6100)]), 0.0)


BOX = np.array([[0.0, 9000.0], [1000.0, 7000.0]])


def test_images_are_taken_about_the_middle_of_a_box():
    """The middle is at (4500, 4000); the point lies (-3500, -2000) from it."""
    at = np.array([[1000.0, 2000.0]])
    found = [flip.of(at, BOX).tolist()[0] for flip in (*ALONG_AXES, *ALONG_DIAGONALS)]
    assert found == [[8000, 2000], [1000, 6000], [8000, 6000], [2500, 500], [6500, 7500]]


@pytest.mark.parametrize(("off", "found"), [(30.0, [1, 0, 2]), (30.1, None)])
def test_points_are_matched_with_what_lies_within_30_mm_of_their_images(off, found):
    points = np.array([[1000.0, 2000.0], [8000.0 + off, 2000.0], [4500.0, 5000.0]])
    assert matched(points, ALONG_AXES[0], BOX) == found


def test_two_points_are_never_matched_with_one():
    points = np.array([[1000.0, 2000.0], [1010.0, 2000.0], [8000.0, 2000.0]])
    assert matched(points, ALONG_AXES[0], BOX) is None


@pytest.mark.parametrize(
    ("places", "symmetric"),
    [
        ([], True),
        ([4500.0], True),
        ([1000.0, 8030.0], True),
        ([1000.0, 8031.0], False),
        ([8000.0, 3000.0, 1000.0, 6000.0], True),
        ([1000.0, 3000.0, 8000.0], False),
    ],
)
def test_places_are_symmetric_where_each_has_its_image_within_30_mm(places, symmetric):
    assert are_symmetric(places, (0.0, 9000.0)) is symmetric


ENDS = (1000.0, 8000.0)


def test_the_lower_half_decides():
    """The middle is at 4500; what lies within 30 mm of it stays."""
    assert with_lower_images([2000.0, 6000.0], ENDS) == [2000.0, 7000.0]
    assert with_lower_images([4530.0], ENDS) == [4530.0]
    assert with_lower_images([4531.0], ENDS) == []
    assert with_lower_images([4469.0], ENDS) == [4469.0, 4531.0]


def test_each_place_comes_with_its_image_once():
    assert with_images([2000.0, 6000.0], ENDS) == [2000.0, 7000.0, 6000.0, 3000.0]
    assert with_images([2000.0, 7030.0], ENDS) == [2000.0, 7000.0]
    assert with_images([4486.0], ENDS) == [4486.0]
    assert with_images([4484.0], ENDS) == [4484.0, 4516.0]
