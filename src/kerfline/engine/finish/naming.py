"""Numbers joints and panels in reading order, and gives joints their depth and hidden length."""

from collections.abc import Sequence
from dataclasses import replace

from shapely import LineString
from shapely.geometry.base import BaseGeometry

from kerfline.engine.finish.saw_passes import panels_between
from kerfline.engine.regions.region import Cut
from kerfline.geometry.lines import line_order
from kerfline.geometry.ring import Point
from kerfline.model.layout import Joint, Panel
from kerfline.model.slab import JointKind, Slab
from kerfline.rules.slab_rules import SlabRules
from kerfline.units import stored_length

DIGITS = 6
"""Ends of joints are kept to this many digits of a millimetre."""

BORDER = 1.0
"""A joint within this (mm) of a zone's border lies on it."""


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
    line = LineString(cut.path)
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


def panels_of(slab: Slab, joints: Sequence[Joint]) -> tuple[Panel, ...]:
    """The panels between the joints, in reading order."""
    pieces = panels_between(slab.concrete, [j.line for j in joints])
    return tuple(Panel(id=f"P{i}", polygon=p) for i, p in enumerate(pieces, 1))
