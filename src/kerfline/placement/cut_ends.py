"""The ends of every sawn line: which run out, which stop at something and how much is left uncut."""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

import shapely
from shapely import MultiLineString, MultiPolygon

from kerfline.geometry.faces import lines_of, polygons_of
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import TOUCH
from kerfline.model.day import Habit, Ledger, SawChoice, SawMethod
from kerfline.model.edge_lines import edge_lines
from kerfline.model.joint_lines import SawnLine
from kerfline.model.slab import EdgeKind, Slab
from kerfline.placement.kerf import CutEnd, cut_end
from kerfline.placement.panel_graph import ends_of
from kerfline.units import round_figure

BLADES = {
    SawMethod.CONVENTIONAL: round_figure(14, "in"),
    SawMethod.EARLY_ENTRY: round_figure(6, "in"),
}
"""Diameters of the usual blades."""

GUARD = Habit(
    key="day.saws.guard",
    text="from the blade's front to the foremost part of the saw",
    amount=0.0,
    shown="0: measure the saw and add it",
    source="plain geometry of the blade alone",
)


class EndAt(StrEnum):
    """What a sawn line's end meets."""

    WALL = "wall or old slab"
    BOXOUT = "boxout"
    OPENING = "opening"
    FREE_EDGE = "free edge"
    JOINT = "joint"


@dataclass(frozen=True, kw_only=True)
class SawnEnd:
    """One end of a sawn line.

    Attributes:
        joint: Id of the joint.
        at: Place, mm.
        meets: What is there.
        cut: What a round blade leaves there.
    """

    joint: str
    at: Point
    meets: EndAt
    cut: CutEnd


def blade_of(saws: SawChoice, method: SawMethod, ledger: Ledger) -> tuple[float, float]:
    """Diameter of the blade and reach of the guard, mm."""
    usual = Habit.of("day.saws.blade", f"blade of the {method.value} saw", BLADES[method])
    blade = ledger.take(saws.blade, usual)
    return blade, ledger.take(saws.guard, GUARD)


def sawn_ends(
    slab: Slab, sawn: Sequence[SawnLine], blade: float, guard: float
) -> tuple[SawnEnd, ...]:
    """Both ends of every sawn line, in the order of the lines.

    Args:
        slab: What is given.
        sawn: The lines.
        blade: Diameter of the blade, mm.
        guard: From the blade's front to the foremost part of the saw, mm.
    """
    walls = _edges(slab)
    boxouts = MultiPolygon(polygons_of(shapely.union_all(slab.boxouts)))
    openings = MultiPolygon(polygons_of(shapely.union_all([o.polygon for o in slab.openings])))
    out = []
    for part in sawn:
        for at in ends_of(part.line):
            meets = _meeting(at, slab, walls, boxouts, openings)
            cut = cut_end(blade, part.depth, guard if meets is EndAt.WALL else 0.0)
            out.append(SawnEnd(joint=part.joint, at=at, meets=meets, cut=cut))
    return tuple(out)


def _edges(slab: Slab) -> MultiLineString:
    """The edges against a wall, an old slab or a neighbour."""
    kinds = (EdgeKind.ISOLATED, EdgeKind.CONTINUOUS)
    lines = [line for kind in kinds for line in edge_lines(slab, kind)]
    return MultiLineString(lines_of(shapely.union_all(lines)))


def _meeting(
    at: Point,
    slab: Slab,
    walls: MultiLineString,
    boxouts: MultiPolygon,
    openings: MultiPolygon,
) -> EndAt:
    spot = shapely.Point(at)
    near = 2 * TOUCH
    if not walls.is_empty and walls.distance(spot) <= near:
        return EndAt.WALL
    if not boxouts.is_empty and boxouts.distance(spot) <= near:
        return EndAt.BOXOUT
    if not openings.is_empty and openings.distance(spot) <= near:
        return EndAt.OPENING
    return EndAt.FREE_EDGE if slab.concrete.boundary.distance(spot) <= near else EndAt.JOINT
