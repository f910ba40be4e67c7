"""The tables that a placement day adds to the workbook."""

from collections.abc import Iterator, Sequence

from kerfline.files.workbook import NUMBER, UNITS, Cell, Grid, UnitNames
from kerfline.geometry.tolerance import TOUCH
from kerfline.model.job import Job
from kerfline.model.layout import Joint
from kerfline.sheets.baselines import Baselines, baselines
from kerfline.sheets.cut.passes import planned_passes
from kerfline.sheets.day.day_plan import DayPlan


def day_grids(plan: DayPlan, job: Job) -> tuple[Grid, ...]:
    """Cutting order, construction joints where there are any, order list and take-off.

    Args:
        plan: The day, worked out.
        job: Whose units and baselines the tables are in.
    """
    units, formed = UNITS[job.display], plan.construction_joints
    between = [_construction(plan, job, formed, units)] if formed else []
    return (_order(plan, units), *between, _to_order(plan), _take_off(plan))


def _order(plan: DayPlan, units: UnitNames) -> Grid:
    """Every line in the order of cutting, as on the cut sheets."""
    cuts = plan.placement.cutting.cuts
    return Grid(
        title="Cutting order",
        headings=(
            "cut", "placement", "joint", f"length, {units.length}", f"depth, {units.depth}", "window",
        ),
        rows=tuple(
            (
                one.number, ", ".join(cut.window.pours), one.sawn.joint,
                float(one.sawn.line.length) / units.mm, one.sawn.depth / units.depth_mm, one.window,
            )
            for one, cut in zip(planned_passes(plan), cuts, strict=True)
        ),
        formats=("", "", "", NUMBER, NUMBER, ""),
    )  # fmt: skip


def _construction(plan: DayPlan, job: Job, formed: Sequence[Joint], units: UnitNames) -> Grid:
    """The construction joints between placements, with their dowels where a table is chosen."""
    base = baselines(job.slab)
    ends = ("start along", "start across", "end along", "end across")
    return Grid(
        title="Construction joints",
        headings=(
            "joint", "between placements", f"length, {units.length}",
            *(f"{end}, {units.length}" for end in ends),
            "dowels", f"dowel diameter, {units.depth}", f"dowel length, {units.depth}",
            f"dowel spacing, {units.depth}",
        ),
        rows=tuple(
            (
                joint.id, " and ".join(_beside(plan, joint)), joint.length / units.mm,
                *_offsets(joint, base, units), *_dowels(joint, units),
            )
            for joint in formed
        ),
        formats=("", "", *[NUMBER] * 5, "", *[NUMBER] * 3),
    )  # fmt: skip


def _beside(plan: DayPlan, joint: Joint) -> Iterator[str]:
    """The placements that meet along a joint."""
    along = joint.line.buffer(TOUCH)
    for pour in plan.placement.pours.pours:
        if pour.area.boundary.intersection(along).length > 4 * TOUCH:
            yield pour.id


def _offsets(joint: Joint, base: Baselines, units: UnitNames) -> tuple[float, ...]:
    ends = (*base.local(joint.path[0]), *base.local(joint.path[-1]))
    return tuple(offset / units.mm for offset in ends)


def _dowels(joint: Joint, units: UnitNames) -> tuple[Cell, ...]:
    dowels = joint.dowels
    if dowels is None:
        return (None,) * 4
    sizes = (dowels.diameter, dowels.length, dowels.spacing)
    return (dowels.count, *(size / units.depth_mm for size in sizes))


NOT_BOUGHT = ("movement", "bearing walls", "costs")
"""Groups of the take-off that nobody orders."""

SUMMED = ("slab", "net, in place", "allowance", "loads", "area to cure")
"""Items that are parts or measures of what is ordered."""


def _to_order(plan: DayPlan) -> Grid:
    """What is bought, with a column to tick: the take-off without what only measures."""
    rows = [
        row
        for row in plan.take_off.rows
        if row.group not in NOT_BOUGHT
        and row.item not in SUMMED
        and "weight" not in row.item
        and not row.item.startswith(
            ("sawn", "construction joints", "turned-down", "strip under", "thicker")
        )
    ]
    return Grid(
        title="Order list",
        headings=("item", "amount", "unit", "what it is", "ordered"),
        rows=tuple((r.item, round(r.amount, r.decimals), r.unit, r.note, "") for r in rows),
    )


def _take_off(plan: DayPlan) -> Grid:
    return Grid(
        title="Take-off",
        headings=("group", "item", "amount", "unit", "note"),
        rows=tuple(
            (r.group, r.item, round(r.amount, r.decimals), r.unit, r.note)
            for r in plan.take_off.rows
        ),
    )
