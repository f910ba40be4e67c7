"""Dowels, tie bars, corner bars and tee bars of the take-off."""

import math
from collections.abc import Sequence

from shapely import LineString, affinity, box

from kerfline.model.bars import BAR_LENGTH, BAR_NUMBER, CORNER_BARS, TEE_BARS, BarPlace, Bars
from kerfline.model.day import Habit, Ledger, SteelChoice
from kerfline.model.edge_lines import edge_lines
from kerfline.model.layout import Joint
from kerfline.model.slab import EdgeKind, Slab
from kerfline.quantities.dowels import (
    CORNER_CLEARANCE,
    TABLES,
    Dowel,
    bar_weight,
    dowel_count,
    dowel_table,
    height_tolerance,
    hole_diameter,
    numbered_bar,
)
from kerfline.quantities.movement import (
    THICKENED_EDGE_TAPER,
    thickened_edge,
    tie_bar_area,
    tie_bar_length,
    tie_bar_spacing,
)
from kerfline.quantities.row import Row, weight_row
from kerfline.units import (
    MM_PER_FOOT,
    MM_PER_INCH,
    N_PER_POUND,
    Display,
    format_depth,
    format_length,
)

GROUP = "steel"
PLACING = "one half free to slide, square to the joint"
AT_CORNER = Habit(
    key="day.steel.corner_bars",
    text="bars at a re-entrant corner that no joint leaves",
    amount=CORNER_BARS,
    shown=f"{CORNER_BARS}",
)
AT_TEE = Habit(
    key="day.steel.tee_bars", text="bars at a tee end", amount=TEE_BARS, shown=f"{TEE_BARS}"
)
BAR = Habit(
    key="day.steel.bar",
    text="size of corner and tee bars",
    amount=BAR_NUMBER,
    shown=f"No. {BAR_NUMBER}",
)
LONG = Habit(
    key="day.steel.bar_length",
    text="length of corner and tee bars",
    amount=BAR_LENGTH,
    shown="3 ft (0.9 m)",
)
FRICTION = Habit(
    key="day.steel.friction",
    text="coefficient of friction on the base",
    amount=1.5,
    shown="1.5",
    source="usual value in a trade letter that measured 1.06 to 2.10",
)
MOST_TIE_SPACING = 30 * MM_PER_INCH
"""Greatest spacing (mm) of tie bars: that of the tied centre joint of TM 5-822-5."""

UNIT_WEIGHT = 150 * N_PER_POUND / MM_PER_FOOT**3
"""Weight of concrete, N/mm3: the 150 lb/ft3 of common practice."""


def steel_rows(
    slab: Slab,
    construction: Sequence[Joint],
    bars: Sequence[Bars],
    steel: SteelChoice,
    display: Display,
    ledger: Ledger,
) -> list[Row]:
    """The steel rows of the take-off.

    Args:
        slab: What is given.
        construction: The construction joints with their dowels.
        bars: The bars at corners and tees, as the joint plan draws them.
        steel: What the user chose.
        display: Pounds or kilograms.
        ledger: Takes down what had to be assumed or must be asked.
    """
    return [
        *_dowel_rows(slab, construction, steel, display, ledger),
        *_bar_rows(bars, steel, display, ledger),
        *_tie_rows(slab, steel, display, ledger),
    ]


def _dowel_rows(
    slab: Slab,
    construction: Sequence[Joint],
    steel: SteelChoice,
    display: Display,
    ledger: Ledger,
) -> list[Row]:
    if not construction:
        return []
    if not steel.dowels:
        ledger.ask(
            "Which publication sets the dowels of the construction joints? Give day.steel.dowels as one of "
            + ", ".join(TABLES)
            + "."
        )
        return []
    table = dowel_table(steel.dowels)
    dowel = table.dowel(slab.thickness)
    if dowel is None:
        thickness = format_depth(slab.thickness, display)
        ledger.ask(f"{table.source} names no dowel for {thickness}: ask the engineer.")
        return []
    count = sum(joint.dowels.count for joint in construction if joint.dowels)
    note = f"{_dowel_text(dowel, display)}; {table.source}; lengths least, spacing greatest"
    if slab.thickness < table.first - MM_PER_INCH / 80:
        note += f"; that table begins at {format_depth(table.first, display)}, this slab is thinner: ask the engineer"
    edge = format_depth(thickened_edge(slab.thickness), display)
    taper = format_length(THICKENED_EDGE_TAPER, display)
    hole, off = hole_diameter(dowel.diameter), height_tolerance(dowel.diameter)
    corner, other = (format_depth(c, display) for c in CORNER_CLEARANCE)
    placing = (
        f"{PLACING}, at mid-depth within {format_depth(off, display)} (UFC 3-320-06A, 5-4); a drilled hole no wider than "
        f"{format_depth(hole, display)} (TM 5-822-7); at a corner {corner} clear along one edge and {other} along the "
        "other (airfield practice)"
    )
    instead = f"{placing}; or no dowels and both edges {edge} deep, tapering over {taper}"
    return [
        Row(group=GROUP, item="dowels", amount=count, unit="pieces", note=note),
        weight_row(GROUP, "dowels, weight", count * dowel.weight, display, instead),
    ]


