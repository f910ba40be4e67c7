"""The concrete cut along the joints: the net of linework and the faces that it closes off.

After a change only what lies near the changed lines is cut anew. What is kept is the very same object as
before, so that whoever measured it need not measure it again.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import pairwise

import numpy as np
import shapely
from shapely import LineString, Polygon

from kerfline.checks.changed_lines import GONE, ChangedLines, Lines, changed_lines
from kerfline.checks.closing import Face, faces_of
from kerfline.checks.net import EDGE, Arm, Net, Node, linework_of, net_of
from kerfline.geometry.arrays import Flags, Integers, Shapes
from kerfline.geometry.faces import Area, reading_order, rings_of
from kerfline.geometry.tolerance import TOUCH
from kerfline.model.panelling import joined

REACH = 4 * TOUCH
"""What lies nearer than this (mm) to a line that came, went or moved is cut anew."""

MOST = 0.5
"""Where more than this share of the faces is to be cut anew, all of it is: that is quicker then."""


@dataclass(frozen=True)
class Parted:
    """The concrete cut along joints.

    Attributes:
        concrete: The concrete, in mm.
        given: The joints as they are drawn, in the layout's order.
        lines: The same with their ends on what they meet within the tolerance.
        net: Where joints and edges meet.
        faces: What they close off, in reading order.
    """

    concrete: Area
    given: tuple[LineString, ...]
    lines: tuple[LineString, ...]
    net: Net
    faces: tuple[Face, ...]

    @property
    def drawn(self) -> Lines:
        """The joints' lines."""
        return Lines(self.given, self.lines)

    def since(self, before: "Parted") -> ChangedLines:
        """Which joints of an earlier cut are joints of this one."""
        return changed_lines(before.drawn, self.drawn)

    @cached_property
    def outlines(self) -> Shapes:
        """The faces as shapes."""
        return _array([face.polygon for face in self.faces])

    @cached_property
    def tree(self) -> shapely.STRtree:
        """Finds faces by place."""
        return shapely.STRtree(self.outlines)


def parted(concrete: Area, given: Sequence[LineString]) -> Parted:
    """Cuts concrete along joints."""
    lines = tuple(joined(concrete, given))
    return _cut(concrete, tuple(given), lines, lines)


def _cut(
    concrete: Area,
    given: tuple[LineString, ...],
    lines: tuple[LineString, ...],
    among: Sequence[LineString],
    change: "_Change | None" = None,
) -> Parted:
    """Cuts concrete along some of the joints; nodes that a change does not reach may be left out."""
    linework = linework_of(concrete, among)
    asked = (lambda spots: _reached(change, np.asarray(shapely.points(spots)))) if change else None
    net = net_of(concrete, among, linework, asked)
    return Parted(concrete, given, lines, net, faces_of(concrete, linework))


def parted_again(before: Parted, concrete: Area, given: Sequence[LineString]) -> Parted:
    """Cuts concrete along joints, given how it was cut before a change.

    Args:
        before: The cut before.
        concrete: The concrete now.
        given: The joints now.

    Returns:
        The same as ``parted`` says, with the faces and nodes of before wherever nothing changed.
    """
    lines = tuple(joined(concrete, given))
    change = _change(before, concrete, tuple(given), lines)
    if change is None and _same(before, concrete, given):
        return before
    if change is None:
        return _cut(concrete, tuple(given), lines, lines)
    near = np.flatnonzero(shapely.intersects(_array(lines), change.window)).tolist()
    part = _cut(concrete, tuple(given), lines, [lines[i] for i in near], change)
    faces = _faces(before, part, change)
    net = _net(before, part, change, near)
    if faces is None or net is None:
        return _cut(concrete, tuple(given), lines, lines)
    return Parted(concrete, tuple(given), lines, net, faces)


@dataclass(frozen=True)
class _Change:
    """Where a change reaches.

    Attributes:
        gone: For each face of before whether it is cut anew.
        place: The faces cut anew and the changed lines.
        window: A box round everything that these touch; inside it a part of the linework is the whole.
        moved: For each joint of before its number now; ``GONE`` where its line is gone.
    """

    gone: Flags
    place: shapely.STRtree
    window: Polygon
    moved: Integers


def _change(
    before: Parted, concrete: Area, given: tuple[LineString, ...], met: tuple[LineString, ...]
) -> _Change | None:
    """Where a change reaches; None where that is nowhere, or most of the slab."""
    lines = changed_lines(before.drawn, Lines(given, met))
    changed = [*lines.stretches, *_moved_edges(before.concrete, concrete)]
    gone = np.zeros(len(before.faces), dtype=bool)
    gone[before.tree.query(_array(changed), "dwithin", REACH)[1]] = True
    if not changed or not lines.in_order or gone.sum() > MOST * len(gone):
        return None
    fresh = before.outlines[gone]
    beside = before.tree.query(fresh, "intersects")[1]
    places = _array([*changed, *fresh.tolist()])
    reach = shapely.total_bounds(np.concatenate([places, before.outlines[beside]]))
    window = shapely.box(*(reach + np.array([-REACH, -REACH, REACH, REACH])))
    return _Change(gone, shapely.STRtree(places), window, lines.moved)


