"""Sizes of text in the shipped font, so that boxes can be reserved before anything is drawn."""

import math
import re
from functools import lru_cache

from kerfline.geometry.ring import Point
from kerfline.sheets.font_widths import ADVANCES, CAP_HEIGHT, UNITS_PER_EM
from kerfline.sheets.marks import Anchor, Text

EM_PER_CAP = UNITS_PER_EM / CAP_HEIGHT
"""Font size over height of a capital letter: drawings speak of the one, SVG and PDF of the other."""

DESCENT = 0.33
"""Depth of the deepest letter below the baseline, in capital heights."""

ASCENT = 1.1
"""Height of the tallest letter above the baseline, in capital heights."""

LINE_PITCH = 1.75
"""Distance of baselines in a paragraph, in capital heights."""

_WIDTHS = {start + i: w for start, widths in ADVANCES.items() for i, w in enumerate(widths)}
_WIDEST = max(_WIDTHS.values())
_BELOW = frozenset("gjpqy(),;/|[]{}_Q@$J\\")


def below(text: str, height: float) -> float:
    """How far the letters of a text reach below its baseline, mm."""
    return DESCENT * height if _BELOW.intersection(text) else 0.0


def text_width(text: str, height: float) -> float:
    """Length in mm of a text whose capitals are ``height`` mm high; unknown letters count as wide."""
    return _units(text) * height / CAP_HEIGHT


def unlettered(text: str) -> str:
    """The letters of a text that the shipped font has not, each once, sorted."""
    return "".join(
        sorted({sign for sign in text if ord(sign) not in _WIDTHS and sign.isprintable()})
    )


@lru_cache(maxsize=1 << 16)
def _units(text: str) -> int:
    return sum(_WIDTHS.get(ord(letter), _WIDEST) for letter in text)


def text_corners(text: Text, rim: float = 0.0) -> tuple[Point, Point, Point, Point]:
    """The four corners of the box that a text takes up, anticlockwise from the start of its foot.

    Args:
        text: The text.
        rim: Room in mm that is added all round.
    """
    width = text_width(text.text, text.height)
    start = {Anchor.START: 0.0, Anchor.MIDDLE: -width / 2, Anchor.END: -width}[text.anchor]
    foot = -below(text.text, text.height) - rim
    head = ASCENT * text.height + rim
    x, y = text.at
    start, end = start - rim, start + width + rim
    if not text.turn:
        left, right, low, high = x + start, x + end, y + foot, y + head
        return ((left, low), (right, low), (right, high), (left, high))
    cos, sin = math.cos(math.radians(text.turn)), math.sin(math.radians(text.turn))

    def corner(along: float, up: float) -> Point:
        return (x + along * cos - up * sin, y + along * sin + up * cos)

    return (corner(start, foot), corner(end, foot), corner(end, head), corner(start, head))


_NUMBER = r"\d[\d,]*(?:\.\d+)?"
_UNITS = "ft2|ft3|yd3|m2|m3|ft|in|mm|cm|m|deg|yd|lb|kg|F|C|kPa|psi|h|min|s"
_INCHES = rf"(?:\d+'-)?(?:{_NUMBER} )?(?:\d+/\d+|{_NUMBER})\""
_FEET = rf"{_NUMBER}'(?:-{_NUMBER}(?: \d+/\d+)?\")?"
_LENGTH = rf"(?:{_INCHES}|{_FEET}|{_NUMBER}(?: \d+/\d+)?(?: (?:{_UNITS})\b)?)"
_MEASURE = re.compile(rf"(?:Scale )?{_LENGTH}(?:(?: x | = |, (?=\d+'-)){_LENGTH})*")
"""A measure, a scale, a size or a pair of offsets in words: ``1 1/2" = 1'-0"``, ``12'-2" x 11'-0"``, ``30 mm``."""

KEEP = "\u00a0"
"""A blank that no line breaks at."""


def unbroken(text: str) -> str:
    """A text whose measures hold together: a figure and its fraction or unit, a size, a scale."""
    return _MEASURE.sub(lambda found: found.group().replace(" ", KEEP), text)


def wrap(text: str, height: float, width: float) -> list[str]:
    """Breaks a text into lines no longer than ``width`` mm, at blanks, never within a measure; else inside a word."""
    lines: list[str] = []
    line = ""
    for word in filter(None, unbroken(text).split(" ")):
        for piece in _pieces(word, height, width):
            longer = f"{line} {piece}" if line else piece
            if line and text_width(longer, height) > width:
                lines.append(line)
                line = piece
            else:
                line = longer
    return [broken.replace(KEEP, " ") for broken in (*lines, line) if broken]


def _pieces(word: str, height: float, width: float) -> list[str]:
    pieces = []
    while text_width(word, height) > width and len(word) > 1:
        cut = next(
            (n for n in range(len(word) - 1, 1, -1) if text_width(word[:n], height) <= width), 1
        )
        pieces.append(word[:cut])
        word = word[cut:]
    return [*pieces, word]


def fitted(text: str, height: float, width: float) -> str:
    """A text cut with an ellipsis where it is longer than ``width`` mm."""
    if text_width(text, height) <= width:
        return text
    while text and text_width(text + "...", height) > width:
        text = text[:-1]
    return f"{text.rstrip()}..." if text else ""
