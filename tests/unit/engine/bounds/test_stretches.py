"""The stretches of a layout's joints: where they are, how they run, and which of them run through."""

import numpy as np
import pytest
import shapely

from kerfline.engine.bounds.stretches import Stretches, duties_run_on, stretches_of
from kerfline.engine.regions.region import Cut
from kerfline.units import MM_PER_FOOT
from unit.engine.plans import box, feet, region_of, slab, wall


def cut(*points):
    return Cut(path=feet(*points))


def found(*paths, plan=None):
    return stretches_of(region_of(plan or slab(box(40, 30))), [cut(*path) for path in paths])


def in_feet(stretches):
    """Their ends, those left out by which a joint is drawn out."""
    ends = np.sort((stretches.ends / MM_PER_FOOT)[stretches.length > 1.0].round(2), axis=1)
    return sorted((*one, *other) for one, other in ends.tolist())


def test_joints_are_cut_where_they_meet_and_at_their_bends():
    own = found(((10, 0), (10, 30)), ((0, 15), (20, 15), (30, 20)))
    assert in_feet(own) == [
        (0, 15, 10, 15),
        (10, 0, 10, 15),
        (10, 15, 10, 30),
        (10, 15, 20, 15),
        (20, 15, 30, 20),
    ]
    assert own.length.sum() == pytest.approx((30 + 20 + 5**0.5 * 5) * MM_PER_FOOT, rel=1e-3)


def test_a_joint_within_a_touch_of_another_meets_it_and_is_told_no_longer_than_it_is():
    """0.4 mm short of the upright joint, and 0.4 mm beyond the edge."""
    off = 0.4 / MM_PER_FOOT
    own = found(((10, 0), (10, 30)), ((10 + off, 15), (40 + off, 15)))
    assert in_feet(own) == [(10, 0, 10, 15), (10, 15, 10, 30), (10, 15, 40, 15)]
    assert own.length.sum() - own.over == pytest.approx((30 + 30 - off) * MM_PER_FOOT, abs=1e-3)


def test_no_joints_have_no_stretches():
    own = found()
    assert (len(own.ends), len(own.duty), own.over) == (0, 0, 0.0)


def test_they_know_which_are_duties():
    plan = slab(box(40, 30), walls=(wall("W1", (20, 0), (20, 10)),))
    own = found(((20, 0), (20, 30)), ((0, 15), (40, 15)), plan=plan)
    under = own.ends[own.duty] / MM_PER_FOOT
    assert sorted(under.reshape(-1, 2).round(2).tolist()) == [[20, 0], [20, 15]]


def stretches(*paths, duty=""):
    flags = np.array([str(n) in duty for n in range(len(paths))])
    return Stretches(ends=lines(*paths), duty=flags)


def lines(*paths):
    return np.array([[feet(*path)[0], feet(*path)[1]] for path in paths], dtype=float)


@pytest.mark.parametrize(
    ("duty", "way"),
    [("", (0, 1)), ("0", (0.6, 0.8)), ("012", (0.6, 0.8)), ("0123", (0, 1)), ("13", (0, 1))],
)
def test_they_run_along_and_across_the_longest_of_those_that_are_free(duty, way):
    """20 ft up, 10 ft on the slant twice, 12 ft level: those square to each other count together."""
    own = stretches(
        ((0, 0), (0, 20)), ((5, 0), (11, 8)), ((9, 0), (15, 8)), ((0, 3), (12, 3)), duty=duty
    )
    if duty == "012":
        way = (1, 0)
    assert own.way.tolist() == pytest.approx(way)


def test_slopes_are_those_off_the_nearer_direction():
    own = stretches(((0, 0), (0, 20)), ((0, 0), (20, 1)), ((0, 0), (1, 20)), ((0, 0), (3, 4)))
    slope = own.slopes(np.array([1.0, 0.0]))
    off = 1 / 401**0.5
    assert slope.tolist() == pytest.approx([0, off, off, 0.6])


HALL = shapely.box(0, 0, 40 * MM_PER_FOOT, 30 * MM_PER_FOOT).boundary


@pytest.mark.parametrize(
    ("paths", "duty", "expected"),
    [
        (
            [((10, 0), (10, 15)), ((10, 15), (10, 30)), ((0, 15), (10, 15)), ((10, 15), (40, 15))],
            "",
            "",
        ),
        ([((10, 0), (10, 15)), ((0, 15), (10, 15)), ((10, 15), (40, 15))], "", None),
        ([((10, 0), (10, 15)), ((0, 15), (10, 15)), ((10, 15), (40, 15))], "1", "12"),
        (
            [((10, 0), (10, 15)), ((10, 15), (10, 30)), ((0, 15), (10, 15)), ((10, 15), (40, 15))],
            "0",
            "01",
        ),
        (
            [((10, 0), (10, 15)), ((10, 15), (10, 30)), ((0, 15), (10, 15)), ((10, 15), (40, 15))],
            "02",
            "02",
        ),
        ([((10, 0), (10, 15)), ((10, 15), (20, 30))], "", None),
        ([((10, 0), (10, 15))], "", None),
    ],
)
def test_joints_that_run_through_and_the_duties_that_run_on(paths, duty, expected):
    """A crossing; a tee; one on a duty; a duty that ends at a crossing goes on; two that end on each other; a bend; an
    end in the open."""
    given_ones = np.array([str(n) in duty for n in range(len(paths))])
    found = duties_run_on(lines(*paths), given_ones, HALL)
    assert (None if found is None else "".join(map(str, np.flatnonzero(found)))) == expected
