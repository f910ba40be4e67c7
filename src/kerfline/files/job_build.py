"""Turns the checked tables of a job file, and what a drawing holds, into a job."""

import itertools
from collections.abc import Iterable, Mapping, Sequence
from typing import TypeVar

from kerfline.files.job_schema import (
    BentPath,
    ColumnTable,
    EdgeTable,
    FallTable,
    JobFile,
    JointTable,
    KeepOutTable,
    PatternTable,
    PenetrationTable,
    RingPoints,
    WallTable,
    ZoneTable,
)
from kerfline.files.job_site import build_site
from kerfline.files.job_tracing import build_tracing
from kerfline.files.job_values import Vertex
from kerfline.files.slab_parts import SlabParts, with_shares_taken
from kerfline.geometry.ring import Point, Ring, flatten_arc
from kerfline.geometry.tolerance import SAME
from kerfline.model.job import CutAreaChoice, CutChoice, Job, Mix, RuleChoice, SheetChoice
from kerfline.model.slab import (
    Column,
    Edge,
    Fall,
    GivenJoint,
    KeepOut,
    Pattern,
    Penetration,
    Slab,
    Wall,
    Zone,
)

T = TypeVar("T", Wall, Column, Penetration, KeepOut, GivenJoint)
"""What both a drawing and a job file may give; every one has an id."""


def build_job(file: JobFile, drawn: SlabParts, overrides: Mapping[str, object]) -> Job:
    """The job that a file describes.

    Args:
        file: The tables, each value checked.
        drawn: What the drawing holds; empty where the job has none.
        overrides: The changes to the rule set, those of a shared file among them.
    """
    fields = file.sheet.fields.model_dump(exclude_none=True)
    return Job(
        name=file.job.name,
        units=file.job.units,
        slab=build_slab(file, drawn),
        rules=RuleChoice(
            name=file.rules.set,
            overrides=overrides,
            to_maximum=file.rules.to_maximum,
        ),
        mix=Mix(slump=file.mix.slump, aggregate=file.mix.aggregate),
        cut=CutChoice(method=file.cut.method, depth=file.cut.depth),
        sheet=SheetChoice(
            fields=fields,
            size=file.sheet.size,
            scale=file.sheet.scale or 0.0,
            north=file.sheet.north,
            areas=tuple(
                CutAreaChoice(name=table.name, outline=ring(table.outline))
                for table in file.sheet.area
            ),
        ),
        effort=file.engine.effort,
        weights=file.engine.weights,
        day=file.day,
        site=build_site(file.site, file.job.units) if file.site else None,
        tracing=build_tracing(file.tracing) if file.tracing else None,
        notes=drawn.notes,
        reading=drawn.reading,
    )


def build_slab(file: JobFile, drawn: SlabParts) -> Slab:
    """The slab: the drawing's parts, with the file's own added and, where an id agrees, in their place."""
    own_outline = ring(file.slab.outline) if file.slab.outline else None
    outline = own_outline or drawn.outline or Ring(())
    openings = (*drawn.openings, *(ring(o) for o in file.slab.openings))
    slab = Slab(
        outline=outline,
        thickness=file.slab.thickness,
        level=file.slab.level,
        openings=openings,
        walls=_joined(drawn.walls, (wall(t, i) for i, t in _numbered(file.wall, drawn.walls))),
        columns=_joined(
            drawn.columns, (column(t, i) for i, t in _numbered(file.column, drawn.columns))
        ),
        penetrations=_joined(
            drawn.penetrations,
            (penetration(t, i) for i, t in _numbered(file.penetration, drawn.penetrations)),
        ),
        zones=tuple(zone(t, i) for i, t in enumerate(file.zone, start=1)),
        keep_outs=_joined(
            drawn.keep_outs, (keep_out(t, i) for i, t in _numbered(file.keep_out, drawn.keep_outs))
        ),
        edges=_edges(file.edge, (outline, *openings)),
        joints=_joined(drawn.joints, (joint(t, i) for i, t in _numbered(file.joint, drawn.joints))),
        patterns=tuple(pattern(t, i) for i, t in enumerate(file.pattern, start=1)),
        falls=tuple(fall(t, i) for i, t in enumerate(file.fall, start=1)),
    )
    return with_shares_taken(slab)


Row = TypeVar("Row")


def _numbered(tables: Sequence[Row], drawn: Sequence[object]) -> Iterable[tuple[int, Row]]:
    """The file's own tables, numbered on from what the drawing holds."""
    return enumerate(tables, start=len(drawn) + 1)


def _joined(drawn: Sequence[T], own: Iterable[T]) -> tuple[T, ...]:
    given: list[T] = list(own)
    ids = {thing.id for thing in given}
    kept = [thing for thing in drawn if thing.id not in ids]
    return tuple(kept + given)


