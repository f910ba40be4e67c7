"""The pieces that a slab is laid out in, each in the frame of its own main direction."""

from dataclasses import replace

import numpy as np
import shapely
from shapely import LineString, Polygon

from kerfline.engine.options import EngineOptions
from kerfline.engine.regions.directions import (
    QUARTER,
    Direction,
    is_mirrored,
    main_directions,
    misfit,
    segments,
)
from kerfline.engine.regions.placing import placed_region, unparted
from kerfline.engine.regions.region import Cut, PlacedRegion, overshot, path_of, turned_shape
from kerfline.engine.regions.walls import DRIFT, asks_aslant
from kerfline.engine.regions.wings import wings_of
from kerfline.geometry.faces import lines_of
from kerfline.geometry.rectangle import enclosing_rectangle
from kerfline.model.layout import Reason
from kerfline.model.slab import Slab
from kerfline.rules.slab_rules import SlabRules

CURVED = 0.3
"""A piece of whose edge no more than this share runs straight along its main direction is round."""

TAPER = 20.0
"""A mirror line within this (degrees) of most edges is the piece's direction: those edges taper."""

SOME = 0.05
"""Share of the edges from which on their direction may be that of a mirror line."""

LEVEL = 0.02
"""A direction this close (degrees) to the slab's own axes is taken for them."""


def regions_of(slab: Slab, rules: SlabRules, options: EngineOptions) -> tuple[PlacedRegion, ...]:
    """Splits a slab into regions, each in its own frame.

    Args:
        slab: The slab.
        rules: The limits.
        options: What the user chose.
    """
    span = rules.working(slab.thickness).span
    split = [wings_of(piece, span, _barred(slab)) for piece in unparted(slab.gross, slab.boxouts)]
    parts = [part for wings, _ in split for wing in wings for part in unparted(wing, slab.boxouts)]
    borders = [_border(line) for _, lines in split for line in lines]
    return tuple(
        _placed(slab, rules, options, part, f"R{number}", borders if number == 1 else [])
        for number, part in enumerate(parts, start=1)
    )


def _placed(
    slab: Slab,
    rules: SlabRules,
    options: EngineOptions,
    part: Polygon,
    name: str,
    borders: list[Cut],
) -> PlacedRegion:
    main = _main_direction(part, _walls_on(slab, part))
    placed = placed_region(
        slab,
        rules,
        options,
        gross=part,
        angle=frame_angle(part, main),
        name=name,
        orthogonal=_is_square(part, main) and not _has_pattern(slab, part),
    )
    square = placed.orthogonal and not asks_aslant(placed.region)
    return replace(placed, orthogonal=square, borders=tuple(borders))


def _main_direction(part: Polygon, walls: list[LineString]) -> Direction:
    """The direction of most of the edges, or that of a mirror line close to it; any of a round piece."""
    directions = main_directions(part, walls)
    main = directions[0]
    if is_mirrored(part, main.angle):
        return main
    straight = main.share * float(segments([part.exterior])[1].sum())
    reach = QUARTER if straight <= CURVED * part.exterior.length else TAPER
    others = [d.angle for d in directions[1:] if d.share > SOME] if not walls else []
    others += [0.0, enclosing_rectangle(part).angle % QUARTER]
    near = (a for a in others if misfit(a, main.angle) <= reach and is_mirrored(part, a))
    return Direction(next(near, main.angle), main.share)


def _has_pattern(slab: Slab, part: Polygon) -> bool:
    return any(p.area.polygon.intersection(part).area > 1.0 for p in slab.patterns)


def _is_square(part: Polygon, main: Direction) -> bool:
    """Whether every edge runs along one of the axes, within ``DRIFT``: then the exact square method takes it.

    On surveyed outlines, whose edges stray by tens of millimetres and jog, the general method works
    on the outline as it is.
    """
    turned = turned_shape(part, -main.angle)
    steps = [
        np.diff(shapely.get_coordinates(r), axis=0) for r in (turned.exterior, *turned.interiors)
    ]
    return all(float(np.abs(step).min(axis=1).max()) <= DRIFT for step in steps)


def _walls_on(slab: Slab, part: Polygon) -> list[LineString]:
    return [x for w in slab.walls for x in lines_of(w.line.intersection(part))]


def _barred(slab: Slab) -> shapely.Geometry:
    """Where no region may end: keep-outs and boxouts."""
    return shapely.union_all([*(k.outline.polygon for k in slab.keep_outs), *slab.boxouts])


def _border(line: LineString) -> Cut:
    path = path_of(line)
    return Cut(path=overshot(path), reason=Reason.CORNER, note="where the slab turns")


def frame_angle(piece: Polygon, direction: Direction) -> float:
    """The angle of a frame's x axis, so that a turned slab has the same frame turned.

    Of the four axes along a direction the one along the longer side of the piece is taken, and of
    its two ways the one towards the lighter half. A slab that lies along the axes stays as it is.
    """
    if misfit(direction.angle, 0.0) < LEVEL:
        return 0.0
    angle = direction.angle
    x0, y0, x1, y1 = turned_shape(piece, -angle).bounds
    if y1 - y0 > x1 - x0 + 1.0:
        angle += 90.0
    seen = turned_shape(piece, -angle)
    x0, _, x1, _ = seen.bounds
    return angle + 180.0 if seen.centroid.x > (x0 + x1) / 2 + 1.0 else angle
