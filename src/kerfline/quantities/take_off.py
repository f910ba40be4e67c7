"""The take-off: everything to have on site, as rows for a table."""

from dataclasses import dataclass

from kerfline.model.bars import bars
from kerfline.model.day import CuringMethod, DayInput, Habit, Ledger
from kerfline.model.edge_lines import edge_lines
from kerfline.model.joint_lines import JointLines, joint_lines
from kerfline.model.layout import Layout
from kerfline.model.slab import EdgeKind, JointKind, Slab
from kerfline.quantities.concrete import ConcreteBody
from kerfline.quantities.fillers import curing_compound, filler_volume
from kerfline.quantities.materials import material_rows
from kerfline.quantities.movement_rows import movement_rows
from kerfline.quantities.order import Delivery, coverage
from kerfline.quantities.row import Row, area_row, length_row, liquid_row, volume_row
from kerfline.quantities.steel_rows import steel_rows
from kerfline.quantities.wall_rows import wall_rows
from kerfline.units import (
    MM3_PER_GALLON,
    MM3_PER_M3,
    MM3_PER_YD3,
    MM_PER_FOOT,
    Display,
    format_area,
    format_depth,
    format_temperature,
)

CURING_COVER = Habit(
    key="day.steel.curing_cover",
    text="cover of the curing compound",
    amount=200 * MM_PER_FOOT**2 / MM3_PER_GALLON,
    shown="200 ft2/gal (4.9 m2/L)",
    source="AASHTO M148 / ASTM C309 as tabulated in an NCHRP synthesis, 2023, app. C",
)


CURING_DAYS = Habit(
    key="day.curing.days",
    text="days of curing",
    amount=7.0,
    shown="7",
    source="slabs on grade in common practice; specifications ask for 3 to 14",
)

CURING_LAP = 0.10
"""Share that laps add to coverings and blankets; common practice."""


@dataclass(frozen=True, kw_only=True)
class TakeOff:
    """What to have on site.

    Attributes:
        rows: In the order of the table.
        construction: Length of construction joints, mm.
        sawn: Length of sawn joints, mm.
    """

    rows: tuple[Row, ...]
    construction: float
    sawn: float


def take_off(
    slab: Slab,
    layout: Layout,
    day: DayInput,
    body: ConcreteBody,
    order: Delivery,
    display: Display,
    ledger: Ledger,
) -> TakeOff:
    """Everything to have on site.

    Args:
        slab: What is given.
        layout: Its joints and panels.
        day: What is known of the day.
        body: The slab's concrete.
        order: The whole order.
        display: Yards or metres.
        ledger: Takes down what had to be assumed or must be asked.
    """
    lines = joint_lines(layout)
    formed = [joint for joint in layout.joints if joint.kind is JointKind.CONSTRUCTION]
    rows = (
        *_concrete_rows(slab, body, order, display),
        *_joint_rows(lines, display),
        *steel_rows(slab, formed, bars(slab, layout, day.steel), day.steel, display, ledger),
        *_filler_rows(lines, day, display, ledger),
        *_isolation_rows(slab, day, display, ledger),
        *_curing_rows(slab, day, display, ledger),
        *material_rows(slab, lines, day.order, display),
        *wall_rows(slab, layout, day.steel.subgrade, display, ledger),
        *movement_rows(slab, layout, day.steel, display, ledger),
    )
    return TakeOff(rows=rows, construction=lines.construction_length, sawn=lines.sawn_length)


def _concrete_rows(slab: Slab, body: ConcreteBody, order: Delivery, display: Display) -> list[Row]:
    unit = MM3_PER_YD3 if display is Display.FEET_INCHES else MM3_PER_M3
    name = "yd3" if display is Display.FEET_INCHES else "m3"
    covers = format_area(coverage(slab.thickness, unit), display)
    plain = f"sum of the above; one {name} covers {covers} of the plain slab"
    parts = [
        volume_row("concrete", name, volume, display, "in place, nothing counted twice")
        for name, volume in body.by_component().items()
    ]
    return [
        *parts,
        volume_row("concrete", "net, in place", order.net, display, plain),
        volume_row("concrete", "allowance", order.allowance, display, f"{order.share:.1%} of net"),
        volume_row("concrete", "order", order.ordered, display, _rounded(display)),
        Row(group="concrete", item="loads", amount=order.loads, unit="trucks", note=""),
    ]


