"""Checks of a job: refusals, depths, surveys and neighbours, before any file is written."""

from dataclasses import replace

import pytest

from checked import FOUR_INCHES, box_ring, grid_slab, joint
from kerfline.app.check import check_job, with_depth
from kerfline.app.check_beside import Beside, Other, with_shared_edges
from kerfline.app.check_report import verdicts_of
from kerfline.checks.given import given_layout
from kerfline.errors import InputRefused
from kerfline.model.finding import Rule, Severity
from kerfline.model.job import Job
from kerfline.model.slab import Edge, EdgeKind, JointKind, Slab
from kerfline.units import Unit


def job_of(slab, **more):
    return Job(name="Workshop", units=Unit.FT, slab=slab, **more)


def other(slab, name="other"):
    return Other(name=name, concrete=slab.concrete, layout=given_layout(slab))


def beside_it(*heights):
    """A slab on the right of a 40 x 30 ft floor, with level joints at heights."""
    joints = tuple(joint(f"N{h}", (40, h), (60, h)) for h in heights)
    return Slab(outline=box_ring(40, 0, 60, 30), thickness=FOUR_INCHES, joints=joints)


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


def test_joints_held_against_a_plan_count_as_found_in_the_concrete():
    slab = grid_slab()
    outcome = check_job(job_of(slab), Beside(plan=other(slab)))
    assert all(j.existing for j in outcome.job.slab.joints)
    assert outcome.beside == ()


def test_what_a_survey_misses_counts_under_every_rule_set():
    slab = grid_slab()
    cut = replace(slab, joints=slab.joints[1:])
    outcome = check_job(job_of(cut), Beside(plan=other(slab)))
    assert [f.subject for f in outcome.beside] == ["V1"]
    for each in verdicts_of(outcome, ("floor", "parking")):
        assert each.of(Rule.EDGE).errors == 1
        assert not each.complies


def test_the_verdict_under_the_own_rule_set_is_that_of_the_findings():
    """Of one rule set the findings are those of the check, whether or not it is named."""
    outcome = check_job(job_of(grid_slab(3, 2, bay=13.0)))
    assert verdicts_of(outcome)[0].findings == outcome.findings
    assert verdicts_of(outcome, ("floor",)) == verdicts_of(outcome)


def test_shared_edges_are_tied_and_others_left():
    slab = with_shared_edges(grid_slab(), other(beside_it(10, 20)))
    assert [(e.ring, e.segment, e.kind) for e in slab.edges] == [(0, 1, EdgeKind.CONTINUOUS)]


def test_an_edge_with_a_bond_breaker_passes_no_crack_on():
    isolated = Edge(ring=0, segment=1, kind=EdgeKind.ISOLATED)
    job = job_of(grid_slab(edges=(isolated,)))
    assert check_job(job, Beside(neighbour=other(beside_it(15)))).beside == ()


def test_only_joints_that_end_on_the_neighbour_are_held_against_it():
    """The neighbour stands beside the lower half of the edge: a joint above it ends on a free edge."""
    low = Slab(
        outline=box_ring(40, 0, 60, 14),
        thickness=FOUR_INCHES,
        joints=(joint("N", (40, 10), (60, 10)),),
    )
    assert check_job(job_of(grid_slab()), Beside(neighbour=other(low))).beside == ()


def test_a_joint_that_the_neighbour_does_not_go_on_with_is_advice():
    found = check_job(job_of(grid_slab()), Beside(neighbour=other(beside_it(10)))).beside
    assert [(f.subject, f.severity) for f in found] == [("H2", Severity.ADVICE)]


def test_slabs_that_touch_at_a_corner_share_no_edge():
    corner = Slab(
        outline=box_ring(40, 30, 60, 60),
        thickness=FOUR_INCHES,
        joints=(joint("N", (40, 40), (60, 40)),),
    )
    with pytest.raises(InputRefused, match="shares no edge"):
        check_job(job_of(grid_slab()), Beside(neighbour=other(corner)))
