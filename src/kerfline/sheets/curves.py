"""Curves of the slab's edge: radius, centre, and how far along each the joints end that meet it."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from kerfline.geometry.corners import direction
from kerfline.geometry.ring import Arc, Point, Ring, arc_of
from kerfline.model.slab import Slab
from kerfline.sheets.baselines import Baselines
from kerfline.sheets.lettering import KEEP
from kerfline.sheets.running import dimension_text
from kerfline.sheets.table import Column, Table
from kerfline.units import Display

LEAST_RADIUS = 300.0
"""A curve of less radius (mm) is a rounded corner, which the form gives."""

SAME_ARC = 5.0
"""Arcs whose centres and radii agree within this (mm) are one curve."""

ON_ARC = 5.0
"""A joint that ends this near (mm) to a curve ends on it."""

FULL_TURN = 360.0

STATIONS_WIDTH = 75.0
"""Width in mm that the stations of a curve take in their table."""

Line = tuple[str, Sequence[Point]]
"""Name and points of a joint or cut, mm."""


@dataclass(frozen=True, kw_only=True)
class Curve:
    """A curve of an edge, walked from one end.

    Attributes:
        name: Short name: R1.
        arc: Centre, radius, and the turn from its beginning to its end.
    """

    name: str
    arc: Arc

    @property
    def begins(self) -> Point:
        """Where it begins, mm of the drawing."""
        return self.arc.at(0.0)

    @property
    def middle(self) -> Point:
        """The point half way along it, mm of the drawing."""
        return self.arc.at(0.5)

    def station(self, point: Point) -> float | None:
        """How far along it a point lies that lies on it, mm; None where the point lies elsewhere."""
        arc = self.arc
        dx, dy = point[0] - arc.centre[0], point[1] - arc.centre[1]
        if abs(math.hypot(dx, dy) - arc.radius) > ON_ARC:
            return None
        turned = math.degrees(math.atan2(dy, dx)) - arc.start
        off = turned % FULL_TURN if arc.sweep > 0 else -turned % FULL_TURN
        slack = math.degrees(ON_ARC / arc.radius)
        if off > FULL_TURN - slack:
            off = 0.0
        return math.radians(off) * arc.radius if off <= abs(arc.sweep) + slack else None


def curves(slab: Slab, base: Baselines) -> tuple[Curve, ...]:
    """The curves of the edge and of the openings, each walked from the end nearer to where the baselines meet."""
    found: list[Arc] = []
    for ring in (slab.outline, *slab.openings):
        found.extend(_joined(list(_arcs(ring))))
    large = [arc for arc in found if arc.radius >= LEAST_RADIUS]
    return tuple(Curve(name=f"R{n}", arc=_from_near(arc, base)) for n, arc in enumerate(large, 1))


def _arcs(ring: Ring) -> Iterator[Arc]:
    count = len(ring.points)
    for i, start in enumerate(ring.points):
        if ring.bulge(i):
            yield arc_of(start, ring.points[(i + 1) % count], ring.bulge(i))


def _joined(arcs: Sequence[Arc]) -> list[Arc]:
    """Arcs of one centre and radius that follow one another as one."""
    out: list[Arc] = []
    for arc in arcs:
        if out and _follows(out[-1], arc):
            last = out[-1]
            out[-1] = Arc(last.centre, last.radius, last.start, last.sweep + arc.sweep)
        else:
            out.append(arc)
    if len(out) > 1 and _follows(out[-1], out[0]):
        last = out.pop()
        out[0] = Arc(last.centre, last.radius, last.start, last.sweep + out[0].sweep)
    return out


def _follows(one: Arc, two: Arc) -> bool:
    alike = math.dist(one.centre, two.centre) < SAME_ARC and abs(one.radius - two.radius) < SAME_ARC
    return alike and one.sweep * two.sweep > 0 and math.dist(one.at(1.0), two.at(0.0)) < SAME_ARC


def _from_near(arc: Arc, base: Baselines) -> Arc:
    """The same arc walked from its end nearer to where the baselines meet, from its first where both are as near."""
    first, last = (math.hypot(*base.local(arc.at(share))) for share in (0.0, 1.0))
    if first <= last + SAME_ARC:
        return arc
    return Arc(arc.centre, arc.radius, arc.start + arc.sweep, -arc.sweep)


def stations_on(curve: Curve, lines: Sequence[Line]) -> list[tuple[str, float, Point, Point]]:
    """The ends of lines that lie on a curve: name, distance along it in mm, the point, the unit vector into the line.

    Ascending by distance.
    """
    found = [
        (name, along, end, direction(end, after))
        for name, path in lines
        for end, after in ((path[0], path[1]), (path[-1], path[-2]))
        if (along := curve.station(end)) is not None
    ]
    return sorted(found, key=lambda f: (round(f[1]), f[0]))


def curve_table(
    slab: Slab, base: Baselines, lines: Sequence[Line], display: Display, text: float
) -> Table:
    """Each curve with radius, centre, where it begins, and how far along it each joint ends; empty without curves."""
    unit = "" if display is Display.FEET_INCHES else ", mm"
    return Table(
        heading=f"Curves (distances along the edge from where it begins{unit})",
        columns=(
            Column("No."),
            Column("radius", right=True),
            Column("centre|right, up", right=True),
            Column("begins at|right, up", right=True),
            Column("joints end at", widest=STATIONS_WIDTH),
        ),
        rows=tuple(_row(curve, base, lines, display) for curve in curves(slab, base)),
        text=text,
    )


def _row(curve: Curve, base: Baselines, lines: Sequence[Line], display: Display) -> tuple[str, ...]:
    def place(point: Point) -> str:
        return ", ".join(dimension_text(offset, display) for offset in base.local(point))

    ends = [
        f"{name} {dimension_text(along, display)}".replace(" ", KEEP)
        for name, along, *_ in stations_on(curve, lines)
    ]
    return (
        curve.name,
        dimension_text(curve.arc.radius, display),
        place(curve.arc.centre),
        place(curve.begins),
        ", ".join(ends),
    )
