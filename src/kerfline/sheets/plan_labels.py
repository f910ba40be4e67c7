"""Tags on the plan: joints, panels, columns, penetrations, openings, keep-outs, walls and findings."""

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import chain

import shapely
from shapely import LineString, Polygon

from kerfline.geometry.faces import lines_of, polygons_of
from kerfline.geometry.ring import Point
from kerfline.model.finding import Finding
from kerfline.model.layout import Joint, Layout
from kerfline.model.slab import JointKind, Slab
from kerfline.sheets.lettering import ASCENT, below, text_width
from kerfline.sheets.marks import Anchor, Board, Layer, Mark, Path, Text
from kerfline.sheets.placer import Placer, Spot
from kerfline.sheets.plan_marks import unjointed_corners
from kerfline.sheets.view import View

CODES = {
    JointKind.CONTROL: "CTLJ",
    JointKind.CONSTRUCTION: "CNTJ",
    JointKind.ISOLATION: "ISOL",
}
"""Letter tags that cannot be mistaken, the same as the layers' (a bare CJ means two things)."""

SHARES = (0.5, 0.38, 0.62, 0.26, 0.74, 0.16, 0.84)
"""Where along a joint its tag may stand, best first."""

RADII = (5.0, 8.0, 12.0, 17.0, 24.0, 32.0)
DIRECTIONS = tuple(math.radians(a) for a in (45, 135, 225, 315, 0, 90, 180, 270, 20, 70, 110, 160))
"""Where a label with a leader may stand around what it names: mm of paper and directions."""

SAME_PLACE = 3.0
"""Findings nearer than about this on paper (mm) share one label."""

BARS_TOGETHER = 30.0
"""Corners with bars nearer than this on paper (mm) share one label."""

RIGHT_ANGLE = 90.0

ROUNDING = 1e-6
"""An area that lacks less than this (mm2 of paper) of its bounding box is a rectangle."""

SHIFTS = tuple(
    sorted(
        ((i / 8, j / 8) for i in range(-3, 4) for j in range(-3, 4)),
        key=lambda shift: (round(math.hypot(*shift), 6), shift),
    )
)
"""Where a label may stand in a panel: shares of its sides from its heart, nearest first."""

PANEL_TEXT = 1.35
"""Height of a panel's number over that of other tags."""

CODE_ROOM = 1.6
"""A joint shows its letter code where it is this many times longer than the tag."""

LEAST_PIECE = 3.0
"""Pieces of a joint shorter than this on paper (mm) get no tag of their own."""


@dataclass
class Labeller:
    """Writes tags on a plan and remembers what found no room.

    Attributes:
        board: Where the tags go.
        placer: What takes up room.
        view: Slab to paper.
        height: Capital height of tags in mm.
    """

    board: Board
    placer: Placer
    view: View
    height: float

    def __post_init__(self) -> None:
        """Starts with nothing left out."""
        self.left_out: list[str] = []

    def put(self, name: str, spots: Iterable[Spot]) -> bool:
        """Places one label or notes that it found no room."""
        spot = self.placer.place(spots)
        if spot is None:
            self.left_out.append(name)
            return False
        self.write(spot)
        return True

    def write(self, spot: Spot) -> None:
        """Writes a label at the spot that it has taken."""
        self.board.add(*(replace(t, in_plan=True) for t in (spot.text, *spot.more)))
        if spot.leader:
            self.board.add(
                Path(layer=spot.text.layer, points=spot.leader, width=0.18, in_plan=True)
            )

    def text(self, layer: Layer, text: str, ref: str, *, height: float = 0.0) -> Text:
        """A label's text, not yet placed."""
        return Text(
            layer=layer, at=(0, 0), text=text, height=height or self.height, ref=ref,
            anchor=Anchor.MIDDLE,
        )  # fmt: skip


