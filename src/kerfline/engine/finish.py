"""From cuts to joints and panels: saw passes, their ends closed, depths and names."""

import math
from collections.abc import Sequence
from dataclasses import replace

import shapely
from shapely import LineString
from shapely.geometry.base import BaseGeometry

from kerfline.engine.regions.region import TOLD, Cut
from kerfline.geometry.corners import ahead, direction, seen_along, sine_between
from kerfline.geometry.faces import Area, rings_of
from kerfline.geometry.lines import line_order
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import TOUCH
from kerfline.model.layout import Joint, Reason
from kerfline.model.slab import JointKind, Slab
from kerfline.rules.slab_rules import SlabRules
from kerfline.units import stored_length

IN_LINE = 1e-3
"""Sine of the angle under which two cuts that meet are one pass."""

STRENGTH = (*TOLD, *(reason for reason in Reason if reason not in TOLD))
"""Reasons from the strongest: a pass takes the strongest of its cuts' reasons."""

REACH = 2 * TOUCH
"""How far (mm) from a line an end may lie and still be meant to end on it."""

DIGITS = 6
"""Ends of joints are kept to this many digits of a millimetre."""

BORDER = 1.0
"""A joint within this (mm) of a zone's border lies on it."""


def saw_passes(cuts: Sequence[Cut]) -> list[Cut]:
    """The cuts with those joined that meet end to end in one line and are of one kind."""
    long = [c for c in cuts if c.line.length > TOUCH]
    out = [c for c in long if not c.is_straight]
    for row in _rows([c for c in long if c.is_straight]):
        passes: list[Cut] = []
        for cut in sorted(row, key=lambda c: c.path):
            passes = _joined(passes, cut)
        out.extend(passes)
    return out


def _rows(cuts: Sequence[Cut]) -> list[list[Cut]]:
    """Cuts along the axes in rows of one line each; all others in one row."""
    slanted: list[Cut] = []
    along: tuple[list[Cut], list[Cut]] = ([], [])
    for cut in cuts:
        flat = [abs(cut.path[0][axis] - cut.path[1][axis]) <= TOUCH for axis in (0, 1)]
        (along[flat.index(True)] if any(flat) else slanted).append(cut)
    rows = [slanted]
    for axis in (0, 1):
        last = -math.inf
        for cut in sorted(along[axis], key=lambda c: c.path[0][axis]):
            if cut.path[0][axis] - last > TOUCH:
                rows.append([])
            rows[-1].append(cut)
            last = cut.path[0][axis]
    return rows


def _joined(passes: list[Cut], cut: Cut) -> list[Cut]:
    """The passes with one more cut, which may join two of them."""
    rest = []
    for other in passes:
        path = _common(other, cut)
        if path is None:
            rest.append(other)
        else:
            strong = min((other, cut), key=lambda c: STRENGTH.index(c.reason))
            cut = replace(strong, path=path, kind=cut.kind, depth=cut.depth)
    return [*rest, cut]


def _common(one: Cut, other: Cut) -> tuple[Point, Point] | None:
    """The path of two straight cuts that meet or overlap in one line; None where they do not."""
    if not one.is_straight or (one.kind, one.depth) != (other.kind, other.depth):
        return None
    if _are_apart(one, other):
        return None
    way = direction(*one.path)
    if sine_between(way, direction(*other.path)) > IN_LINE:
        return None
    own, others = (
        [(*seen_along(one.path[0], way, at), at) for at in cut.path] for cut in (one, other)
    )
    (low, *_), (high, *_) = sorted(own)
    (first, *_), (last, *_) = sorted(others)
    off = max(abs(aside) for _, aside, _ in others)
    if off > TOUCH or first > high + TOUCH or last < low - TOUCH:
        return None
    order = sorted([*own, *others], key=lambda place: place[0])
    return order[0][-1], order[-1][-1]


def _are_apart(one: Cut, other: Cut) -> bool:
    """Whether the boxes of two straight cuts are: most of many are told so at once."""
    (x0, y0), (x1, y1) = one.path
    (u0, v0), (u1, v1) = other.path
    return (
        max(x0, x1) + REACH < min(u0, u1)
        or max(u0, u1) + REACH < min(x0, x1)
        or max(y0, y1) + REACH < min(v0, v1)
        or max(v0, v1) + REACH < min(y0, y1)
    )


