"""Slabs in feet that no square grid fits."""

import math

from kerfline.geometry.ring import Ring
from kerfline.model.slab import GivenJoint, KeepOut, Slab, Wall
from kerfline.units import MM_PER_FOOT, MM_PER_INCH

FOUR_INCHES = 4 * MM_PER_INCH
QUARTER_BULGE = math.tan(math.pi / 8)


def feet(*points):
    return tuple((float(x) * MM_PER_FOOT, float(y) * MM_PER_FOOT) for x, y in points)


def ring(*points, bulges=()):
    return Ring(feet(*points), tuple(bulges))


def slab(*points, bulges=(), **more):
    return Slab(outline=ring(*points, bulges=bulges), thickness=FOUR_INCHES, **more)


def regular(sides, radius):
    return tuple(
        (
            radius * math.cos(2 * math.pi * i / sides),
            radius * math.sin(2 * math.pi * i / sides),
        )
        for i in range(sides)
    )


SHAPES = {
    "wing at 45 degrees": slab((0, 0), (30, 0), (50, 20), (36, 34), (22, 20), (0, 20)),
    "tapered drive": slab((0, 0), (24, 0), (18, 50), (6, 50)),
    "hexagonal pavilion": slab(*regular(6, 13)),
    "bay window": slab((0, 0), (10, 0), (13, -3), (19, -3), (22, 0), (34, 0), (34, 20), (0, 20)),
    "quarter-round patio": slab((0, 0), (20, 0), (0, 20), bulges=(0, QUARTER_BULGE, 0)),
    "curved walk": slab(
        (30, 0), (36, 0), (0, 36), (0, 30), bulges=(0, QUARTER_BULGE, 0, -QUARTER_BULGE)
    ),
    "ring walk": slab(
        (-16, 0), (16, 0), bulges=(1, 1), openings=(ring((-11, 0), (11, 0), bulges=(1, 1)),)
    ),
    "triangle": slab((0, 0), (30, 0), (0, 20)),
    "parallelogram": slab((0, 0), (30, 0), (40, 20), (10, 20)),
    "round end": slab((0, 0), (30, 0), (30, 20), (0, 20), bulges=(0, 1, 0, 0)),
    "diagonal wall": slab(
        (0, 0),
        (36, 0),
        (36, 26),
        (0, 26),
        walls=(Wall(id="W1", path=feet((14, 0), (30, 26))),),
    ),
    "given joint": slab(
        (0, 0),
        (36, 0),
        (40, 24),
        (0, 24),
        joints=(GivenJoint(id="G1", path=feet((0, 5), (26, 24))),),
    ),
    "keep-out": slab(
        (0, 0),
        (36, 0),
        (40, 24),
        (0, 24),
        keep_outs=(KeepOut(id="K1", outline=ring((17, 5), (20, 5), (20, 11), (17, 11))),),
    ),
}


def bent_walk(straight):
    """A walk of 1.8 m around a quarter bend, 8 m at its outer side, that runs on straight at both ends."""
    end, bulge = 3000 + straight, math.tan(math.pi / 8)
    outer = ((0, 0), (3000, 0), (11000, 8000), (11000, 5000 + end))
    inner = ((9200, 5000 + end), (9200, 8000), (3000, 1800), (0, 1800))
    return Ring((*outer, *inner), (0, bulge, 0, 0, 0, -bulge, 0, 0)).polygon
