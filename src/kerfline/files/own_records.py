"""What our own drawings say of their parts beside the lines: extended data, which R12 knows as well.

Lines alone do not tell how thick a zone is, how much cover lies over tubing, or what an edge stands against.
Each part's entity carries a record: its name, then words, figures (mm) and places. The geometry is always
that of the entity, so that a drawing that was changed is read as it is now.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import shapely
from ezdxf.entities import DXFEntity
from shapely import Polygon

from kerfline.files.dxf_setup import APP_ID
from kerfline.files.slab_parts import SlabParts
from kerfline.geometry.paths import Path
from kerfline.geometry.ring import Point, Ring
from kerfline.model.slab import (
    BearingRule,
    Edge,
    EdgeKind,
    GivenJoint,
    JointKind,
    KeepOut,
    Penetration,
    PenetrationKind,
    Slab,
    Wall,
    Zone,
)
from kerfline.units import MM_PER_METRE

TEXT, PLACE, REAL, LENGTH = 1000, 1011, 1040, 1041
"""Group codes of extended data: a text, a place in the drawing, a number, a length that is scaled with its entity."""

SLAB, EDGE, ZONE, KEEP_OUT, WALL, PENETRATION = (
    "slab:", "edge:", "zone:", "keep-out:", "wall:", "penetration:",
)  # fmt: skip
NAMES = (SLAB, EDGE, ZONE, KEEP_OUT, WALL, PENETRATION)
"""Names of the records; no joint is named so, whose record begins with its own name."""

WALL_FIGURES = 4
"""Figures of the record of a wall: whether it bears, and width, depth and slope of its strip."""

JOINT = "joint"
JOINT_FIGURES = 2
"""Name of the record of a joint once it is read; its figures are its length and its depth, mm."""

BESIDE = 60.0
"""A joint that was read lies no farther than this (mm) from what was drawn of it."""

SAME_SPOT = 2.0
"""Places of a record and of the entity nearer than this (mm) are the same."""

ALIKE = 0.99
"""Two areas that share so much of both are one."""

Tag = tuple[int, str | float | Point]


@dataclass(frozen=True, kw_only=True)
class Record:
    """One record as it was read.

    Attributes:
        name: Which kind of record.
        words: Its texts.
        figures: Its numbers.
        places: Its places, mm.
        path: The curve that carries it, mm.
    """

    name: str
    words: tuple[str, ...] = ()
    figures: tuple[float, ...] = ()
    places: tuple[Point, ...] = ()
    path: Path

    def scaled(self, by: float) -> "Record":
        """The same in a unit that is so many times as long."""
        points = tuple((x * by, y * by) for x, y in self.path.points)
        places = tuple((x * by, y * by) for x, y in self.places)
        path = Path(points, self.path.bulges, self.path.closed)
        return replace(self, path=path, places=places)

    @property
    def area(self) -> Polygon:
        """What the curve encloses; empty where it encloses nothing sound."""
        if not self.path.closed:
            return Polygon()
        shape = self.path.ring().polygon
        return shape if shape.is_valid else Polygon()


def slab_tags(slab: Slab, unit: float) -> list[Tag]:
    """The record of the slab's edge: the unit, the thickness, and what its edges stand against.

    Args:
        slab: The slab.
        unit: Millimetres in one drawing unit.
    """
    tags: list[Tag] = [(TEXT, SLAB), (LENGTH, MM_PER_METRE / unit), (REAL, slab.thickness)]
    for edge in slab.edges:
        ring = (slab.outline, *slab.openings)[edge.ring]
        ends = (ring.points[edge.segment], ring.points[(edge.segment + 1) % len(ring.points)])
        tags += [(TEXT, EDGE), (TEXT, edge.kind.value)]
        tags += [(REAL, edge.depth), (REAL, edge.width), (REAL, edge.slope)]
        tags += [(PLACE, (x / unit, y / unit)) for x, y in ends]
    return tags


def zone_tags(zone: Zone) -> list[Tag]:
    """The record of a zone."""
    border = 1.0 if zone.joint_at_border else 0.0
    return [(TEXT, ZONE), (TEXT, zone.id), (REAL, zone.thickness), (REAL, border)]


def keep_out_tags(area: KeepOut) -> list[Tag]:
    """The record of a keep-out."""
    cover = [] if area.cover is None else [area.cover]
    return [(TEXT, KEEP_OUT), (TEXT, area.id), (TEXT, area.what), *((REAL, c) for c in cover)]


def wall_tags(wall: Wall) -> list[Tag]:
    """The record of a wall."""
    figures = (float(wall.bearing), wall.strip_width, wall.strip_depth, wall.strip_slope)
    return [(TEXT, WALL), (TEXT, wall.bearing_rule.value), *((REAL, f) for f in figures)]


def penetration_tags(hole: Penetration) -> list[Tag]:
    """The record of a penetration."""
    return [(TEXT, PENETRATION), (TEXT, hole.kind.value), (REAL, hole.diameter)]


def millimetres_in_unit(entity: DXFEntity) -> float:
    """Millimetres in one drawing unit, by the record of a slab's edge; 0 where the entity carries none."""
    if not entity.has_xdata(APP_ID):
        return 0.0
    tags = list(entity.get_xdata(APP_ID))
    if not tags or tags[0].value != SLAB:
        return 0.0
    metre = next((float(t.value) for t in tags if t.code == LENGTH), 0.0)
    return MM_PER_METRE / metre if math.isfinite(metre) and metre > 0 else 0.0


