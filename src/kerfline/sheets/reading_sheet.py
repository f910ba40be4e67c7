"""The picture of a reading: all of the drawing in grey, the outlines that may be the slab numbered over it."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import accumulate, pairwise

import shapely

from kerfline.geometry.faces import lines_of
from kerfline.geometry.ring import Point
from kerfline.sheets.lettering import LINE_PITCH, wrap
from kerfline.sheets.marks import Anchor, Board, Bounds, Fill, Layer, Path, Sheet
from kerfline.sheets.paper import SIZES, PaperSize
from kerfline.units import Display

FRAME = 0.7
HEAVY = 1.0
PLAIN = 0.5
INSET = 6.0
"""Room (mm) between the frame and what stands in it."""

NUMBER = 5.0
"""Height (mm) of a candidate's number."""

APART = 2.3 * NUMBER
"""Numbers stand this far (mm) from one another at least."""

MOST_POINTS = 60_000
"""Points of grey lines that are drawn; of a larger drawing the small things are left out."""

Line = tuple[Point, ...]


@dataclass(frozen=True, kw_only=True)
class Outlined:
    """An outline in the picture.

    Attributes:
        number: What the user calls it.
        ring: Its corners, mm.
        courts: Corners of what is left out of it, mm.
        label: A point inside it, mm.
        taken: Whether it is the slab.
        words: What it is.
    """

    number: int
    ring: Line
    label: Point
    courts: Sequence[Line] = ()
    taken: bool = False
    words: str = ""


@dataclass(frozen=True, kw_only=True)
class Picture:
    """What the picture shows, in mm.

    Attributes:
        title: Its title.
        lines: Everything that is drawn.
        outlines: The outlines that may be the slab.
        walls: Centre lines of the walls that were taken.
        holes: Edges of the openings, columns and penetrations that were taken.
        words: Sentences beside it.
    """

    title: str
    lines: Sequence[Line]
    outlines: Sequence[Outlined]
    walls: Sequence[Line] = ()
    holes: Sequence[Line] = ()
    words: Sequence[str] = field(default_factory=tuple)


def reading_sheet(picture: Picture, display: Display) -> Sheet:
    """The picture on one sheet, as large as it goes, not to a scale.

    Args:
        picture: What it shows.
        display: The family of paper.
    """
    paper = SIZES["a3" if display is Display.METRIC else "tabloid"]
    board = Board()
    left, bottom, right, top = paper.frame
    board.box(Layer.TITLE, (left, bottom, right, top), width=FRAME)
    edge = right - paper.column
    board.line(Layer.TITLE, (edge, bottom), (edge, top))
    place = _placing(picture, (left + INSET, bottom + INSET, edge - INSET, top - INSET))
    _draw(board, picture, place)
    _write(board, picture, paper, edge + INSET / 2)
    return Sheet(
        name="reading",
        title=picture.title,
        number=1,
        count=1,
        paper=paper,
        marks=tuple(board),
    )


class _Placing:
    """From the drawing to the paper."""

    def __init__(self, scale: float, world: Point, at: Point) -> None:
        self.scale, self.world, self.at = scale, world, at

    def point(self, point: Point) -> Point:
        x, y = point[0] - self.world[0], point[1] - self.world[1]
        return (self.at[0] + x * self.scale, self.at[1] + y * self.scale)

    def line(self, line: Line) -> Line:
        return tuple(self.point(p) for p in line)


def _placing(picture: Picture, window: Bounds) -> _Placing:
    """Fits what is drawn near the outlines into a window of the paper."""
    x0, y0, x1, y1 = _world(picture)
    room = AROUND * max(x1 - x0, y1 - y0)
    x0, y0, x1, y1 = x0 - room, y0 - room, x1 + room, y1 + room
    wide, high = window[2] - window[0], window[3] - window[1]
    scale = min(wide / (x1 - x0), high / (y1 - y0))
    middle = ((window[0] + window[2]) / 2, (window[1] + window[3]) / 2)
    return _Placing(scale, ((x0 + x1) / 2, (y0 + y1) / 2), middle)


def _world(picture: Picture) -> Bounds:
    """What is shown: the outlines; where none is taken yet, what is drawn around them too, as far as they are large."""
    rings = [o.ring for o in picture.outlines]
    if not rings or not picture.lines:
        return _bounds(rings or picture.lines)
    x0, y0, x1, y1 = _bounds(rings)
    if any(o.taken for o in picture.outlines):
        return (x0, y0, x1, y1)
    wide, high = x1 - x0, y1 - y0
    a0, b0, a1, b1 = _bounds(picture.lines)
    return (
        min(x0, max(a0, x0 - wide)),
        min(y0, max(b0, y0 - high)),
        max(x1, min(a1, x1 + wide)),
        max(y1, min(b1, y1 + high)),
    )