def _dowel_text(dowel: Dowel, display: Display) -> str:
    sizes = format_depth(dowel.diameter, display)
    if dowel.diameter_to > dowel.diameter:
        sizes += f" to {format_depth(dowel.diameter_to, display)}"
    length = format_depth(dowel.length, display)
    return f"{sizes} round, {length} long, at {format_depth(dowel.spacing, display)}"


def _bar_rows(
    bars: Sequence[Bars], steel: SteelChoice, display: Display, ledger: Ledger
) -> list[Row]:
    corners = sum(b.place is BarPlace.CORNER for b in bars)
    tee_ends = len(bars) - corners
    if not bars:
        return []
    number = round(ledger.take(steel.bar, BAR))
    length = ledger.take(steel.bar_length, LONG)
    at_corner = round(ledger.take(steel.corner_bars, AT_CORNER)) if corners else 0
    at_tee = round(ledger.take(steel.tee_bars, AT_TEE)) if tee_ends else 0
    size = f"No. {number}, {format_depth(length, display)} long"
    rows = [
        _pieces(
            "corner bars",
            corners * at_corner,
            f"{at_corner} at each re-entrant corner that no joint leaves ({corners}); {size}",
        ),
        _pieces("tee bars", tee_ends * at_tee, f"{at_tee} at each tee end ({tee_ends}); {size}"),
    ]
    count = corners * at_corner + tee_ends * at_tee
    weight = count * length * bar_weight(numbered_bar(number))
    rows = [row for row in rows if row.amount]
    if count:
        rows.append(weight_row(GROUP, "corner and tee bars, weight", weight, display, ""))
    return rows


def _pieces(item: str, amount: int, note: str) -> Row:
    return Row(group=GROUP, item=item, amount=amount, unit="pieces", note=note)


def _tie_rows(slab: Slab, steel: SteelChoice, display: Display, ledger: Ledger) -> list[Row]:
    """Tie bars along edges that are tied to a neighbour."""
    edges = edge_lines(slab, EdgeKind.CONTINUOUS)
    if not edges:
        return []
    if steel.steel_stress is None or steel.bond is None:
        ledger.ask(
            "Tie bars at the continuous edges need day.steel.steel_stress and day.steel.bond, the stresses "
            "allowed in steel and in bond."
        )
        return []
    friction = ledger.take(steel.friction, FRICTION)
    diameter = numbered_bar(round(ledger.take(steel.bar, BAR)))
    length = format_depth(tie_bar_length(diameter, steel.steel_stress, steel.bond), display)
    rows = []
    for held in sorted({round(_held(slab, line), 0) for line in edges}):
        needed = tie_bar_area(slab.thickness, held, UNIT_WEIGHT, friction, steel.steel_stress)
        spacing = min(
            tie_bar_spacing(math.pi / 4 * diameter**2, needed, MM_PER_INCH), MOST_TIE_SPACING
        )
        if not spacing:
            ledger.ask(
                "Tie bars at the continuous edges come closer than an inch: ask the engineer."
            )
            return []
        own = [line for line in edges if round(_held(slab, line), 0) == held]
        note = (
            f"{format_depth(diameter, display)}, {length} long, at {format_depth(spacing, display)}, for "
            f"{format_length(held, display)} of slab behind the edge; As = b h W f / Ss, L = d Ss / (2 Sb)"
        )
        count = sum(dowel_count(float(line.length), spacing) for line in own)
        rows.append(_pieces("tie bars", count, note))
    return rows


def _held(slab: Slab, edge: LineString) -> float:
    """How far the slab reaches from a tied edge, square to it (mm): what hangs on its bars."""
    (x0, y0), (x1, y1) = edge.coords[0], edge.coords[-1]
    level = affinity.rotate(
        slab.concrete, -math.degrees(math.atan2(y1 - y0, x1 - x0)), origin=(x0, y0)
    )
    low, _, high, _ = x0, y0, x0 + math.hypot(x1 - x0, y1 - y0), y1
    _, bottom, _, top = level.bounds
    beside = level.intersection(box(low, bottom - 1, high, top + 1))
    _, bottom, _, top = beside.bounds
    return float(max(top - y0, y0 - bottom))
