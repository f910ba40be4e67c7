"""Hypothesis strategies: slabs by construction, so that no example is thrown away.

A plan is a union of boxes on a grid of ``CELL``; walls, openings, columns and penetrations are put where
they are known to fit. Everything is in mm. The one home of strategies: extend it with each feature.
"""

import math
from dataclasses import replace

import shapely
from hypothesis import strategies as st
from shapely import Polygon, affinity
from shapely.geometry import box

from kerfline.geometry.ring import Ring
from kerfline.model.job import CutChoice, Job, Mix, RuleChoice, SheetChoice
from kerfline.model.layout import Reason
from kerfline.model.slab import (
    BearingRule,
    Boxout,
    Column,
    Edge,
    EdgeKind,
    Fall,
    FallJoints,
    GivenJoint,
    JointKind,
    KeepOut,
    Pattern,
    PatternKind,
    Penetration,
    PenetrationKind,
    Slab,
    Wall,
    Zone,
)
from kerfline.units import Unit

CELL = 1524.0
"""5 ft: a plan's boxes stand on a grid of this."""

MOST_CELLS = 8
"""Cells of a plan each way."""

MARGIN = 150.0
"""Least distance (mm) of openings from the edge."""

thicknesses = st.sampled_from([88.9, 101.6, 127.0, 150.0, 152.4, 203.2])
"""Thicknesses of slabs that are built."""


@st.composite
def orthogonal_plans(draw, most_boxes=4, cells=MOST_CELLS):
    """Polygons without holes whose sides run along x and y, corners on the grid."""
    count = draw(st.integers(1, most_boxes))
    boxes = [draw(_grid_boxes(cells)) for _ in range(count)]
    merged = shapely.union_all(boxes)
    largest = max(shapely.get_parts(merged), key=lambda part: part.area)
    return shapely.normalize(Polygon(largest.exterior).simplify(0.0))


@st.composite
def _grid_boxes(draw, cells):
    x0, y0 = draw(st.integers(0, cells - 2)), draw(st.integers(0, cells - 2))
    x1, y1 = draw(st.integers(x0 + 2, cells)), draw(st.integers(y0 + 2, cells))
    return box(x0 * CELL, y0 * CELL, x1 * CELL, y1 * CELL)


@st.composite
def convex_plans(draw):
    """Convex polygons of three to eight corners on a circle, in order."""
    count = draw(st.integers(3, 8))
    radius = draw(st.floats(2500.0, 9000.0))
    start = draw(st.floats(0.0, 360.0))
    shares = [draw(st.floats(1.0, 2.0)) for _ in range(count)]
    turns = [start + 360.0 * sum(shares[:i]) / sum(shares) for i in range(count)]
    corners = [
        (radius * math.cos(math.radians(t)), radius * math.sin(math.radians(t))) for t in turns
    ]
    return Polygon(corners)


def cells_inside(plan):
    """The grid's cells that lie in a plan, in reading order."""
    x0, y0, x1, y1 = (round(bound / CELL) for bound in plan.bounds)
    return [
        (i, j)
        for j in range(y0, y1)
        for i in range(x0, x1)
        if plan.covers(box(i * CELL, j * CELL, (i + 1) * CELL, (j + 1) * CELL))
    ]


@st.composite
def slabs(
    draw,
    most_boxes=4,
    most_walls=3,
    most_columns=2,
    most_penetrations=2,
    openings=True,
    off_grid=True,
    cells=MOST_CELLS,
):
    """Orthogonal slabs with walls, columns, penetrations and openings that all fit."""
    plan = draw(orthogonal_plans(most_boxes, cells))
    free = draw(st.permutations(cells_inside(plan)))
    holes = [_opening(draw, free.pop()) for _ in range(_count(draw, free, 1 if openings else 0))]
    columns = [_column(draw, i, free.pop()) for i in range(1, _count(draw, free, most_columns) + 1)]
    pipes = [
        _penetration(draw, i, free.pop())
        for i in range(1, _count(draw, free, most_penetrations) + 1)
    ]
    walls = [_wall(draw, plan, i, off_grid) for i in range(1, draw(st.integers(0, most_walls)) + 1)]
    return Slab(
        outline=Ring.of(plan),
        thickness=draw(thicknesses),
        openings=tuple(holes),
        walls=tuple(walls),
        columns=tuple(columns),
        penetrations=tuple(pipes),
    )


