"""Dividing the panels of a slab into placements along planned joint lines.

A region (a set of panels that hang together) either is a placement, or is cut along one chain of joints and
its pieces are divided further. The cheapest tree of cuts is found by remembering every region once; cost
counts placements first, then re-entrant corners that a placement wraps, then likeness of size, cut
length and screed passes. Large floors go by the best cut of each region in turn.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np
import shapely
from shapely import MultiPolygon, Polygon
from shapely import Point as ShapelyPoint

from kerfline.geometry.corners import corners
from kerfline.geometry.faces import polygons_of
from kerfline.geometry.rectangle import enclosing_rectangle
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import SAME, TOUCH
from kerfline.placement.panel_graph import (
    Border,
    PanelGraph,
    ends_of,
    is_parted,
    panel_graph,
    pieces,
    runs,
    within,
)

POUR_COST = 1.0
CORNER_COST = 2.0
"""A wrapped re-entrant corner is worth two more placements: it is avoided wherever a joint allows."""

OVER_COST = 1000.0
"""A placement over the day's limit, by a panel that is too large alone, comes last of all."""

SIZE_COST = 0.2
"""Weight of the square of a placement's share of the limit: least where all are alike."""

LENGTH_COST = 0.1
"""Weight of a cut's length over the side of a square of the slab's area."""

LANE_COST = 0.02
"""Weight of each screed pass beyond the first."""

MOST_REGIONS = 500
"""Regions remembered before the search goes by the best cut of each region in turn."""

MOST_PANELS = 150
"""A region of more panels is cut at its likeliest chain, and no other way is tried."""

SLACK = 1e-6
"""Share by which a limit may be exceeded: rounding, not concrete."""

Region = int
"""A set of panels, one bit each."""


@dataclass(frozen=True, kw_only=True)
class DayLimit:
    """What one day can take; infinite where nothing limits it, mm3, mm2 and mm."""

    volume: float = math.inf
    area: float = math.inf
    screed: float = math.inf

    @property
    def bounded(self) -> bool:
        """Whether there is any limit at all."""
        return math.isfinite(self.volume) or math.isfinite(self.area)


@dataclass(frozen=True, kw_only=True)
class Sizes:
    """What is measured of the panels.

    Attributes:
        volumes: Concrete of each panel, mm3.
        polygons: Outline of each.
        holes: Openings and boxouts, whose corners no placement can be said to wrap.
    """

    volumes: Sequence[float]
    polygons: Sequence[Polygon]
    holes: MultiPolygon


@dataclass
class Divider:
    """One division: what is known of the panels and what has been found so far."""

    sizes: Sizes
    borders: Sequence[Border]
    limit: DayLimit
    found: dict[Region, tuple[float, tuple[Region, ...]]] = field(default_factory=dict)
    shares: dict[Region, float] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.areas = [float(p.area) for p in self.sizes.polygons]
        self.side = math.sqrt(sum(self.areas))
        self.grown = [_grown(p) for p in self.sizes.polygons]
        self.graph = panel_graph(len(self.sizes.polygons), self.borders)
        self.volumes = np.array(self.sizes.volumes)
        self.centres = np.array([p.representative_point().coords[0] for p in self.sizes.polygons])
        self.courses = {b.chain: _course(b) for b in self.borders if not b.formed}

    def divide(self, region: Region) -> tuple[float, tuple[Region, ...]]:
        """The cheapest placements of a region and their cost."""
        if region in self.found:
            return self.found[region]
        cost, done = self._leaf(region)
        best: tuple[float, tuple[Region, ...]] = (cost, (region,))
        if not done:
            greedy = len(self.found) >= MOST_REGIONS or region.bit_count() > MOST_PANELS
            for least, sides, length in self._likeliest(region) if greedy else self._cuts(region):
                if least >= best[0] - SLACK:
                    break
                parts = [self.divide(piece) for piece in sides]
                total = sum(part[0] for part in parts) + LENGTH_COST * length / self.side
                if total < best[0] - SLACK:
                    best = (total, tuple(r for part in parts for r in part[1]))
        self.found[region] = best
        return best

    def _leaf(self, region: Region) -> tuple[float, bool]:
        """Cost of a region as one placement, and whether cutting it further cannot help."""
        panels, share = members(region), self._share(region)
        over = share > 1 + SLACK
        cost = POUR_COST + SIZE_COST * share**2 + (OVER_COST * share if over else 0.0)
        if not over:
            shape = _closed([self.grown[i] for i in panels])
            wrapped = len(outer_reentrant(shape, self.sizes.holes))
            cost += CORNER_COST * wrapped + LANE_COST * (self._lanes(shape) - 1)
            done = not wrapped
        else:
            done = len(panels) == 1
        return cost, done

    def _lanes(self, shape: Polygon) -> int:
        if math.isinf(self.limit.screed):
            return 1
        return lane_count(enclosing_rectangle(shape).width, self.limit.screed)

    def _cuts(self, region: Region) -> list[tuple[float, list[Region], float]]:
        """Every way to cut a region along one chain: its least cost, the pieces, the length; cheapest first."""
        inside = within(self.graph, members(region))
        cuts = [
            (_regions(inside, run.edges), run.length)
            for run in runs(inside).values()
            if is_parted(inside, run.edges)
        ]
        bounded = [(self._least(*cut), *cut) for cut in cuts]
        return sorted(bounded, key=lambda cut: cut[0])

    def _likeliest(self, region: Region) -> list[tuple[float, list[Region], float]]:
        """The cut that costs least by what lies on its two sides; the first that really parts the region."""
        panels = members(region)
        inside = within(self.graph, panels)
        found = runs(inside)
        centres, volumes = self.centres[panels], self.volumes[panels]
        areas = np.array(self.areas)[panels]

        def cost(chain: int) -> tuple[float, int]:
            (x, y), (dx, dy) = self.courses[chain]
            left = (centres[:, 0] - x) * dy - (centres[:, 1] - y) * dx > 0
            shares = [
                max(
                    float(volumes[side].sum()) / self.limit.volume,
                    float(areas[side].sum()) / self.limit.area,
                )
                for side in (left, ~left)
            ]
            return self._least_of(shares, found[chain].length), chain

        for chain in sorted(found, key=cost):
            length, edges = found[chain]
            if is_parted(inside, edges):
                sides = _regions(inside, edges)
                return [(self._least(sides, length), sides, length)]
        return []

    def _least(self, sides: Sequence[Region], length: float) -> float:
        """What a cut costs at the least, however well its pieces are divided.

        A piece of so many days' limits takes as many placements, and they cost least when all are alike.
        """
        return self._least_of([self._share(side) for side in sides], length)

    def _least_of(self, shares: Sequence[float], length: float) -> float:
        """The same from the shares of a day's limit that the pieces take."""
        total = LENGTH_COST * length / self.side
        for share in shares:
            count = max(1.0, math.ceil(share - SLACK))
            total += POUR_COST * count + SIZE_COST * share**2 / count
        return total

    def _share(self, region: Region) -> float:
        """How much of a day's limit a region takes."""
        if region not in self.shares:
            panels = members(region)
            volume = sum(self.sizes.volumes[i] for i in panels)
            area = sum(self.areas[i] for i in panels)
            self.shares[region] = max(volume / self.limit.volume, area / self.limit.area)
        return self.shares[region]


