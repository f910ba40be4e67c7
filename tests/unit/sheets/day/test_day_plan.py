"""What the day sheet shows."""

from kerfline.model.slab import JointKind
from parted import parted_day, parted_outcome


def test_the_construction_joints_of_a_day_are_those_of_its_layout():
    outcome = parted_outcome()
    plan = parted_day(outcome)
    formed = [j.id for j in outcome.layout.joints if j.kind is JointKind.CONSTRUCTION]
    assert [j.id for j in plan.construction_joints] == formed
    assert formed
