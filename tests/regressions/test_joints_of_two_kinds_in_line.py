"""A construction joint keeps its own length where a control joint goes on in its line."""

import pytest

from kerfline.engine.lay_out import lay_out
from kerfline.geometry.ring import Ring
from kerfline.model.slab import GivenJoint, JointKind, Slab
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules

FT = 304.8


def test_a_control_joint_in_line_with_a_construction_joint_is_a_joint_of_its_own() -> None:
    rules = SlabRules(rule_set=load("floor"))
    hall = Ring(((0, 0), (40 * FT, 0), (40 * FT, 40 * FT), (0, 40 * FT)))
    night = GivenJoint(
        id="CJ1", path=((20 * FT, 0), (20 * FT, 20 * FT)), kind=JointKind.CONSTRUCTION
    )
    layout = lay_out(Slab(outline=hall, thickness=4 * 25.4, joints=(night,)), rules)
    kinds = {
        j.kind: j.length / FT
        for j in layout.joints
        if all(abs(x - 20 * FT) < 1.0 for x, _ in j.path)
    }
    assert kinds[JointKind.CONSTRUCTION] == pytest.approx(20, abs=0.01)
    assert kinds[JointKind.CONTROL] == pytest.approx(20, abs=0.01)