def _rounded(display: Display) -> str:
    step = "quarter yard" if display is Display.FEET_INCHES else "quarter of a cubic metre"
    return f"each day's order rounded up to a {step}"


def _joint_rows(lines: JointLines, display: Display) -> list[Row]:
    depths = sorted({round(part.depth, 1) for part in lines.sawn})
    rows = [
        length_row(
            "joints",
            f"sawn, {format_depth(depth, display)} deep",
            sum(part.line.length for part in lines.sawn if round(part.depth, 1) == depth),
            display,
            "",
        )
        for depth in depths
    ]
    if lines.construction:
        note = "formed between placements, on planned joint lines"
        length = lines.construction_length
        rows.append(length_row("joints", "construction joints", length, display, note))
    return rows


def _filler_rows(lines: JointLines, day: DayInput, display: Display, ledger: Ledger) -> list[Row]:
    width, depth = day.steel.filler_width, day.steel.filler_depth
    if width is None or (width > 0 and depth is None):
        ledger.ask(
            "Are joints filled or sealed? Give day.steel.filler_width and filler_depth; a width of 0 "
            "leaves them open."
        )
        return []
    if not width or depth is None:
        return []
    volume = filler_volume(lines.sawn_length + lines.construction_length, width, depth)
    note = (
        f"{format_depth(width, display)} by {format_depth(depth, display)}, net of waste; a joint that has "
        "opened takes more"
    )
    return [liquid_row("joints", "filler in sawn and construction joints", volume, display, note)]


def _isolation_rows(slab: Slab, day: DayInput, display: Display, ledger: Ledger) -> list[Row]:
    around = [c.outline.polygon.length for c in slab.columns if c.outline]
    along = [line.length for line in edge_lines(slab, EdgeKind.ISOLATED)]
    length = sum(around) + sum(along)
    if not length:
        return []
    if day.steel.isolation is None:
        ledger.ask("How thick is the isolation strip? Give day.steel.isolation.")
        thick = "thickness not given"
    else:
        thick = f"{format_depth(day.steel.isolation, display)} thick"
    note = f"{thick}, full depth of {format_depth(slab.thickness, display)}"
    return [length_row("joints", "isolation strip", length, display, note)]


def _curing_rows(slab: Slab, day: DayInput, display: Display, ledger: Ledger) -> list[Row]:
    """What the curing takes by its method, and for how long."""
    curing, area = day.curing, float(slab.concrete.area)
    days = ledger.take(curing.days, CURING_DAYS)
    if curing.method is None:
        ledger.ask("How is the concrete cured? Give day.curing.method: compound, wet or sheet.")
        ledger.note("curing (day.curing.method)", "by compound", "a stopgap")
    kept = f"{days:g} days from finishing on"
    rows = [area_row("curing", "area to cure", area, display, kept)]
    if curing.method is CuringMethod.WET:
        lapped = area * (1 + CURING_LAP)
        note = f"kept wet all the time, laps in it, {kept}"
        rows.append(area_row("curing", "wet covering", lapped, display, note))
    elif curing.method is CuringMethod.SHEET:
        lapped = area * (1 + CURING_LAP)
        note = f"laps in it, weighted down, {kept}"
        rows.append(area_row("curing", "sheeting", lapped, display, note))
    else:
        cover = ledger.take(day.steel.curing_cover, CURING_COVER)
        note = "one coat; renewed along the cuts, kept out of the groove"
        rows.append(
            liquid_row("curing", "curing compound", curing_compound(area, cover), display, note)
        )
    if curing.kept_at is not None:
        blankets = area * (1 + CURING_LAP)
        note = f"laps in it; keep the concrete at {format_temperature(curing.kept_at, display)} or more"
        rows.append(area_row("curing", "insulating blankets", blankets, display, note))
    return rows
