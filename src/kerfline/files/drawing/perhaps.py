"""What may be a part of the slab without saying so: layers of lines, blocks that repeat, footings under walls.

The sizes and shares below are common practice, weighed on the drawings of the forge (``tests/forge``).
"""

import re
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from shapely import Polygon

from kerfline.files.drawing.curves import Curve
from kerfline.files.drawing.layers import BLOCK, Layers, chosen, own_name
from kerfline.files.drawing.names import decorates, elsewhere, outline_rank, part_named
from kerfline.files.drawing.opened import Drawing
from kerfline.files.drawing.standing import LARGEST_COLUMN
from kerfline.files.slab_parts import SlabParts
from kerfline.geometry.near import Crowded
from kerfline.geometry.parallel import paired
from kerfline.geometry.ring import Point
from kerfline.model.slab import Wall
from kerfline.units import Display, counted, format_depth, format_run

JOINTS_PERHAPS = "Joints perhaps, as lines on the slab:"
"""How the sentence begins that offers layers of joints."""

LEAST_JOINT = 1_000.0
"""Length (mm) from which on a straight line on the slab may be a joint."""

EDGE = 25.0
"""A line nearer to the slab's edge than this (mm) all along is the edge's own."""

FEWEST = 4
"""Block references of one block that make a pattern; fewer stand here and there."""

SHOWN = 5
"""Layers or blocks of one kind that are offered at most."""

MOST = 5_000
"""Layers with more curves than this are not looked at."""

FOOTINGS = re.compile(r"FOOT(?!PRINT)|FTNG|STRIPFUND|SEMELLE|ZAPATA|SAPATA|CIMENT|FONDAZ")
"""Words for footings in names of layers."""

FOOTING = (300.0, 1_500.0)
"""Width (mm) of strip footings; common practice."""

UNDER = 0.7
"""A wall stands on a footing with this share of its length or more."""

THINGS = re.compile(
    r"CHAIR|TABLE|DESK|TREE|SHRUB|BED|SINK|BASIN|TOILET|BATH|SHOWER|LIGHT|LAMP|OUTLET|SOCKET|SWITCH|ARROW|NORTH"
    r"|(^|[^A-Z])(CARS?|WC|TAGS?|BUBBLES?|MARKS?|LEVELS?|TICKS?|DOTS?)([^A-Z]|$)"
)
"""Names of blocks that stand for furniture, plants and signs."""


@dataclass(frozen=True, kw_only=True)
class Repeated:
    """A block whose references stand on the slab again and again.

    Attributes:
        name: The block's name.
        count: Its references on the slab.
        layers: The layers that they are drawn on.
    """

    name: str
    count: int
    layers: tuple[str, ...]


def repeated_blocks(drawing: Drawing, slab: Polygon) -> list[Repeated]:
    """The small blocks that stand on a slab again and again and whose names speak of no furniture, most first."""
    groups: dict[int, list[Curve]] = {}
    for curve in drawing.curves:
        if curve.group and curve.layer not in drawing.hidden:
            groups.setdefault(curve.group, []).append(curve)
    counts: Counter[str] = Counter()
    layers: dict[str, set[str]] = {}
    shapely.prepare(slab)
    for group, curves in groups.items():
        name = drawing.blocks.get(group, "")
        if not name or name.startswith("*") or _is_a_thing(name):
            continue
        at = _middle(curves)
        if at and slab.covers(shapely.Point(at)):
            counts[name] += 1
            layers.setdefault(name, set()).update(c.layer for c in curves)
    found = [
        Repeated(name=n, count=count, layers=tuple(sorted(layers[n])))
        for n, count in counts.items()
        if count >= FEWEST and not any(decorates(x) or elsewhere(x) for x in layers[n])
    ]
    return sorted(found, key=lambda r: (-r.count, r.name))


def _is_a_thing(name: str) -> bool:
    plain = own_name(name)
    return decorates(plain) or elsewhere(plain) or bool(THINGS.search(plain.upper()))


def _middle(curves: Sequence[Curve]) -> Point | None:
    """The middle of what a block reference draws; None where it is too large for a column or a pipe."""
    points = np.asarray([p for c in curves for p in c.path.coordinates])
    (x0, y0), (x1, y1) = points.min(axis=0), points.max(axis=0)
    if max(x1 - x0, y1 - y0) > LARGEST_COLUMN:
        return None
    return (float(x0 + x1) / 2, float(y0 + y1) / 2)


def offers(drawing: Drawing, parts: SlabParts, layers: Layers, *, joints: bool) -> tuple[str, ...]:
    """Sentences on what may be a part of the slab, with the words that take it.

    Args:
        drawing: The drawing.
        parts: What was read of it.
        layers: The layers that it was read from.
        joints: Whether joints are looked for: a layout that is to be found has none.
    """
    if parts.outline is None:
        return ()
    slab, display = parts.outline.polygon, drawing.unit.display
    wanted = joints and not parts.joints
    return (
        *([] if parts.walls else _wall_offers(drawing, slab, layers, joints=wanted)),
        *(_joint_offers(drawing, slab, layers, display) if wanted else []),
        *_block_offers(drawing, slab, layers),
        *_footing_offers(drawing, parts.walls, display),
    )