def records_of(entity: DXFEntity, path: Path, factor: float) -> Iterator[Record]:
    """The records that an entity carries.

    Args:
        entity: The entity.
        path: Its curve, mm.
        factor: Millimetres in one drawing unit.
    """
    if not entity.has_xdata(APP_ID):
        return
    tags = list(entity.get_xdata(APP_ID))
    if tags and tags[0].value not in NAMES:
        figures = tuple(float(t.value) for t in tags if t.code == REAL)
        if len(figures) == JOINT_FIGURES:
            yield Record(name=JOINT, words=(str(tags[0].value),), figures=figures, path=path)
        return
    run: list[tuple[int, object]] = []
    for tag in (*tags, None):
        if tag is None or (tag.code == TEXT and tag.value in NAMES):
            if run:
                yield _record(run, path, factor)
            run = []
        if tag is not None and (run or tag.value in NAMES):
            run.append((tag.code, tag.value))


def is_one_joint(records: Sequence[Record]) -> bool:
    """Whether records say that the curve which carries them is a joint."""
    return any(record.name == JOINT for record in records)


def _record(run: Sequence[tuple[int, object]], path: Path, factor: float) -> Record:
    texts = [str(value) for code, value in run if code == TEXT]
    figures = [float(str(value)) for code, value in run if code == REAL]
    places = [
        (float(value[0]) * factor, float(value[1]) * factor)  # type: ignore[index]
        for code, value in run
        if code == PLACE
    ]
    return Record(
        name=texts[0],
        words=tuple(texts[1:]),
        figures=tuple(f for f in figures if math.isfinite(f)),
        places=tuple(places),
        path=path,
    )


def with_records(parts: SlabParts, records: Sequence[Record]) -> SlabParts:
    """What a drawing gives, with what its own records say of it; records that make no sense are passed over."""
    if not records or parts.outline is None:
        return parts
    slab = parts.outline.polygon
    zones = tuple(_zones(records, slab))
    covered = tuple(_keep_outs(records, slab))
    others = tuple(k for k in parts.keep_outs if not any(_alike(k, own) for own in covered))
    told = replace(
        parts,
        thickness=next((r.figures[0] for r in records if r.name == SLAB and r.figures), None),
        zones=zones,
        keep_outs=(*covered, *others),
        joints=_joints(parts.joints, records),
        walls=_walls(parts.walls, records),
        penetrations=tuple(_hole(h, records) for h in parts.penetrations),
        edges=tuple(_edges(parts, records)),
    )
    words = "Thickness, depths of cut, zones, keep-outs, bearing walls and edges as the drawing's own data say."
    return replace(told, notes=(*parts.notes, words))


def _joints(joints: Sequence[GivenJoint], records: Sequence[Record]) -> tuple[GivenJoint, ...]:
    """The control joints with the depths of what was drawn of them, of several the least."""
    drawn = [r for r in records if r.name == JOINT and r.figures[1] > 0 and r.path.line.length > 0]
    tree = shapely.STRtree([r.path.line for r in drawn])

    def depth_of(joint: GivenJoint) -> float | None:
        line = shapely.LineString(joint.path)
        near = sorted(tree.query(line, "dwithin", BESIDE).tolist()) if drawn else []
        reach = line.buffer(BESIDE)
        return min(
            (drawn[i].figures[1] for i in near if reach.covers(drawn[i].path.line)), default=None
        )

    return tuple(
        replace(j, depth=depth_of(j) or j.depth) if j.kind is JointKind.CONTROL else j
        for j in joints
    )


