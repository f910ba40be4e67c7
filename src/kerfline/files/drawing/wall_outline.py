"""The slab's edge where only walls are drawn: along their outer faces, doors bridged.

Widths of doors, windows and gates, and how far a room is wider than its opening, are common practice.
"""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import numpy.typing as npt
import shapely
from shapely import LineString, Polygon
from shapely.geometry.base import BaseGeometry

from kerfline.files.drawing.buildings_apart import lines_apart, walled
from kerfline.files.drawing.curves import Curve
from kerfline.files.drawing.size import LEAST_SLAB
from kerfline.files.drawing.wall_corners import straight_past
from kerfline.files.drawing.wall_pieces import Piece
from kerfline.geometry.faces import lines_of, polygons_of
from kerfline.geometry.rectangle import enclosing_rectangle
from kerfline.geometry.wrap import STRAIGHTEN, wrapped

DOOR = 1_220.0
"""What is closed off by a wider gap (mm, 4 ft) is a room only where the gap has jambs or walls stand behind it; else it
may be a court with a narrow mouth."""

WALL_GAPS = (600.0, 1220.0, 2440.0, 4880.0)
"""Gaps (mm; the wider ones 4, 8 and 16 ft: doors, windows, a garage door) bridged around walls, in turn."""

ROOM = 0.75
"""What is closed off by a bridge shorter than this share of its width, measured along the bridge, is a room behind a
window or a door."""

NOTCH = 0.97
"""What is closed off by a bridge of this share of its width is a notch in the facade: it stays outside."""

PETTY = 0.01
"""What lies between, all of it under this share of the whole, is too little to ask about: it is taken in."""

JAMB = (40.0, 600.0)
"""Depths (mm) behind a bridge: still between the jambs of a gate; behind any wall."""

DEEPER = 40.0
"""A room is wider at once behind its gate's jambs, within this depth (mm); the sides of a recess may splay."""

WIDER = 150.0
HAIR_WIDER = 60.0
BEYOND = 10_000.0
"""A room is wider than its gate by more than the first (mm); a gate's jambs are no farther apart than its bridge is
long and the second; the third is farther than a room reaches beyond its gate."""

ARM = 700.0
ARM_LENGTH = 1_500.0
"""What is narrower than the first (mm) for more than the second is a wall by itself, of a garden or a terrace; a
shorter one is a pier of the building."""

PARALLEL = 0.7
"""Cosine of the angle (45 degrees) up to which a side lies across from a bridge."""

BACKED = 0.5
"""Walls stand along this share of what lies across from the mouth of a notch, windows apart."""

SIDED = 0.9
"""Walls stand along this share of the sides of a shallow recess."""

HAIR = 5.0
"""Slack (mm) of what lies on an edge."""