def _count(draw, free, most):
    """How many things to place: one cell at least stays empty."""
    return draw(st.integers(0, max(0, min(most, len(free) - 1))))


def _opening(draw, cell):
    """A rectangular opening inside one cell."""
    i, j = cell
    inset = draw(st.floats(MARGIN, CELL / 4))
    return Ring.of(
        shapely.normalize(
            box(i * CELL + inset, j * CELL + inset, (i + 1) * CELL - inset, (j + 1) * CELL - inset)
        )
    )


def _column(draw, number, cell):
    i, j = cell
    return Column(
        id=f"C{number}",
        at=((i + 0.5) * CELL, (j + 0.5) * CELL),
        boxout=draw(st.sampled_from(list(Boxout))),
        size=draw(st.sampled_from([406.4, 609.6, 900.0])),
    )


def _penetration(draw, number, cell):
    i, j = cell
    return Penetration(
        id=f"N{number}",
        at=((i + draw(st.floats(0.2, 0.8))) * CELL, (j + draw(st.floats(0.2, 0.8))) * CELL),
        diameter=draw(st.sampled_from([0.0, 50.0, 101.6])),
        kind=draw(st.sampled_from(list(PenetrationKind))),
    )


def _wall(draw, plan, number, off_grid):
    """A straight wall between two sides of the plan, on or off the grid, along x or y."""
    x0, y0, x1, y1 = plan.bounds
    along_x = draw(st.booleans())
    low, high = (y0, y1) if along_x else (x0, x1)
    cell = draw(st.integers(0, round((high - low) / CELL) - 1))
    at = low + (cell + (draw(st.floats(0.2, 0.8)) if off_grid else 0.5)) * CELL
    ends = ((x0, at), (x1, at)) if along_x else ((at, y0), (at, y1))
    chords = shapely.get_parts(shapely.LineString(ends).intersection(plan))
    chord = chords[draw(st.integers(0, len(chords) - 1))]
    path = tuple((float(x), float(y)) for x, y in chord.coords)
    return Wall(id=f"W{number}", path=path, thickness=draw(st.sampled_from([92.1, 114.3, 150.0])))


@st.composite
def arc_rings(draw):
    """Rings with arcs: boxes one of whose sides swells out by up to a half circle."""
    width = draw(st.floats(3000.0, 12000.0))
    height = draw(st.floats(3000.0, 12000.0))
    bulge = draw(st.floats(0.05, 1.0))
    side = draw(st.integers(0, 3))
    corners = ((0.0, 0.0), (width, 0.0), (width, height), (0.0, height))
    return Ring(corners, tuple(bulge if i == side else 0.0 for i in range(4)))


def turned(slab, degrees):
    """A slab turned about the origin, with everything on it; its boxouts turn along."""
    return moved(slab, lambda p: affinity.rotate(p, degrees, origin=(0, 0)), turn=degrees)


def shifted(slab, dx, dy):
    """A slab moved, with everything on it."""
    return moved(slab, lambda p: affinity.translate(p, dx, dy))


def moved(slab, change, turn=0.0):
    """A slab whose every point is changed; zones, keep-outs, edges, joints and patterns are left out."""

    def point(p):
        spot = change(shapely.Point(p))
        return (float(spot.x), float(spot.y))

    def ring(r):
        return Ring(tuple(point(p) for p in r.points), r.bulges)

    return Slab(
        outline=ring(slab.outline),
        thickness=slab.thickness,
        openings=tuple(ring(o) for o in slab.openings),
        walls=tuple(
            Wall(id=w.id, path=tuple(point(p) for p in w.path), thickness=w.thickness)
            for w in slab.walls
        ),
        columns=tuple(
            Column(id=c.id, at=point(c.at), boxout=c.boxout, size=c.size, turn=c.turn + turn)
            for c in slab.columns
        ),
        penetrations=tuple(
            Penetration(id=p.id, at=point(p.at), diameter=p.diameter, kind=p.kind)
            for p in slab.penetrations
        ),
    )


@st.composite
def turned_slabs(draw, **options):
    """Slabs turned by any angle."""
    return turned(draw(slabs(**options)), draw(st.floats(0.0, 360.0)))


