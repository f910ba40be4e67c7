"""Regions and solids: their level faces are curves of the plan, or it is said why not.

The records are written here by hand as text (version 700 of the kernel's format, the one in files of R2004 to R2010).
"""

import math
from itertools import pairwise
from pathlib import Path

import ezdxf
import pytest
from ezdxf import units
from ezdxf.acis import api
from ezdxf.math import Matrix44
from ezdxf.render import forms

from kerfline.files.drawing import reading
from kerfline.files.drawing.opened import drawing_of, gather

HEADER = ["700 0 1 0 ", "@5 tests @5 tests @5 never ", "1 1e-06 1e-10 "]


def line(a, b):
    """A straight edge."""
    way = [q - p for p, q in zip(a, b, strict=True)]
    size = math.hypot(*way)
    curve = f"straight-curve $-1 -1 $-1 {text(a)} {text([w / size for w in way])} I I #"
    return a, b, "forward", curve


def arc(a, b, centre, *, up=True, sense="forward", major=None, ratio=1.0):
    """An edge on a circle or an ellipse, anticlockwise from a to b where it is ``up`` and forward."""
    major = major or [p - c for p, c in zip(a, centre, strict=True)]
    normal = "0 0 1" if up else "0 0 -1"
    curve = f"ellipse-curve $-1 -1 $-1 {text(centre)} {normal} {text(major)} {ratio!r} I I #"
    return a, b, sense, curve


def text(point):
    return " ".join(repr(float(c)) for c in point)


def polygon(*points):
    return [line(a, b) for a, b in pairwise([*points, points[0]])]


def sat(*loops, transform="", following=None):
    """The text of a body of one face whose edges are the loops."""
    records = ["body $-1 -1 $-1 $1 $-1 $-1 #"]
    records += ["lump $-1 -1 $-1 $-1 $2 $0 #", "shell $-1 -1 $-1 $-1 $-1 $3 $-1 $1 #"]
    records.append("face $-1 -1 $-1 $-1 $4 $2 $-1 $5 forward double out #")
    at = 6
    starts = []
    for loop in loops:
        starts.append(at)
        at += 1 + 5 * len(loop)
    heads = [4, *starts[1:]]
    body: list[str] = []
    for n, (loop, start) in enumerate(zip(loops, starts, strict=True)):
        after = f"${heads[n + 1]}" if n + 1 < len(loops) else "$-1"
        head = f"loop $-1 -1 $-1 {after} ${start + 1} $3 #"
        if n == 0:
            records += [head, "plane-surface $-1 -1 $-1 0 0 0 0 0 1 1 0 0 forward_v I I I I #"]
            body.append("point $-1 -1 $-1 0 0 0 #")
        else:
            body.append(head)
        body += _edges(loop, start, heads[n], following)
    records += body
    if transform:
        records[0] = f"body $-1 -1 $-1 $1 $-1 ${len(records)} #"
        records.append(f"transform $-1 -1 {transform} #")
    return [*HEADER, *(r + " " for r in records), "End-of-ACIS-data "]


def _edges(loop, start, head, following):
    records = []
    closed = len(loop) == 1
    for n, (a, _, sense, curve) in enumerate(loop):
        here = start + 1 + 5 * n
        after = start + 1 + 5 * ((n + 1) % len(loop))
        before = start + 1 + 5 * ((n - 1) % len(loop))
        after = following(after) if following else after
        first = here + 2
        last = first if closed else after + 2
        records.append(
            f"coedge $-1 -1 $-1 ${after} ${before} $-1 ${here + 1} forward ${head} $-1 #"
        )
        records.append(
            f"edge $-1 -1 $-1 ${first} 0 ${last} 1 ${here} ${here + 3} {sense} @7 unknown #"
        )
        records.append(f"vertex $-1 -1 $-1 ${here + 1} ${here + 4} #")
        records.append(curve)
        records.append(f"point $-1 -1 $-1 {text(a)} #")
    return records


def document(*regions, layer="S-SLAB-EDGE", kind="REGION", version="R2010"):
    doc = ezdxf.new(version, units=units.M)
    for lines in regions:
        add = doc.modelspace().add_region if kind == "REGION" else doc.modelspace().add_3dsolid
        entity = add(dxfattribs={"layer": layer})
        entity.sat = lines
    return doc


def areas(doc):
    """Areas (m2) of the curves that were read, largest first."""
    drawing = drawing_of(doc, Path("plan.dxf"))
    found = [c.path.ring().polygon.area / 1e6 for c in drawing.curves if c.path.closed]
    return sorted(found, reverse=True)


def why(doc):
    """Why the regions were not read; a line stands beside them."""
    doc.modelspace().add_line((0, 0), (30, 0))
    return [s.why for s in drawing_of(doc, Path("plan.dxf")).skipped]


HALL = polygon((0, 0, 0), (20, 0, 0), (20, 12, 0), (0, 12, 0))
PIT = polygon((4, 4, 0), (6, 4, 0), (6, 7, 0), (4, 7, 0))


