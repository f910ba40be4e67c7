"""Where a plan is parted: match lines on joints, and no bay that is whole on no sheet."""

from itertools import pairwise

import pytest
import shapely
from shapely import affinity

from kerfline.geometry.ring import Ring
from kerfline.model.job import Job, SheetChoice
from kerfline.model.layout import Reason
from kerfline.model.slab import JointKind, Slab
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from kerfline.sheets.joint_plan import joint_plan
from kerfline.sheets.parts import Ground, parted
from kerfline.sheets.stations import JOINT, Station
from kerfline.units import Unit
from shapes import feet, layout_of
from sheet_checks import assert_clean, grid_lines

BAY = 3000.0
FLOOR = shapely.box(0, 0, 10 * BAY, 6 * BAY)


def staggered(shift):
    """Rows of bays, every other one shifted by a share of a bay."""
    rows = []
    for row in range(6):
        off = shift * BAY if row % 2 else 0.0
        places = sorted(
            {0.0, 10 * BAY, *(off + n * BAY for n in range(11) if 0 < off + n * BAY < 10 * BAY)}
        )
        rows += [shapely.box(a, row * BAY, b, (row + 1) * BAY) for a, b in pairwise(places)]
    return tuple(rows)


def ground(bays):
    across = [Station(n * BAY, JOINT, spans=((0.0, 10 * BAY),)) for n in range(1, 6)]
    even = {x for bay in bays for x in (bay.bounds[0], bay.bounds[2]) if 0 < x < 10 * BAY}
    along = [Station(x, JOINT, spans=((0.0, 3 * BAY),)) for x in sorted(even)]
    return Ground(FLOOR, bays, along, across)


@pytest.mark.parametrize("shift", [0.0, 0.3, 0.5])
@pytest.mark.parametrize("room", [(4 * BAY, 7 * BAY), (3.7 * BAY, 2.9 * BAY), (5.2 * BAY, 3 * BAY)])
def test_each_bay_is_whole_in_the_part_whose_cell_it_lies_in(shift, room):
    bays = staggered(shift)
    cells, parts = parted(ground(bays), room)
    assert shapely.union_all([shapely.box(*c) for c in cells]).equals(FLOOR)
    assert sum(shapely.box(*c).area for c in cells) == pytest.approx(FLOOR.area)
    for cell, part in zip(cells, parts, strict=True):
        assert part[2] - part[0] <= room[0] + 1e-6
        assert part[3] - part[1] <= room[1] + 1e-6
        assert shapely.box(*part).covers(shapely.box(*cell))
    for bay in bays:
        x, y = bay.centroid.x, bay.centroid.y
        home = next(k for k, (a, b, c, d) in enumerate(cells) if a <= x < c and b <= y < d)
        assert shapely.box(*parts[home]).buffer(20.0).covers(bay)


def test_where_match_lines_lie_on_joints_a_part_shows_its_own_cell_alone():
    cells, parts = parted(ground(staggered(0.0)), (4 * BAY, 7 * BAY))
    assert cells == parts
    assert [c[0] / BAY for c in cells] == [round(c[0] / BAY) for c in cells]


def test_a_bay_as_large_as_a_sheet_is_cut():
    """It cannot be whole anywhere, and the parts do not grow for it."""
    cells, parts = parted(Ground(FLOOR, (FLOOR,), (), ()), (4 * BAY, 3 * BAY))
    assert cells == parts
    assert len(cells) == 6


def test_the_sheets_show_each_panel_whole_and_name_it_once():
    """Joints at 27 degrees to the paper: no match line can lie on one."""
    slab = Slab(outline=Ring(feet((0, 0), (60, 0), (60, 40), (0, 40))), thickness=125.0)
    wide = Slab(outline=Ring(feet((-60, -60), (120, -60), (120, 120), (-60, 120))), thickness=125.0)
    turned = [affinity.rotate(g, 27.0, origin=(0, 0)) for g in grid_lines(wide, 3657.6)]
    inside = [line.intersection(slab.outline.polygon) for line in turned]
    lines = [
        (JointKind.CONTROL, Reason.SPAN, list(line.coords))
        for line in inside
        if line.length > 600.0
    ]
    layout = layout_of(slab, lines)
    job = Job(name="Skew", units=Unit.FT, slab=slab, sheet=SheetChoice(size="tabloid", scale=64.0))
    sheets = joint_plan(job, layout, (), SlabRules(rule_set=load("floor")))
    plans = [s for s in sheets if s.views]
    assert len(plans) > 1
    assert_clean(sheets)
    for panel in layout.panels:
        whole = [
            s for s in plans
            if s.view.window_box.buffer(0.5).covers(s.view.shape(panel.polygon))
        ]  # fmt: skip
        named = [s for s in plans if any(t.in_plan and t.text == panel.id for t in s.texts)]
        assert len(named) == 1
        assert named[0] in whole
