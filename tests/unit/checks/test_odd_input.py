"""Input at the edge of sense is checked without an exception."""

import pytest

from checked import feet, findings, grid_slab, joint, rules
from kerfline.checks.disagreements import disagreements
from kerfline.checks.given import given_layout
from kerfline.checks.verdict import verdicts
from kerfline.geometry.ring import circle
from kerfline.model.finding import Rule, Severity
from kerfline.model.slab import Column, Slab, Wall
from kerfline.units import Display

ODD = {
    "no joint": grid_slab(1, 1, joints=()),
    "a round slab": Slab(outline=circle((0.0, 0.0), 1500.0), thickness=101.6),
    "a joint of a hair's length": grid_slab(1, 1, joints=(joint("A", (5, 0), (5, 0.001)),)),
    "a point drawn twice": grid_slab(2, 1, joints=(joint("A", (10, 0), (10, 0), (10, 10)),)),
    "a column on a corner of the slab": grid_slab(2, 1, columns=(Column(id="C1", at=(0.0, 0.0)),)),
    "a hole no larger than a nail": grid_slab(2, 1, openings=(circle((1500.0, 1500.0), 2.0),)),
    "a wall off the slab": grid_slab(2, 1, walls=(Wall(id="W1", path=feet((-5, 5), (-1, 5))),)),
}


@pytest.mark.parametrize("slab", ODD.values(), ids=ODD)
def test_nothing_is_found_on_sound_slabs_however_odd(slab):
    layout = given_layout(slab)
    found = findings(slab, layout=layout)
    assert [f for f in found if f.severity is not Severity.ADVICE] == []
    assert len(verdicts(found, slab, layout, rules())) == len(Rule)
    assert all(d.stands for d in disagreements(slab, layout, rules(), Display.METRIC))


def test_a_joint_drawn_as_a_loop_is_held_like_its_four_sides():
    loop = joint("A", (0, 5), (5, 5), (5, 10), (0, 10), (0, 5))
    slab = grid_slab(2, 1, joints=(loop,))
    sides = grid_slab(
        2,
        1,
        joints=(
            joint("A", (0, 5), (5, 5)),
            joint("B", (5, 5), (5, 10)),
            joint("C", (5, 10), (0, 10)),
            joint("D", (0, 10), (0, 5)),
        ),
    )
    told = {(f.rule, f.severity) for f in findings(slab)}
    assert told == {(f.rule, f.severity) for f in findings(sides)}
    assert (Rule.EDGE, Severity.WARNING) in told
