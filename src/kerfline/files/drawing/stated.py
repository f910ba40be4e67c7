"""The lengths that dimensions state, and what they say of the drawing's unit."""

import math
import re
from collections.abc import Iterator, Sequence

from ezdxf.entities import Dimension

from kerfline.errors import InputRefused
from kerfline.files.drawing.curves import Stated
from kerfline.files.drawing.size import DRAWN, DrawnUnit
from kerfline.units import MM_PER_INCH, Unit, feet_inches, parse_length

LINEAR = frozenset({0, 1})
"""Types of dimension between two points: along a direction, and from point to point."""

IN_FEET = frozenset({3, 4})
"""Styles that write one drawing unit as an inch: engineering and architectural feet and inches (DXF reference)."""

CLOSE = 0.01
"""A stated length agrees with a unit within this share: texts are rounded."""

MARK = re.compile(
    r"['\"\u2032\u2033\u2019\u201d]|\b(?:mm|cm|m|ft|feet|in|inch(?:es)?)\b", re.IGNORECASE
)
PLAIN = re.compile(r"^\d+(?:[.,]\d+)?$")

BARE = {
    1000.0: "m",
    100.0: "m",
    10.0: "cm",
    0.001: "mm",
    0.01: "cm",
    0.1: "mm",
    12.0: "ft",
    25.4: "in",
    304.8: "ft",
}
"""What a plain number says of the unit, by the number over the distance drawn: 3600 on a line 3.6 long states
millimetres on a drawing in metres."""


def stated_by(dimension: Dimension) -> Iterator[Stated]:
    """What a dimension between two points states; nothing where it cannot be read."""
    if int(dimension.dxf.get("dimtype", 0)) & 15 not in LINEAR:
        return
    drawn = float(dimension.get_measurement())
    if not math.isfinite(drawn) or drawn <= 0:
        return
    style = dimension.override()
    value = drawn * abs(float(style.get("dimlfac", 1.0)) or 1.0)
    written = dimension.dxf.get("text", "")
    if written in ("", "<>"):
        in_feet = int(style.get("dimlunit", 2)) in IN_FEET
        written = feet_inches(value * MM_PER_INCH) if in_feet else f"{value:.6g}"
    yield Stated(drawn=drawn, text=str(written))


def units_stated(stated: Sequence[Stated]) -> dict[str, int]:
    """How many dimensions say each unit, by what the user writes for it."""
    found: dict[str, int] = {}
    for one in stated:
        unit = _unit_of(one)
        if unit:
            found[unit.said] = found.get(unit.said, 0) + 1
    return found


def _unit_of(one: Stated) -> DrawnUnit | None:
    text = one.text.strip()
    if PLAIN.match(text):
        ratio = float(text.replace(",", ".")) / one.drawn
        said = next((s for r, s in BARE.items() if abs(ratio / r - 1) < CLOSE), "")
        return next((u for u in DRAWN if u.said == said), None)
    if not MARK.search(text):
        return None
    try:
        length = parse_length(text, Unit.MM)
    except InputRefused:
        return None
    return (
        next((u for u in DRAWN if abs(one.drawn * u.mm / length - 1) < CLOSE), None)
        if length > 0
        else None
    )
