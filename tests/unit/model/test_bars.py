"""Bars lie at corners that no joint leaves and at tees, and nowhere else."""

import math

import pytest

from kerfline.geometry.ring import Ring
from kerfline.model.bars import BarPlace, bars
from kerfline.model.day import SteelChoice
from kerfline.model.layout import Reason
from kerfline.model.slab import JointKind, Slab
from shapes import feet, layout_of

ELL = Slab(
    outline=Ring(feet((0, 0), (40, 0), (40, 20), (20, 20), (20, 40), (0, 40))), thickness=100.0
)
USUAL = SteelChoice()


def laid(slab, *joints, steel=USUAL, kind=JointKind.CONTROL):
    lines = [(kind, Reason.SPAN, list(feet(*path))) for path in joints]
    return bars(slab, layout_of(slab, lines), steel)


def test_a_corner_without_a_joint_has_two_bars_of_three_feet_square_to_its_bisector():
    """2 No. 4 bars, 3 ft long, the first 2 in off, 3 in apart at 45 degrees (common practice)."""
    (found,) = laid(ELL)
    assert found.place is BarPlace.CORNER
    assert found.at == pytest.approx(feet((20, 20))[0])
    assert [round(line.length, 3) for line in found.lines] == [914.4, 914.4]
    for line, off in zip(found.lines, (50.8, 127.0), strict=True):
        (x0, y0), (x1, y1) = line.coords
        middle = ((x0 + x1) / 2, (y0 + y1) / 2)
        assert math.dist(middle, found.at) == pytest.approx(off)
        assert abs(math.degrees(math.atan2(y1 - y0, x1 - x0))) == pytest.approx(45.0, abs=90.1)
        assert ELL.concrete.buffer(0.01).covers(line)


def test_a_joint_that_leaves_the_corner_needs_none():
    assert laid(ELL, ((20, 20), (0, 20))) == ()
    assert laid(ELL, ((20, 0), (20, 20))) == ()


def test_a_joint_that_passes_near_is_no_joint_from_the_corner():
    assert len(laid(ELL, ((19, 0), (19, 40)))) == 1


def test_a_tee_has_three_bars_beyond_the_joint_that_is_met():
    found = laid(ELL, ((20, 0), (20, 20)), ((0, 10), (20, 10)))
    (tee,) = found
    assert tee.place is BarPlace.TEE
    assert tee.into == pytest.approx((1.0, 0.0))
    xs = [line.coords[0][0] for line in tee.lines]
    assert xs == pytest.approx([20 * 304.8 + off for off in (50.8, 127.0, 203.2)])


def test_an_isolation_joint_is_as_good_as_an_edge():
    lines = [
        (JointKind.ISOLATION, Reason.SPAN, list(feet((20, 0), (20, 20)))),
        (JointKind.CONTROL, Reason.SPAN, list(feet((0, 10), (20, 10)))),
    ]
    assert bars(ELL, layout_of(ELL, lines), USUAL) == ()


def test_joints_that_cross_have_none():
    assert laid(ELL, ((20, 0), (20, 20)), ((0, 10), (40, 10))) == ()


def test_a_chamfered_corner_is_one_corner():
    cut = feet((0, 0), (40, 0), (40, 20), (20.1, 20), (20, 20.1), (20, 40), (0, 40))
    slab = Slab(outline=Ring(cut), thickness=100.0)
    assert len(laid(slab)) == 1
    assert laid(slab, ((20.1, 20), (20.1, 0))) == ()


def test_the_job_says_how_many_and_how_long():
    (found,) = laid(ELL, steel=SteelChoice(corner_bars=3, bar_length=1200.0))
    assert [round(line.length) for line in found.lines] == [1200] * 3
    assert laid(ELL, steel=SteelChoice(corner_bars=0)) == ()


def test_bars_that_would_lie_beyond_the_concrete_are_left_out():
    """Of bars 2, 5 and 8 in beyond a joint those stay that lie in the concrete: two of 6 in, none of 1.2 in."""
    slab = Slab(outline=Ring(feet((0, 0), (20, 0), (20, 10), (0, 10))), thickness=100.0)
    (tee,) = laid(slab, ((0, 9.5), (20, 9.5)), ((10, 0), (10, 9.5)))
    assert [line.coords[0][1] for line in tee.lines] == pytest.approx(
        [9.5 * 304.8 + 50.8, 9.5 * 304.8 + 127.0]
    )
    (tee,) = laid(slab, ((0, 9.9), (20, 9.9)), ((10, 0), (10, 9.9)))
    assert tee.lines == ()
