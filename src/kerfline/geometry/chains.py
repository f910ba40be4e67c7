"""Joins loose lines and arcs end to end, closing small gaps, and says where they stay open.

Words: a *loose end* is an end that no other end meets; a *gap* lies between two loose ends; a *junction*
is a place where three or more ends meet.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import networkx as nx
import numpy as np
import shapely

from kerfline.geometry.near import clusters, near_pairs, spots
from kerfline.geometry.paths import Path, tidy
from kerfline.geometry.ring import Point

MEET = 0.5
"""Ends within this (mm) of one another are one place: what copying and rounding leave."""

SQUARE_ENOUGH = 0.34
"""Two lines whose directions differ by more than this (radians, about 20 degrees) meet in a corner."""

SELF_CLOSE = 0.1
"""A chain closes on itself over at most this share of its own length."""


@dataclass(frozen=True, slots=True)
class Gap:
    """The space between two loose ends.

    Attributes:
        start: One end, in mm.
        end: The other end.
    """

    start: Point
    end: Point

    @property
    def size(self) -> float:
        """Distance from end to end in mm."""
        return math.dist(self.start, self.end)


@dataclass(frozen=True, kw_only=True)
class Joined:
    """What joining gave.

    Attributes:
        rings: The closed paths.
        open: The chains that stay open.
        closed: The gaps that were closed, larger than ``MEET``.
    """

    rings: tuple[Path, ...]
    open: tuple[Path, ...]
    closed: tuple[Gap, ...]


def join(paths: Sequence[Path], tolerance: float) -> Joined:
    """Joins paths end to end.

    Ends that meet are joined first; only ends that are still loose then reach over gaps, nearest
    pairs first, so that a notch smaller than the tolerance stays as it is. Paths are not joined through
    junctions. A gap at a corner is closed by carrying both lines on to where they cross, any other by a
    straight piece.

    Args:
        paths: Open and closed paths, tidy.
        tolerance: The widest gap to close, mm.
    """
    rings = [p for p in paths if p.closed]
    chains = _through(unlike([p for p in paths if not p.closed]))
    rings += [c for c in chains if c.closed]
    chains = [c for c in chains if not c.closed]
    closed: list[Gap] = []
    if tolerance > MEET:
        chains, closed = _over_gaps(chains, tolerance)
        rings += [c for c in chains if c.closed]
        chains = [c for c in chains if not c.closed]
    return Joined(rings=tuple(rings), open=tuple(chains), closed=tuple(closed))


def unlike(paths: Sequence[Path]) -> list[Path]:
    """The paths without those drawn twice, whichever way they run."""
    seen: set[tuple[tuple[float, float], ...]] = set()
    kept = []
    for path in paths:
        places = tuple((round(x, 1), round(y, 1)) for x, y in path.coordinates)
        key = min(places, places[::-1])
        if key not in seen:
            seen.add(key)
            kept.append(path)
    return kept


def loose_gaps(chains: Sequence[Path]) -> list[Gap]:
    """For open chains the gaps between loose ends, each end with its nearest, smallest first."""
    ends = [end for chain in chains for end in (chain.start, chain.end)]
    if len(ends) < 2:  # noqa: PLR2004 - a gap has two ends
        return []
    asked = np.asarray(spots(ends), dtype=object)
    mine, nearest = shapely.STRtree(spots(ends)).query_nearest(asked, exclusive=True)
    both = zip(mine.tolist(), nearest.tolist(), strict=True)
    pairs = {(min(i, j), max(i, j)) for i, j in both}
    gaps = [Gap(ends[i], ends[j]) for i, j in sorted(pairs)]
    return sorted((g for g in gaps if g.size > MEET), key=lambda g: g.size)


def places(ends: Sequence[Point], reach: float = MEET) -> list[int]:
    """The number of the place of each end; ends within reach of one another share a place."""
    return clusters(len(ends), *near_pairs(spots(ends), reach))


def _through(paths: Sequence[Path]) -> list[Path]:
    """Chains run through every place where exactly two ends meet."""
    ends = [end for path in paths for end in (path.start, path.end)]
    place = places(ends)
    at: dict[int, list[int]] = {}
    for end, spot in enumerate(place):
        at.setdefault(spot, []).append(end)
    partner = {}
    for meeting in at.values():
        if len(meeting) == 2:  # noqa: PLR2004 - two ends meet
            a, b = meeting
            partner[a], partner[b] = b, a
    return _run(paths, partner)


def _run(paths: Sequence[Path], partner: dict[int, int]) -> list[Path]:
    """Follows the partnership of ends into chains: the open ones by their lower free end, then the closed."""
    ends = _ends(len(paths), partner)
    parts = list(nx.connected_components(ends))
    loose = [[e for e in part if e not in partner] for part in parts]
    free = [min(some) for some in loose if some]
    whole = [min(part) for part, some in zip(parts, loose, strict=True) if not some]
    out = []
    for first in (*sorted(free), *sorted(whole)):
        entered = list(nx.dfs_preorder_nodes(ends, first))[::2]
        run = [paths[e // 2] if e % 2 == 0 else paths[e // 2].reversed() for e in entered]
        out.append(_merged(run, whole=first in partner))
    return [p for p in out if p is not None]


def _ends(count: int, partner: dict[int, int]) -> "nx.Graph[int]":
    """The graph of ends: 2 i is the start of path i, 2 i + 1 its end; edges along paths and between partners.

    No end has more than two edges, so what hangs together is one chain. A path's own edge comes first: a closed
    chain is followed the way its first path runs.
    """
    graph: nx.Graph[int] = nx.Graph()
    graph.add_edges_from((2 * i, 2 * i + 1) for i in range(count))
    graph.add_edges_from(partner.items())
    return graph


def _merged(run: Sequence[Path], *, whole: bool) -> Path | None:
    """One path of several that follow one another; closed where the run came back to its start."""
    points: list[Point] = []
    bulges: list[float] = []
    for path in run:
        joint = bool(points) and math.dist(points[-1], path.start) <= MEET
        if joint:
            points.pop()
            bulges.pop()
        points.extend(path.points)
        bulges.extend(path.bulge(i) for i in range(len(path.points) - 1))
        bulges.append(0.0)
    merged = Path(tuple(points), tuple(bulges) if any(bulges) else ())
    if whole and math.dist(points[0], points[-1]) <= MEET:
        return tidy(merged, MEET)
    return tidy(Path(merged.points, merged.bulges, whole))


def _over_gaps(chains: list[Path], tolerance: float) -> tuple[list[Path], list[Gap]]:
    """Joins loose ends over gaps, nearest pairs first, each end once."""
    pairs = _pairs(chains, tolerance)
    if not pairs:
        return chains, []
    moved = [list(c.points) for c in chains]
    partner: dict[int, int] = {}
    gaps = []
    for a, b in pairs:
        if a in partner or b in partner:
            continue
        partner[a], partner[b] = b, a
        gap = Gap(_end(chains[a // 2], a), _end(chains[b // 2], b))
        gaps.append(gap)
        corner = _corner(chains[a // 2], a, chains[b // 2], b, 2 * gap.size)
        if corner:
            moved[a // 2][0 if a % 2 == 0 else -1] = corner
            moved[b // 2][0 if b % 2 == 0 else -1] = corner
    shifted = [Path(tuple(p), c.bulges) for p, c in zip(moved, chains, strict=True)]
    return _run(shifted, partner), gaps


def _pairs(chains: Sequence[Path], tolerance: float) -> list[tuple[int, int]]:
    """Loose ends within tolerance of one another, nearest first."""
    ends = [end for c in chains for end in (c.start, c.end)]
    place = places(ends)
    lonely = _single(place)
    loose = [i for i, spot in enumerate(place) if spot in lonely]
    first, second = near_pairs(spots([ends[i] for i in loose]), tolerance)
    found = []
    for i, j in zip(first.tolist(), second.tolist(), strict=True):
        a, b = loose[i], loose[j]
        size = math.dist(ends[a], ends[b])
        if not _swallows(chains, a, b, size):
            found.append((round(size, 6), a, b))
    return [(a, b) for _, a, b in sorted(found)]


def _single(place: Sequence[int]) -> set[int]:
    spots, counts = np.unique(np.asarray(place), return_counts=True)
    return set(spots[counts == 1].tolist())


def _swallows(chains: Sequence[Path], a: int, b: int, size: float) -> bool:
    """Whether joining the two ends would close a chain on itself that is hardly longer than the gap."""
    return a // 2 == b // 2 and size > SELF_CLOSE * chains[a // 2].length


def _end(path: Path, end: int) -> Point:
    return path.start if end % 2 == 0 else path.end


def _corner(first: Path, a: int, second: Path, b: int, reach: float) -> Point | None:
    """Where two straight end pieces cross when carried on, if that is near both ends."""
    one, two = _last_piece(first, a), _last_piece(second, b)
    if one is None or two is None:
        return None
    return crossing(one, two, reach)


def _last_piece(path: Path, end: int) -> tuple[Point, Point] | None:
    """The straight piece at an end, from inside out; None where it is an arc."""
    if end % 2 == 0:
        return None if path.bulge(0) else (path.points[1], path.points[0])
    return None if path.bulge(len(path.points) - 2) else (path.points[-2], path.points[-1])


def crossing(one: tuple[Point, Point], two: tuple[Point, Point], reach: float) -> Point | None:
    """Where two lines cross at a fair angle, within reach of the second point of each."""
    (ax, ay), (bx, by) = one
    (cx, cy), (dx, dy) = two
    ux, uy, vx, vy = bx - ax, by - ay, dx - cx, dy - cy
    cross = ux * vy - uy * vx
    size = math.hypot(ux, uy) * math.hypot(vx, vy)
    if not size or abs(cross) < math.sin(SQUARE_ENOUGH) * size:
        return None
    share = ((cx - ax) * vy - (cy - ay) * vx) / cross
    at = (ax + share * ux, ay + share * uy)
    near = math.dist(at, one[1]) <= reach and math.dist(at, two[1]) <= reach
    return at if near else None
