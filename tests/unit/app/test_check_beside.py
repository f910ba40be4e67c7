"""Joints held against the plan they were cut by and against the slab next door."""

import pytest

from checked import FOUR_INCHES, box_ring, grid_slab, joint
from kerfline.app.check import check_job
from kerfline.app.check_beside import Beside, Other, other_of, with_shared_edges
from kerfline.checks.given import given_layout
from kerfline.errors import InputRefused
from kerfline.model.finding import Severity
from kerfline.model.job import Job
from kerfline.model.slab import Edge, EdgeKind, Slab
from kerfline.units import MM_PER_FOOT, Unit


def job_of(slab, **more):
    return Job(name="Workshop", units=Unit.FT, slab=slab, **more)


def other(slab, name="other"):
    return Other(name=name, concrete=slab.concrete, layout=given_layout(slab))


def beside_it(*heights):
    """A slab on the right of a 40 x 30 ft floor, with level joints at heights."""
    joints = tuple(joint(f"N{h}", (40, h), (60, h)) for h in heights)
    return Slab(outline=box_ring(40, 0, 60, 30), thickness=FOUR_INCHES, joints=joints)


def test_joints_held_against_a_plan_count_as_found_in_the_concrete():
    slab = grid_slab()
    outcome = check_job(job_of(slab), Beside(plan=other(slab)))
    assert all(j.existing for j in outcome.job.slab.joints)
    assert outcome.beside == ()


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


def test_a_plan_without_joints_is_refused_with_what_to_give(tmp_path):
    path = tmp_path / "bare.toml"
    path.write_text(
        '[job]\nname = "Bare"\nunits = "ft"\n[slab]\nthickness = "4 in"\n'
        "outline = [[0, 0], [40, 0], [40, 30], [0, 30]]\n"
    )
    with pytest.raises(InputRefused, match="there are no joints in it") as refused:
        other_of(path, job_of(grid_slab()), "--plan")
    assert str(refused.value).startswith("--plan bare.toml: ")
    assert "give a layout file" in str(refused.value)


def test_a_job_file_with_joints_is_a_plan(tmp_path):
    path = tmp_path / "plan.toml"
    path.write_text(
        '[job]\nname = "Plan"\nunits = "ft"\n[slab]\nthickness = "4 in"\n'
        "outline = [[0, 0], [40, 0], [40, 30], [0, 30]]\n"
        '[[joint]]\nid = "G1"\npath = [[20, 0], [20, 30]]\n'
    )
    read = other_of(path, job_of(grid_slab()), "--plan")
    assert read.name == "plan.toml"
    assert [line.length for line in read.lines] == pytest.approx([30 * MM_PER_FOOT])
    assert read.concrete.area == pytest.approx(1200 * MM_PER_FOOT**2)


@pytest.mark.parametrize(("lap", "shared"), [(1.1, 1), (0.9, 0)])
def test_edges_side_by_side_for_a_foot_or_less_only_touch(lap, shared):
    """A neighbour to the right, from ``lap`` feet below the upper corner of a 40 x 30 ft slab on."""
    beside = Slab(outline=box_ring(40, 30 - lap, 60, 60), thickness=FOUR_INCHES)
    if not shared:
        with pytest.raises(InputRefused, match="shares no edge"):
            with_shared_edges(grid_slab(), other(beside))
        return
    tied = with_shared_edges(grid_slab(), other(beside))
    assert [(e.segment, e.kind) for e in tied.edges] == [(1, EdgeKind.CONTINUOUS)]
