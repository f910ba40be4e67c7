"""The tables that a placement day adds to the workbook."""

from dataclasses import replace

import pytest

from kerfline.files.day_grids import day_grids
from parted import parted_day, parted_outcome

OUTCOME = parted_outcome()
PLAN = parted_day(OUTCOME)
GRIDS = {grid.title: grid for grid in day_grids(PLAN, OUTCOME.job)}


def test_the_cuts_stand_in_their_order_with_lengths_as_numbers():
    rows = GRIDS["Cutting order"].rows
    assert [row[0] for row in rows] == [cut.order for cut in PLAN.placement.cutting.cuts]
    assert sum(row[3] for row in rows) == pytest.approx(
        sum(c.window.sawn.line.length for c in PLAN.placement.cutting.cuts) / 304.8
    )


def test_a_construction_joint_names_the_placements_on_either_side():
    rows = GRIDS["Construction joints"].rows
    assert [row[0] for row in rows] == [j.id for j in PLAN.construction_joints]
    assert all(" and " in row[1] for row in rows)
    whole = replace(
        PLAN, placement=replace(PLAN.placement, pours=replace(PLAN.placement.pours, joints=()))
    )
    assert "Construction joints" not in [g.title for g in day_grids(whole, OUTCOME.job)]


def test_the_order_list_is_the_take_off_without_what_only_measures():
    listed = {row[0] for row in GRIDS["Order list"].rows}
    taken = {row[1] for row in GRIDS["Take-off"].rows}
    assert listed < taken
    assert not listed & {"net, in place", "allowance", "area to cure"}
    assert not [item for item in listed if item.startswith("sawn")]
    assert all(row[-1] == "" for row in GRIDS["Order list"].rows), "a column to tick"
    assert len(GRIDS["Take-off"].rows) == len(PLAN.take_off.rows)
