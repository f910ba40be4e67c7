"""A new DXF document with our layers, line types, text style and dimension style."""

import logging
from collections.abc import Iterator
from contextlib import contextmanager

import ezdxf
from ezdxf import units
from ezdxf.document import Drawing
from ezdxf.enums import TextEntityAlignment
from ezdxf.lldxf.const import LINEWEIGHT_BYBLOCK

from kerfline.files.dxf_records import NAME
from kerfline.model.job import Job
from kerfline.sheets.marks import PENS, Layer
from kerfline.units import MM_PER_INCH, Display

VERSION = "R2010"
OLDEST = "R12"
"""Form of the flat file, which knows polylines and solids but no paper, hatching or paragraphs."""

APP_ID = "KERFLINE"
STYLE = "SHEET"
DIM_STYLE = "SHEET"
FONT = "arial.ttf"
"""A font that every reader has; the texts are ASCII, so any other does as well."""

LINE_TYPES = {
    Layer.CONTROL: "DASHED",
    Layer.CONTROL_NEW: "DASHED",
    Layer.CONTROL_EXISTING: "DASHED",
    Layer.ZONE: "CENTER",
    Layer.MATCH: "PHANTOM",
}
"""Common names, which simple readers know; the patterns are our own."""

BLACK = 7
"""Colour number of what has none of its own: black on white, white on black."""

COLOURS = {
    **dict.fromkeys((Layer.CONTROL, Layer.CONTROL_NEW), 1),
    Layer.EDGE: 2,
    **dict.fromkeys((Layer.ISOLATION, Layer.ISOLATION_NEW), 3),
    **dict.fromkeys((Layer.DIMENSION, Layer.MATCH), 4),
    **dict.fromkeys((Layer.GRID, Layer.GRID_NAME), 8),
    **dict.fromkeys((Layer.OPENING, Layer.COLUMN, Layer.PENETRATION), 5),
    **dict.fromkeys((Layer.CONSTRUCTION, Layer.CONSTRUCTION_NEW), 6),
    **dict.fromkeys((Layer.WALL, Layer.KEEP_OUT, Layer.HATCH, Layer.VIEWPORT, Layer.ZONE), 8),
    **dict.fromkeys(
        (Layer.CONTROL_EXISTING, Layer.CONSTRUCTION_EXISTING, Layer.ISOLATION_EXISTING), 9
    ),
    **dict.fromkeys((Layer.BARS, Layer.FINDING), 30),
}
"""Colour numbers (ACI) of the layers, our choice: a plot style of an office maps colours to its own pens."""

TAG_BLOCKS = {
    Layer.TAG: "TAG",
    Layer.PANEL: "PANEL_NUMBER",
}
"""Blocks of the tags, each with one attribute that holds its text: an office lists and replaces them by it. The flat
file has plain texts, which every reader shows."""

CORNER_LETTER, DETAIL_NUMBER = "CORNER_LETTER", "DETAIL_NUMBER"
RING_BLOCKS = {
    Layer.SYMBOL: CORNER_LETTER,
    Layer.GRID_NAME: "GRID_NAME",
    Layer.TAG: "CUT_NUMBER",
}
"""Blocks of what stands in a circle: the circle, of radius 1, and the attribute with the text."""

IN_RING = 0.7
"""Height of the text in a circle, in radii."""

HUNDREDTHS = 100
"""Line widths are written in hundredths of a millimetre."""

BY_BLOCK = 0
THIN_BY_BLOCK = -2
"""Colour and line width that a dimension's parts take from the dimension, and it from its layer."""

ARCHITECTURAL = 4
DECIMAL = 2
EIGHTHS = 3
"""Places of an inch that a dimension shows: 1/8 in, as everywhere on the sheets."""

TEXT_HEIGHT = 2.6
"""Height of dimension texts on paper, mm."""


def unit_length(job: Job) -> float:
    """Millimetres in one drawing unit: an inch for feet-inches jobs, else one."""
    return MM_PER_INCH if job.display is Display.FEET_INCHES else 1.0


def new_document(job: Job, scale: float, version: str = VERSION) -> Drawing:
    """A document in the job's drawing units, set up for sheets at a scale."""
    unit = units.IN if job.display is Display.FEET_INCHES else units.MM
    with _untold():
        document = ezdxf.new(version, setup=False, units=unit)
    document.header["$LTSCALE"] = scale
    document.header["$PSLTSCALE"] = 0
    if job.sheet.run:
        document.header.custom_vars.append("RUN MARK", job.sheet.run)
    document.appids.add(APP_ID)
    document.styles.add(STYLE, font=FONT)
    _line_types(document, job)
    _layers(document)
    _dimension_style(document, job, scale)
    if version != OLDEST:
        _tag_blocks(document)
    return document


