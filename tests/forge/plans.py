"""Building plans whose truth is known: a slab, walls with doors and windows, columns, pits, furniture; in mm."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from random import Random

import shapely
from shapely import LineString, Polygon, box

Point = tuple[float, float]

LEAST_ROOM = 2_600
"""No room is narrower (mm)."""


@dataclass(frozen=True, kw_only=True)
class Door:
    """A door or window: its middle, the direction of its wall, its width, its wall's thickness."""

    at: Point
    along: Point
    width: float
    thickness: float
    swings: bool = True

    @property
    def gap(self) -> Polygon:
        """What it takes out of the wall."""
        (x, y), (ux, uy) = self.at, self.along
        half, deep = self.width / 2, self.thickness
        corners = [(-half, -deep), (half, -deep), (half, deep), (-half, deep)]
        return Polygon([(x + a * ux - b * uy, y + a * uy + b * ux) for a, b in corners])


@dataclass(frozen=True, kw_only=True)
class Plan:
    """What is true of a plan."""

    slab: Polygon
    facade: Polygon
    outer: float
    inner: tuple[tuple[LineString, float], ...] = ()
    doors: tuple[Door, ...] = ()
    columns: tuple[Polygon, ...] = ()
    pits: tuple[Polygon, ...] = ()
    drains: tuple[Point, ...] = ()
    furniture: tuple[Polygon, ...] = ()
    rooms: tuple[Point, ...] = ()
    texts: tuple[tuple[str, Point], ...] = field(default=())

    @property
    def bodies(self) -> shapely.Geometry:
        """The walls in plan, doors and windows taken out."""
        ring = self.facade.difference(self.facade.buffer(-self.outer, join_style="mitre"))
        inside = [line.buffer(t / 2, cap_style="flat") for line, t in self.inner]
        walls = shapely.union_all([ring, *inside], grid_size=0.01).intersection(self.facade)
        return walls.difference(shapely.union_all([d.gap for d in self.doors]))


def plan(random: Random) -> Plan:
    """A plan at random."""
    parts = _parts(random)
    facade = shapely.union_all(parts)
    outer = random.choice([150, 200, 240, 300, 365])
    inner_thick = random.choice([100, 115, 125, 150])
    lines: list[LineString] = []
    rooms: list[Polygon] = []
    for part in parts:
        split, own = _rooms(part, random)
        lines += split
        rooms += own
    lines += [
        shared
        for i, a in enumerate(parts)
        for b in parts[i + 1 :]
        if isinstance(shared := a.intersection(b), LineString) and shared.length > 1_000
    ]
    inner = tuple((line, inner_thick) for line in lines)
    margin = random.choice([0, 0, 0, 50, 120])
    slab = facade.buffer(margin, join_style="mitre") if margin else facade
    return Plan(
        slab=slab,
        facade=facade,
        outer=outer,
        inner=inner,
        doors=(*_doors(inner, random), *_windows(facade, outer, random)),
        **_things(rooms, random),
    )


def of_footprint(footprint: Polygon, random: Random) -> Plan:
    """A plan on an outline that is given, with no walls inside."""
    outer = 240.0
    return Plan(
        slab=footprint,
        facade=footprint,
        outer=outer,
        doors=_windows(footprint, outer, random),
        rooms=(tuple(footprint.representative_point().coords[0]),),
    )


def of_floor(slab: Polygon, walls: Sequence[tuple[LineString, float]], random: Random) -> Plan:
    """A plan of a floor whose walls are given."""
    inner = tuple(walls)
    return Plan(slab=slab, facade=slab, outer=200.0, inner=inner, doors=_doors(inner, random))


