"""Paths of straight and arc segments."""

import math

import pytest

from kerfline.geometry.paths import Path, Segment, tidy


def test_a_closed_path_returns_to_its_start():
    path = Path(((0, 0), (10, 0), (10, 10)), (0, 0, 1), closed=True)
    assert list(path.segments())[-1] == Segment((10, 10), (0, 0), 1)
    assert path.end == path.start
    assert path.coordinates[0] == path.coordinates[-1]


@pytest.mark.parametrize("closed", [True, False])
def test_the_same_curve_run_the_other_way(closed):
    path = Path(((0, 0), (10, 0), (10, 10), (0, 10)), (0.5, 0, -1, 0.3 if closed else 0), closed)
    back = path.reversed()
    assert back.length == pytest.approx(path.length)
    assert back.line.equals(path.line) or back.line.hausdorff_distance(path.line) < 1e-9
    assert back.reversed() == path


def test_repeated_points_go_and_ends_that_coincide_close():
    path = tidy(Path(((0, 0), (0, 0), (10, 0), (10, 10), (0, 10), (0, 0.001))))
    assert path == Path(((0, 0), (10, 0), (10, 10), (0, 10)), (), True)


def test_the_bulge_of_the_segment_that_stays_is_kept():
    path = tidy(Path(((0, 0), (0, 0), (10, 0)), (0.7, 1, 0)))
    assert path == Path(((0, 0), (10, 0)), (1, 0))


def test_what_has_no_length_is_nothing():
    assert tidy(Path(((5, 5), (5, 5)))) is None
    assert tidy(Path(((5, 5), (9, 5)), closed=True)) is None
    assert tidy(Path(((5, 5), (9, 5)), (1, 1), closed=True)) is not None


def test_two_points_with_hardly_a_bulge_are_a_line():
    assert tidy(Path(((0, 0), (100, 0)), (1e-6, 0), closed=True)) == Path(
        ((0, 0), (100, 0)), (1e-6, 0)
    )


def test_the_length_of_an_arc():
    assert Path(((0, 0), (200, 0)), (1, 0)).length == pytest.approx(math.pi * 100, rel=1e-3)


@pytest.mark.parametrize("bulges", [(), (0.4, 0), (-1.0, 0.2), (3.0, -3.0)])
@pytest.mark.parametrize("closed", [True, False])
def test_the_reach_of_a_path_holds_all_of_it(bulges, closed):
    path = Path(((100, 200), (900, 350), (400, -700)), (*bulges, 0.7) if bulges else (), closed)
    x0, y0, x1, y1 = path.reach
    assert all(x0 <= x <= x1 and y0 <= y <= y1 for x, y in path.coordinates)
    if not bulges:
        assert path.reach == path.line.bounds
