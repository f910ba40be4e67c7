"""The slab's edge where only walls are drawn: along their outer faces, doors bridged.

Widths of doors, windows and gates, and how far a room is wider than its opening, are common practice.
"""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from shapely import LineString, Polygon

from kerfline.files.drawing.buildings_apart import lines_apart, walled
from kerfline.files.drawing.curves import Curve
from kerfline.files.drawing.recesses import (
    HAIR,
    WALL_GAPS,
    closed_off,
    has_jambs,
    is_recess,
    share_of_width,
)
from kerfline.files.drawing.size import LEAST_SLAB
from kerfline.files.drawing.wall_corners import straight_past
from kerfline.files.drawing.wall_pieces import Piece
from kerfline.geometry.faces import polygons_of
from kerfline.geometry.rectangle import enclosing_rectangle
from kerfline.geometry.wrap import STRAIGHTEN, wrapped

DOOR = 1_220.0
"""What is closed off by a wider gap (mm, 4 ft) is a room only where the gap has jambs or walls stand behind it; else it
may be a court with a narrow mouth."""

ROOM = 0.75
"""What is closed off by a bridge shorter than this share of its width, measured along the bridge, is a room behind a
window or a door."""

NOTCH = 0.97
"""What is closed off by a bridge of this share of its width is a notch in the facade: it stays outside."""

PETTY = 0.01
"""What lies between, all of it under this share of the whole, is too little to ask about: it is taken in."""

ARM = 700.0
ARM_LENGTH = 1_500.0
"""What is narrower than the first (mm) for more than the second is a wall by itself, of a garden or a terrace; a
shorter one is a pier of the building."""

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
        butted: Corners where walls butt that the faces were carried on across.
        doubtful: The area with, or without, what may be a room or a notch; None where all is clear.
    """

    area: Polygon
    gap: float
    butted: int = 0
    doubtful: Polygon | None = None


@np.errstate(invalid="ignore")  # as in ``wrapped``
def around_walls(
    faces: Sequence[LineString], is_room: Callable[[Polygon], bool] = lambda _: False
) -> list[Around]:
    """The areas within the outer faces of walls, openings bridged and notches left open, largest first.

    Args:
        faces: The lines that the walls are drawn with.
        is_room: Whether something else says that what a wide opening closes off is a room, such as a door in it.
    """
    steps = [wrapped(faces, gap) for gap in WALL_GAPS]
    apart = lines_apart(steps, faces)
    if apart:
        return _sorted(a for own in apart for a in around_walls(own, is_room))
    whole = steps[-1]
    least = max(LEAST_SLAB, BUILDING * whole[0].area) if whole else 0.0
    found = [
        a for area in whole if area.area >= least for a in _around(area, steps, faces, is_room)
    ]
    return _sorted(a for a in found if a.area.area >= least)


def _sorted(found: Iterable[Around]) -> list[Around]:
    return sorted(found, key=lambda a: (-round(a.area.area), a.area.bounds))


def _around(
    whole: Polygon,
    steps: Sequence[Sequence[Polygon]],
    faces: Sequence[LineString],
    is_room: Callable[[Polygon], bool],
) -> Iterator[Around]:
    """One building: what each wider gap closes off is a room, and stays in, or a notch, and is taken out.

    Where notches part it, as the space between two plans on one sheet does, it is several.
    """
    notches: list[Polygon] = []
    doubtful: list[Polygon] = []
    petty: list[Polygon] = []
    bridged = WALL_GAPS[0]
    for gap, part, bridge, before in closed_off(whole, steps):
        share = share_of_width(bridge, part) if bridge else 0.0
        if share >= NOTCH and bridge and is_recess(bridge, part, faces, before):
            notches.append(part)
        elif (
            (share < ROOM and gap <= DOOR)
            or walled(part, faces)
            or (bridge and has_jambs(bridge, part))
            or is_room(part)
        ):
            bridged = gap
        elif part.area < PETTY * whole.area:
            bridged = gap
            petty.append(part)
        else:
            doubtful.append(part)
    if sum(p.area for p in petty) >= PETTY * whole.area:
        doubtful += petty
    # A wall by itself only shows once what a wide gap closed off beside it is out again.
    bodies = _without(whole, notches)
    for area in (own for body in bodies for own in _without(body, _arms(body))):
        unclear = [part for part in doubtful if part.intersection(area).area > HAIR**2]
        other = next(iter(_without(area, unclear)), None) if unclear else None
        plain, butted = straight_past(area, faces)
        other = straight_past(other, faces)[0] if other else None
        yield Around(area=plain, gap=bridged, butted=butted, doubtful=other)


def _arms(area: Polygon) -> list[Polygon]:
    """The walls that run on beyond a building, by themselves: a strip is no slab."""
    thick = area.buffer(-ARM / 2, join_style="mitre").buffer(ARM / 2, join_style="mitre")
    strips = polygons_of(area.difference(thick.buffer(HAIR, join_style="mitre")))
    long = [s for s in strips if enclosing_rectangle(s).length >= ARM_LENGTH]
    return [s.buffer(HAIR, join_style="mitre") for s in long]


def _without(area: Polygon, parts: Sequence[Polygon]) -> list[Polygon]:
    """What is left of an area without some parts of it, largest first."""
    if not parts:
        return [area]
    cut = area.difference(shapely.union_all(parts)).buffer(-HAIR, join_style="mitre")
    rest = polygons_of(cut.buffer(HAIR, join_style="mitre")) or [area]
    plain = [
        simple if isinstance(simple := Polygon(p.exterior).simplify(STRAIGHTEN), Polygon) else p
        for p in rest
    ]
    return sorted(plain, key=lambda p: (-round(p.area), p.bounds))
