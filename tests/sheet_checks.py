"""What must hold of every sheet, measured on its marks."""

import shapely
from shapely import LineString, Polygon

from kerfline.sheets.lettering import text_corners
from kerfline.sheets.marks import Layer, Path
from kerfline.sheets.plan_labels import path_line

HAIR = 0.02
"""Boxes that only touch do not overlap, mm."""

LINES_TO_KEEP_OFF = (
    Layer.EDGE,
    Layer.OPENING,
    Layer.CONTROL,
    Layer.CONSTRUCTION,
    Layer.ISOLATION,
)


INK = (
    Layer.EDGE, Layer.OPENING, Layer.CONTROL, Layer.CONSTRUCTION, Layer.ISOLATION, Layer.DIMENSION, Layer.MATCH,
    Layer.TITLE, Layer.TABLE,
)  # fmt: skip
"""Layers whose lines no text of a plan or of its margin may stand on."""


def box_of(text):
    """The box that a text takes up, a hair smaller."""
    return Polygon(text_corners(text, -HAIR))


def overlapping_texts(sheet):
    """Pairs of texts whose boxes overlap."""
    texts = [t for t in sheet.texts if t.text.strip()]
    boxes = [box_of(t) for t in texts]
    tree = shapely.STRtree(boxes)
    left, right = tree.query(boxes, predicate="intersects")
    return [(texts[i], texts[j]) for i, j in zip(left, right, strict=True) if i < j]


def texts_outside(sheet):
    """Texts that leave the drawing frame."""
    frame = shapely.box(*sheet.paper.frame)
    return [t for t in sheet.texts if not frame.covers(box_of(t))]


def tags_on_lines(sheet):
    """Tags on the plan that a joint or an edge runs through."""
    lines = [
        path_line(m)
        for m in sheet.marks
        if isinstance(m, Path) and m.in_view and m.layer in LINES_TO_KEEP_OFF
    ]
    tree = shapely.STRtree(lines)
    tags = [t for t in sheet.texts if t.in_plan]
    return [t for t in tags if len(tree.query(box_of(t), predicate="intersects"))]


def marks_outside(sheet):
    """Lines that leave the paper."""
    paper = shapely.box(0, 0, sheet.paper.width, sheet.paper.height)
    return [m for m in sheet.marks if isinstance(m, Path) and not paper.covers(path_line(m))]


def assert_clean(sheets):
    """No text over text, none out of its frame, no tag over a joint, no line off the paper."""
    for sheet in sheets:
        assert overlapping_texts(sheet) == []
        assert texts_outside(sheet) == []
        assert tags_on_lines(sheet) == []
        assert marks_outside(sheet) == []


def grid_lines(slab, spacing):
    """Joint paths along a grid over a slab, for layouts of test slabs."""
    x0, y0, x1, y1 = slab.outline.polygon.bounds
    columns = [x0 + k * spacing for k in range(1, int((x1 - x0) // spacing) + 1)]
    rows = [y0 + k * spacing for k in range(1, int((y1 - y0) // spacing) + 1)]
    lines = [
        *(LineString([(x, y0), (x, y1)]) for x in columns),
        *(LineString([(x0, y), (x1, y)]) for y in rows),
    ]
    return [line for line in lines if line.intersection(slab.concrete).length > 1.0]


def texts_on_lines(sheet):
    """Texts that a line runs through, slanting ones too; a title block's rules pass between its texts."""
    lines = [
        path_line(m)
        for m in sheet.marks
        if isinstance(m, Path) and m.layer in INK and not (m.closed and m.layer is Layer.TITLE)
    ]
    tree = shapely.STRtree(lines)
    inside = [Polygon(text_corners(t, -0.12)) for t in sheet.texts]
    texts, _ = tree.query(inside, predicate="intersects")
    return sorted({sheet.texts[int(i)].text for i in texts})


def assert_no_text_on_ink(sheets):
    """No text over a text or a line, slanting ones too, and none out of its frame."""
    for sheet in sheets:
        assert overlapping_texts(sheet) == []
        assert texts_on_lines(sheet) == []
        assert texts_outside(sheet) == []
