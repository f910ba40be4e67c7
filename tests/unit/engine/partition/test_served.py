"""Which lines of a grid serve a wall: those within half its thickness, the nearest among them."""

import numpy as np
import pytest

from kerfline.engine.partition.served import overlap, served
from kerfline.geometry.ring import Ring
from kerfline.model.slab import Slab, Wall
from unit.engine.plans import region_of

STOPS = np.array([0.0, 2000.0, 5000.0])


def lines_serving(*walls, places):
    ring = Ring(((0, 0), (5000, 0), (5000, 5000), (0, 5000)))
    region = region_of(Slab(outline=ring, thickness=101.6, walls=walls))
    return list(served(region, (np.array(places), STOPS)))


def upright(x, low=0.0, high=5000.0, **more):
    return Wall(id="W1", path=((x, low), (x, high)), thickness=200.0, **more)


@pytest.mark.parametrize(
    ("start", "end", "lengths"),
    [
        (0, 5000, [2000, 3000]),
        (500, 4000, [1500, 2000]),
        (2500, 4000, [0, 1500]),
        (-900, 1000, [1000, 0]),
    ],
)
def test_a_wall_lies_on_the_pieces_that_it_reaches_over(start, end, lengths):
    assert overlap(STOPS, start, end).tolist() == lengths


def test_lines_within_half_a_walls_thickness_serve_it_and_the_nearest_is_its_own():
    (found,) = lines_serving(upright(2500.0), places=(0.0, 2300.0, 2420.0, 2510.0, 2590.0, 2700.0))
    assert (found.axis, found.first, found.line, found.last) == (0, 2, 3, 4)
    assert found.lengths.tolist() == [2000.0, 3000.0]
    assert not found.short


def test_no_line_serves_a_wall_that_all_pass_by():
    assert lines_serving(upright(2500.0), places=(0.0, 2350.0, 2650.0)) == []


def test_a_stub_only_wishes_for_its_line():
    (found,) = lines_serving(upright(2500.0, 0.0, 900.0), places=(0.0, 2500.0))
    assert found.short
    assert found.lengths.tolist() == [900.0, 0.0]


def test_a_wall_with_a_corner_is_served_part_by_part():
    bent = Wall(id="W1", path=((2500.0, 0.0), (2500.0, 2000.0), (5000.0, 2000.0)), thickness=200.0)
    found = lines_serving(bent, places=(0.0, 2500.0, 5000.0))
    assert [(part.axis, part.line, part.lengths.tolist()) for part in found] == [
        (0, 1, [2000.0, 0.0]),
        (1, 1, [0.0, 2500.0]),
    ]


def test_a_wall_on_the_slant_has_no_line():
    assert (
        lines_serving(
            Wall(id="W1", path=((1000.0, 0.0), (4000.0, 5000.0)), thickness=200.0),
            places=(0.0, 2500.0),
        )
        == []
    )
