"""Blocks of a large floor that something aslant of both axes crosses, gathered for the general method.

The regular part of the floor stays with the exact search. Neighbouring blocks along a splayed or curved edge
become one piece, so that no joint has to run to that edge where a separator happens to meet it.
"""

from collections.abc import Iterator, Sequence
from itertools import pairwise

import shapely
from shapely import LineString, Polygon

from kerfline.engine.large.blocks import block
from kerfline.engine.lines.features import along_axis
from kerfline.engine.regions.aslant import asks_aslant
from kerfline.engine.regions.region import Region
from kerfline.geometry.faces import polygons_of
from kerfline.geometry.tolerance import TOUCH

SHORT = 150.0
"""Less edge than this (mm) aslant of both axes in one block is a chamfer that any layout takes."""

ROOM = 18.0
"""Gathered pieces are not made larger than this many squares of the span."""

SMALL = 1.0
"""A corner of a block smaller than this, in squares of the span, joins whatever lies beside it."""


def gathered(region: Region, parts: Sequence[Region]) -> tuple[list[Region], list[Region]]:
    """The blocks that run along the axes, and the gathered pieces of the others.

    Args:
        region: The whole floor.
        parts: Its blocks.
    """
    slanted = [i for i, part in enumerate(parts) if is_aslant(part)]
    if not slanted:
        return list(parts), []
    groups = _groups([p.gross for p in parts], slanted, region.working.span)
    taken = {i for group in groups for i in group}
    straight = [part for i, part in enumerate(parts) if i not in taken]
    return straight, [
        block(region, shape)
        for group in groups
        for shape in polygons_of(shapely.union_all([parts[i].gross for i in group]))
    ]


def is_aslant(part: Region) -> bool:
    """Whether edges, walls or given joints of a piece run aslant of both axes."""
    edges = (part.gross.exterior, *part.gross.interiors)
    length = sum(
        LineString(pair).length
        for ring in edges
        for pair in pairwise(ring.coords)
        if along_axis(*pair) is None
    )
    return length > SHORT or asks_aslant(part)


def _groups(shapes: Sequence[Polygon], slanted: Sequence[int], span: float) -> list[list[int]]:
    """Blocks that belong together: slanted neighbours while there is room, small corners in any case."""
    owner = {i: i for i in range(len(shapes))}
    area = {i: shape.area for i, shape in enumerate(shapes)}
    within = set(slanted)
    for length, i, j in sorted(_shared(shapes, slanted), key=lambda s: (-round(s[0]), s[1], s[2])):
        one, other = _head(owner, i), _head(owner, j)
        small = min(area[one], area[other]) < SMALL * span**2
        fits = area[one] + area[other] <= ROOM * span**2
        if one != other and length > TOUCH and (small or (fits and j in within)):
            owner[other] = one
            area[one] += area[other]
            within.add(j)
    heads = sorted({_head(owner, i) for i in within})
    return [[i for i in sorted(within) if _head(owner, i) == head] for head in heads]


def _head(owner: dict[int, int], i: int) -> int:
    while owner[i] != i:
        i = owner[i]
    return i


def _shared(shapes: Sequence[Polygon], slanted: Sequence[int]) -> Iterator[tuple[float, int, int]]:
    """Length of border that each slanted block shares with each neighbour."""
    tree = shapely.STRtree(list(shapes))
    for i in slanted:
        for j in sorted(int(n) for n in tree.query(shapes[i], predicate="intersects")):
            if j != i:
                yield shapes[i].intersection(shapes[j]).length, i, j
