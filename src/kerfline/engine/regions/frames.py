"""The pieces that a slab is laid out in: split where a wing turns, each in the frame of its own main direction."""

from collections.abc import Iterator
from dataclasses import replace

import numpy as np
import shapely
from shapely import LineString, Polygon

from kerfline.engine.options import EngineOptions
from kerfline.engine.regions.arcs import bend_ends
from kerfline.engine.regions.directions import (
    QUARTER,
    SPREAD,
    Direction,
    heaviest_direction,
    main_directions,
    misfit,
    misfits,
    segments,
)
from kerfline.engine.regions.placing import placed_region, unparted
from kerfline.engine.regions.region import Cut, PlacedRegion, overshot, turned_shape
from kerfline.engine.regions.walls import DRIFT, asks_aslant, drift_of
from kerfline.engine.symmetry import is_mirrored
from kerfline.geometry.corners import Corner, ahead, corners, direction, reentrant_corners
from kerfline.geometry.faces import faces, lines_of, points_of, rings_of
from kerfline.geometry.rectangle import enclosing_rectangle
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import SAME
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

WORTH = 0.25
"""Length of edge that a split must bring into a frame for each mm of the line that splits."""

LEAST_GAIN = 0.6
"""The same, at least, in spans."""

LEAST_AREA = 0.6
"""Area of a part at least, in squares of the span."""

SQUARE_ENOUGH = 30.0
"""Joints meet an edge that is no further off its axis (degrees) at 60 degrees or more."""

SKEW = 0.6
"""Weight of an edge just that far off; one further off counts whole."""

REACH = 4.0
"""How far cuts are drawn beyond a piece, as a share of its size."""


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
    return all(drift_of(ring) <= DRIFT for ring in rings_of(turned_shape(part, -main.angle)))


def _walls_on(slab: Slab, part: Polygon) -> list[LineString]:
    return [x for w in slab.walls for x in lines_of(w.line.intersection(part))]


def _barred(slab: Slab) -> shapely.Geometry:
    """Where no region may end: keep-outs and boxouts."""
    return shapely.union_all([*(k.outline.polygon for k in slab.keep_outs), *slab.boxouts])


def _border(line: LineString) -> Cut:
    return Cut(path=overshot(points_of(line)), reason=Reason.CORNER, note="where the slab turns")


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


Split = tuple[list[Polygon], list[LineString]]
"""The parts of a piece, and the lines that they share."""


def wings_of(piece: Polygon, span: float, barred: shapely.Geometry) -> Split:
    """The parts of a piece that have a main direction of their own, and the lines between them.

    Args:
        piece: The concrete.
        span: Working span, mm: nothing much smaller becomes a part.
        barred: Where no joint may lie.
    """
    done: list[Polygon] = []
    lines = _ends_of_bends(piece, barred)
    waiting = faces(piece, lines) if lines else [piece]
    while waiting:
        current = waiting.pop()
        split = _best_split(current, span, barred)
        if split is None:
            done.append(current)
        else:
            waiting.extend(reversed(split[0]))
            lines.extend(split[1])
    return done, lines


def _ends_of_bends(piece: Polygon, barred: shapely.Geometry) -> list[LineString]:
    """The lines where a strip begins and ceases to bend, those left out beside which too little would remain."""
    lines = [x for x in bend_ends(piece) if not x.intersection(barred).length]
    while lines:
        parts = faces(piece, lines)
        small = [p for p in parts if p.area < LEAST_AREA * min(x.length for x in lines) ** 2]
        kept = [x for x in lines if all(x.distance(p) > SAME for p in small)]
        if len(kept) == len(lines):
            return lines
        lines = kept
    return []


def misfit_length(piece: Polygon) -> float:
    """Length of edge that runs along neither axis of the piece's frame, weighted by how far off."""
    angles, lengths = segments(rings_of(piece))
    main = heaviest_direction(angles, lengths).angle
    off = misfits(angles, main)
    skew = np.where(off <= SQUARE_ENOUGH, SKEW * off / SQUARE_ENOUGH, 1.0)
    weight = np.where(off <= SPREAD, 0.0, skew)
    return float((lengths * weight).sum())


def _best_split(piece: Polygon, span: float, barred: shapely.Geometry) -> Split | None:
    before = misfit_length(piece)
    if before < LEAST_GAIN * span:
        return None
    best: tuple[float, Split] | None = None
    for lines in corner_chords(piece):
        length = sum(x.length for x in lines)
        most = before - WORTH * length
        if most < 0.0 or (best and most <= best[0] + 1.0):
            continue
        if any(x.intersection(barred).length for x in lines):
            continue
        parts = faces(piece, lines)
        if len(parts) <= 1 or min(p.area for p in parts) < LEAST_AREA * span**2:
            continue
        gain = before - sum(misfit_length(p) for p in parts)
        if gain < max(LEAST_GAIN * span, WORTH * length):
            continue
        score = gain - WORTH * length - _sharpness(parts) * span
        if best is None or score > best[0] + 1.0:
            best = (score, (parts, lines))
    return best[1] if best else None


def corner_chords(piece: Polygon) -> Iterator[list[LineString]]:
    """The chords that leave each re-entrant corner: on with its edges, square to them, or halving it."""
    for corner in reentrant_corners(piece):
        for way in corner_ways(corner):
            yield from chords(piece, corner.at, way, through=True)


def _sharpness(parts: list[Polygon]) -> float:
    """How sharp the sharpest corners of the parts are: nothing from square on, one for a point."""
    worst = [min((c.angle for c in corners(p)), default=90.0) for p in parts]
    return sum(1.0 - min(1.0, a / 90.0) for a in worst)


def corner_ways(corner: Corner) -> list[Point]:
    """Directions in which a joint may leave a re-entrant corner, into the concrete."""
    before, after = corner.before, corner.after
    halving = direction((0.0, 0.0), (-(before[0] + after[0]), -(before[1] + after[1])))
    square = [(before[1], -before[0]), (-after[1], after[0])]
    return [(-before[0], -before[1]), (-after[0], -after[1]), halving, *square]


def chords(
    piece: Polygon, at: Point, way: Point, *, through: bool = False
) -> list[list[LineString]]:
    """The chords of a piece on the line through a point that part it; with ``through`` the one that touches it."""
    x0, y0, x1, y1 = piece.bounds
    size = REACH * max(x1 - x0, y1 - y0)
    line = LineString([ahead(at, way, -size), ahead(at, way, size)])
    spot = shapely.Point(at)
    whole = not through or bool(piece.interiors)
    found = lines_of(line.intersection(piece))
    return parting(piece, [part for part in found if whole or part.distance(spot) <= 1.0])


def parting(piece: Polygon, chords: list[LineString]) -> list[list[LineString]]:
    """The chords of a piece on one line, each alone; all together where it has holes: one between outline and hole parts nothing."""
    if piece.interiors:
        return [chords] if chords else []
    return [[chord] for chord in chords]
