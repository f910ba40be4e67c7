"""Floors of real building plans with their partition walls, that nobody drew for this project.

They are shipped in the PyPI package ``eppy`` (MIT) as input files of an energy simulation: the levels of a
reference hospital of 70 by 53 m, and an office of 30.5 by 15.2 m whose partitions run at 45 degrees from
its corners. The floor of each zone is a polygon; an edge that two zones share is a partition wall.
The files are plain text: objects end with a semicolon, fields with a comma, comments start with ``!``.
"""

import importlib.util
from collections import defaultdict
from functools import cache
from pathlib import Path

import pytest
import shapely
from shapely import LineString, Polygon

from kerfline.geometry.faces import lines_of, polygons_of
from kerfline.geometry.ring import Ring
from kerfline.model.slab import Slab, Wall
from kerfline.units import MM_PER_METRE

FILES = (
    ("hospital", "V_6_0/ASHRAE30pct.PI.Final11_Hospital_STD2010_Chicago.idf"),
    ("office", "V8_0_0/5ZoneWaterLoopHeatPump.idf"),
)

SNAP = 5.0
"""Floors are drawn to this many millimetres: neighbours must share their edges to be told for neighbours."""

SHORT = 300.0
"""Shared edges shorter than this (mm) are no walls."""

THICK = 120.0
"""Thickness (mm) that the files do not give: a stud wall with board on both faces (common practice)."""

VERTICES = 10
"""Number of the field of a surface in which its vertices begin, after the object's name."""


@cache
def floors() -> tuple[tuple[str, Polygon, tuple[LineString, ...]], ...]:
    """Name, outline and wall lines in mm of every level."""
    package = importlib.util.find_spec("eppy")
    if package is None or package.origin is None:
        pytest.skip("eppy, whose data this needs, is not installed")
    folder = Path(package.origin).parent / "resources" / "idffiles"
    return tuple(
        (f"{building}-{level}", outline, walls)
        for building, file in FILES
        for level, (outline, walls) in enumerate(_levels(folder / file))
    )


def floor_slab(outline: Polygon, walls: tuple[LineString, ...], thickness: float) -> Slab:
    """A slab of a thickness (mm) under a floor with its walls."""
    return Slab(
        outline=_ring(outline.exterior),
        openings=tuple(_ring(hole) for hole in outline.interiors),
        walls=tuple(
            Wall(id=f"W{n}", path=tuple(_point(p) for p in line.coords), thickness=THICK)
            for n, line in enumerate(walls, 1)
        ),
        thickness=thickness,
    )


def _levels(file: Path):
    """Outline and walls of each level, from the lowest; of levels that are alike the first."""
    levels = defaultdict(list)
    for fields in _objects(file):
        if fields[0].lower() == "buildingsurface:detailed" and fields[2].lower() == "floor":
            level, polygon = _floor(fields)
            levels[level].append(polygon)
    seen = []
    for _, zones in sorted(levels.items()):
        whole = polygons_of(shapely.union_all(zones))
        outline = max(whole, key=lambda p: p.area)
        level = (outline.simplify(1.0), _walls(zones, outline))
        if level not in seen:
            seen.append(level)
            yield level


def _objects(file: Path):
    text = " ".join(line.split("!")[0] for line in file.read_text("latin-1").splitlines())
    for part in text.split(";"):
        fields = [field.strip() for field in part.split(",")]
        if len(fields) > VERTICES:
            yield fields


def _floor(fields):
    """Height and polygon of a floor; every zone of these files has its origin at 0, 0, 0."""
    start = next(n for n in range(VERTICES - 1, VERTICES + 2) if _is_count(fields, n)) + 1
    numbers = [float(v) * MM_PER_METRE for v in fields[start:]]
    points = list(zip(numbers[::3], numbers[1::3], strict=True))
    return round(numbers[2]), shapely.set_precision(Polygon(points), SNAP)


def _is_count(fields, number):
    """Whether a field is the number of vertices that follow."""
    text = fields[number].split(".")[0]
    return text.isdigit() and 3 * int(text) == len(fields) - number - 1


def _walls(zones, outline):
    """The edges that two zones share, whole lines of them joined."""
    shared = [
        one.boundary.intersection(other.boundary)
        for n, one in enumerate(zones)
        for other in zones[n + 1 :]
        if one.intersects(other)
    ]
    merged = shapely.line_merge(shapely.unary_union([x for s in shared for x in lines_of(s)]))
    lines = [x.simplify(1.0) for x in lines_of(merged)]
    return tuple(
        sorted(
            (x for x in lines if x.length > SHORT and outline.buffer(SNAP).covers(x)),
            key=lambda x: tuple(x.coords),
        )
    )


def _ring(line) -> Ring:
    return Ring(tuple(_point(p) for p in line.coords[:-1]))


def _point(at):
    return round(at[0], 2), round(at[1], 2)
