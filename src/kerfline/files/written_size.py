"""Reads a slab from its sizes as people write them: ``40 ft x 28 ft``, or the way round its edge.

The way round starts at the lower left corner and names each leg in turn: ``right 40 ft, up 28 ft, left
12 ft, down 8 ft, ...``. A leg of two directions is slanting: ``left 4 ft up 4 ft``. The last leg may be
left out where it leads straight back.
"""

import re
from dataclasses import dataclass

from kerfline.errors import InputRefused, Mistake
from kerfline.geometry.ring import Point, Ring
from kerfline.geometry.tolerance import FARTHEST, SAME
from kerfline.units import Unit, format_length, parse_length, unit_written

LONGEST = 2000
"""Letters that a size may have."""

MOST_LEGS = 200

WHERE = "the size"
EXAMPLES = (
    'write it as "40 ft x 28 ft", or go round the slab: '
    '"right 40 ft, up 28 ft, left 12 ft, down 8 ft, left 28 ft"'
)

_TIMES = re.compile(r"\s*(?:[x×*]|\bby\b)\s*", re.IGNORECASE)
_DIRECTIONS: dict[str, Point] = {
    "right": (1, 0), "left": (-1, 0), "up": (0, 1), "down": (0, -1),
}  # fmt: skip
_TURN = re.compile(rf"\b({'|'.join(_DIRECTIONS)})\b", re.IGNORECASE)
_AT = re.compile(
    rf"\s*at\s+([^,;]+?)\s*[,;]\s*([^,;]+?)\s*(?:[,;]|(?=\b(?:{'|'.join(_DIRECTIONS)})\b)|$)(.*)",
    re.IGNORECASE | re.DOTALL,
)
_FIRST_DIGIT = re.compile(r"\s*[\d.½¼¾⅛⅜⅝⅞]")
_ENDING = re.compile(r"\.[a-z]\w{1,4}$", re.IGNORECASE)


@dataclass(frozen=True, kw_only=True)
class WrittenSize:
    """What a written size says.

    Attributes:
        outline: The slab's edge, its lower left corner at 0, 0.
        units: The unit that it is written in.
        width: From its left to its right, mm.
        height: From its bottom to its top, mm.
    """

    outline: Ring
    units: Unit
    width: float
    height: float

    @property
    def name(self) -> str:
        """What a job of this size is called until its user names it."""
        sides = (round(side / self.units.mm, 2) for side in (self.width, self.height))
        return f"Slab {' x '.join(f'{side:g} {self.units}' for side in sides)}"


def is_size(text: str) -> bool:
    """Whether a text is meant as a size, well written or not, rather than as the name of a file."""
    if _ENDING.search(text.strip()):
        return False
    sides = _TIMES.split(text.strip())
    return bool(_TURN.match(text.strip())) or (
        len(sides) > 1 and all(_FIRST_DIGIT.match(side) for side in sides)
    )


def read_size(text: str, units: Unit | None = None) -> WrittenSize:
    """Reads a size.

    Args:
        text: Two sides, or the legs round the slab.
        units: Unit of bare numbers; where it is None, that of the numbers beside them.

    Raises:
        InputRefused: It is no size, has no unit, or its legs do not lead back to where they start.
    """
    if len(text) > LONGEST:
        raise _refused("this size is too long to read", text)
    legs = _legs(text) if _TURN.match(text.strip()) else _sides(text)
    if len(legs) > MOST_LEGS:
        raise _refused(f"no slab is described by more than {MOST_LEGS} legs", text)
    units = units or _unit_of([length for leg in legs for _, length in leg], text)
    corners = _corners([_step(leg, units) for leg in legs], units)
    left, bottom = min(x for x, _ in corners), min(y for _, y in corners)
    outline = Ring(tuple((_tidy(x - left), _tidy(y - bottom)) for x, y in corners))
    return WrittenSize(
        outline=outline,
        units=units,
        width=max(x for x, _ in outline.points),
        height=max(y for _, y in outline.points),
    )


