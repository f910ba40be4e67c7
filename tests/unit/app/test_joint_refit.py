"""When the slab changes under them, joints stay on it and end on something."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import box

from kerfline.app import joint_bend, joint_edit
from kerfline.app.joint_axis import line_of
from kerfline.app.joint_refit import refit
from kerfline.app.ring_corners import add_corner, move_corner
from kerfline.app.working import DrawnJoint
from kerfline.errors import InputRefused
from kerfline.files.slab_sense import check_slab
from kerfline.geometry.ends import EndKind, joint_ends
from kerfline.geometry.ring import Ring
from kerfline.model.panelling import panels_of
from kerfline.model.slab import Slab
from strategies import orthogonal_plans


def ends_free(concrete, joints):
    """How many joint ends lie inside concrete, on nothing."""
    ends = joint_ends(concrete, [line_of(j) for j in joints])
    return sum(end.kind is EndKind.FREE for end in ends)


def drawn(data, plan):
    """A few joints on a plan, some of them bent."""
    x0, y0, x1, y1 = plan.bounds
    joints = ()
    for _ in range(3):
        x, y = data.draw(st.tuples(st.floats(x0, x1), st.floats(y0, y1)))
        end = (x + 500, y) if data.draw(st.booleans()) else (x, y + 500)
        try:
            joints = joint_edit.draw(plan, joints, (x, y), end)
            if data.draw(st.booleans()):
                joints = joint_bend.add_knee(joints, joints[-1].id)
                joints = joint_bend.move_knee(plan, joints, joints[-1].id, 1, (x, y))
        except InputRefused:
            continue
    return joints


@settings(max_examples=60)
@given(plan=orthogonal_plans(), data=st.data())
def test_joints_follow_the_slab_wherever_a_corner_goes(plan, data):
    """On any plan: nothing off the slab, no end left bare, and the panels' areas add up."""
    before = Slab(outline=Ring.of(plan), thickness=100.0)
    joints = drawn(data, plan)
    if not joints or ends_free(plan, joints):
        return
    segment = data.draw(st.integers(0, len(before.outline.points) - 1))
    x, y = before.outline.points[segment]
    to = (x + data.draw(st.floats(-2500, 2500)), y + data.draw(st.floats(-2500, 2500)))
    try:
        after = move_corner(before, 0, segment, to)
        if data.draw(st.booleans()):
            after = move_corner(add_corner(before, 0, segment=segment), 0, segment + 1, to)
    except InputRefused:
        return
    if check_slab(after):
        return

    left = refit(before.concrete, after.concrete, joints)

    lines = [line_of(j) for j in left]
    assert all(after.concrete.buffer(0.5).covers(line) for line in lines)
    total = sum(p.area for p in panels_of(after.concrete, lines))
    assert total == pytest.approx(after.concrete.area, rel=1e-6)
    assert not lines or not ends_free(after.concrete, left)


def test_a_notch_parts_a_joint_and_one_that_lies_in_it_goes():
    hall, notched = (
        box(0, 0, 9000, 6000),
        box(0, 0, 9000, 6000).difference(box(2000, 0, 4000, 3000)),
    )
    joints = (
        DrawnJoint(id="J1", path=((0.0, 1000.0), (9000.0, 1000.0))),
        DrawnJoint(id="J2", path=((3000.0, 0.0), (3000.0, 1000.0))),
        DrawnJoint(id="J3", path=((3500.0, 0.0), (3500.0, 6000.0))),
    )

    left = refit(hall, notched, joints)

    assert sorted(j.path for j in left) == [
        ((0, 1000), (2000, 1000)),
        ((3500, 3000), (3500, 6000)),
        ((4000, 1000), (9000, 1000)),
    ]
