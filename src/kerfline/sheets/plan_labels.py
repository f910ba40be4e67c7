"""Tags on the plan: joints, panels, columns, penetrations, openings, keep-outs, walls and findings."""

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from itertools import chain, pairwise

import shapely
from shapely import LineString, Polygon

from kerfline.geometry.faces import points_of, polygons_of
from kerfline.geometry.ring import Point
from kerfline.model.bars import BarPlace, Bars
from kerfline.model.finding import Finding
from kerfline.model.layout import Joint, Layout
from kerfline.model.slab import Fall, JointKind, KeepOut, Slab
from kerfline.rules.cover import SPARE_COVER
from kerfline.sheets.fall_marks import arrow_ends, slope_text
from kerfline.sheets.lettering import text_width
from kerfline.sheets.marks import Anchor, Board, Layer, Mark, Path, Text
from kerfline.sheets.numbered import ringed
from kerfline.sheets.placer import Placer, Spot
from kerfline.sheets.running import level_text
from kerfline.sheets.spots import (
    Room,
    around,
    beside,
    close_by,
    farther,
    heart,
    inside,
    longest_line,
    middle_of,
    nearest_edge,
)
from kerfline.sheets.view import View
from kerfline.units import Display, format_depth, step

CODES = {
    JointKind.CONTROL: "CTLJ",
    JointKind.CONSTRUCTION: "CNTJ",
    JointKind.ISOLATION: "ISOL",
}
"""Letter tags that cannot be mistaken, the same as the layers' (a bare CJ means two things)."""


SAME_PLACE = 3.0
"""Findings nearer than about this on paper (mm) share one label."""

TYPICAL = "TYP"
"""Stands beside one of several alike."""


CODE_ROOM = 1.6
"""A joint shows its letter code where it is this many times longer than the tag."""

HAIR = 1e-6
"""Slack in steps with which a depth is rounded down."""

NO_CUT = "no cut"
"""What stands on a keep-out that no saw may enter."""

SAME_AREA = 1e6
"""Panels whose areas (mm2) round to the same multiple of this are named in their own order."""

CLOSE = 1.6
"""Reach (mm) from the middle of an arrow that its slope keeps off."""

LEAST_PIECE = 3.0
"""Pieces of a joint shorter than this on paper (mm) get no tag of their own."""


@dataclass
class LeftOut:
    """What found no room on a plan.

    Attributes:
        tags: Names of what has no tag.
        places: Where on the slab, mm.
        ties: Ties in words, which stand nowhere else.
    """

    tags: list[str] = field(default_factory=list)
    places: list[Point] = field(default_factory=list)
    ties: list[str] = field(default_factory=list)


@dataclass
class Labeller:
    """Writes tags on a plan and remembers what found no room.

    Attributes:
        board: Where the tags go.
        placer: What takes up room.
        view: Slab to paper.
        height: Capital height of tags in mm.
        display: How lengths are written.
    """

    board: Board
    placer: Placer
    view: View
    height: float
    display: Display

    def __post_init__(self) -> None:
        """Starts with nothing left out."""
        self.left_out = LeftOut()

    def put(self, name: str, spots: Iterable[Spot]) -> bool:
        """Writes one label where it finds room; whether it did."""
        spot = self.found(name, spots)
        if spot:
            self.write(spot)
        return spot is not None

    def found(self, name: str, spots: Iterable[Spot]) -> Spot | None:
        """Takes room for one label, far off with a long leader where nothing near is free.

        Returns:
            Where it stands; None where there is no room. It is noted, and the plan is then drawn larger.
        """
        led: list[Spot] = []
        first: list[Point] = []

        def watched() -> Iterator[Spot]:
            for spot in spots:
                first[:] = [*first, spot.leader[0] if spot.leader else spot.text.at][:1]
                if spot.leader:
                    led[:] = [spot]
                yield spot

        spot = self.placer.place(watched())
        if spot is None and led:
            spot = self.placer.reach(_farther(led[0]))
        if spot is None:
            self.left_out.tags.append(name)
            self.left_out.places.extend(self.view.to_world(at) for at in first)
        return spot

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


def _farther(spot: Spot) -> Iterator[Spot]:
    """The same label at the end of longer leaders."""
    for far in farther(spot.leader[0], spot.text):
        yield ringed(far, spot.radius) if spot.radius else far


