"""Checking grows with the number of joints, not with its square: compare the rows of the report as ratios.

Run with ``pytest tests/benchmarks/test_checks.py --benchmark-only -m "" -n 0``. A hundredfold of pieces
should take about a hundredfold of time.
"""

import math

import pytest

from checked import QUARTER, Rule, Severity, box_ring, feet, grid_slab, rules
from kerfline.checks.check import check
from kerfline.checks.given import given_layout
from kerfline.model.slab import Column, GivenJoint, Penetration, Wall, Zone
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


def floor_with_columns(bays):
    """A floor with a column, a drain, a wall and a zone in each of so many bays each way."""
    places = [(i * 20, k * 20) for i in range(bays) for k in range(bays)]
    columns = [Column(id=f"C{n}", at=feet((x + 10, y + 10))[0]) for n, (x, y) in enumerate(places)]
    drains = [
        Penetration(id=f"N{n}", at=feet((x + 5, y + 5))[0], diameter=100.0)
        for n, (x, y) in enumerate(places)
    ]
    walls = [
        Wall(id=f"W{n}", path=feet((x, y + 10), (x + 10, y + 10)))
        for n, (x, y) in enumerate(places)
    ]
    zones = [
        Zone(id=f"Z{n}", outline=box_ring(x, y, x + 10, y + 10), thickness=120.0)
        for n, (x, y) in enumerate(places)
    ]
    return grid_slab(
        2 * bays,
        2 * bays,
        columns=tuple(columns),
        penetrations=tuple(drains),
        walls=tuple(walls),
        zones=tuple(zones),
    )


@pytest.mark.parametrize("bays", [5, 15])
def test_check_of_a_floor_with_columns(benchmark, bays):
    """Ninefold of columns, drains, walls and zones: about ninefold of time."""
    slab = floor_with_columns(bays)
    layout, by = given_layout(slab), rules()
    found = benchmark.pedantic(check, args=(slab, layout, by, Display.FEET_INCHES), rounds=3)
    # Joints drawn through each diamond from point to point, and nothing else beyond advice.
    assert {f.rule for f in found if f.severity is not Severity.ADVICE} <= {
        Rule.COLUMN,
        Rule.DEPTH,
    }
