"""The sizes that texts state of the rooms they stand in, and what they say of the drawing's unit.

How rooms are lettered is common practice.
"""

import math
import re
from collections.abc import Iterator, Sequence

import numpy as np

from kerfline.errors import InputRefused
from kerfline.files.drawing.size import DRAWN
from kerfline.geometry.arrays import Numbers
from kerfline.geometry.ring import Point
from kerfline.units import MM_PER_FOOT, MM_PER_METRE, Unit, parse_length

AREA = re.compile(
    r"(\d+(?:\.\d+)?)\s*(?:(M2|M²|㎡|SQ\.? ?M|КВ\.? ?М)|(SF|S\.F\.|SQ\.? ?FT|FT2|FT²))(?![A-Z0-9])"
)
"""An area in a text, in square metres or in square feet."""

FEET = r"\d+(?:\.\d+)?\s*'(?:\s*-?\s*\d+(?:\s+\d+/\d+|\.\d+)?\s*\")?"
METRIC = r"\d+(?:[.,]\d+)?\s*(?:MM|CM|M|FT)?"
SIZE = re.compile(rf"({FEET}|{METRIC})\s*(?:X|BY)\s*({FEET}|{METRIC})(?![A-Z0-9'])")
"""Two sides of a room in a text."""

PLAIN = str.maketrans("\u2032\u2019\u2033\u201d\u00d7,", "''\"\"X.")
"""Marks of feet, inches and times, and the comma of decimals, as they are typed."""

CLOSE = 0.12
"""A stated size agrees with a unit within this share: rooms are stated between finishes, and rounded."""

WALL = 0.03
"""Lines shorter than this share of the whole are furniture and jambs, not the walls of a room."""

DECIMALS = 6


def units_of_rooms(
    labels: Sequence[tuple[str, Point]], lines: Numbers, longer: float
) -> dict[str, int]:
    """How many texts say each unit, by what the user writes for it, and under "" how many say none.

    Args:
        labels: Texts and where they stand, in drawing units.
        lines: Straight lines, start and end, in drawing units.
        longer: The longer side of what is drawn, in drawing units.
    """
    found: dict[str, int] = {}
    long = lines[np.hypot(lines[:, 2] - lines[:, 0], lines[:, 3] - lines[:, 1]) >= WALL * longer]
    for text, at in labels:
        for mm in _mm_per_unit(text.upper().translate(PLAIN), at, long):
            said = next((u.said for u in DRAWN if abs(mm / u.mm - 1) < CLOSE), "")
            found[said] = found.get(said, 0) + 1
    return found


def _mm_per_unit(text: str, at: Point, lines: Numbers) -> Iterator[float]:
    """Millimetres in a drawing unit as a text says; nothing where it states no size or stands in no room."""
    area, sides = AREA.search(text), _sides(text)
    if not (area or sides):
        return
    room = _room_around(at, lines)
    if room is None:
        return
    if sides:
        for a, b in (sides, sides[::-1]):
            first, second = a / room[0], b / room[1]
            if abs(first / second - 1) < CLOSE:
                yield math.sqrt(first * second)
                return
    if area:
        side = MM_PER_METRE if area[2] else MM_PER_FOOT
        stated = float(area[1]) * side**2
        if stated > 0:
            yield math.sqrt(stated / (room[0] * room[1]))


def _sides(text: str) -> tuple[float, float] | None:
    """Both sides that a text states, mm; a unit behind the second is meant for both, and without one it says none."""
    found = SIZE.search(text)
    if not found:
        return None
    first, second = found[1].strip(), found[2].strip()
    unit = second.lstrip("0123456789. ")
    if not unit:
        return None
    if first.replace(".", "").isdigit():
        first += unit if unit.isalpha() else unit[0]
    try:
        a, b = (parse_length(side.lower(), Unit.MM) for side in (first, second))
    except InputRefused:
        return None
    return (a, b) if a > 0 and b > 0 else None


def _room_around(at: Point, lines: Numbers) -> tuple[float, float] | None:
    """Width and depth between the nearest lines on all four sides of a place; None where one side is open."""
    spans = []
    for along, across in ((0, 1), (1, 0)):
        a0, c0, a1, c1 = (lines[:, i] for i in (along, across, 2 + along, 2 + across))
        with np.errstate(divide="ignore", invalid="ignore"):
            share = (at[across] - c0) / (c1 - c0)
        met = (share >= 0) & (share <= 1)
        places = (a0 + share * (a1 - a0))[met] - at[along]
        before, behind = places[places < 0], places[places > 0]
        if not len(before) or not len(behind):
            return None
        spans.append(round(float(behind.min() - before.max()), DECIMALS))
    width, depth = spans
    return (width, depth) if width > 0 and depth > 0 else None
