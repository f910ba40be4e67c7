"""Gathers the closed figures that may be the slab.

The sizes and shares below are common practice, weighed on the drawings of the forge (``tests/forge``).
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from shapely import LineString, Polygon

from kerfline.files.drawing.candidates.candidate import LEDGE, Candidate, Source
from kerfline.files.drawing.candidates.paved import paved_floors
from kerfline.files.drawing.candidates.scene import Scene
from kerfline.files.drawing.courts import courts_in
from kerfline.files.drawing.names import elsewhere, names_court, outline_rank, part_named
from kerfline.files.drawing.opened import MEETS
from kerfline.files.drawing.outline import joined_rings
from kerfline.files.drawing.size import LEAST_SLAB
from kerfline.files.drawing.wall_outline import around_walls
from kerfline.files.own_records import SLAB
from kerfline.geometry.near import Crowded
from kerfline.geometry.regions import enclosed
from kerfline.geometry.ring import Ring

MOST = 40
"""Figures of one layer that are looked at, the largest; a slab is not the forty-first."""

MOST_WALLS = 4_000
"""Lines of walls that are wrapped; a drawing with more is not a plan of one floor."""

SAME = 0.97
APART = LEDGE
"""Two figures are one candidate where they share this part of the area of both together, and what only one of them holds
is no wider along its edge than the second (mm): a large roof overhangs its walls by little of their area."""

WOVEN_SAME = 0.99
"""The edge of lines that cross and the outer faces of walls are one only so: else it is inner faces that cross."""


def gathered(scene: Scene) -> list[Candidate]:
    """The figures that may be the slab, each once, largest first."""
    others = _sound([*_closed(scene), *_pieces(scene), *_around_walls(scene), *_fills(scene)])
    tiled = _sound(paved_floors(scene))
    of_tiles = {id(o) for o in others if any(_by_its_tiles(scene, o, t) for t in tiled)}
    plain = [o for o in others if id(o) not in of_tiles]
    paved = [c for c in tiled if not any(_goes_around_too(o, c) for o in plain)]
    return _once([*(plain if paved else others), *paved])


def _sound(candidates: Iterable[Candidate]) -> list[Candidate]:
    return [c for c in candidates if c.polygon.is_valid and c.polygon.area >= LEAST_SLAB]


def _by_its_tiles(scene: Scene, other: Candidate, paved: Candidate) -> bool:
    """Whether a figure is made of lines of the tiles of a floor, not drawn as one curve."""
    if not set(paved.layers).issuperset(other.layers) or other.source is Source.WALLS:
        return False
    if other.source is Source.WOVEN:
        return True
    drawn = [
        c.path.ring().polygon for n in other.layers for c in scene.drawing.on(n) if c.path.closed
    ]
    return paved.alike and not any(d.is_valid and _same(d, other.polygon) for d in drawn)


def _goes_around_too(other: Candidate, paved: Candidate) -> bool:
    """Whether a plainer figure goes around a paved floor, or around the building that the tiles lie in."""
    if other.polygon.area > AROUND_IT * paved.polygon.area:
        return False
    return bool(other.polygon.intersection(paved.polygon).area >= IN_IT * paved.polygon.area)


IN_IT = 0.8
AROUND_IT = 1.25
"""A figure goes around a paved floor where it holds this share of it and is no larger than so many times its area."""


def _closed(scene: Scene) -> Iterator[Candidate]:
    """The closed outlines of each layer that may hold a slab's edge."""
    for layer in scene.layers:
        if part_named(layer):
            continue
        found = scene.drawing.linework(layer)
        rings, woven = list(found.rings), set(map(id, found.woven))
        if outline_rank(layer) is not None:
            rings = joined_rings(rings)
        for ring in rings[:MOST]:
            source = Source.WOVEN if id(ring) in woven else Source.CLOSED
            yield Candidate(ring=ring, layers=(layer,), source=source)


def _pieces(scene: Scene) -> Iterator[Candidate]:
    """Outlines whose pieces lie on several layers that speak of the slab as plainly as one another."""
    ranks: dict[int, list[str]] = {}
    for layer in scene.layers:
        rank = outline_rank(layer)
        if rank is not None and scene.drawing.on(layer):
            ranks.setdefault(rank, []).append(layer)
    for _, named in sorted(ranks.items()):
        if len(named) > 1:
            paths = [c.path for n in named for c in scene.drawing.on(n)]
            try:
                rings = enclosed(paths, MEETS, LEAST_SLAB).rings
            except Crowded:
                continue
            for ring in rings[:MOST]:
                yield Candidate(ring=ring, layers=tuple(named), source=Source.PIECES)


