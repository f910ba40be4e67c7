"""Tells the strokes of hatches from the lines of a plan: rows of parallel strokes of one pen, evenly spaced.

A page knows no hatches: whoever printed the plan drew them stroke by stroke, often more of them than of everything
else together. They say nothing of where a slab ends, and a stroke among thousands looks like the side of a wall.
"""

import math
from collections import defaultdict
from collections.abc import Sequence

import networkx as nx
import numpy as np
import shapely

from kerfline.geometry.arrays import Flags, Integers, Numbers
from kerfline.geometry.paths import Path

FEWEST = 25
"""Strokes of the smallest hatch; the treads of a stair are fewer."""

WIDEST = 4.0
"""Strokes of a hatch are no farther apart than this, mm of paper."""

NEAREST = 0.05
"""Strokes nearer than this, mm of paper, are one that is drawn twice."""

EVEN = 0.05
"""Share by which the spacing in a hatch may change from one stroke to the next."""

STEP = 0.5
"""Strokes of one hatch turn from each other by no more than this, degrees."""

AT_ONCE = 64
"""Strokes whose neighbours are asked for in one go, so that a pile of them does not fill the memory."""

HALF_TURN = 180.0


def hatch_strokes(paths: Sequence[tuple[str, Path]]) -> set[int]:
    """Which of some paths are strokes of hatches.

    Args:
        paths: Each with its pen, mm of paper.

    Returns:
        Their numbers in the order given.
    """
    rows: dict[tuple[str, int], list[int]] = defaultdict(list)
    for number, (pen, path) in enumerate(paths):
        if len(path.points) == 2 and not path.closed and not path.bulges:  # noqa: PLR2004 -- a stroke
            rows[pen, _direction(path)].append(number)
    found: set[int] = set()
    for (_, direction), numbers in sorted(rows.items()):
        if len(numbers) >= FEWEST:
            found |= _in_rows(numbers, [paths[n][1] for n in numbers], direction * STEP)
    return found


def _direction(path: Path) -> int:
    (ax, ay), (bx, by) = path.points
    angle = math.degrees(math.atan2(by - ay, bx - ax)) % HALF_TURN
    return round(angle / STEP) % round(HALF_TURN / STEP)


def _in_rows(numbers: Sequence[int], strokes: Sequence[Path], angle: float) -> set[int]:
    """The strokes of one pen and direction that lie in rows, evenly spaced and side by side."""
    ends = np.array([stroke.points for stroke in strokes])
    c, s = math.cos(math.radians(angle)), math.sin(math.radians(angle))
    along = ends[..., 0] * c + ends[..., 1] * s
    off = (ends[..., 1] * c - ends[..., 0] * s).mean(axis=1)
    above, gap = _next_above(along.min(axis=1), along.max(axis=1), off)
    even = _even(above, gap)
    graph: nx.Graph[int] = nx.Graph()
    graph.add_edges_from((int(i), int(above[i])) for i in np.flatnonzero(even))
    parts = nx.connected_components(graph)
    return {numbers[i] for part in parts if len(part) >= FEWEST for i in part}


def _next_above(left: Numbers, right: Numbers, off: Numbers) -> tuple[Integers, Numbers]:
    """For each stroke the next one beside it that it overlaps, and how far off that is; -1 where there is none."""
    tree = shapely.STRtree(shapely.box(left, off, right, off))
    reach = shapely.box(left, off + NEAREST, right, off + WIDEST)
    above, gap = np.full(len(off), -1), np.full(len(off), np.nan)
    for start in range(0, len(off), AT_ONCE):
        one, other = tree.query(reach[start : start + AT_ONCE])
        one = one + start
        gaps = off[other] - off[one]
        order = np.lexsort((other, gaps, one))
        one, other, gaps = one[order], other[order], gaps[order]
        first = np.flatnonzero(np.diff(one, prepend=-1))
        above[one[first]], gap[one[first]] = other[first], gaps[first]
    return above, gap


def _even(above: Integers, gap: Numbers) -> Flags:
    """Which strokes lie as far from the next as that from its next, or as the one before from them."""
    has = above >= 0
    same = np.zeros(len(above), dtype=bool)
    same[has] = np.abs(gap[above[has]] / gap[has] - 1) <= EVEN
    told = same.copy()
    told[above[same]] = True
    return told & has
