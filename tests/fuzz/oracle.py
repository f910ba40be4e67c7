"""An oracle for layouts that shares no code with the checks: its own panels, chords and areas.

It takes the job's rings and the joints' paths, cuts the floor up with shapely, and measures with shapely's own
rectangles. What it finds wrong must have been said by the findings. The figures are those of the rule set
``floor``.
"""

import math
from itertools import pairwise

import numpy as np
import shapely
from shapely import LineString, Point, Polygon
from shapely.ops import polygonize

HAIR = 0.6
"""How far (mm) a joint's end may stop short of what it ends on."""

GRAIN = 0.001
"""What ends and edges are rounded to where the floor is cut up (mm)."""

SLACK = 1.5
"""What two ways to measure one length may differ by (mm)."""

AS_SMALL = 2e-5
"""Rectangles whose areas differ by this share are as small as one another, and either may be the panel's."""

SLIVER = 25.0
"""A piece (mm2) that is none in the oracle's cutting up, which snaps to a micron."""

ASPECT = 1.5


def greatest_span(thickness):
    """36 times the thickness, 18 ft (5486.4 mm) at the most."""
    return min(36 * thickness, 18 * 304.8)


def own_ring(ring):
    """A ring's outline; arcs are taken from the model, which alone knows how finely they are drawn."""
    return Polygon(ring.coordinates if ring.has_arcs else ring.points)


def own_boxout(column):
    """The boxout of a column; None where it has none."""
    half, (x, y) = column.size / 2, column.at
    kind = column.boxout.value
    if kind == "none":
        return None
    if kind == "circle":
        return Polygon(column.outline.coordinates)
    turn = math.radians(column.turn + (45 if kind == "diamond" else 0))
    cos, sin = math.cos(turn), math.sin(turn)
    corners = ((-half, -half), (half, -half), (half, half), (-half, half))
    return Polygon([(x + a * cos - b * sin, y + a * sin + b * cos) for a, b in corners])


def own_concrete(slab):
    """What openings and boxouts leave of the outline."""
    taken = [own_ring(o) for o in slab.openings]
    taken += [b for b in map(own_boxout, slab.columns) if b is not None]
    return own_ring(slab.outline).difference(shapely.union_all(taken))


def own_panels(concrete, joints):
    """The floor cut up by joints, each end that stops short by no more than a hair drawn out to what it meets."""
    things = [concrete.boundary, *(LineString(joint.path) for joint in joints)]
    tree = shapely.STRtree(things)

    def others(spot, reach, index):
        return [things[i] for i in tree.query(spot, "dwithin", reach).tolist() if i != index]

    lines = [
        LineString(
            [
                *_out_to_what_it_meets(joint.path[0], joint.path[1], others, index),
                *joint.path[1:-1],
                *reversed(_out_to_what_it_meets(joint.path[-1], joint.path[-2], others, index)),
            ]
        )
        for index, joint in enumerate(joints, 1)
    ]
    noded = shapely.union_all([concrete.boundary, *lines], grid_size=GRAIN)
    faces = [face for face in polygonize(shapely.get_parts(noded)) if face.area > SLIVER]
    return [face for face in faces if concrete.contains(face.representative_point())]


def _out_to_what_it_meets(end, inner, others, index):
    """An end, and before it the place to which it is drawn out where something lies within a hair ahead of it.

    No further: between two lines nearer than that, ends that are drawn out from both sides would cross.
    """
    spot, (x, y), (a, b) = Point(end), end, inner
    if others(spot, GRAIN, index):
        return [end]
    size = math.hypot(x - a, y - b) or 1.0
    along = ((x - a) / size, (y - b) / size)
    ahead = LineString([end, (x + HAIR * along[0], y + HAIR * along[1])])
    met = [t.intersection(ahead) for t in others(spot, HAIR, index) if t.intersects(ahead)]
    if not met:
        return [end]
    far = min(spot.distance(m) for m in met) + 2 * GRAIN
    return [(x + far * along[0], y + far * along[1]), end]


def own_boxes(panel):
    """Long and short side of the smallest rectangle round a panel; of each where several are as small."""
    hull = np.asarray(panel.convex_hull.exterior.coords)
    boxes = []
    for (x0, y0), (x1, y1) in pairwise(hull):
        size = math.hypot(x1 - x0, y1 - y0)
        along = np.array([x1 - x0, y1 - y0]) / size
        sides = np.ptp(hull @ along), np.ptp(hull @ np.array([-along[1], along[0]]))
        boxes.append((max(sides), min(sides)))
    least = min(a * b for a, b in boxes)
    return [(a, b) for a, b in boxes if a * b <= least * (1 + AS_SMALL)]


