"""Holds each candidate against what is drawn: what speaks for it, what against it.

The points, and the sizes and shares that they hang on, are common practice, weighed on the drawings of the forge
(``tests/forge``); only the proportions of paper are a standard's.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace

import numpy as np
import shapely
from shapely import Polygon

from kerfline.files.drawing.candidates.candidate import Candidate, Sign, Source, on_ledge
from kerfline.files.drawing.candidates.scene import Scene, share_inside
from kerfline.files.drawing.candidates.unnamed_doubts import SMALL, WALLS_TELL, unnamed_doubts
from kerfline.files.drawing.names import elsewhere, outline_rank
from kerfline.files.drawing.unit_evidence import WALL
from kerfline.geometry.rectangle import enclosing_rectangle
from kerfline.units import counted

BY_NAME = (6.0, 5.0, 4.0, 2.5, 1.5, 1.0)
"""Points for a layer whose name speaks of the slab's edge, the plainest first."""

PLAIN = 3
"""The last rank of names that speak of a slab, its footprint or its foundation; those behind may be any outline."""

DRAWN = {
    Source.CLOSED: 1.0,
    Source.PIECES: 1.0,
    Source.WOVEN: -0.5,
    Source.WALLS: 0.5,
    Source.FILL: 0.5,
}
"""Points for how it is drawn: a line that goes around is plainer than what stands around."""

STRIP = 500.0
"""A figure whose area over half its length around is under this (mm) is a strip: the body of a wall, a footing."""

NO_SLAB = -20.0
"""Points of what cannot be the slab."""

HOLDS = 4.0
"""Points for all of the walls lying inside, less ``HOLDS_NOT``; in proportion for a part of them."""

HOLDS_NOT = 2.0

HUGS = 1.5
"""Points for walls that stand all along the edge, near it."""

HUGGING = 0.9
"""Share of the edge that has a wall beside it for that."""

BESIDE = 450.0
"""A wall stands beside the edge within this distance (mm)."""

ROOMY = 0.45
"""Walls that take up less than this share of a figure are a building on a site, not walls on a slab."""

LARGE = 40e6
"""A closed figure of this size (mm2, 40 square metres) may be a building on a site as well as a hole in a slab."""

SITE = -2.5
WITHIN = -1.5
"""Points for a figure that lies in a larger candidate of its kind: a room, an opening, a line along the edge."""

AXES = -3.0
"""Points for a figure between axes."""

RUN_ON = 500.0
"""Axes run on beyond the outermost of them by more than this (mm), to their bubbles; an edge drawn too long by less."""

ALONG_AXES = 0.9
"""Share of a figure's edge that lies on such lines."""

ROOM_AREA = -3.0
"""Points for a figure along the inner faces of the walls of a plan with doors: a slab goes on under its walls."""

ON_FACE = 5.0
ON_FACES = 0.6
"""A figure runs along faces of walls where this share of its edge lies this near (mm) to them, doors and windows apart."""

WALLS_APART = 0.7
"""The floor within the walls of a plan is at least this share of the whole."""

NAMED_ELSE = -4.0
"""Points for a layer that names something else: a roof, a site, furniture."""

FRAME = -4.0
PAPER = -2.0
TITLES = -3.0
"""Points for a rectangle around everything; for the proportions of paper; for the words of a title block in it."""

ALL = 0.97
"""Share of everything drawn that a frame lies around."""

ROOM = 0.85
"""What a frame lies around leaves room to spare: it takes up less than this share of it."""

RECTANGLE = 0.995
"""A figure that fills this share of its enclosing rectangle is one."""

PAPERS = (
    2**0.5,
    11 / 8.5,
    17 / 11,
    22 / 17,
    34 / 22,
    44 / 34,
    36 / 24,
    42 / 30,
    48 / 36,
    30 / 21,
    24 / 18,
)
"""Long over short side of sheets: ISO 216 A and B, ANSI/ASME Y14.1 A to E, and the architectural sizes."""

PROPORTION = 0.012
"""Share by which a frame's proportion may differ from its paper's: margins are even, not in proportion."""

TITLE = re.compile(
    r"\b(?:SCALE|SHEET|DRAWN BY|CHECKED BY|DRG|DWG|PROJECT|TITLE|REVISION|CLIENT|MASSSTAB|ECHELLE|ESCALA|SCALA)\b"
)

