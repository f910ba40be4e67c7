"""The general method, step by step: from a region of any shape to its cuts."""

from dataclasses import replace

from shapely import LineString, Polygon

from kerfline.engine.oblique.ground import Ground, Pieces
from kerfline.engine.oblique.halving import halve
from kerfline.engine.oblique.required import Required, barred_area, required_cuts
from kerfline.engine.region import Region, RegionLayout
from kerfline.geometry.corners import direction
from kerfline.geometry.faces import faces
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import SAME
from kerfline.model.layout import Status, WorkingLimits

HAIR = SAME / 2
"""How far (mm) a cut reaches beyond what it ends on: well under what counts as one point."""


def lay_out_region(region: Region) -> RegionLayout:
    """Lays out the joints of a region of any shape.

    Every panel is within the working span; what else cannot be had is given up in the order of the
    costs in ``cost``.

    Args:
        region: The region in its own frame.

    Returns:
        Its cuts, in the region's frame.
    """
    required = required_cuts(region)
    ground = ground_of(region)
    pieces = faces(region.concrete, [LineString(c.path) for c in required.cuts])
    answers = [halve(_on(ground, region, piece), piece) for piece in pieces]
    return _assembled(required, answers)


def ground_of(region: Region) -> Ground:
    """What bears on the joints of a region."""
    return Ground(
        concrete=region.concrete,
        limits=region.working,
        barred=barred_area(region),
        landings=region.landings,
    )


def _on(ground: Ground, region: Region, piece: Polygon) -> Ground:
    """The ground of one piece, with the limits of the zone it lies in."""
    return Ground(
        concrete=piece,
        limits=limits_at(region, piece),
        barred=ground.barred,
        landings=ground.landings,
    )


def limits_at(region: Region, piece: Polygon) -> WorkingLimits:
    """The limits on a piece: those of the strictest zone that it lies in by more than a touch."""
    here = [z.working for z in region.zones if z.area.intersection(piece).area > piece.area / 100]
    covered = any(z.area.covers(piece.buffer(-1.0)) for z in region.zones)
    return min(here if covered else [*here, region.working], key=lambda w: w.span)


def _assembled(required: Required, answers: list[Pieces]) -> RegionLayout:
    cuts = (*required.cuts, *(c for a in answers for c in a.cuts))
    return RegionLayout(
        cuts=tuple(replace(c, path=overshot(c.path)) for c in cuts),
        walls_left=required.walls_left,
        wall_shifts=required.wall_shifts,
        status=Status.HEURISTIC,
        cost=sum(a.cost for a in answers),
        bound=sum(a.bound for a in answers),
    )


def overshot(path: tuple[Point, ...]) -> tuple[Point, ...]:
    """A path whose ends reach a hair beyond what they end on, so that rounding leaves no gap."""
    head, tail = direction(path[1], path[0]), direction(path[-2], path[-1])
    first = (path[0][0] + head[0] * HAIR, path[0][1] + head[1] * HAIR)
    last = (path[-1][0] + tail[0] * HAIR, path[-1][1] + tail[1] * HAIR)
    return (first, *path[1:-1], last)
