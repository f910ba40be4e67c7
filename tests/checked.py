"""Layouts to hold against the rules: clean grids, and slabs with joints drawn in feet."""

from dataclasses import replace

from kerfline.checks.check import check
from kerfline.checks.given import given_layout
from kerfline.geometry.ring import Ring
from kerfline.model.finding import Finding, Rule, Severity
from kerfline.model.slab import GivenJoint, JointKind, Slab
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from kerfline.units import MM_PER_FOOT, MM_PER_INCH, Display

FOUR_INCHES = 4 * MM_PER_INCH
QUARTER = MM_PER_INCH
"""Depth of cut in a 4 in slab: a quarter of it, 1 in."""


def feet(*points):
    """Points given in feet, in mm."""
    return tuple((float(x) * MM_PER_FOOT, float(y) * MM_PER_FOOT) for x, y in points)


def box_ring(x0, y0, x1, y1):
    """A rectangle given in feet."""
    return Ring(feet((x0, y0), (x1, y0), (x1, y1), (x0, y1)))


def joint(name, *points, depth=QUARTER, kind=JointKind.CONTROL, **more):
    """A given joint, its points in feet."""
    return GivenJoint(id=name, path=feet(*points), depth=depth, kind=kind, **more)


def grid_joints(wide, deep, bay=10.0, aside=None):
    """The joints of a grid of bays, from edge to edge: V1.. upright, H1.. level. Feet."""
    tall = aside or bay
    right, top = wide * bay, deep * tall
    upright = [joint(f"V{i}", (i * bay, 0), (i * bay, top)) for i in range(1, wide)]
    level = [joint(f"H{i}", (0, i * tall), (right, i * tall)) for i in range(1, deep)]
    return (*upright, *level)


def grid_slab(wide=4, deep=3, bay=10.0, aside=None, **more):
    """A rectangular slab, 4 in thick unless said otherwise, with the joints of a grid. Feet."""
    tall = aside or bay
    given = more.pop("joints", grid_joints(wide, deep, bay, aside))
    thickness = more.pop("thickness", FOUR_INCHES)
    outline = more.pop("outline", box_ring(0, 0, wide * bay, deep * tall))
    return Slab(outline=outline, thickness=thickness, joints=given, **more)


def with_joints(slab, *added, without=()):
    """A slab with joints added and others taken out by id."""
    kept = tuple(j for j in slab.joints if j.id not in without)
    return replace(slab, joints=(*kept, *added))


def rules(name="floor", **overrides):
    """A rule set by name."""
    return SlabRules(rule_set=load(name, overrides))


def findings(slab, name="floor", *, display=Display.FEET_INCHES, layout=None, by=None):
    """What the checks find on a slab with its given joints."""
    return check(slab, layout or given_layout(slab), by or rules(name), display)


def of(rule, found):
    """The findings of one rule."""
    return [f for f in found if f.rule is rule]


def kinds(found):
    """Rule and severity of each finding, in order, without repeats."""
    return sorted({(f.rule, f.severity) for f in found})


def errors(found):
    """The rules that have errors."""
    return {f.rule for f in found if f.severity is Severity.ERROR}


def broken(found):
    """The rules that have errors or warnings."""
    return {f.rule for f in found if f.severity is not Severity.ADVICE}


__all__ = ["Finding", "Rule", "Severity"]
