"""What says that a figure is the border of a sheet: a rectangle around everything, a second line along it.

Sizes and shares are common practice, weighed on the drawings of the forge (``tests/forge``); only the proportions of
paper are a standard's.
"""

import re
from collections.abc import Iterator, Sequence

import shapely
from shapely import Polygon

from kerfline.files.drawing.candidates.around import (
    SHARED,
    STRIP,
    hugged,
    lies_in,
    lying_in,
    on_a_ledge,
    plainly_named,
)
from kerfline.files.drawing.candidates.candidate import Candidate, Sign
from kerfline.files.drawing.candidates.scene import Scene, share_inside
from kerfline.geometry.rectangle import enclosing_rectangle
from kerfline.units import counted

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

RIM = 0.02
"""Share of a frame's width along its edge in which next to nothing is drawn."""

FEW = 8
"""The frame's own lines and those of its title block: where no more is drawn, nothing tells of a frame."""


def border_signs(scene: Scene, candidates: Sequence[Candidate]) -> list[tuple[Sign, ...]]:
    """What says of each candidate that it is the border of a sheet; nothing where it is none."""
    first = [tuple(_as_frame(scene, c, lying_in(c, candidates))) for c in candidates]
    borders = [c for c, frame in zip(candidates, first, strict=True) if frame]
    return [
        frame or tuple(_as_inner_border(scene, c, borders))
        for c, frame in zip(candidates, first, strict=True)
    ]


def _as_frame(scene: Scene, candidate: Candidate, within: Sequence[Candidate]) -> Iterator[Sign]:
    """What says that a rectangle is the border of a sheet."""
    polygon = candidate.polygon
    if not within or on_a_ledge(polygon, within) or not _may_be_border(scene, candidate):
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
        polygon.area >= SHARED * b.polygon.area and lies_in(polygon, b.polygon)
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
    return not (hugged(scene, polygon) or plainly_named(candidate))


def _room_to_spare(scene: Scene, polygon: Polygon) -> bool:
    """Whether next to nothing comes near the inside of an edge."""
    width = min(enclosing_rectangle(polygon).width, enclosing_rectangle(polygon).length)
    inner = polygon.buffer(-RIM * width, join_style="mitre")
    rim = polygon.buffer(1.0).difference(inner)
    shapely.prepare(rim)
    near = int(shapely.intersects(rim, scene.spots).sum()) if len(scene.spots) else 0
    return near <= FEW + RIM * len(scene.spots)