LEAST_CURVES = 10
"""Curves from which on the share that lies in a figure tells whether it is the plan."""


def judged(scene: Scene, candidates: Sequence[Candidate]) -> list[Candidate]:
    """The candidates with their signs, in the same order."""
    bordered = [tuple(_as_frame(scene, c, _within(c, candidates))) for c in candidates]
    borders = [c for c, frame in zip(candidates, bordered, strict=True) if frame]
    bordered = [
        frame or tuple(_as_inner_border(scene, c, borders))
        for c, frame in zip(candidates, bordered, strict=True)
    ]
    plans = [c for c, frame in zip(candidates, bordered, strict=True) if not frame]
    return [
        replace(c, signs=(*_signs(scene, c, plans), *frame), inside=_inside(scene, c))
        for c, frame in zip(candidates, bordered, strict=True)
    ]


def _signs(scene: Scene, candidate: Candidate, plans: Sequence[Candidate]) -> Iterator[Sign]:
    yield Sign(points=DRAWN[candidate.source])
    if candidate.source is Source.WOVEN and _of_axes(scene, candidate):
        words = "its lines run on beyond it at both ends: a grid of axes"
        yield Sign(points=AXES, words=words, around=True)
    yield from _by_name(candidate)
    yield from _by_shape(candidate)
    yield from _by_walls(scene, candidate, plans)
    yield from _by_content(scene, candidate)
    yield from _by_others(scene, candidate, plans)
    yield from unnamed_doubts(scene, candidate)


def _of_axes(scene: Scene, candidate: Candidate) -> bool:
    """Whether the edge of a figure is made of lines that run on beyond it at both ends."""
    polygon = candidate.polygon
    inner = polygon.buffer(RUN_ON)
    shapely.prepare(inner)
    lines = [c.path.line for n in candidate.layers for c in scene.drawing.on(n)]
    axes = [
        line
        for line in lines
        if not inner.intersects(shapely.Point(line.coords[0]))
        and not inner.intersects(shapely.Point(line.coords[-1]))
    ]
    on = polygon.exterior.intersection(shapely.union_all(shapely.buffer(axes, ON_FACE))).length
    return bool(on >= ALONG_AXES * polygon.exterior.length)


def _by_name(candidate: Candidate) -> Iterator[Sign]:
    ranks = [outline_rank(n) for n in candidate.layers]
    if all(r is not None for r in ranks) and ranks:
        best = min(r for r in ranks if r is not None)
        yield Sign(points=BY_NAME[best], words="its layer's name speaks of the slab")
        return
    if candidate.source is not Source.WALLS:
        other = [n for n in candidate.layers if elsewhere(n)]
        if other:
            words = f"its layer {other[0]} names something else"
            yield Sign(points=NAMED_ELSE, words=words, around=True)


def _by_shape(candidate: Candidate) -> Iterator[Sign]:
    polygon = candidate.polygon
    if 2 * polygon.area < STRIP * polygon.length:
        yield Sign(points=NO_SLAB, words="it is a strip, the body of a wall or a footing")
    if polygon.area < SMALL:
        yield Sign(points=-0.5, words="it is small")


def _by_walls(scene: Scene, candidate: Candidate, plans: Sequence[Candidate]) -> Iterator[Sign]:
    if scene.wall_length < WALLS_TELL:
        return
    polygon = candidate.polygon
    near = polygon.buffer(BESIDE / 2)
    shapely.prepare(near)
    inside = sum(w.line.intersection(near).length for w in scene.walls)
    share = inside / scene.wall_length
    words = f"{share:.0%} of the walls stand on it"
    yield Sign(points=HOLDS * share - HOLDS_NOT, words=words)
    if _hugged(scene, polygon) or _ledge(polygon, plans):
        yield Sign(points=HUGS, words="walls stand all along its edge")


def _ledge(polygon: Polygon, plans: Sequence[Candidate]) -> bool:
    """Whether a figure goes around the walls of a building a hand's breadth outside."""
    return any(on_ledge(c.polygon, polygon) for c in plans if c.source is Source.WALLS)


def _hugged(scene: Scene, polygon: Polygon) -> bool:
    """Whether walls stand all along a figure's edge."""
    return scene.wall_length >= WALLS_TELL and _beside(scene, polygon) >= HUGGING


