"""The level faces of regions and solids, out of the data of the modelling kernel that they carry.

The data is read by ``ezdxf.acis``, which knows straight edges; ellipses and circles are added here, by the record as
files carry it: centre, normal, long half axis, ratio of the half axes.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TypeVar

from ezdxf.acis import api
from ezdxf.acis.abstract import DataLoader
from ezdxf.acis.entities import ENTITY_TYPES, AcisEntity, Coedge, Curve, Edge, Face, StraightCurve
from ezdxf.acis.entities import Body as KernelBody
from ezdxf.entities import Body, Region
from ezdxf.math import Matrix44, Vec3

from kerfline.files.drawing.no_shape import NoShape
from kerfline.geometry.paths import Path
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import SAGITTA

LEVEL = 1e-6
"""A face whose corners differ in height by less than this share of its size is level."""

ROUND = 1e-6
"""Half axes that differ by less than this share are a circle's."""

SAME = 1e-6
"""Drawing units in which two faces, one above the other, are one in plan."""

FEW = 8
MOST = 2_000
"""Chords that an arc of an ellipse has at least, and at most."""


class EllipseCurve(Curve):
    """A circle or an ellipse in the kernel's data."""

    type: str = "ellipse-curve"
    centre = Vec3(0, 0, 0)
    normal = Vec3(0, 0, 1)
    major = Vec3(1, 0, 0)
    ratio = 1.0

    def restore_data(self, loader: DataLoader) -> None:
        """Takes the curve from its record."""
        self.centre = Vec3(loader.read_vec3())
        self.normal = Vec3(loader.read_vec3())
        self.major = Vec3(loader.read_vec3())
        self.ratio = loader.read_double()
        super().restore_data(loader)

    def evaluate(self, param: float) -> Vec3:
        """The point at an angle (radians) from the long half axis."""
        return self.centre + self.major * math.cos(param) + self.minor * math.sin(param)

    @property
    def minor(self) -> Vec3:
        """The short half axis."""
        return self.normal.normalize().cross(self.major) * self.ratio


ENTITY_TYPES[EllipseCurve.type] = EllipseCurve


def level_faces(entity: Body, factor: float) -> Iterator[Path]:
    """The edges of the faces that lie level, each once in plan: of a region its own, of a solid top and bottom.

    Args:
        entity: A region, solid or body.
        factor: Millimetres in one drawing unit.

    Raises:
        NoShape: It carries no data, or none that can be read.
    """
    bodies = api.load_dxf(entity)
    if not bodies:
        raise NoShape("its modelling data is not in the file; explode it to lines and arcs")
    placed = entity.temporary_transformation().get_matrix()
    found: dict[tuple[Point, ...], Path] = {}
    for body in bodies:
        own = None if body.transform.is_none else body.transform.matrix
        for face in _faces(body):
            for path in _edges(face, _Placed(own, placed), factor):
                found.setdefault(_where(path, factor), path)
    if not found:
        leans = isinstance(entity, Region)
        why = "it does not lie in plan" if leans else "none of its faces is level and plain"
        raise NoShape(f"{why}; draw its edges as lines and arcs")
    yield from found.values()


def _faces(body: KernelBody) -> Iterator[Face]:
    for lump in _linked(body.lump, "next_lump"):
        for shell in _linked(lump.shell, "next_shell"):
            yield from _linked(shell.face, "next_face")


_Linked = TypeVar("_Linked", bound=AcisEntity)


def _linked(first: _Linked, following: str) -> list[_Linked]:
    """What is linked from one to the next, each once: damaged data may go round for ever."""
    found: dict[int, _Linked] = {}
    each = first
    while not each.is_none and id(each) not in found:
        found[id(each)] = each
        each = getattr(each, following)
    return list(found.values())


@dataclass(frozen=True)
class _Placed:
    """Where a body stands: its own transformation, then that of the block reference it came with."""

    own: Matrix44 | None
    block: Matrix44 | None

    def point(self, at: Vec3) -> Vec3:
        for matrix in filter(None, (self.own, self.block)):
            at = matrix.transform(at)
        return at

    def along(self, way: Vec3) -> Vec3:
        for matrix in filter(None, (self.own, self.block)):
            way = matrix.transform_direction(way)
        return way


