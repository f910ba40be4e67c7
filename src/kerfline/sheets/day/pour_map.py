"""The placement map: order, direction and size of the placements, and the order of the cuts."""

import math
from collections.abc import Sequence

import numpy as np
import shapely
from shapely import LineString, Polygon, affinity

from kerfline.geometry.faces import lines_of, polygons_of
from kerfline.geometry.ring import Point
from kerfline.model.job import Job
from kerfline.model.layout import Layout
from kerfline.placement.clock import Lane
from kerfline.placement.plan import PlacementPlan
from kerfline.placement.pour_order import Pour
from kerfline.sheets.lettering import text_width
from kerfline.sheets.marks import Anchor, Board, Bounds, Fill, Layer
from kerfline.sheets.plan_marks import cross_ticks, slab_marks
from kerfline.sheets.view import View
from kerfline.units import format_clock, format_length, format_volume

HEAD = 4.0
"""Length of an arrow's head, mm."""

ARROW = 0.7
"""Width of an arrow's shaft, mm."""

PLATE = 0.8
"""Room around a text on its white plate, mm."""

SHARES = (0.5, 0.35, 0.65, 0.2, 0.8, 0.42, 0.58, 0.28, 0.72, 0.1, 0.9)
"""Where along a line its number is tried, in this order."""

CLEAR = 3.0
"""An arrow nearer than this (mm) to a joint hides it and its number."""

ARROWS = (0.25, 0.75, 0.15, 0.85, 0.35, 0.65, 0.1, 0.9, 0.45, 0.55)
"""Where across a placement its arrow is tried, shares of its width."""

GRID = 12
"""Points each way among which the place of a placement's label is chosen."""

LANE_SHARES = (0.1, 0.15, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8)
"""Where along a lane its words are tried, in this order."""

NUMBER = 1.5
"""Height of a placement's number over that of the text."""

PITCH = 1.6
"""Distance of a label's lines over the height of their letters."""

DISC = 1.25
"""Radius of a placement's number over the height of its letters."""


def draw_map(
    board: Board, job: Job, layout: Layout, placement: PlacementPlan, view: View, text: float
) -> list[str]:
    """Draws the map in a view.

    Returns:
        The joints whose order found no room.
    """
    board.add(*slab_marks(job.slab, layout, view))
    for joint in placement.pours.joints:
        for part in lines_of(view.shape(joint.line).intersection(view.window_box)):
            points = tuple((float(x), float(y)) for x, y in part.coords)
            board.line(Layer.CONSTRUCTION, *points)
            board.add(*cross_ticks(part))
    taken: list[Polygon] = []
    outlines = _free_panels(job, layout)
    lines = shapely.union_all([view.shape(joint.line) for joint in layout.joints])
    for pour in placement.pours.pours:
        panels = [outlines[p] for p in pour.panels]
        _pour(board, pour, panels, job, view, lines, text, taken)
    return _cut_numbers(board, placement, view, text, taken)


def _free_panels(job: Job, layout: Layout) -> dict[str, Polygon]:
    """The largest part of each panel that is clear of keep-outs, pipes and posts, by id."""
    marked = shapely.union_all(
        [
            *(k.outline.polygon for k in job.slab.keep_outs),
            *(n.footprint for n in job.slab.penetrations),
            *(w.footprint for w in job.slab.walls),
        ]
    )
    out = {}
    for panel in layout.panels:
        free = polygons_of(shapely.difference(panel.polygon, marked))
        out[panel.id] = max(free, key=lambda p: p.area, default=panel.polygon)
    return out


def _pour(
    board: Board,
    pour: Pour,
    panels: Sequence[Polygon],
    job: Job,
    view: View,
    lines: shapely.Geometry,
    text: float,
    taken: list[Polygon],
) -> None:
    """Number, size and hours in a panel near the placement's middle, an arrow along its travel."""
    shape = max(polygons_of(view.shape(pour.area)), key=lambda p: p.area)
    hours = f"{format_clock(pour.start)} to {format_clock(pour.end)}".replace(
        f" +{pour.day - 1} d", ""
    )
    words = (format_volume(pour.volume, job.display), f"day {pour.day}", hours)
    spot, shown = _room(shape, [view.shape(p) for p in panels], words, text)
    label = _label_box(spot, shown, text)
    taken.append(label)
    _label(board, spot, pour.id, shown, text)
    _arrow(board, shape, lines, pour.clock.angle + view.turn, taken)
    _lanes(board, pour, job, view, text, taken)


