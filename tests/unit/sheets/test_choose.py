"""The paper and scale that sheets choose by themselves always work out."""

import pytest

from checked import box_ring, joint, rules
from kerfline.checks.given import given_layout
from kerfline.errors import InputRefused
from kerfline.geometry.ring import Ring
from kerfline.model.job import Job, SheetChoice
from kerfline.model.layout import Reason
from kerfline.model.slab import JointKind, Slab
from kerfline.sheets.baselines import baselines
from kerfline.sheets.choose import choose
from kerfline.sheets.cut.sheet import cut_sheet
from kerfline.sheets.stations import stations
from kerfline.units import Unit
from shapes import layout_of


def cut_sheets(**sheet):
    """The cut sheets of a hall of 1,600 x 900 ft with two joints."""
    joints = (joint("J1", (800, 0), (800, 900)), joint("J2", (0, 450), (1600, 450)))
    slab = Slab(outline=box_ring(0, 0, 1600, 900), thickness=101.6, joints=joints)
    job = Job(name="Hall", units=Unit.FT, slab=slab, sheet=SheetChoice(**sheet))
    return cut_sheet(job, given_layout(slab), rules())


def test_a_huge_hall_gets_cut_sheets_at_a_smaller_scale():
    """At the smallest scale that panels are legible at it would take hundreds of carried sheets."""
    assert 1 < len(cut_sheets()) <= 100


def test_bays_that_are_shown_whole_may_take_more_sheets_than_were_counted():
    """A floor laid like bricks, each a little under half a sheet: it is drawn smaller, and not refused."""
    across, up, bay, row = 22, 20, 5000.0, 3800.0
    width, height = across * bay, up * row
    slab = Slab(outline=Ring(((0, 0), (width, 0), (width, height), (0, height))), thickness=150.0)
    beds = [[(0, j * row), (width, j * row)] for j in range(1, up)]
    uprights = [
        [(x, j * row), (x, (j + 1) * row)]
        for j in range(up)
        for x in ((i + 0.5 * (j % 2)) * bay for i in range(across + 1))
        if 0 < x < width
    ]
    layout = layout_of(
        slab, [(JointKind.CONTROL, Reason.SPAN, path) for path in (*beds, *uprights)]
    )
    job = Job(name="Floor", units=Unit.M, slab=slab)
    base = baselines(slab)
    along, across_ = stations(slab, layout, base)
    choice = choose(job, layout, base, along, across_, handy=True, finer=50.0)
    assert choice.scale > 50.0
    assert 1 < len(choice.parts) <= 100


def test_a_scale_that_the_user_chose_is_kept_or_refused():
    with pytest.raises(InputRefused, match="sheets of tabloid"):
        cut_sheets(scale=48.0)
