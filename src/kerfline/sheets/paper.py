"""Paper sizes and drawing scales, as the trade has them."""

from dataclasses import dataclass

from kerfline.errors import InputRefused, Mistake
from kerfline.units import MM_PER_INCH, Display


@dataclass(frozen=True, kw_only=True)
class PaperSize:
    """A sheet of paper, lying on its long side.

    Attributes:
        name: Name as the user writes it.
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


THREE_32NDS_INCH = 2.4
"""Least height of text that stays legible on the full sheet (trade consensus for notes, 3/32 in)."""

EIGHTH_INCH = 3.2
"""Height that stays legible on a half-size print (UFC 1-300-09N, 1/8 in on the full sheet)."""

SIZES: dict[str, PaperSize] = {
    size.name: size
    for size in (
        PaperSize(
            name="letter", width=11 * MM_PER_INCH, height=8.5 * MM_PER_INCH, binding=10, margin=10,
            column=88, text=THREE_32NDS_INCH, small=THREE_32NDS_INCH, display=Display.FEET_INCHES,
        ),
        PaperSize(
            name="tabloid", width=17 * MM_PER_INCH, height=11 * MM_PER_INCH, binding=15, margin=10,
            column=108, text=2.6, small=THREE_32NDS_INCH, display=Display.FEET_INCHES,
        ),
        PaperSize(
            name="arch-d", width=36 * MM_PER_INCH, height=24 * MM_PER_INCH, binding=25, margin=13,
            column=165, text=EIGHTH_INCH, small=3.0, display=Display.FEET_INCHES,
        ),
        PaperSize(
            name="a4", width=297, height=210, binding=15, margin=10,
            column=90, text=THREE_32NDS_INCH, small=THREE_32NDS_INCH, display=Display.METRIC,
        ),
        PaperSize(
            name="a3", width=420, height=297, binding=20, margin=10,
            column=108, text=2.6, small=THREE_32NDS_INCH, display=Display.METRIC,
        ),
        PaperSize(
            name="a1", width=841, height=594, binding=20, margin=10,
            column=165, text=3.5, small=3.0, display=Display.METRIC,
        ),
    )
}  # fmt: skip

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