def label_plan(maker: Labeller, slab: Slab, layout: Layout, findings: Sequence[Finding]) -> None:
    """Writes every tag, the hardest to place first."""
    label_findings(maker, findings)
    label_features(maker, slab)
    label_joints(maker, layout.joints)
    label_panels(maker, layout)
    label_areas(maker, slab, layout)


def label_joints(maker: Labeller, joints: Sequence[Joint]) -> None:
    """Tags beside the joints, along them."""
    for joint in maker.view.among(joints, lambda j: j.line):
        line = longest_line(maker.view.clipped(joint.line))
        if line is None or line.length < LEAST_PIECE:
            continue
        full = f"{joint.id} {CODES[joint.kind]}"
        roomy = line.length >= CODE_ROOM * text_width(full, maker.height)
        text = maker.text(Layer.TAG, full if roomy else joint.id, joint.id)
        short = maker.text(Layer.TAG, joint.id, joint.id)
        spots = chain(beside(line, text), beside(line, short), around(middle_of(line), short))
        maker.put(joint.id, spots)


def label_panels(maker: Labeller, layout: Layout) -> None:
    """Numbers inside the panels; a leader where one does not fit."""
    height = PANEL_TEXT * maker.height
    for panel in maker.view.among(layout.panels, lambda p: p.polygon):
        area = maker.view.clipped(panel.polygon)
        parts = polygons_of(area)
        if not parts:
            continue
        largest = max(parts, key=lambda p: p.area)
        if not belongs(maker.view, panel.polygon):
            continue  # another sheet names it
        text = maker.text(Layer.PANEL, panel.id, panel.id, height=height)
        small = replace(text, height=maker.height)
        spots = chain(inside(largest, text), inside(largest, small), around(heart(largest), small))
        maker.put(panel.id, spots)


def belongs(view: View, area: Polygon) -> bool:
    """Whether an area is named in this view: its heart lies there, and on a border only above and right."""
    x, y = view.to_paper(heart(area))
    x0, y0, x1, y1 = view.window
    return x0 <= x < x1 and y0 <= y < y1


def label_features(maker: Labeller, slab: Slab) -> None:
    """Names of columns and penetrations, close beside them."""
    window = maker.view.window_box
    for column in slab.columns:
        at = maker.view.to_paper(column.at)
        if window.covers(shapely.Point(at)):
            reach = column.size / maker.view.scale * 0.75
            text = maker.text(Layer.TAG, column.id, column.id)
            maker.put(column.id, chain(_close(at, reach, text), around(at, text)))
    for hole in slab.penetrations:
        at = maker.view.to_paper(hole.at)
        if window.covers(shapely.Point(at)):
            reach = max(hole.diameter / 2 / maker.view.scale, 1.2)
            text = maker.text(Layer.TAG, f"{hole.id} {hole.kind.value}", hole.id)
            maker.put(hole.id, chain(_close(at, reach, text), around(at, text)))


def label_areas(maker: Labeller, slab: Slab, layout: Layout, *, bars: bool = True) -> None:
    """Names of openings, keep-outs and walls, and the bars at corners without a joint."""
    for i, opening in enumerate(slab.openings, 1):
        _area(maker, opening.polygon, f"opening {i}", f"O{i}")
    for keep_out in slab.keep_outs:
        _area(
            maker, keep_out.outline.polygon, f"{keep_out.id} no cut: {keep_out.what}", keep_out.id
        )
    for zone in slab.zones:
        _area(maker, zone.outline.polygon, zone.id, zone.id)
    if bars:
        _bars(maker, slab, layout)
    for wall in slab.walls:
        line = longest_line(maker.view.clipped(wall.line))
        if line is not None and line.length > LEAST_PIECE:
            text = maker.text(Layer.TAG, wall.id, wall.id)
            gap = wall.thickness / 2 / maker.view.scale + 0.9
            maker.put(wall.id, chain(beside(line, text, gap), around(middle_of(line), text)))