def _around_walls(scene: Scene) -> Iterator[Candidate]:
    """Along the outer faces of the walls of each building, with its courts and without."""
    faces = _untold(scene)
    if not 0 < len(faces) <= MOST_WALLS:
        return
    leaves = [LineString([a.centre, a.at(0.0), a.at(1.0)]).convex_hull for a in scene.doors]
    # A door that swings in it, all of it, says that it is a room behind a wide opening and no recess outside.
    found_all = around_walls(faces, lambda part: any(map(part.covers, leaves)))
    for found in found_all:
        ways = [
            (area, courts)
            for area in filter(None, (found.area, found.doubtful))
            for courts in _with_courts(scene, area)
        ]
        for area, courts in ways:
            yield Candidate(
                ring=Ring.of(area),
                layers=scene.wall_layers,
                source=Source.WALLS,
                gap=found.gap,
                butted=found.butted,
                alike=len(ways) > 1,
                courts=courts,
            )


def _untold(scene: Scene) -> list[LineString]:
    """The faces of walls but those that stand on a slab which the drawing's own records tell."""
    told = [r.area.buffer(MEETS) for r in scene.drawing.records if r.name == SLAB]
    return [f for f in scene.faces if not any(slab.covers(f) for slab in told)]


def _with_courts(scene: Scene, area: Polygon) -> list[tuple[Ring, ...]]:
    """What may be left out of a building as courts: nothing, and them where there are any."""
    words = [t.at for t in scene.drawing.labels if names_court(t.text)]
    courts = courts_in(area, scene.faces, [a.centre for a in scene.doors], words)
    return [(), tuple(map(Ring.of, courts))] if courts else [()]


def _fills(scene: Scene) -> Iterator[Candidate]:
    """The edges of hatches on layers that do not only decorate and are no other part."""
    layers = {n for n in scene.layers if not part_named(n)}
    fills = [f for f in scene.drawing.fills if f.layer in layers]
    rings = [(f, f.path.ring()) for f in fills if f.path.closed]
    sized = [(f, r) for f, r in rings if r.polygon.area >= LEAST_SLAB]
    sized.sort(key=lambda pair: (-round(pair[1].polygon.area), pair[0].layer))
    for fill, ring in sized[:MOST]:
        yield Candidate(ring=ring, layers=(fill.layer,), source=Source.FILL)


def _once(candidates: Sequence[Candidate]) -> list[Candidate]:
    """The candidates without those that are drawn over another: of two alike the one plainer by name, then as drawn.

    A line that names something else, such as a roof, gives way to any other.
    """
    order = list(Source)
    kept: list[Candidate] = []
    ordered = sorted(
        candidates,
        key=lambda c: (
            any(map(elsewhere, c.layers)),
            _rank(c),
            order.index(c.source),
            -round(c.polygon.area),
            c.layers,
        ),
    )
    for candidate in ordered:
        same = next((i for i, k in enumerate(kept) if _drawn_again(k, candidate)), None)
        if same is None:
            kept.append(candidate)
        else:
            kept[same] = replace(kept[same], copies=kept[same].copies + 1)
    return sorted(kept, key=lambda c: (-round(c.polygon.area), c.polygon.bounds))


def _rank(candidate: Candidate) -> int:
    ranks = [outline_rank(n) for n in candidate.layers]
    return min((r for r in ranks if r is not None), default=99)


def _drawn_again(one: Candidate, other: Candidate) -> bool:
    # What goes around the same walls in another way differs by a recess, however small.
    ways = one.alike and other.alike
    by_walls = {one.source, other.source} == {Source.WOVEN, Source.WALLS}
    share = WOVEN_SAME if by_walls else SAME
    alike = _same(one.polygon, other.polygon, share)
    return not ways and bool(one.courts) == bool(other.courts) and alike


def _same(one: Polygon, other: Polygon, share: float = SAME) -> bool:
    small, large = sorted((one.area, other.area))
    if small < share * large or not one.intersects(other):
        return False
    common = one.intersection(other).area
    both = one.area + other.area - common
    return bool(common > share * both and both - common < APART * max(one.length, other.length))
