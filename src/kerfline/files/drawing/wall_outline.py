"""The slab's edge where only walls are drawn: along their outer faces, doors bridged."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from shapely import LineString, Polygon
from shapely.geometry.base import BaseGeometry

from kerfline.files.drawing.curves import Curve
from kerfline.files.drawing.size import LEAST_SLAB
from kerfline.files.drawing.wall_pieces import Piece
from kerfline.geometry.faces import lines_of, polygons_of
from kerfline.geometry.rectangle import enclosing_rectangle
from kerfline.geometry.wrap import STRAIGHTEN, wrapped

WALL_GAPS = (600.0, 1220.0, 2440.0, 4880.0)
"""Gaps (mm; the wider ones 4, 8 and 16 ft: doors, windows, a garage door) bridged around walls, in turn."""

ROOM = 0.75
"""What is closed off by a bridge shorter than this share of its width is a room behind a window or a door."""

NOTCH = 0.97
"""What is closed off by a bridge of this share of its width is a notch in the facade: it stays outside."""

PETTY = 0.01
"""What lies between, under this share of the whole, is too little to ask about: it is taken in."""

OWN = 100.0
OWN_LENGTH = 1_000.0
"""Walls of this length (mm), this far from the walls around a part, stand in it."""

HAIR = 5.0
"""Slack (mm) of what lies on an edge."""

BUILDING = 0.05
"""Walls that close off less than this share of what the largest building does are rooms and sheds."""


def wall_faces(curves: Sequence[Curve]) -> list[LineString]:
    """The lines that walls are drawn with; of one wide line its sides."""
    return [face_of(c.path.line, c.width) if c.width else c.path.line for c in curves]


def edge_of(piece: Piece) -> LineString:
    """The edge of a stretch of wall."""
    return face_of(piece.line, piece.thickness)


def face_of(line: LineString, thickness: float) -> LineString:
    """The edge of a wall of a thickness (mm) about a line."""
    return LineString(line.buffer(thickness / 2, cap_style="flat", join_style="mitre").exterior)


@dataclass(frozen=True, kw_only=True)
class Around:
    """What the walls of one building go around.

    Attributes:
        area: The area within their outer faces.
        gap: Widest gap (mm) that was bridged.
        doubtful: The area with, or without, what may be a room or a notch; None where all is clear.
    """

    area: Polygon
    gap: float
    doubtful: Polygon | None = None


@np.errstate(invalid="ignore")  # as in ``wrapped``
def around_walls(faces: Sequence[LineString]) -> list[Around]:
    """The areas within the outer faces of walls, openings bridged and notches left open, largest first."""
    steps = [wrapped(faces, gap) for gap in WALL_GAPS]
    whole = steps[-1]
    least = max(LEAST_SLAB, BUILDING * whole[0].area) if whole else 0.0
    return [_around(area, steps, faces) for area in whole if area.area >= least]


def _around(
    whole: Polygon, steps: Sequence[Sequence[Polygon]], faces: Sequence[LineString]
) -> Around:
    """One building: what each wider gap closes off is a room, and stays in, or a notch, and is taken out."""
    notches: list[Polygon] = []
    doubtful: list[Polygon] = []
    bridged = WALL_GAPS[0]
    for gap, narrow, wide in zip(WALL_GAPS[1:], steps, steps[1:], strict=False):
        before = shapely.union_all(narrow)
        for area in wide:
            if not area.intersects(whole):
                continue
            for part in polygons_of(area.difference(before).buffer(-HAIR, join_style="mitre")):
                closed_off = part.buffer(HAIR, join_style="mitre")
                share = _bridge(closed_off, area, before) / enclosing_rectangle(part).width
                if share >= NOTCH:
                    notches.append(closed_off)
                elif share < ROOM or part.area < PETTY * whole.area or _walled(part, faces):
                    bridged = gap
                else:
                    doubtful.append(closed_off)
    area = _without(whole, notches)
    other = _without(area, doubtful) if doubtful else None
    return Around(area=area, gap=bridged, doubtful=other)


def _walled(part: Polygon, faces: Sequence[LineString]) -> bool:
    """Whether walls of its own stand in a part: outside is none."""
    inside = part.buffer(-OWN)
    shapely.prepare(inside)
    length = sum(f.intersection(inside).length for f in faces if inside.intersects(f))
    return length > OWN_LENGTH


def _bridge(part: Polygon, after: Polygon, before: BaseGeometry) -> float:
    """Length (mm) of the longest straight piece of new edge that closes a part off."""
    edge = after.exterior.intersection(part.buffer(HAIR)).difference(before.buffer(HAIR))
    return max((piece.length for piece in lines_of(shapely.line_merge(edge))), default=0.0)


def _without(area: Polygon, parts: Sequence[Polygon]) -> Polygon:
    if not parts:
        return area
    cut = area.difference(shapely.union_all(parts)).buffer(-HAIR, join_style="mitre")
    rest = polygons_of(cut.buffer(HAIR, join_style="mitre"))
    left = max(rest, key=lambda p: p.area, default=area)
    simple = Polygon(left.exterior).simplify(STRAIGHTEN)
    return simple if isinstance(simple, Polygon) else left