def _tag_blocks(document: Drawing) -> None:
    """Blocks that hold the attribute with their text, some of them in a circle."""
    for layer, name in TAG_BLOCKS.items():
        look = {"layer": layer.value, "style": STYLE, "height": 1.0, "prompt": name.lower()}
        document.blocks.new(name).add_attdef(NAME, (0, 0), dxfattribs=look)
    for layer, name in [*RING_BLOCKS.items(), (Layer.SYMBOL, DETAIL_NUMBER)]:
        look = {"layer": layer.value, "style": STYLE, "height": IN_RING, "prompt": name.lower()}
        block = document.blocks.new(name)
        block.add_circle((0, 0), 1.0, dxfattribs={"layer": "0", "lineweight": LINEWEIGHT_BYBLOCK})
        text = block.add_attdef(NAME, dxfattribs=look)
        text.set_placement((0, 0), align=TextEntityAlignment.MIDDLE_CENTER)


@contextmanager
def _untold() -> Iterator[None]:
    """Keeps the library from telling that the oldest form has no unit: the flat file says it in words."""
    logger = logging.getLogger("ezdxf")
    before = logger.level
    logger.setLevel(logging.ERROR)
    try:
        yield
    finally:
        logger.setLevel(before)


def _line_types(document: Drawing, job: Job) -> None:
    unit = unit_length(job)
    for layer, name in LINE_TYPES.items():
        if name in document.linetypes:
            continue
        dash = [d / unit for d in PENS[layer].dash]
        pattern = [d if i % 2 == 0 else -d for i, d in enumerate(dash)]
        document.linetypes.add(name, pattern=[sum(dash), *pattern])


def _layers(document: Drawing) -> None:
    for layer, pen in PENS.items():
        entry = document.layers.add(
            layer.value,
            linetype=LINE_TYPES.get(layer, "Continuous"),
            lineweight=round(pen.width * HUNDREDTHS),
            color=COLOURS.get(layer, BLACK),
        )
        if layer is Layer.VIEWPORT:
            entry.dxf.plot = 0


def paper_dim_style(document: Drawing, unit: float, scale: float) -> str:
    """The style of dimensions on sheets of a scale: sizes of paper, lengths of the slab; its name."""
    name = f"{DIM_STYLE}_{scale:g}".replace(".", "_")
    if name not in document.dimstyles:
        style = document.dimstyles.duplicate_entry(DIM_STYLE, name)
        size = TEXT_HEIGHT / unit
        sizes = {
            "dimtxt": size, "dimlfac": scale, "dimasz": 0.6 * size, "dimtsz": 0.5 * size,
            "dimexo": 0.6 * size, "dimexe": 0.6 * size, "dimgap": 0.35 * size,
        }  # fmt: skip
        for key, value in sizes.items():
            style.dxf.set(key, value)
    return name


def _dimension_style(document: Drawing, job: Job, scale: float) -> None:
    """Sizes in drawing units and factor 1, because simple readers know no other factors."""
    size = TEXT_HEIGHT * scale / unit_length(job)
    style = document.dimstyles.new(DIM_STYLE)
    values: dict[str, float | str] = {
        "dimtxsty": STYLE, "dimtxt": size, "dimlfac": 1, "dimscale": 1, "dimasz": 0.6 * size,
        "dimtsz": 0.5 * size, "dimexo": 0.6 * size, "dimexe": 0.6 * size, "dimgap": 0.35 * size,
        "dimdle": 0.0, "dimtad": 1, "dimtih": 0, "dimtoh": 0, "dimclrd": BY_BLOCK, "dimclre": BY_BLOCK, "dimclrt": BY_BLOCK,
        "dimlwd": THIN_BY_BLOCK, "dimlwe": THIN_BY_BLOCK,
    }  # fmt: skip
    if job.display is Display.FEET_INCHES:
        values |= {
            "dimlunit": ARCHITECTURAL,
            "dimfrac": 2,
            "dimdec": EIGHTHS,
            "dimzin": 3,
            "dimrnd": 1 / 2**EIGHTHS,
        }
    else:
        values |= {"dimlunit": DECIMAL, "dimdec": 0, "dimzin": 8, "dimrnd": 1.0}
    for name, value in values.items():
        style.dxf.set(name, value)
    style.copy_to_header(document)