def _zones(records: Sequence[Record], slab: Polygon) -> Iterator[Zone]:
    for record in _areas(ZONE, records, slab, words=1, figures=2):
        thickness, border = record.figures[:2]
        if thickness > 0:
            yield Zone(
                id=record.words[0],
                outline=record.path.ring(),
                thickness=thickness,
                joint_at_border=border > 0,
            )


def _keep_outs(records: Sequence[Record], slab: Polygon) -> Iterator[KeepOut]:
    for record in _areas(KEEP_OUT, records, slab, words=2, figures=0):
        cover = record.figures[0] if record.figures else None
        name, what = record.words[:2]
        yield KeepOut(id=name, outline=record.path.ring(), what=what, cover=cover)


def _areas(
    name: str, records: Sequence[Record], slab: Polygon, *, words: int, figures: int
) -> Iterator[Record]:
    """The records of areas of one kind that lie on the slab and are whole."""
    for record in records:
        whole = len(record.words) >= words and len(record.figures) >= figures
        if record.name == name and whole and record.area.intersects(slab):
            yield record


def _alike(one: KeepOut, two: KeepOut) -> bool:
    a, b = one.outline.polygon, two.outline.polygon
    return bool(a.intersection(b).area >= ALIKE * max(a.area, b.area))


def _walls(walls: Sequence[Wall], records: Sequence[Record]) -> tuple[Wall, ...]:
    """The walls with what the record says, the first of several, in whose outline the middle of each lies."""
    told = [r for r in records if r.name == WALL and len(r.figures) == WALL_FIGURES and r.words]
    tree = shapely.STRtree([r.area for r in told])

    def with_record(wall: Wall) -> Wall:
        middle = wall.line.interpolate(0.5, normalized=True)
        around = min(tree.query(middle, "covered_by").tolist(), default=None)
        if around is None:
            return wall
        record = told[around]
        rule = next((r for r in BearingRule if r.value == record.words[0]), wall.bearing_rule)
        bearing, width, depth, slope = record.figures
        return replace(
            wall, bearing=bearing > 0, strip_width=width, strip_depth=depth, strip_slope=slope,
            bearing_rule=rule,
        )  # fmt: skip

    return tuple(map(with_record, walls))


def _hole(hole: Penetration, records: Sequence[Record]) -> Penetration:
    for record in records:
        if record.name == PENETRATION and record.words and record.figures:
            x0, y0, x1, y1 = record.path.line.bounds
            kind = next((k for k in PenetrationKind if k.value == record.words[0]), hole.kind)
            if math.dist(hole.at, ((x0 + x1) / 2, (y0 + y1) / 2)) <= SAME_SPOT:
                return replace(hole, kind=kind, diameter=record.figures[0])
    return hole


def _edges(parts: SlabParts, records: Sequence[Record]) -> Iterator[Edge]:
    """The edges whose both ends are where a record has them."""
    rings = [ring for ring in (parts.outline, *parts.openings) if ring is not None]
    for record in records:
        kind = next((k for k in EdgeKind if record.words and k.value == record.words[0]), None)
        if record.name != EDGE or kind is None or len(record.places) != 2:  # noqa: PLR2004
            continue
        sizes = record.figures if len(record.figures) == 3 else (0.0, 0.0, 0.0)  # noqa: PLR2004
        found = _segment(rings, record.places)
        if found:
            yield Edge(
                ring=found[0], segment=found[1], kind=kind,
                depth=sizes[0], width=sizes[1], slope=sizes[2],
            )  # fmt: skip


def _segment(rings: Sequence[Ring], ends: Sequence[Point]) -> tuple[int, int] | None:
    """The ring and the segment between two places, whichever way round it is drawn."""
    for number, ring in enumerate(rings):
        for i, start in enumerate(ring.points):
            end = ring.points[(i + 1) % len(ring.points)]
            for a, b in ((start, end), (end, start)):
                if math.dist(a, ends[0]) <= SAME_SPOT and math.dist(b, ends[1]) <= SAME_SPOT:
                    return number, i
    return None