def _lanes(
    board: Board, pour: Pour, job: Job, view: View, text: float, taken: list[Polygon]
) -> None:
    """The lanes of a placement: the lines between them, and in each its turn and width where it begins."""
    lanes = pour.clock.lanes
    if len(lanes) < 2:  # noqa: PLR2004 - one front across the whole width
        return
    for lane in lanes:
        first, last = lane.stations[0], lane.stations[-1]
        if lane.low > min(each.low for each in lanes):
            between = _in_place([(first, lane.low), (last, lane.low)], pour, view)
            drawn = between.intersection(view.shape(pour.area)).difference(shapely.union_all(taken))
            for part in lines_of(drawn):
                board.line(Layer.VIEWPORT, *((float(x), float(y)) for x, y in part.coords))
    for turn, lane in enumerate(lanes, 1):
        words = f"lane {turn}, {format_length(lane.high - lane.low, job.display)}"
        _lane_words(board, words, lane, pour, view, text, taken)


def _in_place(points: Sequence[Point], pour: Pour, view: View) -> LineString:
    """A line in a placement's own frame on the paper."""
    return view.shape(affinity.rotate(LineString(points), pour.clock.angle, origin=(0, 0)))


def _lane_words(
    board: Board,
    words: str,
    lane: Lane,
    pour: Pour,
    view: View,
    text: float,
    taken: list[Polygon],
) -> None:
    """A lane's turn and width at the first free spot from its beginning; left out where there is none."""
    middle = (lane.low + lane.high) / 2
    run = _in_place([(lane.stations[0], middle), (lane.stations[-1], middle)], pour, view)
    half = text_width(words, text) / 2 + PLATE
    for share in LANE_SHARES:
        at = run.interpolate(share, normalized=True)
        box = shapely.box(
            at.x - half, at.y - text / 2 - PLATE, at.x + half, at.y + text / 2 + PLATE
        )
        if view.shape(pour.area).contains(box) and not any(box.intersects(t) for t in taken):
            taken.append(box)
            _plate(board, box.bounds)
            foot = (float(at.x), float(at.y) - text / 2)
            board.text(Layer.TAG, foot, words, text, anchor=Anchor.MIDDLE)
            return


def _room(
    shape: Polygon, panels: Sequence[Polygon], words: Sequence[str], text: float
) -> tuple[Point, Sequence[str]]:
    """Where the label stands clear of joints, nearest the middle; the number alone where no panel holds it."""
    middle = shape.centroid
    spots = [_inside(panel) for panel in panels]
    order = sorted(
        range(len(spots)), key=lambda i: round(middle.distance(shapely.Point(spots[i])), 1)
    )
    for shown in (words, words[:2], ()):
        for i in order:
            if panels[i].buffer(-PLATE).contains(_label_box(spots[i], shown, text)):
                return spots[i], shown
    return spots[order[0]], ()


def _inside(panel: Polygon) -> Point:
    """A point well clear of a panel's edges, the nearest to its middle where several are.

    The largest circle in a long panel has no one middle, and versions of the geometry library differ in which they
    give: points of a grid are compared instead, in tenths of a millimetre of paper.
    """
    middle = panel.centroid
    x0, y0, x1, y1 = panel.bounds
    shares = [(step + 0.5) / GRID for step in range(GRID)]
    grid = [(x0 + a * (x1 - x0), y0 + b * (y1 - y0)) for a in shares for b in shares]
    points = shapely.points([(middle.x, middle.y), *grid])
    inside = points[shapely.contains(panel, points)]
    if not len(inside):
        inside = np.asarray([panel.representative_point()])
    clear = shapely.distance(panel.boundary, inside).tolist()
    off = shapely.distance(middle, inside).tolist()
    at = [(float(x), float(y)) for x, y in shapely.get_coordinates(inside)]
    best = min(
        range(len(at)),
        key=lambda i: (
            -round(clear[i], 1),
            round(off[i], 1),
            (round(at[i][0], 1), round(at[i][1], 1)),
        ),
    )
    return at[best]


def _hidden(run: LineString, shape: Polygon, lines: shapely.Geometry) -> float:
    """What an arrow would hide: joint that it runs along and openings that it crosses, mm of paper."""
    beside = shapely.intersection(lines, run.buffer(CLEAR)).length
    return float(beside + run.difference(shape).length)