def label_plan(maker: Labeller, slab: Slab, layout: Layout, findings: Sequence[Finding]) -> None:
    """Writes every tag, the hardest to place first."""
    label_findings(maker, findings)
    label_features(maker, slab)
    label_joints(maker, layout.joints)
    label_panels(maker, layout)
    label_areas(maker, slab)


def label_joints(maker: Labeller, joints: Sequence[Joint]) -> None:
    """Tags beside the joints, along them."""
    for joint, shown in maker.view.among(joints, lambda j: j.line):
        line = longest_line(shown)
        if line is None or line.length < LEAST_PIECE:
            continue
        code = CODES[joint.kind]
        full = joint.id if joint.id.startswith(code) else f"{joint.id} {code}"
        roomy = line.length >= CODE_ROOM * text_width(full, maker.height)
        text = maker.text(Layer.TAG, full if roomy else joint.id, joint.id)
        short = maker.text(Layer.TAG, joint.id, joint.id)
        spots = chain(beside(line, text), beside(line, short), around(middle_of(line), short))
        maker.put(joint.id, spots)


def label_panels(maker: Labeller, layout: Layout) -> None:
    """Numbers inside the panels, small ones first; a leader where one does not fit."""
    found = maker.view.among(layout.panels, lambda p: p.polygon)
    for panel, shown in sorted(found, key=lambda f: round(f[0].area / SAME_AREA)):
        parts = polygons_of(shown)
        if not parts:
            continue
        if not belongs(maker.view, panel.polygon):
            continue  # another sheet names it
        room = Room(max(parts, key=lambda p: p.area))
        text = maker.text(Layer.PANEL, panel.id, panel.id)
        spots = chain(inside(room, text), around(room.heart, text))
        maker.put(panel.id, spots)


def belongs(view: View, area: Polygon) -> bool:
    """Whether an area is named in this view: its heart lies there, and on a border only above and right."""
    x, y = view.to_paper(heart(area))
    x0, y0, x1, y1 = view.own
    return x0 <= x < x1 and y0 <= y < y1


def label_features(maker: Labeller, slab: Slab) -> None:
    """Names of columns and penetrations, close beside them, and slopes beside their arrows."""
    window = maker.view.window_box
    for fall in slab.falls:
        _slopes(maker, fall)
    for column in slab.columns:
        at = maker.view.to_paper(column.at)
        if window.covers(shapely.Point(at)):
            reach = column.size / maker.view.scale * 0.75
            text = maker.text(Layer.TAG, column.id, column.id)
            maker.put(column.id, chain(close_by(at, reach, text), around(at, text)))
    for hole in slab.penetrations:
        at = maker.view.to_paper(hole.at)
        if window.covers(shapely.Point(at)):
            reach = max(hole.diameter / 2 / maker.view.scale, 1.2)
            text = maker.text(Layer.TAG, f"{hole.id} {hole.kind.value}", hole.id)
            short = maker.text(Layer.TAG, hole.id, hole.id)
            spots = ((close_by(at, reach, words), around(at, words)) for words in (text, short))
            maker.put(hole.id, chain.from_iterable(chain.from_iterable(spots)))


def label_areas(maker: Labeller, slab: Slab) -> None:
    """Names of openings, keep-outs, zones and walls."""
    for i, opening in enumerate(slab.openings, 1):
        _area(maker, opening.polygon, f"opening {i}", f"O{i}")
    for keep_out in slab.keep_outs:
        words = f"{keep_out.id} {cut_allowed(keep_out, maker.display)}: {keep_out.what}"
        _area(maker, keep_out.outline.polygon, words, keep_out.id)
    for zone in slab.zones:
        thick = format_depth(zone.thickness, maker.display)
        top = "" if zone.level is None else f", top {level_text(zone.level, maker.display)}"
        _area(maker, zone.outline.polygon, f"{zone.id} {thick} thick{top}", zone.id)
    for wall in slab.walls:
        if not maker.view.sees(wall.footprint):
            continue
        line = longest_line(maker.view.clipped(wall.line))
        if line is not None and line.length > LEAST_PIECE:
            text = maker.text(Layer.TAG, wall.id, wall.id)
            gap = wall.thickness / 2 / maker.view.scale + 0.9
            maker.put(wall.id, chain(beside(line, text, gap), around(middle_of(line), text)))


