"""The general method on slabs of many shapes: hard rules always, good shapes where they can be had."""

import math
from functools import cache

import pytest
import shapely
from shapely import LineString

from kerfline.engine.general import lay_out_region
from kerfline.engine.options import EngineOptions
from kerfline.engine.regions.frames import regions_of
from kerfline.geometry.faces import faces
from kerfline.geometry.rectangle import enclosing_rectangle
from kerfline.geometry.tolerance import MEASURE, TOUCH
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from unit.engine.slabs import SHAPES

RULES = SlabRules(rule_set=load("floor"))


@cache
def joints_of(name):
    """The joints of a named slab."""
    return joints_by_the_general_method(SHAPES[name])


def joints_by_the_general_method(slab):
    """The cuts in the slab's frame, whichever method would take the regions."""
    lines = []
    for place in regions_of(slab, RULES, EngineOptions()):
        lines += [LineString(c.path) for c in place.borders]
        layout = lay_out_region(place.region)
        lines += [LineString([place.to_slab(p) for p in c.path]) for c in layout.cuts]
    return lines


@pytest.fixture(scope="module", params=sorted(SHAPES))
def laid_out(request):
    slab = SHAPES[request.param]
    lines = joints_of(request.param)
    return request.param, slab, lines, faces(slab.concrete, lines)


def test_panels_tile_and_keep_the_span(laid_out):
    _, slab, _, panels = laid_out
    span = 1.05 * RULES.working(slab.thickness).span
    assert sum(p.area for p in panels) == pytest.approx(slab.concrete.area, rel=1e-6)
    assert max(enclosing_rectangle(p).length for p in panels) <= span + MEASURE


def test_joints_stay_inside_and_end_on_something(laid_out):
    _, slab, lines, _ = laid_out
    assert all(slab.concrete.buffer(TOUCH).covers(line) for line in lines)
    for line in lines:
        others = shapely.union_all([slab.concrete.boundary, *(o for o in lines if o is not line)])
        for end in (line.coords[0], line.coords[-1]):
            assert others.distance(shapely.Point(end)) <= TOUCH


def test_no_panel_is_narrow_or_long(laid_out):
    name, slab, _, panels = laid_out
    limits = RULES.working(slab.thickness)
    boxes = [enclosing_rectangle(p) for p in panels]
    assert min(b.width for b in boxes) >= limits.width
    if name not in ("diagonal wall", "given joint", "triangle"):
        assert max(b.aspect for b in boxes) <= limits.aspect + 1e-3


def test_joints_of_a_curved_walk_run_to_its_centre():
    lines = joints_of("curved walk")
    assert len(lines) >= 4
    for line in lines:
        (x0, y0), (x1, y1) = line.coords[0], line.coords[-1]
        miss = abs(x0 * y1 - x1 * y0) / math.dist((x0, y0), (x1, y1))
        assert miss < 5.0


def test_drive_has_a_joint_on_its_bisector_and_the_others_square_to_it():
    for line in joints_of("tapered drive"):
        (x0, y0), (x1, y1) = line.coords[0], line.coords[-1]
        assert min(abs(x1 - x0), abs(y1 - y0)) < 2.0


def test_diagonal_wall_has_its_joint_beneath():
    slab = SHAPES["diagonal wall"]
    wall = slab.walls[0]
    under = shapely.union_all(joints_of("diagonal wall")).intersection(wall.footprint)
    assert under.length >= wall.line.length - 1.0


def test_keep_out_has_no_joint_in_it():
    slab = SHAPES["keep-out"]
    lines = shapely.union_all(joints_of("keep-out"))
    assert lines.intersection(slab.keep_outs[0].outline.polygon).length < 1.0


def test_same_slab_gives_the_same_joints_to_the_byte():
    again = joints_by_the_general_method(SHAPES["bay window"])
    assert [line.wkb for line in joints_of("bay window")] == [line.wkb for line in again]
