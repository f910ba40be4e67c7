"""A survey of what was cut: what lies within the tolerance is clean, what lies beyond is found."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from checked import grid_joints, grid_slab, joint
from kerfline.checks.as_cut import as_cut
from kerfline.checks.given import given_layout
from kerfline.checks.sources import OFF_PLAN
from kerfline.units import MM_PER_FOOT, Display

PLAN = given_layout(grid_slab(4, 3))
WITHIN = st.floats(-19.0, 19.0)
BEYOND = st.one_of(st.floats(20.0, 250.0), st.floats(-250.0, -20.0))


def shifted(line, start, end):
    """A joint of the grid cut sideways by so much at its two ends, mm."""
    (x0, y0), (x1, y1) = ((x / MM_PER_FOOT, y / MM_PER_FOOT) for x, y in line.path)
    one, two = start / MM_PER_FOOT, end / MM_PER_FOOT
    if line.id.startswith("V"):
        return joint(line.id, (x0 + one, y0), (x1 + two, y1))
    return joint(line.id, (x0, y0 + one), (x1, y1 + two))


def survey(*joints):
    return as_cut(
        grid_slab(4, 3, joints=tuple(replace(j, existing=True) for j in joints)),
        PLAN,
        Display.METRIC,
    )


@settings(max_examples=50)
@given(st.lists(st.tuples(WITHIN, WITHIN), min_size=5, max_size=5))
def test_joints_within_three_quarters_of_an_inch_are_clean(offs):
    cut = [shifted(j, *off) for j, off in zip(grid_joints(4, 3), offs, strict=True)]
    assert survey(*cut) == ()


@settings(max_examples=50)
@given(st.integers(0, 4), BEYOND)
def test_a_joint_beyond_is_found_with_its_offset_and_no_other(number, off):
    cut = [shifted(j, off, off) if n == number else j for n, j in enumerate(grid_joints(4, 3))]
    found = survey(*cut)
    assert [f.subject for f in found] == [cut[number].id]
    assert found[0].measured == pytest.approx(abs(off), abs=0.01)
    assert found[0].limit == OFF_PLAN


@settings(max_examples=50)
@given(st.sets(st.integers(0, 4), min_size=1))
def test_joints_that_were_not_cut_are_found(left_out):
    planned = grid_joints(4, 3)
    found = survey(*(j for n, j in enumerate(planned) if n not in left_out))
    assert sorted(f.subject for f in found) == sorted(planned[n].id for n in left_out)
