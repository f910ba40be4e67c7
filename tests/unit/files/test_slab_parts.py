"""What a drawing gives of a slab."""

import pytest

from kerfline.files.slab_parts import SlabParts, slab_of, with_shares_taken
from kerfline.geometry.ring import Ring
from kerfline.model.slab import GivenJoint, Slab, Zone
from shapes import workshop_slab

OUTLINE = Ring(((0, 0), (9000, 0), (9000, 6000), (0, 6000)))
ZONE = Zone(id="Z1", outline=Ring(((0, 0), (3000, 0), (3000, 6000), (0, 6000))), thickness=200.0)


def test_every_part_is_the_slabs():
    whole = workshop_slab()
    parts = SlabParts(
        outline=whole.outline, openings=whole.openings, walls=whole.walls, columns=whole.columns,
        penetrations=whole.penetrations, keep_outs=whole.keep_outs,
    )  # fmt: skip
    assert slab_of(parts, whole.outline, whole.thickness) == whole


@pytest.mark.parametrize(("x", "depth"), [(1500, 50.0), (6000, 25.0)])
def test_a_share_is_of_the_thickness_beside_the_middle_of_the_joint(x, depth):
    joint = GivenJoint(id="G1", path=((x, 0), (x, 6000)), depth_share=0.25)
    slab = slab_of(SlabParts(joints=(joint,), zones=(ZONE,)), OUTLINE, 100.0)
    assert (slab.joints[0].depth, slab.joints[0].depth_share) == (depth, None)


def test_joints_that_note_no_share_stay():
    joint = GivenJoint(id="G1", path=((1, 0), (1, 6000)), depth=30.0)
    slab = Slab(outline=OUTLINE, thickness=100.0, joints=(joint,))
    assert with_shares_taken(slab) is slab