def _where(path: Path, factor: float) -> tuple[Point, ...]:
    """The corners of a path in an order that does not hang on where it begins or which way it goes."""
    step = SAME * factor
    return tuple(sorted((round(x / step), round(y / step)) for x, y in path.points))


def _edges(face: Face, placed: _Placed, factor: float) -> Iterator[Path]:
    """The closed edges of a face; none where it leans."""
    loops = [_linked(loop.coedge, "next_coedge") for loop in _linked(face.loop, "next_loop")]
    corners = [placed.point(p) for loop in loops for p in _corners(loop)]
    if not corners:
        return
    size = max(c.distance(corners[0]) for c in corners)
    if max(abs(c.z - corners[0].z) for c in corners) > LEVEL * max(size, 1.0):
        return
    for loop in loops:
        yield _closed(loop, placed, factor)


def _corners(loop: Sequence[Coedge]) -> Iterator[Vec3]:
    """The ends of edges, and of circles a point beside them that is not in line."""
    for each in loop:
        edge = each.edge
        yield edge.start_vertex.point.location
        yield edge.end_vertex.point.location
        if isinstance(edge.curve, EllipseCurve):
            yield edge.curve.centre + edge.curve.major
            yield edge.curve.centre + edge.curve.minor


def _closed(loop: Sequence[Coedge], placed: _Placed, factor: float) -> Path:
    """One edge all around."""
    points: list[Point] = []
    bulges: list[float] = []
    for each in loop:
        steps = list(_stretch(each.edge, placed, factor))
        if each.sense:
            steps = [(end, -bulge, start) for start, bulge, end in reversed(steps)]
        for start, bulge, _ in steps:
            points.append((start.x * factor, start.y * factor))
            bulges.append(bulge)
    return Path(tuple(points), tuple(bulges) if any(bulges) else (), closed=True)


_Step = tuple[Vec3, float, Vec3]
"""A straight or arc segment: start, bulge, end."""


def _stretch(edge: Edge, placed: _Placed, factor: float) -> Iterator[_Step]:
    """An edge from its start to its end."""
    start = placed.point(edge.start_vertex.point.location)
    end = placed.point(edge.end_vertex.point.location)
    curve = edge.curve
    if isinstance(curve, StraightCurve):
        yield start, 0.0, end
    elif isinstance(curve, EllipseCurve):
        yield from _bent(edge, curve, placed, factor)
    else:
        raise NoShape("it has an edge of free form; explode it to lines and arcs")


def _bent(edge: Edge, curve: EllipseCurve, placed: _Placed, factor: float) -> Iterator[_Step]:
    """An edge along a circle as arcs of half a turn at most, along an ellipse as chords."""
    first = _angle(curve, edge.start_vertex.point.location)
    last = _angle(curve, edge.end_vertex.point.location)
    ahead = -1.0 if edge.sense else 1.0
    sweep = ((last - first) * ahead) % math.tau
    if edge.start_vertex is edge.end_vertex or sweep < ROUND:
        sweep = math.tau
    centre, major, minor = (
        placed.point(curve.centre),
        placed.along(curve.major),
        placed.along(curve.minor),
    )
    is_round = abs(major.magnitude - minor.magnitude) <= ROUND * major.magnitude
    count = 2 if is_round else _chords(major.magnitude * factor, sweep)
    turn = ahead * sweep / count
    facing = 1.0 if major.cross(minor).z > 0 else -1.0
    bulge = facing * math.tan(turn / 4) if is_round else 0.0

    def at(step: int) -> Vec3:
        angle = first + turn * step
        return centre + major * math.cos(angle) + minor * math.sin(angle)

    for step in range(count):
        yield at(step), bulge, at(step + 1)


def _angle(curve: EllipseCurve, at: Vec3) -> float:
    """The angle (radians) of a point on an ellipse from its long half axis."""
    off = at - curve.centre
    minor = curve.minor
    return math.atan2(
        off.dot(minor) / minor.dot(minor), off.dot(curve.major) / curve.major.dot(curve.major)
    )


def _chords(radius: float, sweep: float) -> int:
    """Chords of an arc that keep within ``SAGITTA`` of it."""
    step = 2 * math.acos(max(1 - SAGITTA / radius, 0.0)) if radius > SAGITTA else math.pi / 2
    return min(max(FEW, math.ceil(sweep / step)), MOST)
