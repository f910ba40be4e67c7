"""Scale bar, check bar, north arrow and the mark of the corner that dimensions start from."""

import math

from kerfline.geometry.ring import Point
from kerfline.sheets.lettering import text_width
from kerfline.sheets.marks import Anchor, Board, Fill, Layer
from kerfline.units import MM_PER_FOOT, MM_PER_INCH, MM_PER_METRE, Display

CHECK_METRIC = 100.0
CHECK_INCHES = 4
BAR = 1.6
"""Height of the bars in mm."""

STEPS: dict[Display, tuple[tuple[float, str, float], ...]] = {
    Display.FEET_INCHES: (
        *((float(n), "in", MM_PER_INCH) for n in (1, 2, 3, 6)),
        *((float(n), "ft", MM_PER_FOOT) for n in (1, 2, 5, 10, 20, 50, 100, 200, 500)),
    ),
    Display.METRIC: (
        *((float(n), "mm", 1.0) for n in (10, 20, 50)),
        *((n, "m", MM_PER_METRE) for n in (0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50, 100, 200)),
    ),
}
"""Steps of a scale bar: number, unit and millimetres in that unit."""

BAR_LEAST = 9.0
"""Least length of one step of the scale bar on paper, mm."""

BAR_STEPS = 4


def scale_bar(board: Board, at: Point, scale: float, display: Display, height: float) -> float:
    """A graphic scale with its foot at a point; returns its length in mm."""
    steps = STEPS[display]
    fitting = (s for s in steps if s[0] * s[2] / scale >= _least_pitch(s, height))
    step, name, unit = next(fitting, steps[-1])
    pitch = step * unit / scale
    x, y = at
    for i in range(BAR_STEPS):
        _segment(board, x + i * pitch, y, pitch, filled=i % 2 == 0)
    for i in range(BAR_STEPS + 1):
        label = f"{i * step:g}" + (f" {name}" if i == BAR_STEPS else "")
        board.text(
            Layer.SYMBOL, (x + i * pitch, y + BAR + 0.9), label, height, anchor=Anchor.MIDDLE
        )
    return BAR_STEPS * pitch


def _least_pitch(step: tuple[float, str, float], height: float) -> float:
    """Least length of a step on paper: its labels must stand apart, the last with its unit."""
    number, unit, _ = step
    middle = text_width(f"{(BAR_STEPS - 1) * number:g}", height)
    last = text_width(f"{BAR_STEPS * number:g} {unit}", height)
    return max(BAR_LEAST, (middle + last) / 2 + height)


def check_bar(board: Board, at: Point, display: Display, height: float) -> float:
    """A bar of 100 mm or 4 in that proves the print; returns its length in mm."""
    length = check_length(display)
    x, y = at
    board.line(Layer.SYMBOL, (x, y), (x + length, y), ref="check bar")
    for along in (0.0, length):
        board.line(Layer.SYMBOL, (x + along, y - BAR / 2), (x + along, y + BAR / 2))
    words = f"check bar {'100 mm' if display is Display.METRIC else '4 in'}: measure before use"
    board.text(Layer.SYMBOL, (x + length / 2, y + 1.1), words, height, anchor=Anchor.MIDDLE)
    return length


def check_length(display: Display) -> float:
    """Length of the check bar in mm."""
    return CHECK_METRIC if display is Display.METRIC else CHECK_INCHES * MM_PER_INCH


def north_arrow(board: Board, centre: Point, north: float, radius: float, height: float) -> None:
    """An arrow to north.

    Args:
        board: Where it goes.
        centre: Its centre on the paper.
        north: Direction of north, degrees anticlockwise from the top of the sheet.
        radius: Its radius in mm.
        height: Capital height of its letter.
    """
    x, y = centre
    angle = math.radians(90.0 + north)
    dx, dy = math.cos(angle), math.sin(angle)
    tip = (x + radius * dx, y + radius * dy)
    tail = (x - radius * dx, y - radius * dy)
    side = 0.38 * radius
    left, right = (
        (tail[0] - side * dy, tail[1] + side * dx),
        (tail[0] + side * dy, tail[1] - side * dx),
    )
    notch = (x - 0.55 * radius * dx, y - 0.55 * radius * dy)
    board.add(Fill(layer=Layer.SYMBOL, rings=((tip, left, notch),)))
    board.line(Layer.SYMBOL, tip, right, notch)
    off = radius + height
    board.text(
        Layer.SYMBOL,
        (x + off * dx, y + off * dy - height / 2),
        "N",
        height,
        anchor=Anchor.MIDDLE,
    )


def letter_mark(board: Board, centre: Point, letter: str, height: float) -> None:
    """A letter in a circle."""
    radius = max(1.15 * height, text_width(letter, height) / 2 + 1.0)
    board.circle(Layer.SYMBOL, centre, radius)
    board.text(
        Layer.SYMBOL, (centre[0], centre[1] - height / 2), letter, height, anchor=Anchor.MIDDLE
    )


def _segment(board: Board, x: float, y: float, length: float, *, filled: bool) -> None:
    corners = ((x, y), (x + length, y), (x + length, y + BAR), (x, y + BAR))
    board.box(Layer.SYMBOL, (x, y, x + length, y + BAR), width=0.18)
    if filled:
        board.add(Fill(layer=Layer.SYMBOL, rings=(corners,)))