def _bars(maker: Labeller, slab: Slab, layout: Layout) -> None:
    """Names the bars, once for corners that lie together."""
    named: list[Point] = []
    for corner in unjointed_corners(slab, layout):
        at = maker.view.to_paper(corner.at)
        near = any(math.dist(at, other) <= BARS_TOGETHER for other in named)
        if maker.view.window_box.covers(shapely.Point(at)) and not near:
            x, y = corner.before[0] + corner.after[0], corner.before[1] + corner.after[1]
            clear = _off(at, (-x, -y), 2.0)
            named.append(at)
            spot = maker.placer.place(around(clear, maker.text(Layer.TAG, "bars", "bars")))
            if spot:  # the legend names them as well
                maker.write(spot)


def _off(at: Point, way: Point, distance: float) -> Point:
    """A point moved some way in a direction."""
    size = math.hypot(*way) or 1.0
    return (at[0] + way[0] / size * distance, at[1] + way[1] / size * distance)


def _area(maker: Labeller, area: Polygon, words: str, ref: str) -> None:
    shown = polygons_of(maker.view.clipped(area))
    if shown:
        largest = max(shown, key=lambda p: p.area)
        text = maker.text(Layer.TAG, words, ref)
        short = maker.text(Layer.TAG, ref if ref[0] in "KZ" else words, ref)
        edge = _nearest_edge(largest)
        maker.put(ref, chain(around(edge, text), inside(largest, text), around(edge, short)))


def label_findings(maker: Labeller, findings: Sequence[Finding]) -> None:
    """Numbered marks at the places of the findings, in the order of the list."""
    for at, numbers in by_place(findings, maker.view):
        words = " ".join(f"F{n}" for n in numbers)
        text = maker.text(Layer.FINDING, words, words)
        maker.put(words, around(at, text))


def by_place(findings: Sequence[Finding], view: View) -> list[tuple[Point, list[int]]]:
    """The places on the paper where findings are, with the numbers of those that share each."""
    places: dict[tuple[int, int], tuple[Point, list[int]]] = {}
    for number, finding in enumerate(findings, 1):
        at = view.to_paper(finding.at)
        if view.window_box.covers(shapely.Point(at)):
            key = (round(at[0] / SAME_PLACE), round(at[1] / SAME_PLACE))
            places.setdefault(key, (at, []))[1].append(number)
    return list(places.values())


def beside(line: LineString, text: Text, gap: float = 0.9) -> Iterator[Spot]:
    """Places along a line, above it and below it, turned to be read from below or from the right."""
    width = text_width(text.text, text.height)
    if width > line.length:
        return
    foot, head = below(text.text, text.height), ASCENT * text.height
    for rim in (gap, 3 * gap):
        for share in SHARES:
            x, y, turn = _seat(line, share, width)
            cos, sin = math.cos(math.radians(turn)), math.sin(math.radians(turn))
            for off in (foot + rim, -rim - head):
                yield Spot(replace(text, at=(x - off * sin, y + off * cos), turn=turn))


def _seat(line: LineString, share: float, width: float) -> tuple[float, float, float]:
    """Middle and direction of a stretch of a line as long as a text, readable from below or right."""
    reach = width / 2 / line.length
    share = min(max(share, reach), 1 - reach)
    a = line.interpolate(share - reach, normalized=True)
    b = line.interpolate(share + reach, normalized=True)
    turn = math.degrees(math.atan2(b.y - a.y, b.x - a.x))
    if turn > RIGHT_ANGLE:
        turn -= 2 * RIGHT_ANGLE
    elif turn <= -RIGHT_ANGLE + 1e-6:
        turn += 2 * RIGHT_ANGLE
    return (float(a.x + b.x) / 2, float(a.y + b.y) / 2, turn)


