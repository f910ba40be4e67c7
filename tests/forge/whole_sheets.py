"""More habits: what else stands on real sheets beside a plan, and plans drawn less neatly."""

from dataclasses import replace
from itertools import pairwise
from random import Random

import numpy as np
import shapely
from shapely import LineString, Polygon, affinity, box

from forge.drafter import ENGLISH, Drafter, rings_of
from forge.plans import Door, Plan

Moved = tuple[float, float]


def uncleaned(d: Drafter, plan: Plan) -> None:
    """Walls whose faces run through one another where they meet, as they are first drawn."""
    for area in (plan.facade, plan.facade.buffer(-plan.outer, join_style="mitre")):
        for ring in rings_of(area):
            d.line("wall", *ring.coords)
    for line, thick in plan.inner:
        for side in (1, -1):
            face = line.offset_curve(side * thick / 2)
            d.line("wall", *face.coords)


def butted(d: Drafter, plan: Plan, *, caps: bool) -> int | None:
    """Each wall by itself from centre line to centre line, its ends drawn or not.

    Returns:
        How many corners the facade has, where all are square and no inner wall ends in one.
    """
    middle = plan.facade.buffer(-plan.outer / 2, join_style="mitre").exterior
    outer = [(LineString(ends), plan.outer) for ends in pairwise(middle.coords)]
    for line, thick in (*outer, *plan.inner):
        body = line.buffer(thick / 2, cap_style="flat")
        cut = body.difference(shapely.union_all([door.gap for door in plan.doors]))
        for part in getattr(cut, "geoms", [cut]):
            for face in pairwise(part.exterior.coords):
                if caps or LineString(face).length > thick + 1:
                    d.line("wall", *face)
    square = all(min(np.abs(np.subtract(*line.coords))) < 1e-6 for line, _ in outer)
    corners = shapely.MultiPoint(plan.facade.exterior.coords)
    free = all(line.boundary.distance(corners) > plan.outer for line, _ in plan.inner)
    return len(outer) if square and free else None


def room_areas(d: Drafter, plan: Plan) -> None:
    """A closed outline in each room, as areas are taken off."""
    free = plan.facade.buffer(-plan.outer, join_style="mitre")
    for line, thick in plan.inner:
        free = free.difference(line.buffer(thick / 2, cap_style="square"))
    for room in getattr(free, "geoms", [free]):
        if room.area > 1e6:
            d.poly("area", Polygon(room.exterior))