def test_a_region_on_the_slabs_layer_is_the_slab_with_its_openings(tmp_path):
    path = tmp_path / "hall.dxf"
    document(sat(HALL, PIT)).saveas(path)
    parts = reading(gather(path)).parts
    assert parts.outline.polygon.area == pytest.approx(240e6)
    assert [o.polygon.area for o in parts.openings] == pytest.approx([6e6])


def test_a_full_circle():
    disc = [arc((3, 0, 0), (3, 0, 0), (0, 0, 0))]
    (area,) = areas(document(sat(disc)))
    assert area == pytest.approx(math.pi * 9, rel=1e-3)


@pytest.mark.parametrize("up", [True, False])
@pytest.mark.parametrize("sense", ["forward", "reversed"])
def test_an_arc_bends_the_way_that_its_record_says(up, sense):
    """A square of 8 m with a half disc on its right side, or cut out of it."""
    bend = arc((8, 0, 0), (8, 8, 0), (8, 4, 0), up=up, sense=sense)
    rest = [line((8, 8, 0), (0, 8, 0)), line((0, 8, 0), (0, 0, 0)), line((0, 0, 0), (8, 0, 0))]
    (area,) = areas(document(sat([bend, *rest])))
    out = up == (sense == "forward")
    assert area == pytest.approx(64 + (1 if out else -1) * math.pi * 8, rel=1e-3)


def test_an_ellipse():
    ring = [arc((5, 0, 0), (5, 0, 0), (0, 0, 0), ratio=0.4)]
    (area,) = areas(document(sat(ring)))
    assert area == pytest.approx(math.pi * 5 * 2, rel=1e-3)


def test_half_an_ellipse():
    half = arc((5, 0, 0), (-5, 0, 0), (0, 0, 0), major=(5, 0, 0), ratio=0.4)
    (area,) = areas(document(sat([half, line((-5, 0, 0), (5, 0, 0))])))
    assert area == pytest.approx(math.pi * 5 * 2 / 2, rel=1e-3)


def test_the_bodys_own_place():
    """A quarter turn and a shift of 100 m."""
    doc = document(sat(HALL, transform="0 1 0 -1 0 0 0 0 1 100 0 0 1 rotate no_reflect no_shear"))
    (curve,) = drawing_of(doc, Path("plan.dxf")).curves
    xs, ys = zip(*curve.path.points, strict=True)
    assert (min(xs), max(xs), min(ys), max(ys)) == pytest.approx((88e3, 100e3, 0, 20e3))


@pytest.mark.parametrize("mirror", [1, -1])
def test_in_a_block_that_is_turned_scaled_and_mirrored(mirror):
    doc = document()
    block = doc.blocks.new("HALL")
    bend = arc((8, 0, 0), (8, 8, 0), (8, 4, 0))
    rest = [line((8, 8, 0), (0, 8, 0)), line((0, 8, 0), (0, 0, 0)), line((0, 0, 0), (8, 0, 0))]
    block.add_region().sat = sat([bend, *rest])
    scale = {"xscale": 2 * mirror, "yscale": 2, "zscale": 2, "rotation": 30}
    doc.modelspace().add_blockref("HALL", (50, 0), dxfattribs=scale)
    (area,) = areas(doc)
    assert area == pytest.approx(4 * (64 + math.pi * 8), rel=1e-3)


def test_a_solid_gives_its_top_and_bottom_once():
    """A wall of 6.0 x 0.2 x 2.7 m as a solid, in the text of R2010 and the bytes of R2018."""
    for version in ("R2010", "R2018"):
        doc = ezdxf.new(version, units=units.M)
        solid = doc.modelspace().add_3dsolid(dxfattribs={"layer": "A-WALL"})
        mesh = forms.cube(center=False).transform(Matrix44.scale(6, 0.2, 2.7))
        api.export_dxf(solid, [api.body_from_mesh(mesh)])
        assert areas(doc) == pytest.approx([1.2])


def test_what_leans_is_named():
    upright = polygon((0, 0, 0), (6, 0, 0), (6, 0, 3), (0, 0, 3))
    assert why(document(sat(upright))) == [
        "it does not lie in plan; draw its edges as lines and arcs"
    ]


def test_what_carries_no_data_is_named():
    (said,) = why(document([]))
    assert said == "its modelling data is not in the file; explode it to lines and arcs"


def test_an_edge_of_free_form_is_named():
    a, b, sense, _ = line((0, 12, 0), (0, 0, 0))
    free = (a, b, sense, "intcurve-curve $-1 -1 $-1 forward { } I I #")
    (said,) = why(document(sat([*HALL[:3], free])))
    assert said == "it has an edge of free form; explode it to lines and arcs"


@pytest.mark.parametrize("spoil", [lambda n: 12, lambda n: 0])
def test_damaged_data_ends(spoil):
    """A chain of edges that goes round without its beginning; one that leads to something else."""
    doc = document(sat(HALL, following=spoil))
    doc.modelspace().add_line((0, 0), (30, 0))
    drawing = drawing_of(doc, Path("plan.dxf"))
    assert len(drawing.curves) + len(drawing.skipped) == 2