MOST_OF_IT = 0.5
"""What takes up this share of a building is no corner of one of its rooms."""

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
    for gap, part, bridge, before in _closed_off(whole, steps):
        share = _share(bridge, part) if bridge else 0.0
        if share >= NOTCH and bridge and _is_recess(bridge, part, faces, before):
            notches.append(part)
        elif (
            (share < ROOM and gap <= DOOR)
            or walled(part, faces)
            or (bridge and _has_jambs(bridge, part))
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


def _closed_off(
    whole: Polygon, steps: Sequence[Sequence[Polygon]]
) -> Iterator[tuple[float, Polygon, LineString | None, BaseGeometry]]:
    """What each wider gap closes off: the gap, the part, the bridge on the building's edge, what was closed off before.

    Corners of a room beside a wide gate are closed off before the gate is, by bridges inside of it; they belong to
    what the gate closes off. So does no more than a part of the building: what is more is the building itself.
    """
    edge = whole.exterior.buffer(HAIR)
    corners: list[Polygon] = []
    for gap, narrow, wide in zip(WALL_GAPS[1:], steps, steps[1:], strict=False):
        before = shapely.union_all(narrow)
        inner: list[Polygon] = []
        for area in wide:
            if not area.intersects(whole):
                continue
            for piece in polygons_of(area.difference(before).buffer(-HAIR, join_style="mitre")):
                part = piece.buffer(HAIR, join_style="mitre")
                bridge = _bridge(part, area, before)
                if bridge and not edge.covers(bridge):
                    inner += [part] if part.area < MOST_OF_IT * whole.area else []
                    continue
                beside = [c for c in corners if c.intersection(part.buffer(HAIR)).area > 0]
                if bridge and beside:
                    grown = [c.buffer(HAIR, join_style="mitre") for c in (part, *beside)]
                    part = max(polygons_of(shapely.union_all(grown)), key=lambda p: p.area)
                yield gap, part, bridge, before
        corners += inner


def _bridge(part: Polygon, after: Polygon, before: BaseGeometry) -> LineString | None:
    """The longest straight piece of new edge that closes a part off."""
    edge = after.exterior.intersection(part.buffer(HAIR)).difference(before.buffer(HAIR))
    pieces = [p.simplify(STRAIGHTEN) for p in lines_of(shapely.line_merge(edge))]
    straight = [
        LineString(ends) for p in pieces for ends in pairwise(p.coords) if ends[0] != ends[1]
    ]
    return max(straight, key=lambda piece: piece.length, default=None)


def _share(bridge: LineString, part: Polygon) -> float:
    """The length of a bridge as a share of the width of what it closes off, measured along it."""
    return bridge.length / max(_width(part, _along(bridge)), bridge.length)


def _along(bridge: LineString) -> npt.NDArray[np.float64]:
    """The direction of a bridge, of length 1."""
    start, end = np.asarray(bridge.coords[0]), np.asarray(bridge.coords[-1])
    return np.asarray((end - start) / np.hypot(*(end - start)), dtype=np.float64)


def _width(area: BaseGeometry, along: npt.NDArray[np.float64]) -> float:
    """How far an area reaches in a direction, mm."""
    reach = shapely.get_coordinates(area) @ along
    return float(reach.max() - reach.min()) if len(reach) else 0.0


def _is_recess(
    bridge: LineString, part: Polygon, faces: Sequence[LineString], before: BaseGeometry
) -> bool:
    """Whether a part is a recess, not a window's reveal.

    It is deeper than a wall; or a wall, or a narrower bridge, lies across from its bridge, and walls stand all along its
    sides: behind a window's reveal there may be the end of an inner wall.
    """
    along = _along(bridge)
    if _width(part, np.asarray((-along[1], along[0]))) > JAMB[1]:
        return True
    edges = [e for e in map(LineString, pairwise(part.exterior.coords)) if e.length]
    across = [e for e in edges if abs(float(_along(e) @ along)) > PARALLEL]
    back = [e for e in across if e.distance(bridge) > HAIR]
    sides = [e for e in edges if e not in across]
    narrower = [*faces, *lines_of(before.boundary)]
    return _walled(back, narrower, BACKED) and _walled(sides, faces, SIDED)


def _walled(edges: Sequence[LineString], faces: Sequence[LineString], share: float) -> bool:
    """Whether walls stand along a share of edges."""
    around = shapely.union_all(edges).buffer(HAIR)
    walls = shapely.union_all([f for f in faces if around.intersects(f)]).buffer(HAIR)
    length = sum(e.length for e in edges)
    return sum(e.intersection(walls).length for e in edges) >= share * length


def _has_jambs(bridge: LineString, part: Polygon) -> bool:
    """Whether a part is as wide as its bridge for the thickness of a wall and wider at once behind: a room with a gate."""
    along = _along(bridge)
    across = np.asarray((-along[1], along[0]))
    depths = np.arange(JAMB[0], JAMB[1] + DEEPER, DEEPER)
    for side in (1.0, -1.0):
        widths = [_width(_behind(bridge, part, along, side * d * across), along) for d in depths]
        if all(widths):
            steps = max(b - a for a, b in pairwise(widths))
            return widths[0] < bridge.length + HAIR_WIDER and steps > WIDER
    return False


def _behind(
    bridge: LineString,
    part: Polygon,
    along: npt.NDArray[np.float64],
    shift: npt.NDArray[np.float64],
) -> BaseGeometry:
    """The stretch of a part behind the middle of a bridge; empty where there is none."""
    across = part.intersection(_parallel(bridge, along, shift))
    middle = bridge.interpolate(0.5, normalized=True)
    at = shapely.Point(middle.x + shift[0], middle.y + shift[1])
    return next((p for p in lines_of(across) if p.distance(at) < HAIR), LineString())


def _parallel(
    bridge: LineString, along: npt.NDArray[np.float64], shift: npt.NDArray[np.float64]
) -> LineString:
    """A line beside a bridge, longer than it at both ends."""
    start, end = np.asarray(bridge.coords[0]), np.asarray(bridge.coords[-1])
    return LineString([start + shift - BEYOND * along, end + shift + BEYOND * along])


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
