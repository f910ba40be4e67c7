"""Checking grows with the number of joints, not with its square: compare the rows of the report as ratios.

Run with ``pytest tests/benchmarks/test_checks.py --benchmark-only -m "" -n 0``. A hundredfold of pieces
should take about a hundredfold of time.
"""

import math

import pytest

from checked import QUARTER, feet, grid_slab, rules
from kerfline.checks.check import check
from kerfline.checks.given import given_layout
from kerfline.model.slab import GivenJoint
from kerfline.units import Display


def slab_of_pieces(pieces):
    """A square grid whose joints are cut at every crossing into about so many pieces."""
    bays = max(2, round((1 + math.sqrt(1 + 2 * pieces)) / 2))
    steps = [(i, k) for i in range(1, bays) for k in range(bays)]
    upright = [((i * 10, k * 10), (i * 10, k * 10 + 10)) for i, k in steps]
    level = [((k * 10, i * 10), (k * 10 + 10, i * 10)) for i, k in steps]
    joints = tuple(
        GivenJoint(id=f"J{n}", path=feet(*ends), depth=QUARTER)
        for n, ends in enumerate((*upright, *level), start=1)
    )
    return grid_slab(bays, bays, joints=joints)


@pytest.mark.parametrize("pieces", [100, 1_000, 10_000])
def test_check(benchmark, pieces):
    """All rules held against so many pieces of joint."""
    slab = slab_of_pieces(pieces)
    layout, by = given_layout(slab), rules()
    found = benchmark.pedantic(
        check, args=(slab, layout, by, Display.FEET_INCHES), rounds=3, warmup_rounds=1
    )
    assert found == ()
    assert len(slab.joints) == pytest.approx(pieces, rel=0.15)
