"""Slabs with walls at any angle: the hard rules hold, no joint ends free, corners are sharp only where a wall is."""

import math

import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString, affinity
from shapely.geometry import box

from kerfline.engine.lay_out import lay_out
from kerfline.geometry.corners import corners
from kerfline.geometry.ends import EndKind, joint_ends
from kerfline.geometry.ring import Ring
from kerfline.geometry.tolerance import MEASURE, TOUCH
from kerfline.model.slab import Slab, Wall
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from strategies import thicknesses

RULES = SlabRules(rule_set=load("floor"))


def assert_hard_rules(slab, layout):
    """The panels tile the slab, none is over the span, and every joint ends on an edge or a joint."""
    span = 1.05 * RULES.working(slab.thickness).span
    polygons = [p.polygon for p in layout.panels]
    assert max(p.length for p in layout.panels) <= span + MEASURE
    concrete = slab.concrete
    assert abs(sum(p.area for p in polygons) - concrete.area) <= 1e-6 * concrete.area
    assert shapely.union_all(polygons).symmetric_difference(concrete).area <= 1e-6 * concrete.area
    inside = concrete.buffer(TOUCH)
    assert all(inside.covers(j.line) for j in layout.joints)
    ends = joint_ends(concrete, [j.line for j in layout.joints])
    assert all(e.kind is not EndKind.FREE for e in ends)


def sharp_corners(slab, layout):
    """Places of the corners of panels under the least angle."""
    least = RULES.working(slab.thickness).angle
    return [c.at for p in layout.panels for c in corners(p.polygon) if c.angle < least - 0.1]


@st.composite
def rectangles_with_a_diagonal_wall(draw):
    """A rectangle and a wall that crosses it at any angle, from edge to edge, near its middle."""
    width, height = draw(st.floats(8000.0, 16000.0)), draw(st.floats(6000.0, 12000.0))
    outline = box(0, 0, width, height)
    middle = (width * draw(st.floats(0.4, 0.6)), height * draw(st.floats(0.4, 0.6)))
    far = width + height
    line = LineString([(middle[0] - far, middle[1]), (middle[0] + far, middle[1])])
    chord = affinity.rotate(line, draw(st.floats(0.0, 180.0)), origin=middle).intersection(outline)
    path = tuple((float(x), float(y)) for x, y in chord.coords)
    return Slab(
        outline=Ring.of(outline),
        thickness=draw(thicknesses),
        walls=(Wall(id="W1", path=path),),
    )


@given(slab=rectangles_with_a_diagonal_wall())
@settings(max_examples=12)
def test_a_diagonal_wall_at_any_angle_leaves_sharp_corners_at_its_own_ends_only(slab):
    layout = lay_out(slab, RULES)
    assert_hard_rules(slab, layout)
    (wall,) = slab.walls
    for at in sharp_corners(slab, layout):
        assert min(math.dist(at, end) for end in wall.path) <= wall.thickness


@st.composite
def splayed_slabs_with_walls(draw):
    """A slab with one slanted side and up to four walls, along the axes or not, that may meet anywhere."""
    width, height = draw(st.floats(7000.0, 13000.0)), draw(st.floats(6000.0, 11000.0))
    splay = draw(st.floats(600.0, 2500.0))
    outline = Ring(((0.0, 0.0), (width, 0.0), (width + splay, height), (0.0, height)))
    count = draw(st.integers(1, 4))
    return Slab(
        outline=outline,
        thickness=draw(thicknesses),
        walls=tuple(draw(walls_in(width, height, f"W{n}")) for n in range(1, count + 1)),
    )


@st.composite
def walls_in(draw, width, height, name):
    """A wall of 0.8 m or more in a box: along x, along y or aslant."""
    x, y = draw(st.floats(0.0, 0.7)) * width, draw(st.floats(0.0, 0.7)) * height
    along = draw(st.sampled_from([(1.0, 0.0), (0.0, 1.0), (0.7, 0.6), (0.5, -0.8)]))
    reach = draw(st.floats(800.0, 6000.0))
    end = (min(x + along[0] * reach, width), min(max(y + along[1] * reach, 0.0), height))
    path = ((x, y), end) if math.dist((x, y), end) >= 800.0 else ((x, y), (x + 800.0, y))
    return Wall(id=name, path=path, thickness=draw(st.sampled_from([92.1, 114.3, 250.0])))


@given(slab=splayed_slabs_with_walls())
@settings(max_examples=12)
def test_walls_that_meet_anywhere_break_no_hard_rule(slab):
    layout = lay_out(slab, RULES)
    assert_hard_rules(slab, layout)
