"""The state that a person works on, and the job that it stands for."""

from dataclasses import replace

import pytest

from kerfline.app.outcome import Outcome
from kerfline.app.working import BY_HAND, job_of, was_kept, working_of
from kerfline.model.job import RuleChoice
from kerfline.model.layout import Reason
from kerfline.model.slab import GivenJoint
from parted import RULES
from shapes import workshop_job, workshop_layout

MINE = GivenJoint(id="J1", path=((0, 0), (0, 900)), existing=True, depth=31.0)
FORBIDDEN = GivenJoint(id="F1", path=((0, 0), (0, 900)), forbidden=True)


@pytest.fixture
def outcome():
    job = workshop_job()
    job = replace(
        job,
        slab=replace(job.slab, joints=(MINE, FORBIDDEN)),
        rules=RuleChoice(name="parking", to_maximum=True),
    )
    first, *rest = workshop_layout().joints
    layout = replace(workshop_layout(), joints=(replace(first, reason=Reason.PINNED), *rest))
    return Outcome(job=job, rules=RULES, layout=layout, findings=())


def test_it_starts_with_the_layouts_joints_and_the_forbidden_lines(outcome):
    state = working_of(outcome)
    assert state.slab.joints == (FORBIDDEN,)
    assert [j.path for j in state.joints] == [j.path for j in outcome.layout.joints]
    assert (state.rule_set, state.to_maximum, state.name) == ("parking", True, "Workshop")
    first, second = state.joints[:2]
    assert (first.pinned, first.existing, first.depth) == (True, True, 31.0)
    assert (second.pinned, second.existing, second.depth) == (False, False, None)


def test_a_joint_found_in_the_concrete_is_the_users_and_exists(outcome):
    found = replace(outcome.layout.joints[1], reason=Reason.FOUND)
    layout = replace(outcome.layout, joints=(found,))
    (drawn,) = working_of(replace(outcome, layout=layout)).joints
    assert (drawn.pinned, drawn.existing) == (True, True)


def test_the_whole_state_is_a_job_again_and_its_joints_say_why_they_are_there(outcome):
    state = working_of(outcome)
    job = job_of(workshop_job(), state, only_pinned=False)
    assert len(job.slab.pinned) == len(outcome.layout.joints)
    assert job.slab.forbidden == (FORBIDDEN,)
    assert job.rules == RuleChoice(name="parking", to_maximum=True)
    assert [j.reason for j in job.slab.pinned] == [j.reason.value for j in outcome.layout.joints]
    assert was_kept(job)
    assert not was_kept(outcome.job)


def test_the_engine_gets_the_pinned_joints_alone(outcome):
    state = working_of(outcome)
    kept = job_of(workshop_job(), state, only_pinned=True)
    assert [j.id for j in kept.slab.joints] == ["J1", "F1"]


def test_a_joint_pinned_where_the_engine_put_it_is_then_the_users(outcome):
    state = working_of(outcome)
    joint = replace(state.joints[1], pinned=True)
    assert joint.reason is not Reason.PINNED
    (given,) = job_of(workshop_job(), replace(state, joints=(joint,)), only_pinned=True).slab.pinned
    assert given.reason == Reason.PINNED.value
    assert given.note == joint.note != BY_HAND
