"""Slabs in feet and their layouts, for the tests of the engine."""

from kerfline.engine.lay_out import lay_out
from kerfline.engine.lines.settled import settled_joints
from kerfline.engine.options import EngineOptions
from kerfline.engine.regions.placing import placed_region
from kerfline.geometry.ring import Ring
from kerfline.model.slab import Slab, Wall
from kerfline.rules import rule_set
from kerfline.rules.slab_rules import SlabRules
from kerfline.units import MM_PER_FOOT

FOUR_INCHES = 101.6
RULES = SlabRules(rule_set=rule_set.load("floor"))


def feet(*points):
    """Points given in feet, in mm."""
    return tuple((x * MM_PER_FOOT, y * MM_PER_FOOT) for x, y in points)


def ring(*points):
    return Ring(feet(*points))


def box(width, height, x=0.0, y=0.0):
    """A rectangle given in feet."""
    return ring((x, y), (x + width, y), (x + width, y + height), (x, y + height))


def wall(name, *points, thickness=114.3, **more):
    return Wall(id=name, path=feet(*points), thickness=thickness, **more)


def slab(outline, **more):
    return Slab(outline=outline, thickness=FOUR_INCHES, **more)


def layout(slab, **options):
    return lay_out(slab, RULES, EngineOptions(**options))


def all_settled(region):
    """The joints of a region where the walls along its axes have theirs settled too."""
    return settled_joints(region, lambda _: False)


def in_feet(length):
    return round(length / MM_PER_FOOT, 2)


def lines(found):
    """Places of the joints in feet: those that run up by x, those that run across by y."""
    up = sorted({in_feet(j.path[0][0]) for j in found.joints if j.path[0][0] == j.path[-1][0]})
    across = sorted({in_feet(j.path[0][1]) for j in found.joints if j.path[0][1] == j.path[-1][1]})
    return up, across


EL = ring((0, 0), (40, 0), (40, 18), (22, 18), (22, 36), (0, 36))
HOUSE = slab(
    ring((0, 0), (52, 0), (52, 30), (36, 30), (36, 44), (0, 44)),
    walls=(
        wall("W1", (0, 16), (36, 16)),
        wall("W2", (14, 0), (14, 16)),
        wall("W3", (26, 0), (26, 16)),
        wall("W4", (36, 0), (36, 30)),
        wall("W5", (0, 20), (36, 20)),
        wall("W6", (12, 20), (12, 44)),
        wall("W7", (24, 20), (24, 44)),
        wall("W8", (36, 14), (52, 14)),
        wall("W9", (12, 32), (24, 32)),
    ),
)


def region_of(plan, **options):
    """A slab of one piece as the engine's region, in the slab's own axes."""
    made = EngineOptions(**options)
    return placed_region(plan, RULES, made, gross=plan.gross, angle=0.0).region