def _beside(scene: Scene, polygon: Polygon) -> float:
    """Share of a figure's edge with a wall beside it."""
    edge = polygon.exterior
    steps = np.asarray(
        [edge.interpolate((i + 0.5) / PROBES, normalized=True) for i in range(PROBES)], dtype=object
    )
    tree = shapely.STRtree([w.line for w in scene.walls])
    found = tree.query(steps, "dwithin", BESIDE)
    return len(set(found[0].tolist())) / PROBES


PROBES = 100
"""Places along an edge that are looked at for a wall beside them."""


def _by_content(scene: Scene, candidate: Candidate) -> Iterator[Sign]:
    if not len(scene.spots):
        return
    share = share_inside(candidate.polygon.buffer(BESIDE), scene.spots)
    if len(scene.spots) >= LEAST_CURVES:
        points = max(2 * share - 1, LEAST_CONTENT)
        yield Sign(points=points, words=f"{share:.0%} of what is drawn lies in it")
    if share >= ALL:
        yield Sign(points=1.0, words="everything lies in it")


LEAST_CONTENT = -0.5
"""Points of a figure that next to nothing lies in: legends and details are drawn beside a plan, too."""


def _by_others(scene: Scene, candidate: Candidate, plans: Sequence[Candidate]) -> Iterator[Sign]:
    """What the other candidates, in it and around it, frames apart, say."""
    polygon = candidate.polygon
    around = [
        c for c in plans if SHARED * c.polygon.area > polygon.area and _in(polygon, c.polygon)
    ]
    walls_tell = scene.wall_length >= WALLS_TELL
    if any(set(c.layers) == set(candidate.layers) for c in around):
        yield Sign(points=WITHIN, words="it lies in a larger outline of its layer")
    elif any(c.source is Source.WALLS for c in around) and walls_tell:
        yield Sign(
            points=WITHIN, words="it lies within the walls: a room, or a thing that stands in one"
        )
    elif any(c.source is Source.CLOSED for c in around) and not walls_tell:
        yield Sign(points=WITHIN, words="it lies in a larger outline")
    unnamed = all(outline_rank(n) is None for n in candidate.layers)
    if unnamed and scene.doors and _along_inner_faces(scene, polygon, plans):
        yield Sign(points=ROOM_AREA, words="it runs along the inner faces of the walls: a room")
    inside = _within(candidate, plans)
    if not walls_tell and any(
        c.source is Source.CLOSED
        and set(c.layers) == set(candidate.layers)
        and c.polygon.area >= LARGE
        for c in inside
    ):
        yield Sign(
            points=SITE,
            words="a closed outline of a building's size lies in it: a site with a building, or a hole in a slab",
            around=True,
        )
    walls = [c for c in inside if c.source is Source.WALLS]
    taken = sum(c.polygon.area for c in walls) / polygon.area
    if walls and taken < ROOMY:
        yield Sign(
            points=SITE, words="the walls take up little of it: a site, or a frame", around=True
        )


def _along_inner_faces(scene: Scene, polygon: Polygon, plans: Sequence[Candidate]) -> bool:
    """Whether a figure's edge runs along faces of walls, within the outer ones: the area of a room, taken off."""
    if not any(_within_walls(polygon, c) for c in plans):
        return False
    edge = polygon.exterior
    near = [f for f in scene.faces if f.distance(edge) <= ON_FACE]
    on = edge.intersection(shapely.union_all(shapely.buffer(near, ON_FACE))).length
    return bool(on >= ON_FACES * edge.length)


def _within_walls(polygon: Polygon, outer: Candidate) -> bool:
    """Whether a figure lies within the walls of a building, or takes up most of another figure, walls apart."""
    if outer.source is not Source.WALLS and polygon.area < WALLS_APART * outer.polygon.area:
        return False
    return _in(polygon, outer.polygon.buffer(-WALL[0], join_style="mitre"))


def _within(candidate: Candidate, every: Sequence[Candidate]) -> list[Candidate]:
    """The candidates that lie in one."""
    polygon = candidate.polygon
    return [
        c
        for c in every
        if c is not candidate and c.polygon.area < SHARED * polygon.area and _in(c.polygon, polygon)
    ]


