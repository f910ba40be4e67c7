"""Pairs of shapes near one another, and what hangs together."""

import numpy as np

from kerfline.geometry.near import clusters, lines, near_pairs, spots


def test_each_pair_comes_once_sorted_and_no_shape_is_its_own_neighbour():
    first, second = near_pairs(spots([(0, 0), (3, 0), (0, 4), (3, 4)]), 4)
    assert list(zip(first.tolist(), second.tolist(), strict=True)) == [
        (0, 1),
        (0, 2),
        (1, 3),
        (2, 3),
    ]


def test_the_distance_of_lines_is_that_of_their_nearest_points():
    rows = np.asarray([(0.0, 0.0, 10.0, 0.0), (5.0, 2.0, 5.0, 9.0), (0.0, 3.0, 4.0, 3.0)])
    first, second = near_pairs(lines(rows), 2)
    assert (first.tolist(), second.tolist()) == ([0, 1], [1, 2])


def test_nothing_is_near_nothing():
    first, second = near_pairs([], 5)
    assert len(first) == len(second) == 0


def test_what_hangs_together_has_one_number():
    pairs = np.asarray([(4, 3), (3, 1), (5, 6)])
    assert clusters(7, pairs[:, 0], pairs[:, 1]) == [0, 1, 2, 1, 1, 5, 5]