def _parts(random: Random) -> list[Polygon]:
    """One to three rectangles that make a building."""

    def side(low: int, high: int) -> int:
        return 100 * random.randint(low // 100, high // 100)

    w, h = side(7_000, 30_000), side(6_000, 18_000)
    main = box(0, 0, w, h)
    kind = random.choice(["box", "box", "ell", "ell", "tee", "zed"])
    if kind == "box":
        return [main]
    wing = min(side(4_000, 12_000), w - 3_000)
    deep = side(4_000, 10_000)
    if kind == "ell":
        return [main, box(0, h, wing, h + deep)]
    if kind == "tee":
        start = 100 * ((w - wing) // 200)
        return [main, box(start, h, start + wing, h + deep)]
    return [main, box(0, h, wing, h + deep), box(w - wing, -deep, w, 0)]


def _rooms(part: Polygon, random: Random) -> tuple[list[LineString], list[Polygon]]:
    """Walls that part a rectangle into rooms."""
    x0, y0, x1, y1 = part.bounds
    wide, deep = x1 - x0, y1 - y0
    small = wide * deep < random.choice([12e6, 20e6, 40e6])
    across = wide >= deep
    longer = max(wide, deep)
    if small or longer < 2 * LEAST_ROOM + 400:
        return [], [part]
    cut = 50 * random.randint(LEAST_ROOM // 50, int(longer - LEAST_ROOM) // 50)
    if across:
        line = LineString([(x0 + cut, y0), (x0 + cut, y1)])
        first, second = box(x0, y0, x0 + cut, y1), box(x0 + cut, y0, x1, y1)
    else:
        line = LineString([(x0, y0 + cut), (x1, y0 + cut)])
        first, second = box(x0, y0, x1, y0 + cut), box(x0, y0 + cut, x1, y1)
    one, these = _rooms(first, random)
    two, those = _rooms(second, random)
    return [line, *one, *two], these + those


def _doors(walls: Sequence[tuple[LineString, float]], random: Random) -> tuple[Door, ...]:
    found = []
    for line, thick in walls:
        if line.length < 2_400:
            continue
        share = random.uniform(0.25, 0.75)
        found.append(_at(line, share, random.choice([800, 900, 1000]), thick, swings=True))
    return tuple(found)


def _windows(facade: Polygon, outer: float, random: Random) -> tuple[Door, ...]:
    """Windows, and one door, in the outer walls."""
    found = []
    middle = facade.buffer(-outer / 2, join_style="mitre").exterior
    points = list(middle.coords)
    edges = [LineString([a, b]) for a, b in pairwise(points)]
    long = [e for e in edges if e.length > 3_500]
    for number, edge in enumerate(long):
        width = 1_000 if number == 0 else random.choice([900, 1_200, 1_600])
        if number == 0 or random.random() < 0.7:
            found.append(_at(edge, 0.5, width, outer, swings=number == 0))
    return tuple(found)


def _at(line: LineString, share: float, width: float, thickness: float, *, swings: bool) -> Door:
    (x0, y0), (x1, y1) = line.coords[0], line.coords[-1]
    size = math.hypot(x1 - x0, y1 - y0)
    along = ((x1 - x0) / size, (y1 - y0) / size)
    at = (x0 + share * (x1 - x0), y0 + share * (y1 - y0))
    return Door(at=at, along=along, width=width, thickness=thickness, swings=swings)


def _things(rooms: Sequence[Polygon], random: Random) -> dict[str, tuple]:
    """What stands in the rooms and goes through the slab."""
    columns, pits, drains, furniture, texts = [], [], [], [], []
    for number, room in enumerate(rooms, start=1):
        x0, y0, x1, y1 = room.bounds
        cx, cy = (x0 + x1) / 2, (y0 + y1) / 2
        texts.append((f"ROOM {number}", (cx - 500, cy)))
        if random.random() < 0.5:
            furniture.append(box(x0 + 600, y0 + 600, x0 + 2_000, y0 + 1_400))
        if random.random() < 0.15 and (x1 - x0) > 4_000 and (y1 - y0) > 4_000:
            pits.append(box(x1 - 2_000, y1 - 2_200, x1 - 900, y1 - 900))
        elif random.random() < 0.2:
            drains.append((x1 - 900, y0 + 900))
        if (x1 - x0) > 7_000 and (y1 - y0) > 5_000:
            columns.append(box(cx - 150, cy + 700, cx + 150, cy + 1_000))
    return {
        "columns": tuple(columns),
        "pits": tuple(pits),
        "drains": tuple(drains),
        "furniture": tuple(furniture),
        "rooms": tuple(r.representative_point().coords[0] for r in rooms),
        "texts": tuple(texts),
    }
