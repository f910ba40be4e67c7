"""A row of the take-off, and how its amount is shown."""

from dataclasses import dataclass

from kerfline.units import (
    KG_PER_POUND,
    MM3_PER_GALLON,
    MM3_PER_LITRE,
    MM3_PER_M3,
    MM3_PER_YD3,
    MM_PER_FOOT,
    MM_PER_METRE,
    Display,
)


@dataclass(frozen=True, kw_only=True)
class Row:
    """One row.

    Attributes:
        group: What it belongs to, such as ``concrete``.
        item: What it is.
        amount: How much, in ``unit``.
        unit: The unit as it is shown.
        note: How the amount comes about, or what to mind.
        decimals: Digits that make sense after the point.
    """

    group: str
    item: str
    amount: float
    unit: str
    note: str
    decimals: int = 0

    @property
    def shown(self) -> str:
        """Amount and unit, such as ``20.69 yd3``."""
        return f"{self.amount:,.{self.decimals}f} {self.unit}"


def volume_row(group: str, item: str, mm3: float, display: Display, note: str) -> Row:
    """A row in cubic yards or metres."""
    yards = display is Display.FEET_INCHES
    amount = mm3 / (MM3_PER_YD3 if yards else MM3_PER_M3)
    unit = "yd3" if yards else "m3"
    return Row(group=group, item=item, amount=amount, unit=unit, note=note, decimals=2)


def length_row(group: str, item: str, mm: float, display: Display, note: str) -> Row:
    """A row in feet or metres."""
    feet = display is Display.FEET_INCHES
    amount = mm / (MM_PER_FOOT if feet else MM_PER_METRE)
    unit = "ft" if feet else "m"
    return Row(group=group, item=item, amount=amount, unit=unit, note=note, decimals=1)


def area_row(group: str, item: str, mm2: float, display: Display, note: str) -> Row:
    """A row in square feet or metres."""
    feet = display is Display.FEET_INCHES
    amount = mm2 / (MM_PER_FOOT if feet else MM_PER_METRE) ** 2
    unit = "ft2" if feet else "m2"
    return Row(group=group, item=item, amount=amount, unit=unit, note=note, decimals=1)


def liquid_row(group: str, item: str, mm3: float, display: Display, note: str) -> Row:
    """A row in gallons or litres."""
    gallons = display is Display.FEET_INCHES
    amount = mm3 / (MM3_PER_GALLON if gallons else MM3_PER_LITRE)
    unit = "gal" if gallons else "L"
    return Row(group=group, item=item, amount=amount, unit=unit, note=note, decimals=1)


def weight_row(group: str, item: str, kg: float, display: Display, note: str) -> Row:
    """A row in pounds or kilograms."""
    pounds = display is Display.FEET_INCHES
    amount = kg / KG_PER_POUND if pounds else kg
    unit = "lb" if pounds else "kg"
    return Row(group=group, item=item, amount=amount, unit=unit, note=note, decimals=1)
