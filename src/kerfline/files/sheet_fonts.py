"""The font file that the writers embed."""

from functools import cache
from importlib.resources import files

FAMILY = "DejaVu Sans Condensed"
FILE = "DejaVuSansCondensed-subset.ttf"


@cache
def font_bytes() -> bytes:
    """The TrueType file: DejaVu Sans Condensed, cut to the letters that drawings use."""
    return files("kerfline.files").joinpath("fonts", FILE).read_bytes()