def _slopes(maker: Labeller, fall: Fall) -> None:
    """How steeply a floor falls, beside each of its arrows that has room, and by all means beside one."""
    if fall.slope is None:
        return
    text = maker.text(Layer.TAG, slope_text(fall.slope), f"slope {fall.id}")
    arrows = [LineString(ends) for ends in arrow_ends(fall, maker.view)]
    spots = (chain(beside(line, text), close_by(middle_of(line), CLOSE, text)) for line in arrows)
    found = [spot for near in spots if (spot := maker.placer.place(near)) is not None]
    for spot in found:
        maker.write(spot)
    if arrows and not found:
        maker.put(
            f"slope {fall.id}", chain.from_iterable(around(middle_of(a), text) for a in arrows)
        )


def keep_out_words(slab: Slab, display: Display) -> list[str]:
    """How deep a saw may go in each keep-out that it may go in at all, a sentence each."""
    allowed = ((keep_out, cut_allowed(keep_out, display)) for keep_out in slab.keep_outs)
    return [f"{k.id}, {k.what}: {words}." for k, words in allowed if words != NO_CUT]


def cut_allowed(keep_out: KeepOut, display: Display) -> str:
    """How deep a saw may go in a keep-out, in words."""
    deepest = (keep_out.cover or 0.0) - SPARE_COVER
    if deepest <= 0:
        return NO_CUT
    unit = step(display)
    return f"cut no deeper than {format_depth(math.floor(deepest / unit + HAIR) * unit, display)}"


def label_bars(maker: Labeller, laid: Sequence[Bars]) -> None:
    """Names the bars at corners and those at tees, once each; the legend names them as well, and gives the detail."""
    for place in BarPlace:
        lines = [line for bars in laid if bars.place is place for line in bars.lines[-1:]]
        seen = (longest_line(part) for _, part in maker.view.among(lines, lambda line: line))
        found = [line for line in seen if line is not None]
        text = maker.text(Layer.TAG, "bars" if len(found) == 1 else f"bars {TYPICAL}", "bars")
        spots = (around(middle_of(line), text) for line in found if line.length > HAIR)
        spot = maker.placer.place(chain.from_iterable(spots))
        if spot:
            maker.write(spot)


def label_from_edge(maker: Labeller, shown: Sequence[Polygon], words: str, short: str) -> None:
    """Writes words with a leader from the middle of an area's edge, the longest that has room; else short ones."""
    rings = [points_of(part.exterior) for part in shown]
    sides = sorted((LineString(s) for r in rings for s in pairwise(r)), key=lambda s: -s.length)
    texts = (maker.text(Layer.TAG, text, words) for text in (words, short))
    spots = (around(middle_of(side), text) for text in texts for side in sides)
    if shown:
        maker.put(words, chain.from_iterable(spots))


def _area(maker: Labeller, area: Polygon, words: str, ref: str) -> None:
    shown = polygons_of(maker.view.clipped(area))
    if shown:
        largest = max(shown, key=lambda p: p.area)
        text = maker.text(Layer.TAG, words, ref)
        short = maker.text(Layer.TAG, ref, ref)
        edge = nearest_edge(largest)
        maker.put(
            ref,
            chain(
                around(edge, text),
                inside(Room(largest), text),
                inside(Room(largest), short),
                around(edge, short),
            ),
        )


def label_findings(maker: Labeller, findings: Sequence[Finding]) -> None:
    """Numbered marks at the places of the findings, in the order of the list."""
    for at, numbers in by_place(findings, maker.view):
        words = " ".join(f"F{n}" for n in numbers)
        text = maker.text(Layer.FINDING, words, words)
        maker.put(words, around(at, text))


def by_place(findings: Sequence[Finding], view: View) -> list[tuple[Point, list[int]]]:
    """The places on the paper where findings are, with the numbers of those that share each."""
    places: list[tuple[Point, list[int]]] = []
    cells: dict[tuple[int, int], list[int]] = {}
    for number, finding in enumerate(findings, 1):
        at = view.to_paper(finding.at)
        if not view.window_box.covers(shapely.Point(at)):
            continue
        column, row = (round(v / SAME_PLACE) for v in at)
        near = (
            i
            for x in (column - 1, column, column + 1)
            for y in (row - 1, row, row + 1)
            for i in cells.get((x, y), ())
        )
        together = next((i for i in near if math.dist(places[i][0], at) <= SAME_PLACE), None)
        if together is None:
            cells.setdefault((column, row), []).append(len(places))
            places.append((at, [number]))
        else:
            places[together][1].append(number)
    return places


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
