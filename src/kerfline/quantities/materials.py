"""What else is ordered for the slab: base, vapour retarder, reinforcement, chairs, forms, baskets, backer rod."""

import math

from kerfline.model.day import MaterialChoice
from kerfline.model.edge_lines import edge_lines
from kerfline.model.joint_lines import JointLines
from kerfline.model.slab import EdgeKind, Slab
from kerfline.quantities.dowels import bar_weight, numbered_bar
from kerfline.quantities.row import Row, area_row, length_row, volume_row, weight_row
from kerfline.units import MM_PER_INCH, Display, counted, format_depth, format_length

GROUP = "order list"
COMPACTION = 0.15
"""Share of loose stone over its compacted volume; common practice."""


def lap_text(mm: float, display: Display) -> str:
    """A lap as it is told on site: in whole inches, or in mm."""
    whole = round(mm / MM_PER_INCH) * MM_PER_INCH
    return format_depth(whole if display is Display.FEET_INCHES else mm, display)


def material_rows(
    slab: Slab, lines: JointLines, order: MaterialChoice, display: Display
) -> list[Row]:
    """The order list beyond concrete and joints; what the job does not tell of is not on it."""
    area = float(slab.concrete.area)
    return [
        *_base(area, order, display),
        *_retarder(area, order, display),
        *_mesh(area, order, display),
        *_mat(area, order, display),
        *_chairs(area, order),
        *_forms(slab, lines, display),
        *_joints(lines, order, display),
    ]


def _base(area: float, order: MaterialChoice, display: Display) -> list[Row]:
    if order.base_depth is None:
        return []
    deep = format_depth(order.base_depth, display)
    note = f"{deep} compacted, {COMPACTION:.0%} more loose"
    return [
        volume_row(GROUP, "base stone", area * order.base_depth * (1 + COMPACTION), display, note)
    ]


def lapped(area: float, sheet: tuple[float, float], lap: float) -> float:
    """Area (mm2) of sheets that cover an area with a lap on one long and one short side of each."""
    length, width = sheet
    return area * length * width / ((length - lap) * (width - lap))


def _retarder(area: float, order: MaterialChoice, display: Display) -> list[Row]:
    if order.retarder_roll is None:
        return []
    lap = order.retarder_lap
    needed = area * order.retarder_roll / (order.retarder_roll - lap)
    note = f"rolls {format_length(order.retarder_roll, display)} wide, laps of {lap_text(lap, display)}"
    return [area_row(GROUP, "vapour retarder", needed, display, note)]


def _mesh(area: float, order: MaterialChoice, display: Display) -> list[Row]:
    if order.mesh_sheet is None:
        return []
    length, width = order.mesh_sheet
    sheets = math.ceil(lapped(area, order.mesh_sheet, order.mesh_lap) / (length * width) - 1e-6)
    note = (
        f"{format_length(length, display)} by {format_length(width, display)}, laps of "
        f"{lap_text(order.mesh_lap, display)}; cut at the joints as the engineer says"
    )
    return [Row(group=GROUP, item="mesh", amount=sheets, unit="sheets", note=note)]


def _mat(area: float, order: MaterialChoice, display: Display) -> list[Row]:
    if order.mat_spacing is None:
        return []
    length = 2 * area / order.mat_spacing
    weight = length * bar_weight(numbered_bar(order.mat_bar))
    note = f"No. {order.mat_bar} at {format_depth(order.mat_spacing, display)} each way, laps not in it"
    return [
        length_row(GROUP, "bars of the mat", length, display, note),
        weight_row(GROUP, "bars of the mat, weight", weight, display, ""),
    ]


def _chairs(area: float, order: MaterialChoice) -> list[Row]:
    if order.chairs_every is None:
        return []
    count = math.ceil(area / order.chairs_every**2 - 1e-6)
    return [Row(group=GROUP, item="chairs", amount=count, unit="pieces", note="in a square grid")]


def _forms(slab: Slab, lines: JointLines, display: Display) -> list[Row]:
    against = (EdgeKind.ISOLATED, EdgeKind.CONTINUOUS)
    rings = sum(float(r.polygon.length) for r in (slab.outline, *slab.openings))
    stands = sum(float(line.length) for kind in against for line in edge_lines(slab, kind))
    rows = [
        length_row(
            GROUP, "edge forms", rings - stands, display, "edges and openings, none at walls"
        )
    ]
    if lines.construction:
        note = f"{counted(len(lines.construction), 'construction joint')}, full depth"
        rows.append(length_row(GROUP, "bulkheads", lines.construction_length, display, note))
    return rows


def _joints(lines: JointLines, order: MaterialChoice, display: Display) -> list[Row]:
    rows = []
    if order.baskets and lines.sawn:
        note = "under every sawn joint; as the dowel table asks"
        rows.append(length_row(GROUP, "dowel baskets", lines.sawn_length, display, note))
    if order.backer_rod:
        length = lines.sawn_length + lines.construction_length
        rows.append(
            length_row(GROUP, "backer rod", length, display, "sawn and construction joints")
        )
    return rows