def _wall_offers(drawing: Drawing, slab: Polygon, layers: Layers, *, joints: bool) -> list[str]:
    """A sentence on lines within the slab on the layers of its edge, whose names say of nothing what they hold."""
    lines: dict[str, list[float]] = {}
    for layer in chosen(drawing.layers, layers.outline):
        if outline_rank(layer) is None and not part_named(layer):
            lines[layer] = [x.length for x in _within(drawing, layer, slab)]
    lines = {layer: found for layer, found in lines.items() if found}
    if not lines:
        return []
    length = format_run(sum(map(sum, lines.values())), drawing.unit.display)
    count, first = counted(sum(map(len, lines.values())), "line"), next(iter(lines))
    what, or_joints = ("walls or joints", f' or --joints "{first}"') if joints else ("walls", "")
    on = f"on {', '.join(lines)}, the layer of its edge, {length} in all"
    return [
        f'Left out: {count} on the slab {on}; {what} perhaps. Name them with --walls "{first}"{or_joints}.'
    ]


def _within(drawing: Drawing, layer: str, slab: Polygon) -> list[shapely.LineString]:
    """The long straight lines of a layer that run on a slab, off its edge."""
    if len(drawing.on(layer)) > MOST:
        return []
    inside, near_edge = slab.buffer(EDGE), slab.exterior.buffer(EDGE)
    shapely.prepare((inside, near_edge))
    lines = [c.path.line for c in drawing.on(layer) if _may_be_joint(c)]
    return [x for x in lines if inside.covers(x) and not near_edge.covers(x)]


def _joint_offers(drawing: Drawing, slab: Polygon, layers: Layers, display: Display) -> list[str]:
    """A sentence on the layers whose lines cross the slab and may be joints; none where there are none."""
    found = []
    for layer in _unused(drawing, layers):
        on = _within(drawing, layer, slab)
        if on:
            found.append((sum(x.length for x in on), layer, len(on)))
    found.sort(key=lambda f: (-round(f[0]), f[1]))
    if not found:
        return []
    listed = "; ".join(
        f"{layer} ({counted(count, 'line')}, {format_run(length, display)})"
        for length, layer, count in found[:SHOWN]
    )
    return [f'{JOINTS_PERHAPS} {listed}. Name them with --joints "{found[0][1]}".']


def _may_be_joint(curve: Curve) -> bool:
    path = curve.path
    return not path.closed and not path.has_arcs and path.line.length >= LEAST_JOINT


def _unused(drawing: Drawing, layers: Layers) -> Iterator[str]:
    """The layers that nothing was read from and whose names do not say that they hold something else."""
    taken = {n for part in vars(layers).values() for n in chosen(drawing.layers, part)}
    for layer in drawing.layers:
        if layer in taken or layer in drawing.hidden or len(drawing.on(layer)) > MOST:
            continue
        if decorates(layer) or elsewhere(layer) or FOOTINGS.search(own_name(layer).upper()):
            continue
        if part_named(layer) in ("", "joints") and outline_rank(layer) is None:
            yield layer


def _block_offers(drawing: Drawing, slab: Polygon, layers: Layers) -> list[str]:
    """A sentence on the blocks that repeat and that nothing was read from."""
    taken = {n for part in vars(layers).values() for n in chosen(drawing.layers, part)}
    patterns = [p for part in vars(layers).values() for p in part]
    found = [
        r
        for r in repeated_blocks(drawing, slab)
        if not set(r.layers) & taken and f"{BLOCK}{r.name}" not in patterns
    ]
    if not found:
        return []
    listed = "; ".join(f"{r.count:,} of {r.name} on {', '.join(r.layers)}" for r in found[:SHOWN])
    name = f"{BLOCK}{found[0].name}"
    words = f"Columns or penetrations perhaps, as blocks that repeat on the slab: {listed}."
    return [f'{words} Name them with --columns "{name}" or --penetrations "{name}".']


def _footing_offers(drawing: Drawing, walls: Sequence[Wall], display: Display) -> list[str]:
    """A sentence for each layer of footings that interior walls stand on."""
    said = []
    for layer in drawing.layers:
        name = own_name(layer).upper()
        if not FOOTINGS.search(name) or layer in drawing.hidden or len(drawing.on(layer)) > MOST:
            continue
        strips = _strips(drawing.on(layer))
        on: list[Wall] = []
        widths: Counter[str] = Counter()
        for wall in walls:
            under = [(s, w) for s, w in strips if _share(wall, s) > 0]
            if _share(wall, shapely.union_all([s for s, _ in under])) >= UNDER:
                on.append(wall)
                best = max(under, key=lambda u: _share(wall, u[0]))
                widths[format_depth(best[1], display)] += 1
        if on:
            width = widths.most_common(1)[0][0]
            ids = ", ".join(w.id for w in on[:SHOWN]) + (" and more" if len(on) > SHOWN else "")
            said.append(
                f"Footings on {layer}, {width} wide, lie under {counted(len(on), 'interior wall')} ({ids}). Where "
                f'they carry load, say bearing = true and strip_width = "{width}" for these walls in the job file.'
            )
    return said


def _strips(curves: Sequence[Curve]) -> list[tuple[Polygon, float]]:
    """The strips between pairs of lines a footing's width apart, with their widths (mm)."""
    rows = [(*s.start, *s.end) for c in curves for s in c.path.segments() if not s.bulge]
    lines = np.asarray(rows, dtype=float).reshape(-1, 4)
    if not len(lines):
        return []
    try:
        found = paired(lines, *FOOTING).strips
    except Crowded:
        return []
    return [
        (
            shapely.LineString([s.start, s.end]).buffer(s.thickness / 2, cap_style="square"),
            s.thickness,
        )
        for s in found
    ]


def _share(wall: Wall, area: shapely.Geometry) -> float:
    """Share of a wall's length that lies over an area."""
    return float(wall.line.intersection(area).length / max(wall.line.length, 1e-9))