def _arrow(
    board: Board,
    shape: Polygon,
    lines: shapely.Geometry,
    angle: float,
    taken: list[Polygon],
) -> None:
    """A dot where placing starts and an arrow the way it goes, clear of the labels."""
    way = (math.cos(math.radians(angle)), math.sin(math.radians(angle)))
    across = (-way[1], way[0])
    runs = [run for run in _runs(shape, way, across) if not any(run.intersects(t) for t in taken)]
    if not runs:
        return
    run = min(
        runs,
        key=lambda r: (round(_hidden(r, shape, lines), 0), -round(r.length, 1), r.coords[0]),
    )
    start, end = run.coords[0], run.coords[-1]
    back = (end[0] - HEAD * way[0], end[1] - HEAD * way[1])
    half = HEAD / 3
    head = (
        (float(end[0]), float(end[1])),
        (back[0] + half * across[0], back[1] + half * across[1]),
        (back[0] - half * across[0], back[1] - half * across[1]),
    )
    board.line(Layer.SYMBOL, (float(start[0]), float(start[1])), back, width=ARROW)
    board.add(Fill(layer=Layer.SYMBOL, rings=(head,)))
    board.circle(Layer.SYMBOL, (float(start[0]), float(start[1])), 1.0)
    taken.append(run.buffer(1.2))


def _runs(shape: Polygon, way: Point, across: Point) -> list[LineString]:
    """Lines along the travel, at shares of the width, drawn in a little from the edges."""
    middle = shape.centroid
    solid = Polygon(shape.exterior)
    reach = [x * across[0] + y * across[1] for x, y in shape.exterior.coords]
    low, high = min(reach), max(reach)
    out = []
    for share in ARROWS:
        shift = low + share * (high - low) - (middle.x * across[0] + middle.y * across[1])
        chord = _chord(solid, (middle.x + shift * across[0], middle.y + shift * across[1]), way)
        if chord is not None and chord.length > 3 * HEAD:
            ends = [chord.interpolate(share, normalized=True) for share in (0.1, 0.9)]
            out.append(LineString(ends))
    return out


def _chord(shape: Polygon, at: Point, way: Point) -> LineString | None:
    """The stretch of a line through a point that lies in a placement."""
    reach = shape.length
    line = LineString(
        [
            (at[0] - reach * way[0], at[1] - reach * way[1]),
            (at[0] + reach * way[0], at[1] + reach * way[1]),
        ]
    )
    parts = lines_of(line.intersection(Polygon(shape.exterior)))
    spot = shapely.Point(at)
    return min(parts, key=lambda part: part.distance(spot), default=None)


def _label_box(spot: Point, words: Sequence[str], text: float) -> Polygon:
    """The room that a placement's label takes up."""
    x, y = spot
    radius = DISC * NUMBER * text
    half = max([*(text_width(w, text) / 2 for w in words), radius]) + PLATE
    return shapely.box(x - half, y - text * (1 + PITCH * len(words)), x + half, y + radius + text)


def _label(board: Board, spot: Point, name: str, words: Sequence[str], text: float) -> None:
    """A placement's number in a disc over its size and hours."""
    top = _label_box(spot, words, text).bounds[3]
    big = NUMBER * text
    radius = DISC * big
    centre = (spot[0], top - radius - PLATE / 2)
    board.circle(Layer.SYMBOL, centre, radius)
    at = (spot[0], centre[1] - big / 2)
    board.text(Layer.TAG, at, name, big, anchor=Anchor.MIDDLE)
    for number, word in enumerate(words):
        line = centre[1] - radius - (1.5 + PITCH * number) * text
        board.text(Layer.TAG, (spot[0], line), word, text, anchor=Anchor.MIDDLE)


def _cut_numbers(
    board: Board, placement: PlacementPlan, view: View, text: float, taken: list[Polygon]
) -> list[str]:
    left_out = []
    for cut in placement.cutting.cuts:
        words = f"{cut.order}{'R' if cut.relief else ''}"
        line = view.shape(cut.window.sawn.line)
        half = text_width(words, text) / 2 + PLATE
        spots = [line.interpolate(share, normalized=True) for share in SHARES]
        boxes = [
            shapely.box(p.x - half, p.y - text / 2 - PLATE, p.x + half, p.y + text / 2 + PLATE)
            for p in spots
        ]
        free = next((b for b in boxes if not any(b.intersects(t) for t in taken)), None)
        if free is None:
            left_out.append(cut.window.sawn.joint)
            continue
        taken.append(free)
        x0, y0, x1, y1 = free.bounds
        _plate(board, (x0, y0, x1, y1))
        board.box(Layer.SYMBOL, (x0, y0, x1, y1))
        board.text(Layer.TAG, ((x0 + x1) / 2, y0 + PLATE), words, text, anchor=Anchor.MIDDLE)
    return left_out


def _plate(board: Board, bounds: Bounds) -> None:
    x0, y0, x1, y1 = bounds
    corners = ((x0, y0), (x1, y0), (x1, y1), (x0, y1))
    board.add(Fill(layer=Layer.TAG, rings=(corners,), tone=1.0))