def _bounds(lines: Sequence[Line]) -> Bounds:
    xs = [x for line in lines for x, _ in line]
    ys = [y for line in lines for _, y in line]
    return (min(xs), min(ys), max(xs), max(ys))


AROUND = 0.08
"""Share of the outlines' size that is shown around them."""


def _draw(board: Board, picture: Picture, place: _Placing) -> None:
    x0, y0, x1, y1 = _world(picture)
    left, low = place.point((x0, y0))
    right, high = place.point((x1, y1))
    window = (left - 2 * INSET, low - 2 * INSET, right + 2 * INSET, high + 2 * INSET)
    for line in _shown([place.line(line) for line in picture.lines], window):
        board.add(Path(layer=Layer.WALL, points=line))
    for line in picture.walls:
        board.add(Path(layer=Layer.CONTROL, points=place.line(line)))
    for line in picture.holes:
        board.add(Path(layer=Layer.OPENING, points=place.line(line), closed=True))
    for outline in reversed(picture.outlines):
        width = HEAVY if outline.taken else PLAIN
        for ring in (outline.ring, *outline.courts):
            edge = place.line(ring)
            board.add(Path(layer=Layer.EDGE, points=edge, closed=True, width=width))
    taken: list[Point] = []
    for outline in picture.outlines:
        taken.append(_free(place.point(outline.label), place.line(outline.ring), taken))
        _number(board, taken[-1], outline)


def _free(at: Point, ring: Line, taken: Sequence[Point]) -> Point:
    """A place for a number where none stands yet: inside, else on the edge."""
    middles = [((a[0] + b[0]) / 2, (a[1] + b[1]) / 2) for a, b in pairwise((*ring, ring[0]))]
    for spot in (at, *middles, *ring):
        if all(math.dist(spot, other) > APART for other in taken):
            return spot
    return at


def _shown(lines: Sequence[Line], window: Bounds) -> list[Line]:
    """What lies in a window of the lines, the longest first, as many as there is room for."""
    x0, y0, x1, y1 = window
    near: list[Line] = []
    for line in lines:
        if all(x0 <= x <= x1 and y0 <= y <= y1 for x, y in line):
            near.append(line)
        elif len(line) > 1:
            cut = shapely.clip_by_rect(shapely.LineString(line), *window)
            near += [tuple((float(x), float(y)) for x, y in p.coords) for p in lines_of(cut)]
    near.sort(key=lambda line: -round(math.dist(line[0], line[len(line) // 2]), 3))
    shown, points = [], 0
    for line in near:
        points += len(line)
        if points > MOST_POINTS:
            break
        shown.append(line)
    return shown


def _number(board: Board, at: Point, outline: Outlined) -> None:
    """The number on a white ground; that of the slab in a frame."""
    half = 0.8 * NUMBER
    x, y = at
    corners = (
        (x - half, y - half),
        (x + half, y - half),
        (x + half, y + half),
        (x - half, y + half),
    )
    board.add(Fill(layer=Layer.TAG, rings=(corners,), tone=1.0))
    width = HEAVY if outline.taken else None
    board.add(Path(layer=Layer.TAG, points=corners, closed=True, width=width))
    base = (x, y - NUMBER / 2)
    board.text(Layer.TAG, base, str(outline.number), NUMBER, anchor=Anchor.MIDDLE)


def _write(board: Board, picture: Picture, paper: PaperSize, x: float) -> None:
    """The words in the column."""
    _, bottom, right, top = paper.frame
    y = top - INSET - paper.text
    board.text(Layer.TITLE, (x, y), picture.title, paper.text)
    y -= LINE_PITCH * paper.text
    said = [*picture.words, *(o.words for o in picture.outlines)]
    blocks = [wrap(words, paper.small, right - x - INSET / 2) for words in said]
    pitch = LINE_PITCH * paper.small
    ends = list(accumulate(paper.small + len(lines) * pitch for lines in blocks))
    room = y - bottom - INSET
    if ends[-1] > room:
        fitting = sum(end <= room - paper.small - pitch for end in ends)
        blocks[fitting:] = [[f"and {len(said) - fitting} more, for which there is no room here"]]
    for lines in blocks:
        y -= paper.small
        for line in lines:
            board.text(Layer.NOTE, (x, y), line, paper.small)
            y -= pitch
