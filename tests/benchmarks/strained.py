"""Slabs that strain the search, each in another way: seconds of processor time, and what the layouts are like.

``PYTHONPATH=tests python tests/benchmarks/strained.py`` prints the table for the developers' guide.
"""

import math
import time
from random import Random

from shapely import LineString, affinity
from shapely.geometry import box

from kerfline.checks.check import check
from kerfline.engine.lay_out import lay_out
from kerfline.engine.options import EngineOptions
from kerfline.geometry.ring import Ring, circle
from kerfline.model.finding import Rule, Severity
from kerfline.model.slab import Boxout, Column, Slab, Wall
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from kerfline.units import MM_PER_FOOT, Display

RULES = SlabRules(rule_set=load("floor"))
THICK = 150.0


def turned_hall(degrees=17.0, wide=100, deep=60, bay=20):
    """A hall whose columns have square boxouts aslant of it."""
    hall = affinity.rotate(box(0, 0, wide * MM_PER_FOOT, deep * MM_PER_FOOT), degrees, (0, 0))
    way = math.radians(degrees)
    places = [
        (i * bay * MM_PER_FOOT, j * bay * MM_PER_FOOT)
        for i in range(1, wide // bay)
        for j in range(1, deep // bay)
    ]
    columns = tuple(
        Column(
            id=f"C{n}",
            at=(x * math.cos(way) - y * math.sin(way), x * math.sin(way) + y * math.cos(way)),
            boxout=Boxout.SQUARE,
        )
        for n, (x, y) in enumerate(places)
    )
    return Slab(outline=Ring(tuple(hall.exterior.coords)[:-1]), thickness=152.4, columns=columns)


def strewn_walls(count=300, seed=2):
    """Short walls along the axes, no two of them in line."""
    draw, wide, deep = Random(seed), 54_864.0, 41_148.0
    lines: list[LineString] = []
    while len(lines) < count:
        length, level = draw.randint(600, 3000), draw.random() < 0.5
        x = draw.randint(500, int(wide) - 500 - (length if level else 0))
        y = draw.randint(500, int(deep) - 500 - (0 if level else length))
        line = LineString([(x, y), (x + length, y) if level else (x, y + length)])
        if all(line.distance(other) >= 800.0 for other in lines):
            lines.append(line)
    return Slab(outline=Ring.of(box(0, 0, wide, deep)), thickness=THICK, walls=walls(lines))


def slanted_walls(count=300, degrees=30.0):
    """Rows of short walls at an angle."""
    across, wide = 20, 54_864.0
    deep = wide * count / across**2
    dx, dy = (1500.0 * f(math.radians(degrees)) for f in (math.cos, math.sin))
    spots = [
        ((i % across + 0.5) * wide / across, (i // across + 0.5) * deep * across / count)
        for i in range(count)
    ]
    lines = [LineString([(x - dx, y - dy), (x + dx, y + dy)]) for x, y in spots]
    return Slab(outline=Ring.of(box(0, 0, wide, deep)), thickness=THICK, walls=walls(lines))


def pits(across=14, up=10, off=0.0):
    """A hall of openings, in rows or a little out of them."""
    draw, foot = Random(3), MM_PER_FOOT
    places = [
        (5 + 15 * i + draw.uniform(-off, off), 5 + 15 * j + draw.uniform(-off, off))
        for i in range(across)
        for j in range(up)
    ]
    return Slab(
        outline=Ring.of(box(0, 0, 15 * across * foot, 15 * up * foot)),
        thickness=THICK,
        openings=tuple(
            Ring.of(box(x * foot, y * foot, (x + 4) * foot, (y + 5) * foot)) for x, y in places
        ),
    )


def round_floor(radius, count):
    """A round floor with walls along the axes."""
    draw, lines = Random(4), []
    while len(lines) < count:
        length, level = draw.randint(1500, 5000), draw.random() < 0.5
        x, y = (draw.randint(-int(radius), int(radius)) for _ in range(2))
        line = LineString([(x, y), (x + length, y) if level else (x, y + length)])
        inside = all(math.hypot(*at) < radius - 600.0 for at in line.coords)
        if inside and all(line.distance(other) > 700.0 for other in lines):
            lines.append(line)
    return Slab(outline=circle((0, 0), radius), thickness=THICK, walls=walls(lines))


def forecourt(corners, seed):
    """An outline of many corners at any angle."""
    draw, points = Random(seed), []
    for k in range(corners):
        away, way = 22_000 + draw.uniform(-5000, 5000), math.radians(360 * k / corners)
        points.append((round(1.3 * away * math.cos(way)), round(0.91 * away * math.sin(way))))
    return Slab(outline=Ring(tuple(points)), thickness=THICK)


def walls(lines):
    return tuple(Wall(id=f"W{n}", path=tuple(line.coords)) for n, line in enumerate(lines))


TRIANGLE = Slab(
    outline=Ring(
        tuple((x * MM_PER_FOOT, y * MM_PER_FOOT) for x, y in ((0, 0), (200, 0), (70, 150)))
    ),
    thickness=THICK,
)

PLANS = {
    "hall at 17 degrees to its square boxouts": turned_hall(),
    "300 short walls that follow no grid": strewn_walls(),
    "300 short walls at 30 degrees": slanted_walls(),
    "hall of 140 pits": pits(),
    "hall of 140 pits, none in line": pits(off=2.0),
    "round floor, 20 walls": round_floor(15_000.0, 20),
    "round floor, 40 walls": round_floor(22_000.0, 40),
    "forecourt of 24 corners": forecourt(24, 5),
    "forecourt of 40 corners": forecourt(40, 6),
    "triangle of 200 ft": TRIANGLE,
}


def main():
    print(
        "| slab | panels | errors | warnings | tees | seconds |\n|---|---|---|---|---|---|",
        flush=True,
    )
    for name, slab in PLANS.items():
        began = time.process_time()
        layout = lay_out(slab, RULES, EngineOptions(display=Display.METRIC))
        seconds = time.process_time() - began
        found = check(slab, layout, RULES, Display.METRIC)
        worst = [sum(f.severity is s for f in found) for s in (Severity.ERROR, Severity.WARNING)]
        tees = sum(f.rule is Rule.TEE_END for f in found)
        counts = " | ".join(str(n) for n in (len(layout.panels), *worst, tees))
        print(f"| {name} | {counts} | {seconds:.1f} |", flush=True)  # a slab without end is seen


if __name__ == "__main__":
    main()
