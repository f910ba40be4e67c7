"""Lengths, areas and runs as people read them; lengths inside sentences that are kept."""

import math
import re
from collections.abc import Sequence
from fractions import Fraction

from kerfline.units.factors import (
    INCHES_PER_FOOT,
    MM_PER_FOOT,
    MM_PER_INCH,
    MM_PER_METRE,
    SIXTEENTHS,
)
from kerfline.units.unit import Display

MOST_TOLD = 1e12
"""Lengths from here on (mm) are told by their size alone, for only a slip of the pen is as long."""

_ZEROS = re.compile(r"(?<=\d)\.0+(?!\d)")
_STORED = re.compile(r"\{(-?\d+\.\d\d)( run)?\}")


EIGHTHS = 8
"""Parts of an inch that lengths are told in: a sixth of what a joint may lie beside its place."""

EVEN = 2e-3
"""Share of a step by which a length at the middle of two may be short and is rounded up all the same."""


def step(display: Display) -> float:
    """What lengths are rounded to wherever they are told: 1/8 in, or one millimetre."""
    return MM_PER_INCH / EIGHTHS if display is Display.FEET_INCHES else 1.0


def in_steps(mm: float, display: Display) -> int:
    """A length in whole steps; one half way between two goes up, so that equal lengths read the same."""
    return math.floor(mm / step(display) + 0.5 + EVEN)


def format_length(mm: float, display: Display) -> str:
    """A length for people: ``12'-6 1/2"`` or ``3810 mm``; the same figure wherever it is told."""
    told = mm if _past_telling(mm) else in_steps(mm, display) * step(display)
    return exact_length(told, display)


def exact_length(mm: float, display: Display) -> str:
    """A length to the nearest 1/16 in or 1 mm, for what is read again and for what differs by less than a step."""
    return feet_inches(mm) if display is Display.FEET_INCHES else metric(mm)


def stored_length(mm: float) -> str:
    """A length inside a sentence that is kept: ``{3810.00}``, in mm whatever unit it is read in later."""
    return f"{{{mm:.2f}}}"


def stored_run(mm: float) -> str:
    """A total length inside a sentence that is kept: ``{151800.00 run}``, in mm."""
    return f"{{{mm:.2f} run}}"


def in_words(sentence: str, display: Display) -> str:
    """A sentence with its stored lengths written for people; any other braces stay as they are."""

    def written(found: re.Match[str]) -> str:
        return (format_run if found[2] else format_length)(float(found[1]), display)

    return _STORED.sub(written, sentence)


def feet_inches(mm: float) -> str:
    """Feet and inches to the nearest 1/16 in with reduced fractions, such as ``12'-6 1/2"``."""
    if _past_telling(mm):
        return f"{mm / MM_PER_FOOT:.3g} ft"
    sixteenths = round(abs(mm) / MM_PER_INCH * SIXTEENTHS)
    sign = "-" if mm < 0 and sixteenths else ""
    inches, part = divmod(sixteenths, SIXTEENTHS)
    feet, inches = divmod(inches, INCHES_PER_FOOT)
    fraction = f" {Fraction(part, SIXTEENTHS)}" if part else ""
    return f"{sign}{feet}'-{inches}{fraction}\""


def inches(mm: float) -> str:
    """Inches alone to the nearest 1/16 in, such as ``4 1/2"``, for thicknesses and depths."""
    if _past_telling(mm):
        return f"{mm / MM_PER_INCH:.3g} in"
    sixteenths = round(abs(mm) / MM_PER_INCH * SIXTEENTHS)
    sign = "-" if mm < 0 and sixteenths else ""
    whole, part = divmod(sixteenths, SIXTEENTHS)
    fraction = str(Fraction(part, SIXTEENTHS)) if part else ""
    body = " ".join(filter(None, [str(whole) if whole or not part else "", fraction]))
    return f'{sign}{body}"'


def metric(mm: float) -> str:
    """Whole millimetres with the unit, such as ``3810 mm``."""
    if _past_telling(mm):
        return f"{mm:.3g} mm"
    return f"{round(mm)} mm" if round(mm) else "0 mm"


def _past_telling(mm: float) -> bool:
    """Whether a length is endless or has so many digits that only its size is worth telling."""
    return not abs(mm) < MOST_TOLD


def format_depth(mm: float, display: Display) -> str:
    """A thickness or a depth of cut: ``1 1/4"`` or ``32 mm``."""
    return inches(mm) if display is Display.FEET_INCHES else metric(mm)


def format_area(mm2: float, display: Display) -> str:
    """An area: ``112.5 ft2`` or ``10.45 m2``."""
    if display is Display.FEET_INCHES:
        return f"{mm2 / MM_PER_FOOT**2:,.1f} ft2"
    return f"{mm2 / MM_PER_METRE**2:,.2f} m2"


def format_run(mm: float, display: Display) -> str:
    """A total length for ordering: ``498 ft`` or ``151.8 m``."""
    if display is Display.FEET_INCHES:
        return f"{mm / MM_PER_FOOT:,.0f} ft"
    return f"{mm / MM_PER_METRE:,.1f} m"


def enumerated(words: Sequence[str]) -> str:
    """Words in a sentence: ``a``, ``a and b``, or ``a, b and c``; nothing of none."""
    return " and ".join(filter(None, [", ".join(words[:-1]), *words[-1:]]))


def counted(count: int, one: str, many: str = "") -> str:
    """A count with its noun, such as ``1 line`` or ``3 lines``."""
    return f"{count:,} {one if count == 1 else many or one + 's'}"


def listed(names: Sequence[str], most: int) -> str:
    """So many names at most, the others counted: ``A, B and 3 more``."""
    shown = ", ".join(names[:most])
    more = len(names) - most
    return f"{shown} and {more:,} more" if more > 0 else shown


def without_zeros(text: str) -> str:
    """A figure without a fraction of nothing but zeros: ``30 yd3`` of ``30.00 yd3``."""
    return _ZEROS.sub("", text)