def inside(area: Polygon, text: Text) -> Iterator[Spot]:
    """Places inside an area, from its heart outward."""
    width = text_width(text.text, text.height)
    x0, y0, x1, y1 = area.bounds
    if width > x1 - x0 or text.height > y1 - y0:
        return
    cx, cy = heart(area)
    square = (x1 - x0) * (y1 - y0) - area.area <= ROUNDING
    shapely.prepare(area)
    for across, up in SHIFTS:
        x, y = cx + (x1 - x0) * across, cy + (y1 - y0) * up - text.height / 2
        left, right, top = x - width / 2, x + width / 2, y + text.height
        fits = x0 <= left and y0 <= y and right <= x1 and top <= y1
        if fits and (square or area.covers(shapely.box(left, y, right, top))):
            yield Spot(replace(text, at=(x, y)))


def over(at: Point, text: Text) -> Iterator[Spot]:
    """The place right on a point."""
    yield Spot(replace(text, at=(at[0], at[1] - text.height / 2)))


def around(at: Point, text: Text) -> Iterator[Spot]:
    """Places around a point, with a leader."""
    width = text_width(text.text, text.height)
    for radius in RADII:
        for angle in DIRECTIONS:
            dx, dy = math.cos(angle), math.sin(angle)
            knee = (at[0] + radius * dx, at[1] + radius * dy)
            left = dx < -1e-9  # noqa: PLR2004 - straight up and down lead to the right
            anchor = Anchor.END if left else Anchor.START
            foot = (knee[0] + (-0.8 if left else 0.8), knee[1] - text.height / 2)
            if width:
                yield Spot(replace(text, at=foot, anchor=anchor), (at, knee))


def _close(at: Point, reach: float, text: Text) -> Iterator[Spot]:
    """Places right beside a small thing, without a leader."""
    for sx, sy in ((1, 1), (-1, 1), (1, -1), (-1, -1)):
        anchor = Anchor.START if sx > 0 else Anchor.END
        y = at[1] + (reach * 0.7 + 0.5 if sy > 0 else -reach * 0.7 - 0.5 - text.height)
        yield Spot(replace(text, at=(at[0] + sx * (reach * 0.7 + 0.5), y), anchor=anchor))


def heart(area: Polygon) -> Point:
    """The centroid of an area, or else a point inside it."""
    centre = area.centroid
    if not area.covers(centre):
        centre = area.point_on_surface()
    return (float(centre.x), float(centre.y))


def _nearest_edge(area: Polygon) -> Point:
    """A point just inside the upper right of an area, for a leader to point at."""
    x0, y0, x1, y1 = area.bounds
    inset = min(1.5, (x1 - x0) / 4, (y1 - y0) / 4)
    spot = shapely.Point(x1 - inset, y1 - inset)
    if not area.covers(spot):
        spot = area.point_on_surface()
    return (float(spot.x), float(spot.y))


def middle_of(line: LineString) -> Point:
    """The point half way along a line."""
    spot = line.interpolate(0.5, normalized=True)
    return (float(spot.x), float(spot.y))


def longest_line(shape: shapely.Geometry) -> LineString | None:
    """The longest line in a shape of any kind; None where it holds none."""
    return max(lines_of(shape), key=lambda part: part.length, default=None)


def hard_lines(marks: Iterable[Mark]) -> list[LineString]:
    """The lines that no label may cross: everything drawn but hatching."""
    soft = {Layer.KEEP_OUT, Layer.HATCH}
    return [path_line(m) for m in marks if isinstance(m, Path) and m.layer not in soft]


def path_line(path: Path) -> LineString:
    """A path as a line string, arcs flattened."""
    from kerfline.geometry.ring import Ring, flatten_arc

    if path.closed:
        ring = Ring(path.points, path.bulges).coordinates
        return LineString([*ring, ring[0]])
    out: list[Point] = [path.points[0]]
    for i, (a, b) in enumerate(zip(path.points, path.points[1:], strict=False)):
        bulge = path.bulges[i] if path.bulges else 0.0
        out.extend(flatten_arc(a, b, bulge)[1:] if bulge else [b])
    return LineString(out)
