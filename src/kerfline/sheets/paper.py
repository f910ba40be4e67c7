"""Paper sizes and drawing scales, as the trade has them."""

from dataclasses import dataclass

from kerfline.errors import InputRefused, Mistake
from kerfline.units import MM_PER_INCH, Display


@dataclass(frozen=True, kw_only=True)
class PaperSize:
    """A sheet of paper, lying on its long side.

    Attributes:
        name: Name as the user writes it.
        trade: Name of the trade, as it stands in the title block: ``ARCH D``.
        width: Long side in mm.
        height: Short side in mm.
        binding: Left margin in mm.
        margin: The other margins in mm.
        column: Width in mm of the column on the right that holds legend, notes and title block.
        text: Capital height in mm of notes, dimensions and tags.
        small: Capital height in mm of tables.
        display: The family of units it belongs to.
    """

    name: str
    trade: str
    width: float
    height: float
    binding: float
    margin: float
    column: float
    text: float
    small: float
    display: Display

    @property
    def frame(self) -> tuple[float, float, float, float]:
        """The drawing frame: left, bottom, right, top in mm."""
        return (self.binding, self.margin, self.width - self.margin, self.height - self.margin)


SMALLEST_TEXT = 2.5
"""Least capital height in mm on sheets up to tabloid and A3, which a crew carries as they are (ISO 3098 series)."""

EIGHTH_INCH = 3.2
"""Least height on larger sheets: legible on a half-size print (UFC 1-300-09N, 1/8 in on the full sheet)."""

CARRIED = 440.0
"""Long side in mm up to which a sheet is carried and read at full size: tabloid and A3."""


def _size(name: str, trade: str, width: float, height: float, column: float) -> PaperSize:
    """A size with the margins and texts that its length asks for, its sides in mm."""
    carried = width <= CARRIED
    metric = trade.startswith("A") and trade[1:].isdigit()
    return PaperSize(
        name=name,
        trade=trade,
        width=width,
        height=height,
        binding=15.0 if carried else 20.0 if metric else 25.0,
        margin=10.0 if carried or metric else 13.0,
        column=column,
        text=2.6 if carried else EIGHTH_INCH,
        small=SMALLEST_TEXT if carried else EIGHTH_INCH,
        display=Display.METRIC if metric else Display.FEET_INCHES,
    )


def _inches(name: str, trade: str, width: float, height: float, column: float) -> PaperSize:
    return _size(name, trade, width * MM_PER_INCH, height * MM_PER_INCH, column)


SIZES: dict[str, PaperSize] = {
    size.name: size
    for size in (
        _inches("letter", "ANSI A", 11, 8.5, 94),
        _inches("tabloid", "ANSI B", 17, 11, 108),
        _inches("ansi-c", "ANSI C", 22, 17, 150),
        _inches("ansi-d", "ANSI D", 34, 22, 165),
        _inches("ansi-e", "ANSI E", 44, 34, 170),
        _inches("arch-a", "ARCH A", 12, 9, 90),
        _inches("arch-b", "ARCH B", 18, 12, 165),
        _inches("arch-c", "ARCH C", 24, 18, 150),
        _inches("arch-d", "ARCH D", 36, 24, 165),
        _inches("arch-e1", "ARCH E1", 42, 30, 170),
        _inches("arch-e", "ARCH E", 48, 36, 170),
        _size("a4", "A4", 297, 210, 90),
        _size("a3", "A3", 420, 297, 108),
        _size("a2", "A2", 594, 420, 150),
        _size("a1", "A1", 841, 594, 165),
        _size("a0", "A0", 1189, 841, 170),
    )
}
"""ANSI Y14.1, ARCH and ISO 216 sizes by the name that a user writes (sides from memory of those standards)."""

OTHER_NAMES = {"ansi-a": "letter", "ansi-b": "tabloid", "11x17": "tabloid"}

AUTOMATIC: dict[Display, tuple[str, ...]] = {
    Display.FEET_INCHES: ("tabloid", "arch-d"),
    Display.METRIC: ("a3", "a1"),
}
"""Sizes that the program chooses from, smallest first: a tabloid is what a crew really prints."""

SCALES: dict[Display, tuple[float, ...]] = {
    Display.FEET_INCHES: (4, 8, 12, 16, 24, 32, 48, 64, 96, 128, 192, 240, 360, 480, 600, 1200),
    Display.METRIC: (5, 10, 20, 25, 50, 75, 100, 200, 500, 1000, 2000, 5000),
}
"""Scale denominators of the trade's series, largest drawing first."""

READABLE: dict[Display, float] = {Display.FEET_INCHES: 96, Display.METRIC: 100}
"""Floor plans are not drawn smaller than 1/8 in = 1 ft or 1:100 (government drafting guides)."""

_IMPERIAL_WORDS = {
    4: '3" = 1\'-0"', 8: '1 1/2" = 1\'-0"', 12: '1" = 1\'-0"', 16: '3/4" = 1\'-0"',
    24: '1/2" = 1\'-0"', 32: '3/8" = 1\'-0"', 48: '1/4" = 1\'-0"', 64: '3/16" = 1\'-0"',
    96: '1/8" = 1\'-0"', 128: '3/32" = 1\'-0"', 192: '1/16" = 1\'-0"', 240: "1\" = 20'",
    360: "1\" = 30'", 480: "1\" = 40'", 600: "1\" = 50'", 1200: "1\" = 100'",
}  # fmt: skip


def paper(name: str) -> PaperSize:
    """The paper of a name.

    Raises:
        InputRefused: There is no paper of this name.
    """
    key = name.strip().lower().replace(" ", "-").replace("_", "-")
    key = OTHER_NAMES.get(key, key)
    if key not in SIZES:
        raise InputRefused(
            Mistake(
                what="there is no sheet of this size",
                where="sheet size",
                found=repr(name),
                allowed=", ".join(SIZES),
                remedy="choose one of these, or leave the size out to have one chosen",
            )
        )
    return SIZES[key]


def scale_words(denominator: float, display: Display) -> str:
    """A scale as it stands under a view: ``1/8" = 1'-0"`` or ``1:100``."""
    if display is Display.FEET_INCHES and denominator in _IMPERIAL_WORDS:
        return _IMPERIAL_WORDS[int(denominator)]
    return f"1:{denominator:g}"