def wall(table: WallTable, number: int) -> Wall:
    """A wall; its thickness, where none is given, is that of a 2x4 stud wall with board both sides."""
    given = {} if table.thickness is None else {"thickness": table.thickness}
    return Wall(
        id=table.id or f"W{number}",
        path=distinct(table.path),
        bearing=table.bearing,
        strip_width=table.strip_width,
        strip_depth=table.strip_depth,
        strip_slope=table.strip_slope,
        bearing_rule=table.bearing_rule,
        **given,
    )


def column(table: ColumnTable, number: int) -> Column:
    """A column."""
    given = {} if table.size is None else {"size": table.size}
    return Column(
        id=table.id or f"C{number}",
        at=table.at,
        boxout=table.boxout,
        turn=table.turn,
        **given,
    )


def penetration(table: PenetrationTable, number: int) -> Penetration:
    """A penetration."""
    given = {} if table.clear is None else {"clear": table.clear}
    return Penetration(
        id=table.id or f"N{number}",
        at=table.at,
        diameter=table.diameter,
        kind=table.kind,
        meeting=table.meeting,
        **given,
    )


def zone(table: ZoneTable, number: int) -> Zone:
    """A zone."""
    return Zone(
        id=table.id or f"Z{number}",
        outline=ring(table.outline),
        thickness=table.thickness,
        joint_at_border=table.joint_at_border,
        level=table.level,
    )


def keep_out(table: KeepOutTable, number: int) -> KeepOut:
    """A keep-out."""
    return KeepOut(
        id=table.id or f"K{number}",
        outline=ring(table.outline),
        what=table.what,
        cover=table.cover,
    )


def _edges(tables: Sequence[EdgeTable], rings: Sequence[Ring]) -> tuple[Edge, ...]:
    """The segments that the tables speak of; one that is named of its own is left out of its whole ring."""
    named = {(t.ring, t.segment) for t in tables if t.segment is not None}
    return tuple(
        edge
        for table in tables
        for edge in edges(table, rings)
        if table.segment is not None or (edge.ring, edge.segment) not in named
    )


def edges(table: EdgeTable, rings: Sequence[Ring]) -> list[Edge]:
    """The segments that one table speaks of; one that there is not is left to the check of sense."""
    whole = table.segment is None and table.ring < len(rings)
    segments = range(len(rings[table.ring].points)) if whole else [table.segment or 0]
    return [
        Edge(
            ring=table.ring,
            segment=segment,
            kind=table.kind,
            depth=table.depth,
            width=table.width,
            slope=table.slope,
        )
        for segment in segments
    ]


def joint(table: JointTable, number: int) -> GivenJoint:
    """A joint that is given."""
    return GivenJoint(
        id=table.id or f"G{number}",
        path=distinct(bent_path(table.path)),
        kind=table.kind,
        forbidden=table.forbidden,
        existing=table.existing,
        depth=table.depth,
        reason=table.reason.value if table.reason else "",
        note=table.note,
    )


def pattern(table: PatternTable, number: int) -> Pattern:
    """A wish for the look of an area."""
    along = (table.along[0], table.along[1]) if table.along else None
    return Pattern(
        id=table.id or f"A{number}",
        area=ring(table.area),
        kind=table.kind,
        along=along,
        spacing=table.spacing,
    )


def fall(table: FallTable, number: int) -> Fall:
    """An area that falls to a drain."""
    return Fall(
        id=table.id or f"D{number}",
        area=ring(table.area),
        to=distinct(table.to),
        joints=table.joints,
        slope=table.slope,
    )


def ring(vertices: RingPoints) -> Ring:
    """A ring, without points that repeat the one before, nor a last one that repeats the first."""
    kept: list[Vertex] = []
    for vertex in vertices:
        if kept and _same(vertex, kept[-1]):
            kept[-1] = (*kept[-1][:2], vertex[2])
        else:
            kept.append(vertex)
    while len(kept) > 1 and _same(kept[-1], kept[0]):
        kept.pop()
    bulges = tuple(bulge for _, _, bulge in kept)
    return Ring(tuple((x, y) for x, y, _ in kept), bulges if any(bulges) else ())


def bent_path(vertices: BentPath) -> list[Point]:
    """An open line, its arcs flattened."""
    points: list[Point] = [vertices[0][:2]]
    for (x0, y0, bulge), (x1, y1, _) in itertools.pairwise(vertices):
        arc = bulge and (x0, y0) != (x1, y1)
        points.extend(flatten_arc((x0, y0), (x1, y1), bulge)[1:] if arc else [(x1, y1)])
    return points


def distinct(points: Sequence[Point]) -> tuple[Point, ...]:
    """A line without points that repeat the one before."""
    kept = list(points[:1])
    kept.extend(b for a, b in itertools.pairwise(points) if not _same(a, b))
    return tuple(kept)


def _same(first: Sequence[float], second: Sequence[float]) -> bool:
    return abs(first[0] - second[0]) <= SAME and abs(first[1] - second[1]) <= SAME