def closed(cuts: Sequence[Cut], concrete: Area) -> list[Cut]:
    """The cuts with each end brought onto the edge or the joint that it all but meets.

    Ends drift by fractions of a millimetre when frames are turned back and when cuts in one line
    become one pass; a gap of that size would leave two panels unparted.
    """
    lines = [c.line for c in cuts]
    shapes: list[LineString] = [*lines, *(LineString(r.coords) for r in rings_of(concrete))]
    tree = shapely.STRtree(shapes)
    out = []
    for number, cut in enumerate(cuts):
        path = list(cut.path)
        path[0] = _landed(path[1], path[0], number, shapes, tree)
        path[-1] = _landed(path[-2], path[-1], number, shapes, tree)
        out.append(replace(cut, path=tuple(path)))
    return out


def _landed(
    inner: Point, end: Point, own: int, shapes: Sequence[LineString], tree: shapely.STRtree
) -> Point:
    """An end on the line that crosses its last stretch, else on the nearest one within reach."""
    way = direction(inner, end)
    spot = shapely.Point(end)
    near = sorted(int(i) for i in tree.query(spot.buffer(REACH)) if int(i) != own)
    close = [shapes[i] for i in near if shapes[i].distance(spot) <= REACH]
    if not close:
        return end
    last = LineString([ahead(end, way, -REACH), ahead(end, way, REACH)])
    hits = [h for line in close for h in shapely.get_coordinates(line.intersection(last)).tolist()]
    if hits:
        x, y = min(hits, key=lambda p: (round(math.dist(p, end), 6), p))
        return (float(x), float(y))
    line = min(close, key=lambda c: round(c.distance(spot), 6))
    foot = line.interpolate(line.project(spot))
    return (float(foot.x), float(foot.y))


def joints_of(slab: Slab, rules: SlabRules, cuts: Sequence[Cut]) -> tuple[Joint, ...]:
    """The joints, those that run up first, in reading order from the lower left."""
    return tuple(
        _joint(slab, rules, cut, number)
        for number, cut in enumerate(
            sorted(map(_tidy, cuts), key=lambda cut: line_order(cut.path)), 1
        )
    )


def _tidy(cut: Cut) -> Cut:
    """A cut that starts at its lower left end, on rounded places."""
    path = tuple((round(x, DIGITS) + 0.0, round(y, DIGITS) + 0.0) for x, y in cut.path)
    return replace(cut, path=min(path, path[::-1]))


def _joint(
    slab: Slab,
    rules: SlabRules,
    cut: Cut,
    number: int,
) -> Joint:
    line = cut.line
    return Joint(
        id=f"J{number}",
        kind=cut.kind,
        path=cut.path,
        depth=_depth(slab, rules, cut, line),
        reason=cut.reason,
        note=_words(slab, cut),
        hidden=slab.under_walls(line),
    )


def _depth(slab: Slab, rules: SlabRules, cut: Cut, line: LineString) -> float:
    """The user's depth, or that for the thickest concrete that the joint runs through."""
    if cut.depth is not None:
        return cut.depth
    if cut.kind is not JointKind.CONTROL:
        return 0.0
    thick = [slab.thickness] if not slab.zones else _thicknesses(slab, line)
    return max(rules.cut_depth(t) for t in thick)


def _thicknesses(slab: Slab, line: LineString) -> list[float]:
    """The thicknesses that a joint runs through; a joint on a zone's border has those of both sides."""
    out = []
    rest: BaseGeometry = line
    for zone in slab.zones:
        area = zone.outline.polygon
        if line.intersection(area.buffer(BORDER)).length > 2 * BORDER:
            out.append(zone.thickness)
        rest = rest.difference(area.buffer(-BORDER))
    return [*out, slab.thickness] if rest.length > BORDER or not out else out


def _words(slab: Slab, cut: Cut) -> str:
    """The note with its place written from the slab's lower left corner."""
    if cut.at is None:
        return cut.note
    return cut.note.replace("{at}", _place(slab, cut.at))


def _place(slab: Slab, at: Point) -> str:
    """A place measured from the slab's lower left corner, its lengths stored in mm."""
    x0, y0, _, _ = slab.outline.polygon.bounds
    return f"({stored_length(at[0] - x0)}, {stored_length(at[1] - y0)})"
