"""A mend of floors worked by hand: what is added, what it says, where bars go, what is left."""

from dataclasses import replace

import pytest

from checked import box_ring, feet, grid_slab, joint, with_joints
from kerfline.app.check import check_job
from kerfline.app.deliver_mend import mend_text
from kerfline.app.mend import additions, mend
from kerfline.checks.given import given_layout
from kerfline.errors import InputRefused
from kerfline.geometry.ring import Ring
from kerfline.model.finding import Rule, Severity
from kerfline.model.job import Job
from kerfline.model.layout import Reason
from kerfline.model.slab import KeepOut, Slab
from kerfline.units import MM_PER_FOOT, Unit


def job_of(slab, **more):
    return Job(name="Workshop", units=Unit.FT, slab=slab, effort=2.0, **more)


def in_feet(joint_):
    """The ends of a joint in feet, the lower or left one first."""
    return tuple(sorted(tuple(round(v / MM_PER_FOOT, 2) + 0.0 for v in p) for p in joint_.path))


def test_a_joint_left_out_comes_back_at_its_place():
    """Bays of 20 ft are halved: of 20 ft between joints no other place gives two bays within 12 ft square."""
    mended = mend(check_job(job_of(with_joints(grid_slab(), without=("V2",)))))
    assert [in_feet(j) for j in mended.added] == [((20, 0), (20, 30))]
    assert mended.after.clean
    assert mended.unmended == ()


def test_a_clean_floor_stays_as_it_is():
    mended = mend(check_job(job_of(grid_slab())))
    assert mended.added == ()
    assert mended.after.layout.joints == mended.before.layout.joints
    assert mended.after.layout.added == frozenset()


def test_what_nothing_can_mend_is_said():
    """A strip 1 ft wide between two joints stays too narrow whatever is added."""
    sliver = joint("S", (11, 0), (11, 30))
    mended = mend(check_job(job_of(with_joints(grid_slab(), sliver))))
    assert Rule.WIDTH in {f.rule for f in mended.unmended}
    assert mended.after.count(Severity.ERROR) <= mended.before.count(Severity.ERROR)
    assert "left      " in mend_text(mended)


def test_bars_stand_where_a_joint_cannot_help():
    """An end inside a keep-out: no saw may go on from there nor reach it, so bars go ahead of it."""
    tubing = KeepOut(id="K1", outline=box_ring(10.5, 13, 29.5, 19), what="tubing")
    slab = grid_slab(keep_outs=(tubing,))
    slab = with_joints(slab, joint("S", (20, 0), (20, 14)), without=("V2",))
    mended = mend(check_job(job_of(slab)))
    area = tubing.outline.polygon
    assert not [j for j in mended.added if j.line.intersection(area).length > 1.0]
    assert "S" in {f.subject for f in mended.bars if f.rule is Rule.FREE_END}
    assert "bars      " in mend_text(mended)
    assert any(n.startswith("Bars") for n in mended.after.layout.notes)


def test_a_job_without_joints_is_refused():
    with pytest.raises(InputRefused, match="no joints"):
        mend(check_job(job_of(grid_slab(joints=()))))


def test_additions_leave_out_what_is_there_whatever_its_pieces():
    """Of a whole joint of which the middle third exists, the two outer thirds are new."""
    slab = grid_slab(2, 1, bay=9.0)
    wished = given_layout(slab)
    there = replace(slab, joints=(joint("M", (9, 3), (9, 6)),))
    found = additions(slab, given_layout(there), wished)
    assert [in_feet(j) for j in found] == [((9, 0), (9, 3)), ((9, 6), (9, 9))]
    assert [j.id for j in found] == ["A1", "A2"]


def test_slivers_of_new_joint_are_no_additions():
    slab = grid_slab(2, 1, bay=9.0)
    there = replace(slab, joints=(joint("M", (9, 0.1), (9, 9)),))
    assert additions(slab, given_layout(there), given_layout(slab)) == ()


@pytest.fixture(scope="module")
def amended():
    """An L of which a corner joint is missing, its existing joints kept."""
    ell = Ring(feet((0, 0), (30, 0), (30, 10), (10, 10), (10, 30), (0, 30)))
    joints = (joint("G1", (20, 0), (20, 10)), joint("G2", (0, 20), (10, 20)))
    slab = Slab(outline=ell, thickness=101.6, joints=joints)
    return mend(check_job(job_of(slab)))


def test_an_ell_without_its_corner_joints_gets_them(amended):
    assert sorted(in_feet(j) for j in amended.added) == [((0, 10), (10, 10)), ((10, 0), (10, 10))]
    assert all(j.reason is not Reason.PINNED for j in amended.added)


def test_around_slanted_joints_the_shorter_of_two_mends_is_taken():
    slant = (joint("G1", (10, 0), (14, 30)), joint("G2", (25, 0), (25, 30)))
    outline = box_ring(0, 0, 36, 30)
    slab = Slab(outline=outline, thickness=101.6, joints=slant)
    mended = mend(check_job(job_of(slab)))
    assert mended.after.clean
    assert sum(j.length for j in mended.added) <= 5 * 36 * MM_PER_FOOT


def test_what_can_be_mended_is_mended_beside_what_cannot():
    """A 1 ft strip stays; the bay of 20 ft on the other side of the floor is halved all the same."""
    slab = with_joints(grid_slab(), joint("S", (1, 0), (1, 30)), without=("V3",))
    mended = mend(check_job(job_of(slab)))
    assert [in_feet(j) for j in mended.added] == [((30, 0), (30, 30))]
    assert {f.rule for f in mended.unmended} == {Rule.WIDTH, Rule.ASPECT}
