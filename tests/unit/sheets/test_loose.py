"""Which points of a line the running dimensions do not hold."""

import pytest
import shapely
from shapely import LineString

from kerfline.sheets.baselines import Baselines
from kerfline.sheets.edges import form_edges
from kerfline.sheets.loose import FACE, SQUARED, Faces, faces_of, loose_points, on_running

BASE = Baselines(origin=(0, 0), turn=0.0, corner=True)
BOTH = Faces(left=True, lower=True)
FAR = 9000.0


def at(line, faces=BOTH, base=BASE):
    return [point.at for point in loose_points(LineString(line), base, faces)]


def test_square_lines_are_held_by_the_faces_that_they_are_measured_from():
    assert at([(FAR, 0), (FAR, 6000)]) == []
    assert at([(0, FAR), (6000, FAR)]) == []
    assert at([(FAR, FAR), (FAR, 12000)], Faces(left=False, lower=True)) == [
        (FAR, FAR),
        (FAR, 12000),
    ]


def test_slanting_lines_want_a_tape_at_both_ends():
    assert at([(4000, 0), (FAR, 6000)]) == [(4000, 0), (FAR, 6000)]


def test_a_knee_on_a_held_leg_is_found_along_it():
    points = list(loose_points(LineString([(FAR, 0), (FAR, 3000), (FAR + 3000, 5000)]), BASE, BOTH))
    assert [p.at for p in points] == [(FAR, 3000), (FAR + 3000, 5000)]
    assert points[0].along == (0.0, 1.0)
    assert points[1].along is None


def test_of_a_curve_only_the_ends_are_taped():
    curve = [(0, 0), (2000, 100), (4000, 400), (6000, 900), (8000, 1600)]
    assert at(curve) == [curve[0], curve[-1]]
    assert len(at(curve[:4])) == 4, "two knees are knees"


@pytest.mark.parametrize(("x", "loose"), [(SQUARED, 0), (SQUARED + 1, 1)])
def test_a_short_square_line_is_squared_off_the_face_that_it_starts_on(x, loose):
    """Level lines are held by the lower face; where that is none, from the left face on up to 8 ft."""
    only_left = Faces(left=True, lower=False)
    assert len(at([(0, FAR), (x, FAR)], only_left)) == loose


def test_a_face_is_an_edge_of_two_feet_at_least():
    def faces(length):
        shape = shapely.Polygon([(0, 0), (length, 0), (length, 9000), (length / 2, 9500)])
        return faces_of(form_edges(shape), BASE)

    assert faces(FACE).lower
    assert not faces(FACE - 1).lower


def test_points_on_a_baseline_are_in_the_running_dimensions():
    (first, second) = loose_points(LineString([(4000, 0), (FAR, 6000)]), BASE, BOTH)
    assert on_running(first, BASE)
    assert not on_running(second, BASE)
    assert not on_running(first, Baselines(origin=(0, 0), turn=0.0, corner=False))
