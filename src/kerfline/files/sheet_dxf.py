"""Writes a layout as DXF: the model in real units, and the sheets as paper-space layouts."""

import io
import math
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager

import ezdxf
from ezdxf.document import Drawing
from ezdxf.layouts import Paperspace
from ezdxf.lldxf.const import DXF12 as R12

from kerfline.files.dxf_marks import MarkWriter
from kerfline.files.dxf_setup import OLDEST, STYLE, TEXT_HEIGHT, new_document, unit_length
from kerfline.files.dxf_words import WordWriter, is_written_apart
from kerfline.files.model_dxf import draw_model, draw_plan_marks
from kerfline.geometry.ring import Point
from kerfline.model.job import Job
from kerfline.model.layout import Layout
from kerfline.sheets.marks import Layer, Mark, Sheet
from kerfline.sheets.view import View
from kerfline.units import Display

FROZEN = (
    Layer.TAG,
    Layer.NOTE,
    Layer.SYMBOL,
    Layer.FINDING,
    Layer.DIMENSION,
    Layer.PANEL,
    Layer.MATCH,
    Layer.TABLE,
    Layer.HATCH,
)
"""Layers of the model's own annotation: hidden in the viewports, where the sheet writes its own."""

LOCKED = 16384
"""Viewport flag: the scale is locked."""

NOTE_DROP = 70.0
"""How far under the slab the flat file says its unit, mm of paper: below the dimensions."""

SHEET_GAP = 1.1
"""Distance of the sheets beside the model in the flat file, in sheet widths."""


def dxf_bytes(
    job: Job, layout: Layout, sheets: Sequence[Sheet], more: Sequence[Sheet] = ()
) -> bytes:
    """The layout in model space, in inches or millimetres, and each sheet as a paper-space layout.

    The same input gives the same bytes.

    Args:
        job: The slab.
        layout: Its joints.
        sheets: The joint plan, whose tags stand in model space too.
        more: Further sheets that are layouts, such as cut sheets and the panel sheet.
    """
    with _fixed_meta_data():
        document = new_document(job, _scale(sheets))
        draw_model(document, job, layout, _scale(sheets))
        draw_plan_marks(document, job, sheets)
        for sheet in (*sheets, *more):
            _paper_layout(document, job, sheet)
        if sheets:
            document.layouts.delete("Layout1")
        return _bytes(document)


def flat_dxf_bytes(job: Job, layout: Layout, sheets: Sequence[Sheet]) -> bytes:
    """The layout and its sheets in model space alone, at scale, in the oldest form that every reader takes (R12)."""
    with _fixed_meta_data():
        scale = _scale(sheets)
        document = new_document(job, scale, OLDEST)
        draw_model(document, job, layout, scale)
        draw_plan_marks(document, job, sheets)
        space = document.modelspace()
        beside = 0
        for sheet in sheets:
            around = sheet.view if sheet.view and _whole(sheets) else None
            turn = -around.turn if around else 0.0
            place = around.to_world if around else _beside(job, sheet, scale, beside)
            beside += 0 if around else 1
            writer = MarkWriter(space, place, scale, turn, unit_length(job))
            marks = [m for m in sheet.marks if not _in_model(m, dimensions=around is not None)]
            writer.write_all(marks)
        _unit_note(document, job, scale)
        return _bytes(document)


def _unit_note(document: Drawing, job: Job, scale: float) -> None:
    """The unit in words, under the slab: the oldest form has no other place for it."""
    feet = job.display is Display.FEET_INCHES
    unit = unit_length(job)
    x0, y0, _, _ = job.slab.outline.polygon.bounds
    at = (x0 / unit, (y0 - NOTE_DROP * scale) / unit)
    words = f"one drawing unit is one {'inch' if feet else 'millimetre'}"
    height = TEXT_HEIGHT * scale / unit
    attribs = {"layer": Layer.NOTE.value, "style": STYLE, "height": height}
    document.modelspace().add_text(words, dxfattribs=attribs).set_placement(at)


def _in_model(mark: Mark, *, dimensions: bool) -> bool:
    """Whether the model holds a mark already."""
    if getattr(mark, "in_view", False) or getattr(mark, "in_plan", False):
        return True
    return dimensions and mark.layer is Layer.DIMENSION


def _whole(sheets: Sequence[Sheet]) -> bool:
    """Whether one sheet shows all of the slab."""
    return sum(len(s.views) for s in sheets) == 1


