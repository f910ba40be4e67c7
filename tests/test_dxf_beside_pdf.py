"""The DXF by two readers that did not write it: GDAL for its texts, ezdxf's drawing add-on beside the PDF."""

import io
import math
import re

import ezdxf
import numpy as np
import pyogrio
import pypdfium2
import pytest
import shapely
from ezdxf.addons.drawing import Frontend, RenderContext
from ezdxf.addons.drawing.config import Configuration
from ezdxf.addons.drawing.recorder import Recorder, SolidLinesRecord

from kerfline.files.sheet_dxf import dxf_bytes, flat_dxf_bytes
from kerfline.files.sheet_pdf import pdf_bytes
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from kerfline.sheets.joint_plan import joint_plan
from kerfline.sheets.lettering import text_corners
from kerfline.sheets.marks import Anchor, Layer, Text
from kerfline.units import Unit
from shapes import workshop_job, workshop_layout

RULES = SlabRules(rule_set=load("floor"))
TEXTS = "SELECT Layer, Text, OGR_STYLE AS style FROM entities"
ANCHORS = {0: Anchor.END, 1: Anchor.START, 2: Anchor.MIDDLE}
"""GDAL's places of a label (OGR feature style: 1 left, 2 centre, 3 right; from 4 on, half way up)."""

PIXELS = 4
"""Pixels in a millimetre of paper."""

DARK = 170
DASH = 3.0
"""A dash of the other writer begins within this of any point of a dashed line, mm."""


@pytest.fixture(scope="module", params=[Unit.FT, Unit.MM])
def drawn(request):
    job, layout = workshop_job(request.param), workshop_layout()
    return job, layout, joint_plan(job, layout, (), RULES)


def label_box(row):
    """The box of a text that GDAL read, from its own size, place and direction."""
    size = float(re.search(r",s:([\d.]+)g", row.style)[1])
    angle, place = (re.search(rf",{key}:(-?[\d.]+)", row.style) for key in "ap")
    turn, at = float(angle[1]) if angle else 0.0, int(place[1]) if place else 1
    x, y = row.geometry.x, row.geometry.y
    if at > 3:
        x += math.sin(math.radians(turn)) * size / 2
        y -= math.cos(math.radians(turn)) * size / 2
    text = Text(
        layer=Layer.NOTE, at=(x, y), text=row.Text, height=size, anchor=ANCHORS[at % 3], turn=turn
    )
    return shapely.Polygon(text_corners(text, -0.02 * size))


def test_no_text_of_the_flat_file_lies_over_another(drawn, tmp_path):
    path = tmp_path / "flat.dxf"
    path.write_bytes(flat_dxf_bytes(*drawn))
    frame = pyogrio.read_dataframe(path, sql=TEXTS, sql_dialect="OGRSQL")
    rows = list(frame[frame["style"].fillna("").str.startswith("LABEL")].itertuples())
    assert len(rows) > 200
    boxes = [label_box(row) for row in rows]
    first, second = shapely.STRtree(boxes).query(boxes, predicate="intersects")
    pairs = [(rows[i].Text, rows[j].Text) for i, j in zip(first, second, strict=True) if i < j]
    assert pairs == []


def rendered(drawn):
    """The dashes of the control joints on the first sheet as the add-on draws them, mm of paper."""
    job, layout, sheets = drawn
    unit = 25.4 if job.units is Unit.FT else 1.0
    document = ezdxf.read(io.StringIO(dxf_bytes(job, layout, sheets).decode()))
    # The add-on makes dashes in viewports as much longer as the drawing is smaller; this undoes it.
    document.header["$LTSCALE"] = 1 / sheets[0].view.scale
    recorder = Recorder()
    front = Frontend(RenderContext(document), recorder, config=Configuration(min_dash_length=1e-9))
    front.draw_layout(document.layout(document.layout_names_in_taborder()[1]))
    for record, properties in recorder.player().recordings():
        if isinstance(record, SolidLinesRecord) and properties.layer == Layer.CONTROL.value:
            points = [(p.x * unit, p.y * unit) for p in record.lines.vertices()]
            yield from zip(points[::2], points[1::2], strict=True)


def test_the_drawing_add_on_draws_the_joints_where_the_pdf_does(drawn):
    _, _, sheets = drawn
    page = pypdfium2.PdfDocument(pdf_bytes(sheets[:1]))[0]
    ink = np.asarray(page.render(scale=PIXELS * 25.4 / 72, grayscale=True).to_numpy()).squeeze()
    dashes = list(rendered(drawn))
    assert len(dashes) > 100
    for (x0, y0), (x1, y1) in dashes:
        size = math.hypot(x1 - x0, y1 - y0) or 1.0
        steps = np.arange(-DASH, DASH, 0.5 / PIXELS)
        xs = (x0 + x1) / 2 + steps * (x1 - x0) / size
        ys = sheets[0].paper.height - ((y0 + y1) / 2 + steps * (y1 - y0) / size)
        rows, columns = (ys * PIXELS).astype(int), (xs * PIXELS).astype(int)
        beside = [ink[rows + i, columns + j].min() for i in (-1, 0, 1) for j in (-1, 0, 1)]
        assert min(beside) < DARK


def test_the_add_on_draws_four_fifths_of_every_joint_as_its_dash_of_4_and_gap_of_1_say(drawn):
    sheets = drawn[-1]
    wanted = sum(
        shapely.LineString(m.points).length
        for m in sheets[0].marks
        if m.layer is Layer.CONTROL and getattr(m, "in_view", False)
    )
    total = sum(math.dist(a, b) for a, b in rendered(drawn))
    assert total == pytest.approx(0.8 * wanted, rel=0.1)
