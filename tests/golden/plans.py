"""The slabs whose layouts are kept as drawings: each stands for a kind that was once laid out badly."""

import math

from kerfline.geometry.ring import Ring
from kerfline.model.slab import (
    Boxout,
    Column,
    Fall,
    GivenJoint,
    KeepOut,
    Pattern,
    PatternKind,
    Penetration,
    PenetrationKind,
    Slab,
    Wall,
    Zone,
)
from kerfline.units import MM_PER_FOOT, MM_PER_INCH

QUARTER = math.tan(math.pi / 8)
"""Bulge of a quarter circle."""


def feet(*points):
    return tuple((x * MM_PER_FOOT, y * MM_PER_FOOT) for x, y in points)


def ring(*points, bulges=()):
    return Ring(feet(*points), tuple(bulges))


def box(wide, deep, x=0.0, y=0.0):
    return ring((x, y), (x + wide, y), (x + wide, y + deep), (x, y + deep))


def slab(outline, inches=4, **more):
    return Slab(outline=outline, thickness=inches * MM_PER_INCH, **more)


def wall(name, *points):
    return Wall(id=name, path=feet(*points))


def column(name, x, y, shape=Boxout.DIAMOND):
    return Column(id=name, at=feet((x, y))[0], boxout=shape)


def regular(sides, radius):
    start = math.pi / sides - math.pi / 2
    turns = [start + 2 * math.pi * i / sides for i in range(sides)]
    return ring(*((radius * math.cos(t), radius * math.sin(t)) for t in turns))


PLANS = {
    # Square edges.
    "ell": slab(ring((0, 0), (40, 0), (40, 18), (22, 18), (22, 36), (0, 36))),
    "aitch": slab(
        ring(
            *((0, 0), (12, 0), (12, 13), (28, 13), (28, 0), (40, 0)),
            *((40, 36), (28, 36), (28, 23), (12, 23), (12, 36), (0, 36)),
        )
    ),
    "courtyard": slab(box(60, 50), openings=(box(24, 20, 18, 15),)),
    "narrow-strip": slab(box(60, 3)),
    "ell-shaped-walk": slab(ring((0, 0), (40, 0), (40, 30), (36, 30), (36, 4), (0, 4))),
    "columns-in-walls": slab(
        box(48, 30),
        walls=(wall("W1", (0, 15), (48, 15)), wall("W2", (24, 0), (24, 30))),
        columns=(column("C1", 12, 15), column("C2", 24, 15), column("C3", 36, 15)),
    ),
    "columns-off-the-bays": slab(
        box(150, 75),
        inches=6,
        columns=tuple(column(f"C{x}{y}", x, y) for x in (50, 100) for y in (25, 50)),
    ),
    "round-columns": slab(
        box(64, 42),
        inches=6,
        columns=tuple(
            column(f"C{x}{y}", x, y, Boxout.CIRCLE) for x in (16, 32, 48) for y in (14, 28)
        ),
    ),
    "drains": slab(
        box(36, 26),
        penetrations=tuple(
            Penetration(id=name, at=feet(at)[0], diameter=100.0, kind=PenetrationKind.DRAIN)
            for name, at in (("N1", (9, 13)), ("N2", (26, 8)))
        ),
    ),
    "keep-out": slab(box(40, 30), keep_outs=(KeepOut(id="K1", outline=box(8, 6, 17, 11)),)),
    "thick-zone": slab(
        box(50, 40), zones=(Zone(id="Z1", outline=box(14, 12, 18, 14), thickness=203.2),)
    ),
    "walls-three-inches-apart": slab(
        box(40, 28),
        walls=(
            wall("W1", (0, 14), (20, 14)),
            wall("W2", (20, 14.25), (40, 14.25)),
            wall("W3", (18, 0), (18, 14)),
            wall("W4", (18.25, 14.25), (18.25, 28)),
        ),
    ),
    "given-joints": slab(
        box(44, 28),
        joints=(
            GivenJoint(id="G1", path=feet((17, 0), (17, 28))),
            GivenJoint(id="G2", path=feet((17, 11), (44, 11))),
        ),
    ),
    # Slanted lines.
    "diagonal-wall-in-the-open": slab(box(40, 30), walls=(wall("W1", (0, 6), (18, 20)),)),
    "floor-that-falls-to-a-drain": slab(
        box(36, 24),
        inches=5,
        falls=(Fall(id="D1", area=box(12, 12, 6, 6), to=feet((12, 12))),),
    ),
    "cupboard-at-45-degrees": slab(
        box(40, 30),
        walls=(
            wall("W1", (0, 16), (22, 16)),
            wall("W2", (22, 16), (26, 20)),
            wall("W3", (26, 20), (26, 30)),
        ),
    ),
    "wing-at-45-degrees": slab(ring((0, 0), (30, 0), (50, 20), (36, 34), (22, 20), (0, 20))),
    "tapered-drive": slab(ring((0, 0), (24, 0), (18, 50), (6, 50))),
    "equal-sided-triangle": slab(ring((0, 0), (30, 0), (15, 26))),
    "hexagon": slab(regular(6, 13)),
    "bay-window": slab(
        ring((0, 0), (10, 0), (13, -3), (19, -3), (22, 0), (32, 0), (32, 20), (0, 20))
    ),
    # Arcs.
    "quarter-round-patio": slab(ring((0, 0), (20, 0), (0, 20), bulges=(0, QUARTER, 0))),
    "half-circle": slab(ring((-14, 0), (14, 0), bulges=(0, 1))),
    "circle": slab(ring((-20, 0), (20, 0), bulges=(1, 1))),
    "round-end": slab(ring((0, 0), (30, 0), (30, 20), (0, 20), bulges=(0, 1, 0, 0))),
    "kidney": slab(
        ring((0, 0), (24, 0), (24, 16), (0, 16), bulges=(-0.25, 0.8, 0.3, 0.8)),
    ),
    "ring-walk": slab(
        ring((-16, 0), (16, 0), bulges=(1, 1)),
        openings=(ring((-11, 0), (11, 0), bulges=(1, 1)),),
    ),
    "patio-beside-a-house": slab(
        ring((0, 0), (16, 0), (16, -8), (36, -8), (36, 16), (0, 16), bulges=(0, 0, 0.3, 0, 0, 0))
    ),
    # Patterns.
    "square-pattern": slab(
        box(50, 40), patterns=(Pattern(id="A1", area=box(30, 24, 10, 8), kind=PatternKind.SQUARE),)
    ),
    "diagonal-pattern": slab(
        box(50, 40),
        patterns=(Pattern(id="A1", area=box(30, 24, 10, 8), kind=PatternKind.DIAGONAL),),
    ),
}