def _beside(job: Job, sheet: Sheet, scale: float, index: int) -> Callable[[Point], Point]:
    """Places a sheet to the right of the slab, the further the higher its index."""
    _, y0, x1, _ = job.slab.outline.polygon.bounds
    left = x1 + sheet.paper.width * scale * (1.0 + SHEET_GAP * index)
    foot = y0 - sheet.paper.margin * scale
    return lambda point: (left + point[0] * scale, foot + point[1] * scale)


def _scale(sheets: Sequence[Sheet]) -> float:
    return next((s.view.scale for s in sheets if s.view), 1.0)


def _paper_layout(document: Drawing, job: Job, sheet: Sheet) -> None:
    name = sheet.title if sheet.count == 1 else f"{sheet.number} {sheet.title}"
    paper = document.layouts.new(_free_name(document, _layout_name(name)))
    unit = unit_length(job)
    width, height = sheet.paper.width / unit, sheet.paper.height / unit
    paper.page_setup(
        size=(width, height),
        margins=(0, 0, 0, 0),
        units="inch" if job.display is Display.FEET_INCHES else "mm",
        scale=(1, 1),
        name=sheet.paper.trade.replace(" ", "_"),
        device="None",
    )
    for view in sheet.views:
        _viewport(paper, job, view)
    scale = sheet.view.scale if sheet.view else 1.0
    writer = MarkWriter(
        paper, lambda p: p, 1.0, 0.0, unit, dash=1.0 / _header_scale(document, scale)
    )
    drawn = (m for m in sheet.marks if not getattr(m, "in_view", False))
    writer.write_all(m for m in drawn if not is_written_apart(m))
    WordWriter(document, paper, unit).write(sheet)
    paper.reset_extents((0, 0), (width, height))


def _header_scale(document: Drawing, default: float) -> float:
    return float(document.header.get("$LTSCALE", default))


def _layout_name(name: str) -> str:
    """A layout's name without the signs that DXF forbids."""
    return "".join(c if c.isalnum() or c in " -" else " " for c in name)[:60]


def _free_name(document: Drawing, name: str) -> str:
    """A name that no layout has yet."""
    taken, count = {known.upper() for known in document.layouts.names()}, 1
    free = name
    while free.upper() in taken:
        count += 1
        free = f"{name} {count}"
    return free


def _viewport(paper: Paperspace, job: Job, view: View) -> None:
    unit = unit_length(job)
    x0, y0, x1, y1 = view.window
    centre = view.to_world(((x0 + x1) / 2, (y0 + y1) / 2))
    turned = _turned(centre, view.turn)
    port = paper.add_viewport(
        center=((x0 + x1) / 2 / unit, (y0 + y1) / 2 / unit),
        size=((x1 - x0) / unit, (y1 - y0) / unit),
        view_center_point=(turned[0] / unit, turned[1] / unit),
        view_height=(y1 - y0) * view.scale / unit,
        dxfattribs={"layer": Layer.VIEWPORT.value},
    )
    port.dxf.view_twist_angle = view.turn
    port.dxf.flags |= LOCKED
    port.frozen_layers = [layer.value for layer in FROZEN]


def _turned(point: Point, degrees: float) -> Point:
    cos, sin = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    return (point[0] * cos - point[1] * sin, point[0] * sin + point[1] * cos)


def _bytes(document: Drawing) -> bytes:
    _name_classes(document)
    stream = io.StringIO()
    document.write(stream)
    if document.dxfversion > R12:
        return stream.getvalue().encode("utf-8", errors="surrogateescape")
    return stream.getvalue().encode(document.encoding, errors="dxfreplace")


def _name_classes(document: Drawing) -> None:
    """Records the classes in use by name: the library takes them from a set, in no fixed order."""
    for kind in sorted(document.entitydb.dxf_types_in_use()):
        document.classes.add_class(kind)


@contextmanager
def _fixed_meta_data() -> Iterator[None]:
    """Writes no time stamps and no random ids, so that the same input gives the same bytes.

    The option is one for the whole process; it is put back as it was.
    """
    before = ezdxf.options.write_fixed_meta_data_for_testing
    ezdxf.options.write_fixed_meta_data_for_testing = True
    try:
        yield
    finally:
        ezdxf.options.write_fixed_meta_data_for_testing = before
