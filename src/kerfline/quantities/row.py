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


@dataclass(frozen=True)
class _Sold:
    """The unit that a thing is bought in: its name, its size in the program's own unit, useful decimals."""

    name: str
    size: float
    decimals: int = 1


_VOLUME = (_Sold("yd3", MM3_PER_YD3, 2), _Sold("m3", MM3_PER_M3, 2))
_LENGTH = (_Sold("ft", MM_PER_FOOT), _Sold("m", MM_PER_METRE))
_AREA = (_Sold("ft2", MM_PER_FOOT**2), _Sold("m2", MM_PER_METRE**2))
_LIQUID = (_Sold("gal", MM3_PER_GALLON), _Sold("L", MM3_PER_LITRE))
_WEIGHT = (_Sold("lb", KG_PER_POUND), _Sold("kg", 1.0))


def volume_row(group: str, item: str, mm3: float, display: Display, note: str) -> Row:
    """A row in cubic yards or metres."""
    return _row(group, item, mm3, _VOLUME, display, note)


def length_row(group: str, item: str, mm: float, display: Display, note: str) -> Row:
    """A row in feet or metres."""
    return _row(group, item, mm, _LENGTH, display, note)


def area_row(group: str, item: str, mm2: float, display: Display, note: str) -> Row:
    """A row in square feet or metres."""
    return _row(group, item, mm2, _AREA, display, note)


def liquid_row(group: str, item: str, mm3: float, display: Display, note: str) -> Row:
    """A row in gallons or litres."""
    return _row(group, item, mm3, _LIQUID, display, note)


def weight_row(group: str, item: str, kg: float, display: Display, note: str) -> Row:
    """A row in pounds or kilograms."""
    return _row(group, item, kg, _WEIGHT, display, note)


def _row(
    group: str, item: str, value: float, units: tuple[_Sold, _Sold], display: Display, note: str
) -> Row:
    unit = units[0] if display is Display.FEET_INCHES else units[1]
    return Row(
        group=group,
        item=item,
        amount=value / unit.size,
        unit=unit.name,
        note=note,
        decimals=unit.decimals,
    )