def _regions(graph: PanelGraph, cut: Sequence[tuple[int, int]] = ()) -> list[Region]:
    """The panels that hang together but for some edges, as regions."""
    return [sum(1 << panel for panel in piece) for piece in pieces(graph, cut)]


def _course(border: Border) -> tuple[Point, Point]:
    """A point on a border and the way it runs."""
    first, last = ends_of(border.lines[0])
    return first, (last[0] - first[0], last[1] - first[1])


def members(region: Region) -> list[int]:
    """The panels of a region in order."""
    return [i for i in range(region.bit_length()) if region >> i & 1]


def lane_count(width: float, screed: float) -> int:
    """Screed passes across a width; an inch or so over the reach is lapped, not another pass."""
    return max(1, math.ceil(width / screed - 0.02))


def joined(polygons: Sequence[Polygon]) -> Polygon:
    """Panels as one outline, hair cracks between them closed."""
    return _closed([_grown(p) for p in polygons])


def _grown(polygon: Polygon) -> Polygon | MultiPolygon:
    return polygon.buffer(TOUCH, join_style="mitre")


def _closed(grown: Sequence[Polygon | MultiPolygon]) -> Polygon:
    shape = shapely.union_all(grown).buffer(-TOUCH, join_style="mitre")
    return max(polygons_of(shape.simplify(TOUCH)), key=lambda p: p.area)


def outer_reentrant(shape: Polygon, holes: MultiPolygon) -> list[Point]:
    """The re-entrant corners of a placement's outer edge, those at openings and boxouts left out."""
    found = [c.at for c in corners(Polygon(shape.exterior)) if c.reentrant]
    return [
        at
        for at in found
        if shapely.distance(holes, ShapelyPoint(at)) > 4 * TOUCH or holes.is_empty
    ]


def exact_union(polygons: Sequence[Polygon]) -> Polygon | MultiPolygon:
    """Panels as one area that keeps their sum."""
    whole = shapely.union_all(polygons, grid_size=SAME / 10)
    parts = polygons_of(whole)
    return parts[0] if len(parts) == 1 else MultiPolygon(parts)


def divide(
    sizes: Sizes,
    borders: Sequence[Border],
    limit: DayLimit,
    *,
    always_split: bool,
) -> list[Region]:
    """Divides the panels into placements.

    Args:
        sizes: The panels.
        borders: Where they meet.
        limit: What one day can take.
        always_split: Whether a slab that fits one day is divided at re-entrant corners all the same.

    Returns:
        The placements; a panel over the limit alone is one of its own.
    """
    fits = not limit.bounded or _fits(sizes, limit)
    if fits and not always_split:
        return kept_apart(sizes, borders)
    divider = Divider(sizes=sizes, borders=borders, limit=limit)
    return [r for part in _regions(divider.graph) for r in divider.divide(part)[1]]


def _fits(sizes: Sizes, limit: DayLimit) -> bool:
    volume, area = sum(sizes.volumes), sum(p.area for p in sizes.polygons)
    return volume <= limit.volume * (1 + SLACK) and area <= limit.area * (1 + SLACK)


def kept_apart(sizes: Sizes, borders: Sequence[Border]) -> list[Region]:
    """The parts of a slab that its construction joints and gaps keep apart, in the order of their panels."""
    return _regions(panel_graph(len(sizes.polygons), borders))
