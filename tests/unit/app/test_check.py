"""Checks of a job: refusals, depths, surveys and neighbours, before any file is written."""

import pytest

from checked import grid_slab, joint
from kerfline.app.check import check_job, with_depth
from kerfline.errors import InputRefused
from kerfline.model.job import Job
from kerfline.model.slab import JointKind
from kerfline.units import Unit


def job_of(slab, **more):
    return Job(name="Workshop", units=Unit.FT, slab=slab, **more)


def test_a_job_without_joints_is_refused():
    with pytest.raises(InputRefused, match="no joints to check"):
        check_job(job_of(grid_slab(joints=())))


def test_forbidden_lines_are_no_joints_to_check():
    only = (joint("F", (20, 0), (20, 30), forbidden=True),)
    with pytest.raises(InputRefused, match="no joints to check"):
        check_job(job_of(grid_slab(joints=only)))


def test_a_depth_is_given_to_sawn_joints_that_note_none():
    joints = (
        joint("V1", (10, 0), (10, 30), depth=None),
        joint("V2", (20, 0), (20, 30), depth=20.0),
        joint("V3", (30, 0), (30, 30), depth=None, kind=JointKind.CONSTRUCTION),
        joint("F", (5, 0), (5, 30), depth=None, forbidden=True),
    )
    cut = with_depth(job_of(grid_slab(joints=joints)), "32 mm")
    assert [j.depth for j in cut.slab.joints] == [32.0, 20.0, None, None]
    assert with_depth(cut, None) is cut