def own_longest_side(panel):
    """The longest straight side, what lies within a millimetre of it taken together."""
    ring = shapely.simplify(panel.exterior, 1.0)
    return max(math.dist(a, b) for a, b in pairwise(ring.coords))


def faults(slab, layout, findings):
    """What is wrong with a layout and was not said, in words; nothing where all is well."""
    said = {f.rule.value for f in findings if f.severity.value != "advice"}
    concrete = own_concrete(slab)
    panels = own_panels(concrete, layout.joints)
    yield from _tiling(concrete, panels, layout, findings)
    yield from _slivers(layout, findings)
    plain = [p for p in panels if not any(own_ring(z.outline).intersects(p) for z in slab.zones)]
    for panel in plain:
        yield from _sizes(slab, panel, said)
    yield from _joints(slab, concrete, layout, said)


def _slivers(layout, findings):
    """Every sliver is told as a narrow panel, as advice where the slab itself is so narrow there.

    A piece is at least half as large as its length times its width, and no wider than long.
    """
    slivers = sum(p.area <= SLIVER for p in layout.panels)
    widest = math.sqrt(2 * SLIVER)
    told = sum(f.rule.value == "width" and f.measured <= widest for f in findings)
    if told < slivers:
        yield f"{slivers} panels are slivers, {told} of which are told"


def _tiling(concrete, panels, layout, findings):
    hairs = 5 * (concrete.length + sum(j.length for j in layout.joints)) * 0.001 + 100.0
    told = any(f.rule.value == "shape" and f.measured is None for f in findings)
    total = sum(p.area for p in layout.panels)
    if abs(total - concrete.area) > hairs and not told:
        yield f"panels are {total:.0f} mm2 and the concrete {concrete.area:.0f}"
    named = [p for p in layout.panels if p.area > SLIVER]
    if len(panels) != len(named) and not told:
        small = sorted(round(p.area) for p in panels)[:3]
        yield f"{len(named)} panels are named, {len(panels)} are there, the least {small}"
    lost = concrete.difference(shapely.union_all([p.polygon for p in layout.panels]))
    wide = [part for part in shapely.get_parts(lost) if part.buffer(-2.0).area > 1.0]
    if wide and not told:
        yield f"{len(wide)} areas lie in no panel, as at {wide[0].representative_point()}"


def _sizes(slab, panel, said):
    boxes = own_boxes(panel)
    length = min(long for long, _ in boxes)
    aspect = min(long / max(wide, 1.0) for long, wide in boxes)
    limit = greatest_span(slab.thickness) + SLACK
    where = panel.representative_point()
    if max(length, own_longest_side(panel)) > limit and "span" not in said:
        yield f"the panel at {where} is over the span: {length:.1f}, {own_longest_side(panel):.1f}"
    if aspect > ASPECT + 0.01 and "aspect" not in said:
        yield f"the panel at {where} is {aspect:.3f} times as long as wide"


def _joints(slab, concrete, layout, said):
    gross = own_ring(slab.outline).difference(
        shapely.union_all([own_ring(o) for o in slab.openings])
    )
    lines = [j.line for j in layout.joints]
    tree = shapely.STRtree(lines)
    edges = concrete.boundary
    for index, joint in enumerate(layout.joints):
        if joint.line.difference(gross.buffer(SLACK)).length > SLACK and "edge" not in said:
            yield f"{joint.id} leaves the slab"
        for end in (joint.path[0], joint.path[-1]):
            spot = Point(end)
            near = [i for i in tree.query(spot, "dwithin", 2 * HAIR).tolist() if i != index]
            on_concrete = concrete.contains(spot) and edges.distance(spot) > 2 * HAIR
            if on_concrete and not near and not said & {"free-end", "edge"}:
                yield f"{joint.id} ends in the concrete at {end}"
        for keep_out in slab.keep_outs:
            shut = keep_out.cover is None and joint.kind.value == "control"
            inside = joint.line.intersection(own_ring(keep_out.outline).buffer(-SLACK)).length
            if shut and inside > 2 * SLACK and "keep-out" not in said:
                yield f"{joint.id} enters {keep_out.id}"
    for given in slab.joints:
        wanted = LineString(given.path).intersection(concrete.buffer(-SLACK))
        if given.forbidden or wanted.length <= 60.0 or not lines:
            continue
        bare = wanted.difference(shapely.union_all([line.buffer(2.0) for line in lines]))
        if bare.length > 60.0 and "edge" not in said:
            yield f"{bare.length:.0f} mm of the given joint {given.id} is missing"
