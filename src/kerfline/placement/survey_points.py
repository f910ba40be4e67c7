"""The points of a layout that are set out on site, each with a name: corners, joint ends, bends, columns."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from shapely import LinearRing, LineString

from kerfline.geometry.corners import angle_between, direction
from kerfline.geometry.directions import main_direction
from kerfline.geometry.ring import Point, Ring, arc_of
from kerfline.geometry.tolerance import CORNER_TURN, TOUCH
from kerfline.model.layout import Joint, Layout
from kerfline.model.slab import Column, Slab

OFF_CURVE = 10.0
"""A curve is set out by points between which it strays no farther than this (mm, 3/8 in) from straight
(common practice)."""

IN_ROW = 25.0
"""Columns this close (mm) to one line stand in a row."""

ROW = 2
"""Columns of the shortest row."""


@dataclass(frozen=True, kw_only=True)
class SurveyPoint:
    """A point that is set out.

    Attributes:
        name: Its name in files and on the sheet: letters, digits and dashes.
        at: Its place on the plan, mm.
        what: What it is, in words without commas.
        joint: The joint that it is a point of; empty for others.
    """

    name: str
    at: Point
    what: str
    joint: str = ""


def survey_points(slab: Slab, layout: Layout) -> tuple[SurveyPoint, ...]:
    """Every point that is set out: the slab, its openings, columns, joints, and joints on column rows."""
    return (
        *_ring_points("SLAB", "slab", slab.outline),
        *(
            point
            for number, ring in enumerate(slab.openings, start=1)
            for point in _ring_points(f"OPEN{number}-", f"opening {number}", ring)
        ),
        *(
            SurveyPoint(name=f"COL-{_plain(c.id)}", at=c.at, what=f"column {_plain(c.id)} centre")
            for c in slab.columns
        ),
        *(point for joint in layout.joints for point in _joint_points(joint)),
        *_crossings(slab, layout.joints),
    )


def _plain(name: str) -> str:
    """A name without what parts the columns of a file."""
    return "".join(c if c.isascii() and (c.isalnum() or c in "-.") else "_" for c in name)


def _ring_points(prefix: str, what: str, ring: Ring) -> Iterator[SurveyPoint]:
    """The corners of a ring, and points along its curves, evenly along arcs."""
    points = _along_arcs(ring) if ring.has_arcs else _thinned(ring)
    for number, at in enumerate(points, start=1):
        before, after = points[number - 2], points[number % len(points)]
        kind = "corner" if _turns(ring.coordinates, at, before, after) else "edge on the curve"
        yield SurveyPoint(name=f"{prefix}{number}", at=at, what=f"{what} {kind}")


def _thinned(ring: Ring) -> list[Point]:
    """The points of a ring of chords that are needed to set it out."""
    kept = LinearRing(ring.coordinates).simplify(OFF_CURVE).coords
    return [(float(x), float(y)) for x, y in list(kept)[:-1]]


def _along_arcs(ring: Ring) -> list[Point]:
    """The corners of a ring, each arc divided evenly."""
    points = []
    for i, start in enumerate(ring.points):
        points.append(start)
        if ring.bulge(i):
            arc = arc_of(start, ring.points[(i + 1) % len(ring.points)], ring.bulge(i))
            step = math.degrees(2 * math.acos(max(0.0, 1 - OFF_CURVE / arc.radius)))
            parts = max(2, math.ceil(abs(arc.sweep) / step))
            points += [arc.at(part / parts) for part in range(1, parts)]
    return points


def _turns(drawn: Sequence[Point], at: Point, before: Point, after: Point) -> bool:
    """Whether a point is a corner of what is drawn; beside a curve, the curve's own next points count."""
    if at in drawn:
        index = drawn.index(at)
        before, after = drawn[index - 1], drawn[(index + 1) % len(drawn)]
    return angle_between(direction(before, at), direction(at, after)) > CORNER_TURN


def _joint_points(joint: Joint) -> Iterator[SurveyPoint]:
    """The ends of a joint, its bends, and points along its curves."""
    kept = LineString(joint.path).simplify(OFF_CURVE).coords
    points = [(float(x), float(y)) for x, y in kept]
    last = len(points) - 1
    for number, at in enumerate(points):
        if number in (0, last):
            kind = "end"
        else:
            turns = _turns(joint.path, at, points[number - 1], points[number + 1])
            kind = "bend" if turns else "on the curve"
        what = f"{joint.kind.value} joint {joint.id} {kind}"
        yield SurveyPoint(name=f"{joint.id}-{number + 1}", at=at, what=what, joint=joint.id)


@dataclass(frozen=True)
class _Row:
    """A row of columns: the line through their centres."""

    name: str
    line: LineString


def _crossings(slab: Slab, joints: Sequence[Joint]) -> Iterator[SurveyPoint]:
    """Where joints cross the rows of columns, but at no end of theirs and at no column."""
    rows = _rows(slab)
    for joint in joints:
        known = [*joint.path, *(c.at for c in slab.columns)]
        for row in rows:
            met = joint.line.intersection(row.line)
            for at in _spots(met):
                if all(math.dist(at, other) > TOUCH for other in known):
                    what = f"{joint.kind.value} joint {joint.id} on column row {row.name}"
                    name = f"{joint.id}-ROW{row.name}"
                    yield SurveyPoint(name=name, at=at, what=what, joint=joint.id)
                    known.append(at)


def _spots(met: object) -> list[Point]:
    """The single points of what two lines share, in order."""
    parts = getattr(met, "geoms", [met])
    return sorted((p.x, p.y) for p in parts if getattr(p, "geom_type", "") == "Point")


def _rows(slab: Slab) -> list[_Row]:
    """The rows of columns both ways of the slab: those across numbered, those along lettered."""
    turn = math.radians(main_direction(slab.outline.polygon))
    ways = [(math.cos(turn), math.sin(turn)), (-math.sin(turn), math.cos(turn))]
    out = []
    for way, names in zip(ways, (_numbers, _letters), strict=True):
        groups = _in_line(slab.columns, way)
        for name, group in zip(names(len(groups)), groups, strict=True):
            ends = sorted(c.at for c in group)
            out.append(_Row(name, LineString([ends[0], ends[-1]])))
    return out


def _in_line(columns: Sequence[Column], way: Point) -> list[list[Column]]:
    """Columns whose offsets along a way agree, two or more together."""
    placed = sorted(((c.at[0] * way[0] + c.at[1] * way[1]), c.id, c) for c in columns)
    groups: list[list[tuple[float, Column]]] = []
    for offset, _, column in placed:
        if groups and offset - groups[-1][-1][0] <= IN_ROW:
            groups[-1].append((offset, column))
        else:
            groups.append([(offset, column)])
    return [[c for _, c in group] for group in groups if len(group) >= ROW]


def _numbers(count: int) -> list[str]:
    return [str(n) for n in range(1, count + 1)]


def _letters(count: int) -> list[str]:
    """A to Z without I and O, which look like digits, then AA, AB, ... (common practice)."""
    plain = "ABCDEFGHJKLMNPQRSTUVWXYZ"
    return [_letter(n, plain) for n in range(count)]


def _letter(number: int, plain: str) -> str:
    """The name of a row by its number from 0: a letter, then two, then three."""
    more, last = divmod(number, len(plain))
    return (_letter(more - 1, plain) if more else "") + plain[last]