def read_legs(
    text: str, units: Unit, start: Point = (0.0, 0.0), origin: Point = (0.0, 0.0)
) -> tuple[Point, ...]:
    """The points that some legs lead through; they need not lead back to the first.

    Args:
        text: Legs such as ``right 40 ft, up 28 ft``; or where they begin and then the legs, which may be
            left out: ``at 12 ft, 8 ft right 10 ft``.
        units: Unit of bare numbers.
        start: Where the first leg begins where the text does not say it, mm.
        origin: What ``at`` is measured from, mm.

    Returns:
        The points, that where the legs begin first.

    Raises:
        InputRefused: These are no legs.
    """
    if not text.strip() or len(text) > LONGEST:
        raise _refused("these are not legs of the way round a slab", text)
    if found := _AT.fullmatch(text):
        across, up, text = found.groups()
        start = (
            origin[0] + parse_length(across, units, where="at, from the left"),
            origin[1] + parse_length(up, units, where="at, from the bottom"),
        )
    x, y = start
    out = [(_tidy(x), _tidy(y))]
    for dx, dy in (_step(leg, units) for leg in (_legs(text) if text.strip() else [])):
        x, y = x + dx, y + dy
        out.append((_tidy(x), _tidy(y)))
    return tuple(out)


Leg = list[tuple[str, str]]
"""One straight edge: a direction and a length, or two of them where it slants."""


def _sides(text: str) -> list[Leg]:
    """The legs of a rectangle."""
    sides = [side.strip() for side in _TIMES.split(text.strip())]
    if len(sides) != len(("width", "height")) or not all(sides):
        raise _refused("this is not a size", text)
    width, height = sides
    return [[("right", width)], [("up", height)], [("left", width)], [("down", height)]]


def _legs(text: str) -> list[Leg]:
    """The legs as they are written, between commas, semicolons or the word then."""
    parts = re.split(r"\s*(?:[,;]|\bthen\b)\s*", text.strip().rstrip(",;. "))
    return [_leg(part) for part in parts]


def _leg(part: str) -> Leg:
    head, *found = _TURN.split(part)
    words, lengths = [w.lower() for w in found[::2]], [t.strip() for t in found[1::2]]
    across = [word in ("right", "left") for word in words]
    if head.strip() or not words or not all(lengths) or len(set(across)) != len(across):
        raise _refused("this is not a leg of the way round a slab", part)
    return list(zip(words, lengths, strict=True))


def _unit_of(lengths: list[str], text: str) -> Unit:
    """The unit of a text: the only one in it, or that of its first length."""
    written = [unit_written(length) for length in lengths]
    known = [unit for unit in written if unit]
    if not known:
        raise _refused("this size has no unit", text)
    if None in written and len(set(known)) > 1:
        raise _refused("this size has numbers without a unit beside numbers in two units", text)
    return known[0]


def _step(leg: Leg, units: Unit) -> Point:
    """How far a leg goes to the right and up, mm."""
    dx = dy = 0.0
    for word, written in leg:
        length = parse_length(written, units, where=f"{WHERE}, {word}")
        if not SAME < length < FARTHEST:
            raise _refused("a side must be longer than nothing and shorter than the Earth", written)
        right, up = _DIRECTIONS[word]
        dx, dy = dx + right * length, dy + up * length
    return dx, dy


def _corners(steps: list[Point], units: Unit) -> list[Point]:
    """The corners that the legs lead through, the first one at 0, 0."""
    corners = [(0.0, 0.0)]
    for dx, dy in steps:
        x, y = corners[-1]
        corners.append((x + dx, y + dy))
    x, y = corners[-1]
    if max(abs(x), abs(y)) <= SAME:
        return corners[:-1]
    if not _leads_back((-x, -y), steps):
        raise InputRefused(_not_closed(corners[-1], units))
    return corners


def _leads_back(last: Point, steps: list[Point]) -> bool:
    """Whether the leg that is left out is straight up, down, left or right, and turns from both beside it."""
    straight = min(abs(last[0]), abs(last[1])) <= SAME
    return straight and all(
        abs(last[0] * dy - last[1] * dx) > SAME for dx, dy in (steps[0], steps[-1])
    )


def _not_closed(end: Point, units: Unit) -> Mistake:
    """By how much the legs miss their start."""
    ways = [("right", "left")[end[0] < 0], ("up", "down")[end[1] < 0]]
    off = [
        f"{_told(abs(by), units)} too far {way}"
        for by, way in zip(end, ways, strict=True)
        if abs(by) > SAME
    ]
    return Mistake(
        what=f"the legs do not close: they end {' and '.join(off)}",
        where=WHERE,
        remedy="check each leg: as much must go right as left, and as much up as down",
    )


def _tidy(mm: float) -> float:
    """A length without the last bits that adding up leaves, a millionth of a mm."""
    return round(mm, 6)


def _told(length: float, units: Unit) -> str:
    """A length in the job's own words; in mm where it is too small to be told so."""
    return format_length(length, units.display) if length >= 1.0 else f"{length:.2f} mm"


def _refused(what: str, found: str) -> InputRefused:
    return InputRefused(Mistake(what=what, found=repr(found), remedy=EXAMPLES))