names = st.text(
    st.characters(codec="utf-8", exclude_characters="\r"), min_size=1, max_size=12
).filter(str.strip)
"""Names that a user may give, quotes and line breaks among them."""


def _maybe(values):
    return st.none() | values


@st.composite
def job_slabs(draw):
    """Slabs with something of every kind that a job file knows."""
    slab = draw(slabs())
    i, j = draw(st.sampled_from(cells_inside(slab.outline.polygon)))
    cell = Ring.of(shapely.normalize(box(i * CELL, j * CELL, (i + 1) * CELL, (j + 1) * CELL)))
    (x0, y0), _, (x1, y1), _ = cell.points
    size = st.floats(0.0, 500.0)
    walls = [
        replace(
            wall,
            bearing=True,
            strip_width=draw(size),
            strip_depth=draw(size),
            bearing_rule=draw(st.sampled_from(list(BearingRule))),
        )
        for wall in slab.walls
    ]
    return replace(
        slab,
        walls=tuple(walls),
        zones=(
            Zone(
                id="Z1",
                outline=cell,
                thickness=draw(st.floats(100.0, 400.0)),
                joint_at_border=draw(st.booleans()),
            ),
        ),
        keep_outs=(KeepOut(id="K1", outline=cell, what=draw(names), cover=draw(_maybe(size))),),
        edges=(
            Edge(
                ring=0,
                segment=draw(st.integers(0, len(slab.outline.points) - 1)),
                kind=draw(st.sampled_from(list(EdgeKind))),
                depth=draw(size),
                width=draw(size),
                slope=draw(st.floats(0.0, 2.0)),
            ),
        ),
        joints=(
            GivenJoint(
                id="G1",
                path=((x0, y0), (x1, y1)),
                kind=draw(st.sampled_from(list(JointKind))),
                forbidden=draw(st.booleans()),
                existing=draw(st.booleans()),
                depth=draw(_maybe(size)),
                reason=draw(st.sampled_from(["", *(reason.value for reason in Reason)])),
                note=draw(st.just("") | names),
            ),
        ),
        patterns=(
            Pattern(
                id="A1",
                area=cell,
                kind=draw(st.sampled_from(list(PatternKind))),
                along=((x0, y0), (x1, y1)),
                spacing=draw(_maybe(st.floats(500.0, 5000.0))),
            ),
        ),
        falls=(
            Fall(
                id="D1",
                area=cell,
                to=(((x0 + x1) / 2, (y0 + y1) / 2),),
                joints=draw(st.sampled_from(list(FallJoints))),
            ),
        ),
    )


@st.composite
def jobs(draw):
    """Jobs that a job file can say in full; notes are left out, as they become comments."""
    fields = ("project", "number", "owner", "drawn", "checked", "approved", "date", "revision")
    return Job(
        name=draw(names),
        units=draw(st.sampled_from(list(Unit))),
        slab=draw(job_slabs()),
        rules=RuleChoice(
            name=draw(st.sampled_from(["floor", "residential", "pca-table"])),
            overrides=draw(st.sampled_from([{}, {"aspect": {"maximum": 1.4}}])),
            to_maximum=draw(st.booleans()),
        ),
        mix=Mix(slump=draw(_maybe(st.floats(0.0, 200.0))), aggregate=draw(_maybe(st.just(19.0)))),
        cut=CutChoice(
            method=draw(st.sampled_from(["conventional", "early-entry"])),
            depth=draw(_maybe(st.floats(10.0, 90.0))),
        ),
        sheet=SheetChoice(
            fields=draw(st.dictionaries(st.sampled_from(fields), names, max_size=3)),
            size=draw(st.sampled_from(["", "arch-d"])),
            scale=draw(st.sampled_from([0.0, 48.0, 96.0, 33.5])),
            north=draw(st.floats(-180.0, 180.0)),
        ),
        effort=draw(st.floats(0.5, 60.0)),
        weights=draw(
            st.dictionaries(st.sampled_from(["tee", "line"]), st.floats(0.0, 10.0), max_size=2)
        ),
        day=draw(st.sampled_from([{}, {"weather": {"air": "30 degC", "wind": 5.5}, "a": [1, 2]}])),
    )
