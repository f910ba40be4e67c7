"""The slab's edge where only walls are drawn: along their outer faces, doors bridged."""

from collections.abc import Sequence

from shapely import LineString, Polygon

from kerfline.files.drawing.curves import Curve
from kerfline.files.drawing.size import LEAST_SLAB
from kerfline.files.drawing.wall_pieces import Piece
from kerfline.geometry.wrap import wrapped

WALL_GAPS = (150.0, 300.0, 600.0, 1220.0, 2440.0, 4880.0)
"""Gaps (mm; the wider ones 4, 8 and 16 ft: doors, windows, a garage door) tried around walls, in turn."""

NEARLY = 0.9
"""The narrowest gap is taken that closes off this share of what the widest one does."""

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


def around_walls(faces: Sequence[LineString]) -> list[tuple[Polygon, float]]:
    """The areas within the outer faces of walls, and the widest gap (mm) that was bridged for each."""
    widest = wrapped(faces, WALL_GAPS[-1])
    least = max(LEAST_SLAB, BUILDING * widest[0].area) if widest else 0.0
    wanted = [p for p in widest if p.area >= least]
    found: list[tuple[Polygon, float]] = []
    for gap in WALL_GAPS:
        if not wanted:
            break
        for area in wrapped(faces, gap):
            whole = next(
                (w for w in wanted if w.intersects(area) and area.area > NEARLY * w.area), None
            )
            if whole is not None:
                found.append((area, gap))
                wanted.remove(whole)
    return found
