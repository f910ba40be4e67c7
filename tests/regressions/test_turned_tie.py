"""Two layouts of the same cost: which is taken must not hang on the corner that the slab is measured from."""

import pytest

from kerfline.engine.lay_out import lay_out
from kerfline.geometry.ring import Ring
from kerfline.model.slab import Penetration, Slab, Wall
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from strategies import turned

TIED = Slab(
    outline=Ring(((4572, 4572), (7620, 4572), (7620, 7620), (4572, 7620))),
    thickness=88.9,
    openings=(Ring(((6294, 4770), (7422, 4770), (7422, 5898), (6294, 5898))),),
    walls=(
        Wall(id="W1", path=((5334, 4572), (5334, 7620)), thickness=92.1),
        Wall(id="W2", path=((6858, 4572), (6858, 7620)), thickness=92.1),
    ),
    penetrations=(Penetration(id="N1", at=(4953, 6405.5625), diameter=50.0),),
)


@pytest.mark.parametrize("degrees", [90.0, 180.0, 270.0])
def test_a_turned_slab_gets_the_layout_turned_where_two_cost_the_same(degrees):
    rules = SlabRules(rule_set=load("floor"))
    here, there = lay_out(TIED, rules), lay_out(turned(TIED, degrees), rules)
    assert len(here.panels) == len(there.panels)
    assert here.joint_length == pytest.approx(there.joint_length)