def bubbles(d: Drafter, plan: Plan) -> None:
    """Grid lines with a bubble at each end, all around the plan."""
    x0, y0, x1, y1 = plan.slab.bounds
    for n in range(int((x1 - x0) // 5_000) + 2):
        x = x0 + min(n * 5_000, x1 - x0)
        d.line("grid", (x, y0 - 2_500), (x, y1 + 2_500))
        d.circle("grid", (x, y0 - 2_900), 400)
        d.circle("grid", (x, y1 + 2_900), 400)
    for n in range(int((y1 - y0) // 5_000) + 2):
        y = y0 + min(n * 5_000, y1 - y0)
        d.line("grid", (x0 - 2_500, y), (x1 + 2_500, y))
        d.circle("grid", (x0 - 2_900, y), 400)
        d.circle("grid", (x1 + 2_900, y), 400)


def detail(d: Drafter, plan: Plan, at: Moved) -> None:
    """A section of the slab's edge at five times the size, with hatches and texts."""
    x, y = at
    d.line("detail", (x, y), (x + 6_000, y))
    d.line("detail", (x, y - 750), (x + 6_000, y - 750))
    d.poly("detail", box(x, y, x + 1_000, y + 4_000))
    d.poly("detail", box(x - 500, y - 3_000, x + 2_500, y - 1_500))
    d.hatch("hatch", box(x, y - 750, x + 6_000, y))
    d.text("text", "DETAIL 1 SCALE 1:20", (x, y - 4_000))


def elevation(d: Drafter, plan: Plan, at: Moved) -> None:
    """The front of the house, with windows."""
    x, y = at
    x0, _, x1, _ = plan.slab.bounds
    wide = x1 - x0
    d.poly("detail", box(x, y, x + wide, y + 3_000))
    roof = [(x - 400, y + 3_000), (x + wide + 400, y + 3_000), (x + wide / 2, y + 6_000)]
    d.poly("detail", roof)
    for n in range(int(wide // 3_000)):
        left = x + 900 + n * 3_000
        d.poly("detail", box(left, y + 900, left + 1_200, y + 2_200))
        d.poly("detail", box(left + 60, y + 960, left + 1_140, y + 2_140))


def paving(d: Drafter, plan: Plan) -> None:
    """A terrace at the house, a path, a pool beside it."""
    x0, y0, x1, _ = plan.slab.bounds
    d.poly("paving", box(x0 + 500, y0 - 4_000, x1 - 500, y0))
    d.poly("paving", box(x0 + 1_000, y0 - 9_000, x0 + 2_200, y0 - 4_000))
    d.poly("pool", box(x0 + 4_000, y0 - 12_000, x0 + 12_000, y0 - 8_000))


def hall(random: Random) -> Plan:
    """A hall: one large floor, columns on a grid, an office in a corner."""
    wide, deep = 6_000 * random.randint(4, 10), 6_000 * random.randint(3, 7)
    slab = box(0, 0, wide, deep)
    columns = [
        box(x - 150, y - 150, x + 150, y + 150)
        for x in range(6_000, wide, 6_000)
        for y in range(6_000, deep, 6_000)
    ]
    office = [LineString([(5_000, 0), (5_000, 4_000)]), LineString([(0, 4_000), (5_000, 4_000)])]
    gate = Door(at=(wide / 2, 120.0), along=(1.0, 0.0), width=4_000, thickness=240, swings=False)
    return Plan(
        slab=slab,
        facade=slab,
        outer=240,
        inner=tuple((line, 120) for line in office),
        doors=(gate,),
        columns=tuple(columns),
    )


def around_a_court(random: Random) -> Plan:
    """A house around a court that a word names and a door leads to, or neither."""
    wide, deep = 100 * random.randint(160, 320), 100 * random.randint(150, 260)
    x0, y0 = 100 * random.randint(45, 60), 100 * random.randint(45, 60)
    x1, y1 = wide - 100 * random.randint(45, 60), deep - 100 * random.randint(45, 60)
    facade = Polygon(box(0, 0, wide, deep).exterior, [box(x0, y0, x1, y1).exterior])
    walls = [
        LineString([(x0, 0), (x0, y0)]),
        LineString([(x1, y1), (wide, y1)]),
        LineString([(x1, y0), (x1, 0)]),
        LineString([(0, y1), (x0, y1)]),
    ]
    kept = random.sample(walls, random.randint(0, 4))
    named = random.random() < 0.5
    doors = [Door(at=(wide / 2, 120.0), along=(1.0, 0.0), width=1_000, thickness=240)]
    for wall in kept:
        (ax, ay), (bx, by) = wall.coords
        along = ((bx - ax) / wall.length, (by - ay) / wall.length)
        middle = ((ax + bx) / 2, (ay + by) / 2)
        doors.append(Door(at=middle, along=along, width=900, thickness=115))
    if named:
        doors.append(Door(at=((x0 + x1) / 2, y0 - 120), along=(1.0, 0.0), width=900, thickness=240))
    texts = (("COURTYARD", ((x0 + x1) / 2, (y0 + y1) / 2)),) if named else ()
    return Plan(
        slab=facade,
        facade=facade,
        outer=240,
        inner=tuple((line, 115) for line in kept),
        doors=tuple(doors),
        texts=texts,
    )


def tiled_terrace(d: Drafter, random: Random) -> tuple[Polygon, Polygon]:
    """A terrace drawn by its tiles around a pool, free walls on it; the terrace with the pool and without."""
    tile = random.choice([500, 600, 750, 1_000])
    across, up = random.randint(18, 40), random.randint(14, 24)
    left, low = random.randint(3, 6), random.randint(3, 5)
    pool = box(left * tile, low * tile, (across - 6) * tile, (up - 4) * tile)
    for n in range(across + 1):
        for part in _pieces(LineString([(n * tile, 0), (n * tile, up * tile)]), pool):
            d.line("area", *part)
    for n in range(up + 1):
        for part in _pieces(LineString([(0, n * tile), (across * tile, n * tile)]), pool):
            d.line("area", *part)
    whole = box(0, 0, across * tile, up * tile)
    thick = random.choice([150, 240, 300])
    # One wall in the middle of the tiles, one along the edge that stands over by half.
    bodies = [box(tile, tile + 40, 5 * tile, tile + 40 + thick)]
    bodies.append(box(-thick / 2, 2 * tile, thick / 2, (up - 1) * tile))
    for body in bodies:
        d.poly("wall", body)
    terrace = shapely.union_all([whole, *bodies])
    return terrace, terrace.difference(pool)


def _pieces(line: LineString, pool: Polygon) -> list[list[Moved]]:
    """The pieces of a line outside of a pool."""
    rest = line.difference(pool.buffer(-1.0))
    return [list(part.coords) for part in getattr(rest, "geoms", [rest])]


def with_garage(plan: Plan) -> Plan:
    """The plan with a garage door of 16 ft in an outer wall of a room that is wide enough, where there is one."""
    ring = list(plan.facade.buffer(-plan.outer / 2, join_style="mitre").exterior.coords)
    inner = [line.buffer(thick / 2 + 300) for line, thick in plan.inner]
    for a, b in pairwise(ring):
        edge = LineString([a, b])
        along = ((b[0] - a[0]) / edge.length, (b[1] - a[1]) / edge.length)
        for share in (0.5, 0.3, 0.7):
            at = edge.interpolate(share, normalized=True)
            gate = Door(
                at=(at.x, at.y), along=along, width=4_800, thickness=plan.outer, swings=False
            )
            room = edge.length * min(share, 1 - share) > 4_800 / 2 + 600
            if room and not any(wall.intersects(gate.gap) for wall in inner):
                kept = tuple(d for d in plan.doors if not d.gap.intersects(edge))
                return replace(plan, doors=(*kept, gate))
    return plan


def upper_floor(plan: Plan, random: Random) -> Plan:
    """A floor above: the same outer walls, other rooms."""
    inner = tuple(
        (affinity.translate(line, random.choice([0, 400]), random.choice([0, -400])), thick)
        for line, thick in plan.inner[::2]
    )
    kept = tuple((line, t) for line, t in inner if plan.facade.covers(line))
    return replace(plan, inner=kept, columns=(), pits=(), drains=())


def layers(**more: str) -> dict[str, str]:
    """The trade's names, and those of what stands beside the plan."""
    other = {"area": "Z-1", "detail": "DETAILS", "paving": "L-PVMT", "pool": "L-POOL"}
    return {**ENGLISH, **other, **more}
