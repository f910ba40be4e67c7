"""A mend keeps what exists, makes nothing worse, and adds no more than what a fault took away."""

from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString
from shapely.ops import substring

from checked import grid_slab
from kerfline.app.check import check_job
from kerfline.app.mend import mend
from kerfline.engine.lay_out import lay_out
from kerfline.engine.options import EngineOptions
from kerfline.model.finding import Severity
from kerfline.model.job import Job
from kerfline.model.slab import GivenJoint
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from kerfline.units import MM_PER_FOOT, Unit
from strategies import slabs

EFFORT = 1.0
"""Seconds of search: these slabs are small."""

SLACK = 25.4
"""Joints of a mend stand at whole inches, so that each may be this much longer (mm) than what it replaces."""


def job_of(slab):
    return Job(name="Workshop", units=Unit.FT, slab=slab, effort=EFFORT)


@st.composite
def grids_with_faults(draw):
    """A clean grid of bays, joints taken out of it and one cut short; and the length that was taken."""
    wide, deep = draw(st.integers(2, 4)), draw(st.integers(2, 3))
    bay, aside = draw(st.sampled_from([8.0, 9.0, 10.0])), draw(st.sampled_from([8.0, 9.0, 10.0]))
    slab = grid_slab(wide, deep, bay, aside)
    order = draw(st.permutations(slab.joints))
    gone = draw(st.integers(0, min(2, len(order) - 1)))
    kept = list(order[gone:])
    taken = sum(LineString(j.path).length for j in order[:gone])
    if not gone or draw(st.booleans()):
        short, cut = _shortened(kept[0], draw(st.sampled_from([0.3, 0.55, 0.8])))
        kept[0] = short
        taken += cut
    return replace(slab, joints=tuple(kept)), taken


def _shortened(joint, share):
    """A joint that stops after a share of its length, and the length that it lost."""
    line = LineString(joint.path)
    short = substring(line, 0.0, share, normalized=True)
    return replace(joint, path=tuple(short.coords)), line.length - short.length


@given(grids_with_faults())
@settings(max_examples=12)
def test_a_grid_with_joints_missing_is_mended_with_no_more_than_they_were(case):
    """What was taken out is a mend, so that a mend needs no more; and every error is cleared."""
    slab, taken = case
    mended = mend(check_job(job_of(slab)))
    assert mended.before.count(Severity.ERROR) > 0
    assert mended.after.clean, [f.message for f in mended.after.findings]
    assert sum(j.length for j in mended.added) <= taken + SLACK * len(mended.added)


@st.composite
def laid_out_with_faults(draw):
    """A slab whose joints are the engine's own, some of them taken out."""
    slab = draw(slabs(most_boxes=2, cells=5, most_walls=2, most_columns=1))
    rules = SlabRules(rule_set=load("floor"))
    layout = lay_out(slab, rules, EngineOptions(effort=EFFORT))
    joints = [GivenJoint(id=j.id, path=j.path, kind=j.kind, depth=j.depth) for j in layout.joints]
    gone = draw(st.sets(st.integers(0, max(0, len(joints) - 1)), min_size=1, max_size=2))
    left = tuple(j for i, j in enumerate(joints) if i not in gone)
    return replace(slab, joints=left) if left else None


@given(laid_out_with_faults())
@settings(max_examples=8)
def test_a_mend_keeps_every_joint_and_makes_nothing_worse(slab):
    """Existing joints stay to the bit and in order; errors never grow; additions lie in the concrete."""
    if slab is None:
        return
    before = check_job(job_of(slab))
    mended = mend(before)
    count = len(slab.joints)
    existing = mended.after.layout.joints[:count]
    assert [(j.id, j.path, j.kind, j.depth) for j in existing] == [
        (j.id, j.path, j.kind, j.depth) for j in slab.joints
    ]
    assert mended.after.count(Severity.ERROR) <= before.count(Severity.ERROR)
    assert [j.id for j in mended.added] == [f"A{n}" for n in range(1, len(mended.added) + 1)]
    concrete = slab.concrete.buffer(1.0)
    assert all(concrete.covers(j.line) for j in mended.added)
    assert all(j.note for j in mended.added)


@given(grids_with_faults())
@settings(max_examples=4)
def test_every_addition_is_needed(case):
    """Without any one of the additions there are more errors."""
    slab, _ = case
    from kerfline.app.mend import with_joints

    mended = mend(check_job(job_of(slab)))
    errors = mended.after.count(Severity.ERROR)
    for joint in mended.added:
        fewer = with_joints(mended.before, [j for j in mended.added if j.id != joint.id])
        assert fewer.count(Severity.ERROR) > errors


def test_no_coordinate_of_an_addition_reads_as_minus_nothing():
    """A slab whose edge lies on the axes gives places of 0, never of -0."""
    slab = replace(grid_slab(3, 3), joints=())
    slab = replace(slab, joints=tuple(j for j in grid_slab(3, 3).joints if j.id == "V1"))
    mended = mend(check_job(job_of(slab)))
    assert mended.added
    spots = [v for j in mended.added for p in j.path for v in p]
    assert not [v for v in spots if str(v) == "-0.0"]
    assert max(spots) <= 30 * MM_PER_FOOT + 1.0
