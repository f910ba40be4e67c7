"""Holds each candidate against what is drawn: what speaks for it, what against it.

The points, and the sizes and shares that they hang on, are common practice, weighed on the drawings of the forge
(``tests/forge``).
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace

import shapely

from kerfline.files.drawing.candidates.around import (
    BESIDE,
    SHARED,
    STRIP,
    along_inner_faces,
    hugged,
    lies_in,
    lying_in,
    of_axes,
    on_a_ledge,
)
from kerfline.files.drawing.candidates.candidate import Candidate, Sign, Source
from kerfline.files.drawing.candidates.rooms_drawn import rooms_in
from kerfline.files.drawing.candidates.scene import Scene, share_inside
from kerfline.files.drawing.candidates.sheet_border import ALL, border_signs
from kerfline.files.drawing.candidates.unnamed_doubts import SMALL, WALLS_TELL, unnamed_doubts
from kerfline.files.drawing.names import elsewhere, outline_rank
from kerfline.units import counted

BY_NAME = (6.0, 5.0, 4.0, 2.5, 1.5, 1.0)
"""Points for a layer whose name speaks of the slab's edge, the plainest first."""

DRAWN = {
    Source.CLOSED: 1.0,
    Source.PIECES: 1.0,
    Source.WOVEN: -0.5,
    Source.TILES: -0.5,
    Source.WALLS: 0.5,
    Source.FILL: 0.5,
}
"""Points for how it is drawn: a line that goes around is plainer than what stands around."""

NO_SLAB = -20.0
"""Points of what cannot be the slab."""

HOLDS = 4.0
"""Points for all of the walls lying inside, less ``HOLDS_NOT``; in proportion for a part of them."""

HOLDS_NOT = 2.0

HUGS = 1.5
"""Points for walls that stand all along the edge, near it."""

ROOMY = 0.45
"""Walls that take up less than this share of a figure are a building on a site, not walls on a slab."""

LARGE = 40e6
"""A closed figure of this size (mm2, 40 square metres) may be a building on a site as well as a hole in a slab."""

SITE = -2.5

WITHIN = -1.5
"""Points for a figure that lies in a larger candidate of its kind: a room, an opening, a line along the edge."""

AXES = -3.0
"""Points for a figure between axes."""

ROOM_AREA = -3.0
"""Points for a figure along the inner faces of the walls of a plan with doors: a slab goes on under its walls."""

HOUSE = 3.0
"""Points for an outline whose rooms stand along its edge, a wall apart, and hold their names; less for each of them."""

NAMED_ELSE = -4.0
"""Points for a layer that names something else: a roof, a site, furniture."""

LEAST_CURVES = 10
"""Curves from which on the share that lies in a figure tells whether it is the plan."""


def judged(scene: Scene, candidates: Sequence[Candidate]) -> list[Candidate]:
    """The candidates with their signs, in the same order."""
    rooms = [rooms_in(scene, c, candidates) for c in candidates]
    bordered = [
        () if own else frame
        for own, frame in zip(rooms, border_signs(scene, candidates), strict=True)
    ]
    plans = [c for c, frame in zip(candidates, bordered, strict=True) if not frame]
    every_room = [room for own in rooms for room in own]
    return [
        replace(
            c,
            signs=(
                *_signs(scene, c, plans, house=bool(own)),
                *_by_rooms(c, own, every_room),
                *frame,
            ),
            inside=_inside(scene, c),
        )
        for c, own, frame in zip(candidates, rooms, bordered, strict=True)
    ]


def _by_rooms(
    candidate: Candidate, own: Sequence[Candidate], every_room: Sequence[Candidate]
) -> Iterator[Sign]:
    if own:
        words = "rooms stand along its edge, a wall apart, and hold their names"
        yield Sign(points=HOUSE, words=words)
    if any(candidate is room for room in every_room):
        yield Sign(points=-HOUSE, words="a text names it a room")


def _signs(
    scene: Scene, candidate: Candidate, plans: Sequence[Candidate], *, house: bool
) -> Iterator[Sign]:
    yield Sign(points=DRAWN[candidate.source])
    if candidate.source is Source.WOVEN and of_axes(scene, candidate):
        words = "its lines run on beyond it at both ends: a grid of axes"
        yield Sign(points=AXES, words=words, around=True)
    yield from _by_name(candidate)
    yield from _by_shape(candidate)
    yield from _by_walls(scene, candidate, plans)
    yield from _by_content(scene, candidate)
    yield from _by_others(scene, candidate, plans)
    if not house and candidate.source is not Source.TILES:
        yield from _as_site(scene, candidate, lying_in(candidate, plans))
    yield from unnamed_doubts(scene, candidate)


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
    if hugged(scene, polygon) or on_a_ledge(polygon, plans):
        yield Sign(points=HUGS, words="walls stand all along its edge")


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
        c for c in plans if SHARED * c.polygon.area > polygon.area and lies_in(polygon, c.polygon)
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
    if unnamed and scene.doors and along_inner_faces(scene, candidate, plans):
        yield Sign(points=ROOM_AREA, words="it runs along the inner faces of the walls: a room")


def _as_site(scene: Scene, candidate: Candidate, inside: Sequence[Candidate]) -> Iterator[Sign]:
    """What says that a figure goes around a building and its ground, or a hole."""
    if scene.wall_length < WALLS_TELL and any(
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
    taken = sum(c.polygon.area for c in walls) / candidate.polygon.area
    if walls and taken < ROOMY:
        yield Sign(
            points=SITE, words="the walls take up little of it: a site, or a frame", around=True
        )


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
