"""Layouts of building floors with their partition walls: hard rules always, joints under the walls."""

import pytest

from corpus.floors import floor_slab, floors
from corpus.measures import laid_out, table
from corpus.test_footprints import hard_rules_hold

LENGTHS = (0, 137, 216, 309, 186, 83)
"""Metres of partition wall in the levels, the first five of the hospital, as counted apart from this code."""

NUMBERS = range(len(LENGTHS))


def slab_of(number, thickness):
    _, outline, walls = floors()[number]
    return floor_slab(outline, walls, thickness)


def test_walls_are_read_whole():
    walls = [sum(line.length for line in lines) / 1000 for _, _, lines in floors()]
    assert walls == [pytest.approx(length, abs=0.6) for length in LENGTHS]


@pytest.mark.parametrize("number", [1, 5])
def test_floor_keeps_every_hard_rule(number):
    hard_rules_hold(slab_of(number, 150.0))


@pytest.mark.parametrize("number", [1, 4])
def test_every_partition_has_its_joint(number):
    """At 150 mm; the hospital's rooms are all wider than the least width."""
    assert not laid_out(slab_of(number, 150.0)).walls_left


@pytest.mark.long
@pytest.mark.parametrize("thickness", [100.0, 150.0, 200.0])
def test_shapes_are_good_on_every_floor(thickness):
    """No panel over the span; under 2 % over aspect, under 1 % narrow or hooked."""
    total = table(slab_of(number, thickness) for number in NUMBERS)
    assert total["hard"] == 0
    assert total["aspect"] < 0.02 * total["panels"]
    assert total["narrow"] < 0.01 * total["panels"]
    assert total["odd"] < 0.01 * total["panels"]
