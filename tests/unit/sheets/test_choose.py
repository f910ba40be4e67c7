"""The paper and scale that sheets choose by themselves always work out."""

import pytest

from checked import box_ring, joint, rules
from kerfline.checks.given import given_layout
from kerfline.errors import InputRefused
from kerfline.model.job import Job, SheetChoice
from kerfline.model.slab import Slab
from kerfline.sheets.cut.sheet import cut_sheet
from kerfline.units import Unit


def cut_sheets(**sheet):
    """The cut sheets of a hall of 1,600 x 900 ft with two joints."""
    joints = (joint("J1", (800, 0), (800, 900)), joint("J2", (0, 450), (1600, 450)))
    slab = Slab(outline=box_ring(0, 0, 1600, 900), thickness=101.6, joints=joints)
    job = Job(name="Hall", units=Unit.FT, slab=slab, sheet=SheetChoice(**sheet))
    return cut_sheet(job, given_layout(slab), rules())


def test_a_huge_hall_gets_cut_sheets_at_a_smaller_scale():
    """At the smallest scale that panels are legible at it would take hundreds of carried sheets."""
    assert 1 < len(cut_sheets()) <= 100


def test_a_scale_that_the_user_chose_is_kept_or_refused():
    with pytest.raises(InputRefused, match="sheets of tabloid"):
        cut_sheets(scale=48.0)