def _same(before: Parted, concrete: Area, given: Sequence[LineString]) -> bool:
    """Whether the same concrete is cut along the same joints."""
    alike = before.concrete is concrete or before.concrete.equals_exact(concrete)
    return alike and list(before.given) == list(given)


def _moved_edges(old: Area, new: Area) -> list[LineString]:
    """The sides of the concrete that only one of two states has."""
    if old is new:
        return []
    return [LineString(side) for side in _sides(old) ^ _sides(new)]


def _sides(area: Area) -> set[tuple[tuple[float, ...], tuple[float, ...]]]:
    return {
        (min(a, b), max(a, b)) for ring in rings_of(area) for a, b in pairwise(list(ring.coords))
    }


def _faces(before: Parted, part: Parted, change: _Change) -> tuple[Face, ...] | None:
    """The faces now; None where one that is new reaches out of the window."""
    kept = _array(
        [f.polygon for f, gone in zip(before.faces, change.gone, strict=True) if not gone]
    )
    spots = shapely.point_on_surface(part.outlines)
    again = np.zeros(len(spots), dtype=bool)
    again[shapely.STRtree(kept).query(spots, "intersects")[0]] = True
    fresh = [face for face, known in zip(part.faces, again, strict=True) if not known]
    if not shapely.covers(change.window, _array([f.polygon for f in fresh])).all():
        return None
    own = {id(f.polygon): f for f in (*before.faces, *fresh)}
    return tuple(
        own[id(polygon)] for polygon in reading_order([*kept.tolist(), *(f.polygon for f in fresh)])
    )


def _net(before: Parted, part: Parted, change: _Change, near: Sequence[int]) -> Net | None:
    """The net now; None where a piece that is new reaches out of the window."""
    old, new = before.net, part.net
    gone, come = _near(change, old.pieces), _near(change, new.pieces)
    pieces = [p for p, yes in zip(new.pieces, come, strict=True) if yes]
    if not shapely.covers(change.window, _array(pieces)).all():
        return None
    owners = [
        *(_moved(change, o) for o, out in zip(old.owners, gone, strict=True) if not out),
        *(near[o] if o != EDGE else EDGE for o, yes in zip(new.owners, come, strict=True) if yes),
    ]
    kept = [p for p, out in zip(old.pieces, gone, strict=True) if not out]
    stays = change.moved == np.arange(len(change.moved))
    still = bool((stays | (change.moved == GONE)).all())
    nodes = [
        *(
            node if still else _renumbered(node, change.moved)
            for node, out in zip(old.nodes, _at(change, old), strict=True)
            if not out
        ),
        *(
            _renumbered(node, np.asarray(near, dtype=np.int64))
            for node, yes in zip(new.nodes, _at(change, new), strict=True)
            if yes
        ),
    ]
    return Net(nodes=tuple(nodes), pieces=(*kept, *pieces), owners=tuple(owners))


def _moved(change: _Change, owner: int) -> int:
    return EDGE if owner == EDGE else int(change.moved[owner])


def _near(change: _Change, pieces: Sequence[LineString]) -> Flags:
    """Which pieces lie, or begin or end, where the change reaches."""
    lines = _array(pieces)
    spots = [shapely.get_point(lines, i) for i in (0, -1)]
    spots.append(shapely.line_interpolate_point(lines, 0.5, normalized=True))
    start, end, middle = (_reached(change, each) for each in spots)
    return start | end | middle


def _at(change: _Change, net: Net) -> Flags:
    """Which nodes lie where the change reaches."""
    return _reached(change, np.asarray(shapely.points([node.at for node in net.nodes])))


def _reached(change: _Change, spots: Shapes) -> Flags:
    reached = np.zeros(len(spots), dtype=bool)
    reached[change.place.query(spots, "dwithin", REACH)[0]] = True
    return reached


def _renumbered(node: Node, numbers: Integers) -> Node:
    """A node whose joints have other numbers."""
    arms = tuple(
        arm if arm.joint == EDGE else Arm(int(numbers[arm.joint]), arm.way, arm.piece)
        for arm in node.arms
    )
    return replace(node, arms=arms)


def _array(shapes: Sequence[shapely.Geometry]) -> Shapes:
    out = np.empty(len(shapes), dtype=object)
    out[:] = shapes
    return out
