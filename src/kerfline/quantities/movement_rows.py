"""Joint opening, drag steel and stiffness as rows of the take-off."""

from kerfline.model.day import Habit, Ledger, SteelChoice
from kerfline.model.layout import Layout
from kerfline.model.slab import Slab
from kerfline.quantities.movement import (
    drag_steel,
    joint_opening,
    relative_stiffness,
    seal_width,
    shrinkage_by_strength,
    steel_ratio,
)
from kerfline.quantities.row import Row
from kerfline.quantities.steel_rows import FRICTION, UNIT_WEIGHT
from kerfline.units import (
    DEGREES_F_PER_C,
    MM_PER_FOOT,
    MM_PER_INCH,
    MPA_PER_PSI,
    Display,
    format_length,
)

GROUP = "movement"
RESTRAINT = Habit(
    key="day.steel.restraint",
    text="restraint factor C of the joint opening",
    amount=0.8,
    shown="0.8, granular base",
    source="FHWA concrete pavement notebook, 3.3, example",
)
EXPANSION = Habit(
    key="day.steel.expansion",
    text="coefficient of thermal expansion",
    amount=5.5e-6 * DEGREES_F_PER_C,
    shown="5.5e-6 /°F (9.9e-6 /°C)",
    source="FHWA concrete pavement notebook, 3.3, example",
)


def movement_rows(
    slab: Slab, layout: Layout, steel: SteelChoice, display: Display, ledger: Ledger
) -> list[Row]:
    """What the longest panel does: opening of its joint, drag steel, length over stiffness."""
    if not layout.panels:
        return []
    longest = max(panel.length for panel in layout.panels)
    return [
        *_opening_rows(longest, steel, display, ledger),
        *_drag_rows(slab, longest, steel, display, ledger),
        *_stiffness_rows(slab, longest, steel, display),
    ]


def _opening_rows(
    longest: float, steel: SteelChoice, display: Display, ledger: Ledger
) -> list[Row]:
    shrinkage = _shrinkage(steel, ledger)
    if steel.temperature_drop is None or shrinkage is None:
        ledger.ask(
            "How far will joints open? Give day.steel.temperature_drop (placing to coldest) and "
            "day.steel.shrinkage (0.0002 to 0.0008), or day.steel.tensile, the strength that it goes by."
        )
        return []
    opening = joint_opening(
        longest,
        ledger.take(steel.restraint, RESTRAINT),
        ledger.take(steel.expansion, EXPANSION),
        steel.temperature_drop,
        shrinkage,
    )
    note = f"dL = C L (alpha dT + eps), L {format_length(longest, display)}; years of measuring often show more"
    seal = "where joints are sealed by compression: W = dL / (0.55 - 0.20)"
    return [
        _length_row("opening of a joint", opening, note, display),
        _length_row("compression seal, least width", seal_width(opening), seal, display),
    ]


def _shrinkage(steel: SteelChoice, ledger: Ledger) -> float | None:
    """Drying shrinkage, given or by the strength that is given."""
    if steel.shrinkage is not None or steel.tensile is None:
        return steel.shrinkage
    share = shrinkage_by_strength(steel.tensile / MPA_PER_PSI)
    ledger.note(
        "drying shrinkage by indirect tensile strength",
        f"{share:.5f}",
        "FHWA T 5040.30 (1990), Table 2; a 2019 edition exists",
    )
    return share


def _length_row(item: str, mm: float, note: str, display: Display) -> Row:
    feet = display is Display.FEET_INCHES
    amount, unit = (mm / MM_PER_INCH, "in") if feet else (mm, "mm")
    decimals = 3 if feet else 1
    return Row(group=GROUP, item=item, amount=amount, unit=unit, note=note, decimals=decimals)


def _drag_rows(
    slab: Slab, longest: float, steel: SteelChoice, display: Display, ledger: Ledger
) -> list[Row]:
    """Only where the user allows a stress: a plain slab has no such steel."""
    if steel.steel_stress is None:
        return []
    friction = ledger.take(steel.friction, FRICTION)
    area = drag_steel(friction, longest, UNIT_WEIGHT * slab.thickness, steel.steel_stress)
    feet = display is Display.FEET_INCHES
    amount = area * MM_PER_FOOT / MM_PER_INCH**2 if feet else area * 1000
    unit = "in2/ft" if feet else "mm2/m"
    ratio = steel_ratio(area, 1.0, slab.thickness)
    length = format_length(longest, display)
    note = f"As = F L w / (2 fs), each way, L {length}; {ratio:.3%} of the section"
    decimals = 4 if feet else 1
    return [
        Row(group=GROUP, item="drag steel", amount=amount, unit=unit, note=note, decimals=decimals)
    ]


def _stiffness_rows(slab: Slab, longest: float, steel: SteelChoice, display: Display) -> list[Row]:
    """Only where modulus and subgrade are known."""
    if steel.modulus is None or steel.subgrade is None:
        return []
    stiffness = relative_stiffness(steel.modulus, slab.thickness, steel.subgrade)
    feet = display is Display.FEET_INCHES
    amount, unit = (stiffness / MM_PER_INCH, "in") if feet else (stiffness, "mm")
    note = f"longest panel is {longest / stiffness:.1f} times that"
    item = "radius of relative stiffness"
    return [Row(group=GROUP, item=item, amount=amount, unit=unit, note=note, decimals=1)]