SHARED = 0.9
"""A candidate lies in another one where it is smaller than this share of it and all but a hair inside."""


def _in(small: Polygon, large: Polygon) -> bool:
    return bool(large.buffer(1.0).covers(small))


def _as_frame(scene: Scene, candidate: Candidate, within: Sequence[Candidate]) -> Iterator[Sign]:
    """What says that a rectangle is the border of a sheet."""
    polygon = candidate.polygon
    if not within or _ledge(polygon, within) or not _may_be_border(scene, candidate):
        return
    outside = 1 - share_inside(polygon.buffer(1.0), scene.spots)
    titles = sum(
        bool(TITLE.search(t.text.upper())) and polygon.intersects(shapely.Point(t.at))
        for t in scene.drawing.labels
    )
    if outside > 1 - ALL:
        return
    largest = max(c.polygon.area for c in within)
    # A second line along the border is no plan in a frame.
    real = [c for c in within if 2 * c.polygon.area >= STRIP * c.polygon.length]
    # Around a handful of lines a building's edge looks just like a sheet's.
    tells = len(scene.spots) > FEW
    if tells and real and largest < ROOM * polygon.area and _room_to_spare(scene, polygon):
        yield Sign(
            points=FRAME,
            words="it is a rectangle around everything, with room to spare: a frame",
            around=True,
        )
        aspect = enclosing_rectangle(polygon).aspect
        if any(abs(aspect / p - 1) < PROPORTION for p in PAPERS):
            yield Sign(points=PAPER, words="it has the proportions of a sheet of paper")
    if titles > 1:
        yield Sign(points=TITLES, words=f"{counted(titles, 'text')} of a title block lie in it")


def _as_inner_border(
    scene: Scene, candidate: Candidate, borders: Sequence[Candidate]
) -> Iterator[Sign]:
    """What says that a rectangle is a second line along the border of a sheet."""
    polygon = candidate.polygon
    if not _may_be_border(scene, candidate):
        return
    if any(
        polygon.area >= SHARED * b.polygon.area and _in(polygon, b.polygon)
        for b in borders
        if b is not candidate
    ):
        yield Sign(points=FRAME, words="it runs along the border of the sheet", around=True)


def _may_be_border(scene: Scene, candidate: Candidate) -> bool:
    """Whether a figure is a rectangle that no walls and no name make a building's."""
    polygon = candidate.polygon
    box = enclosing_rectangle(polygon)
    if polygon.area < RECTANGLE * box.length * box.width:
        return False
    return not (_hugged(scene, polygon) or _plainly_named(candidate))


def _plainly_named(candidate: Candidate) -> bool:
    """Whether its layers' names speak of a slab or foundation: no sheet's border is called so."""
    ranks = [outline_rank(n) for n in candidate.layers]
    return all(r is not None and r <= PLAIN for r in ranks)


def _room_to_spare(scene: Scene, polygon: Polygon) -> bool:
    """Whether next to nothing comes near the inside of an edge."""
    width = min(enclosing_rectangle(polygon).width, enclosing_rectangle(polygon).length)
    inner = polygon.buffer(-RIM * width, join_style="mitre")
    rim = polygon.buffer(1.0).difference(inner)
    shapely.prepare(rim)
    near = int(shapely.intersects(rim, scene.spots).sum()) if len(scene.spots) else 0
    return near <= FEW + RIM * len(scene.spots)


RIM = 0.02
"""Share of a frame's width along its edge in which next to nothing is drawn."""

FEW = 8
"""The frame's own lines and those of its title block: where no more is drawn, nothing tells of a frame."""


def _inside(scene: Scene, candidate: Candidate) -> str:
    """What lies in a candidate, for the list."""
    polygon = candidate.polygon
    shapely.prepare(polygon)
    walls = sum(polygon.intersects(w.line) for w in scene.walls)
    curves = int(shapely.intersects(polygon, scene.spots).sum()) if len(scene.spots) else 0
    texts = int(shapely.intersects(polygon, scene.texts).sum()) if len(scene.texts) else 0
    parts = [
        counted(walls, "stretch of wall")
        if walls == 1
        else f"{walls:,} stretches of wall"
        if walls
        else "",
        counted(curves, "curve"),
        counted(texts, "text") if texts else "",
    ]
    return ", ".join(p for p in parts if p)
