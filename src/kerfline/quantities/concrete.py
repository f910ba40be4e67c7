"""The concrete of a slab: union of footprints at every level, integrated, so nothing counts twice.

A component (slab, zones, turned-down edges, strips under bearing walls) is a footprint that may change
with depth. At each level the footprints are united and clipped to the concrete; a component is
credited with what those before it do not fill already. Levels are the nodes of Gauss-Legendre
quadrature between the depths at which a component begins or ends: two nodes are exact where faces
are upright or slope and the outline is rectilinear, more serve the rest.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import shapely
from shapely import MultiPolygon, Polygon

from kerfline.geometry.faces import Area, polygons_of
from kerfline.model.slab import Slab
from kerfline.quantities.edge_footprint import EdgeBand, edge_bands

NODES = 3
"""Quadrature nodes in each stretch of a depth: exact for polynomials to the fifth degree."""

STRETCHES = 4
"""Stretches between two depths where faces slope, for bands that begin to meet part-way down."""

SLAB = "slab"
"""Name of the component that lies on the graded base."""

Footprint = Polygon | MultiPolygon


@dataclass(frozen=True, kw_only=True)
class Component:
    """One part of the concrete.

    Attributes:
        name: As it stands in the take-off.
        tops: Depths at which its footprint changes abruptly, mm.
        sloping: Whether its footprint changes between those depths.
        at: Its footprint at a depth below the top of the slab.
    """

    name: str
    tops: tuple[float, ...]
    sloping: bool
    at: Callable[[float], Footprint]


@dataclass(frozen=True, kw_only=True)
class Prism:
    """A footprint that stands for some depth of one component.

    Attributes:
        name: Of the component.
        height: Depth it stands for, mm.
        footprint: Its area in plan.
    """

    name: str
    height: float
    footprint: Footprint


@dataclass(frozen=True, kw_only=True)
class ConcreteBody:
    """The concrete as a stack of prisms.

    Attributes:
        prisms: In order of depth; no two of them overlap in space.
    """

    prisms: tuple[Prism, ...]

    def volume(self, region: Polygon | MultiPolygon | None = None) -> float:
        """Volume in mm3 of the whole, or of what lies above and below a region of the plan."""
        return sum(self.by_component(region).values())

    def below_slab(self, region: Polygon | MultiPolygon | None = None) -> float:
        """Volume in mm3 of what thickens the slab: edges, strips and zones, formed by the earth."""
        return sum(v for name, v in self.by_component(region).items() if name != SLAB)

    def by_component(self, region: Polygon | MultiPolygon | None = None) -> dict[str, float]:
        """Volume in mm3 by component, in the order of the components."""
        out: dict[str, float] = {}
        for prism in self.prisms:
            shape = prism.footprint if region is None else prism.footprint.intersection(region)
            out[prism.name] = out.get(prism.name, 0.0) + prism.height * float(shape.area)
        return out


def concrete_body(slab: Slab) -> ConcreteBody:
    """The concrete of a slab, openings and boxouts left out, pipes and posts left in."""
    parts = _components(slab)
    depths = sorted({0.0, *(d for part in parts for d in part.tops)})
    prisms: list[Prism] = []
    for top, bottom in pairwise(depths):
        sloping = any(part.sloping for part in parts)
        for depth, height in _levels(top, bottom, sloping=sloping):
            prisms.extend(_slice(parts, slab.concrete, depth, height))
    return ConcreteBody(prisms=tuple(prisms))


def _slice(parts: Sequence[Component], concrete: Area, depth: float, height: float) -> list[Prism]:
    """The components' own shares of the concrete at one depth."""
    taken: shapely.Geometry = Polygon()
    out = []
    for part in parts:
        shape = part.at(depth).intersection(concrete)
        own = MultiPolygon(polygons_of(shape.difference(taken)))
        if not own.is_empty:
            out.append(Prism(name=part.name, height=height, footprint=own))
            taken = shapely.union(taken, own)
    return out


def _levels(top: float, bottom: float, *, sloping: bool) -> list[tuple[float, float]]:
    """Depths to look at between two, each with the height it stands for."""
    nodes, weights = np.polynomial.legendre.leggauss(NODES if sloping else 1)
    cuts = np.linspace(top, bottom, (STRETCHES if sloping else 1) + 1)
    return [
        (float(start + end + node * (end - start)) / 2, float(weight * (end - start)) / 2)
        for start, end in pairwise(cuts)
        for node, weight in zip(nodes, weights, strict=True)
    ]


def _components(slab: Slab) -> list[Component]:
    """The components in the order in which they are credited."""
    return [
        _slab_component(slab),
        *_zone_components(slab),
        *(_edge_component(band, slab) for band in edge_bands(slab)),
        *_strip_components(slab),
    ]


def _slab_component(slab: Slab) -> Component:
    """The slab at its own thickness; a zone that is thinner takes concrete away from it."""
    thin = [zone for zone in _zone_areas(slab) if zone[0] < slab.thickness]

    def at(depth: float) -> Footprint:
        if depth > slab.thickness:
            return Polygon()
        gone = shapely.union_all([area for thickness, area in thin if depth > thickness])
        return MultiPolygon(polygons_of(slab.concrete.difference(gone)))

    tops = (slab.thickness, *(thickness for thickness, _ in thin))
    return Component(name=SLAB, tops=tops, sloping=False, at=at)


def _zone_areas(slab: Slab) -> list[tuple[float, Footprint]]:
    """Thickness and area of each zone; where zones overlap the first one counts."""
    taken: shapely.Geometry = Polygon()
    out: list[tuple[float, Footprint]] = []
    for zone in slab.zones:
        own = zone.outline.polygon.difference(taken)
        out.append((zone.thickness, MultiPolygon(polygons_of(own))))
        taken = shapely.union(taken, zone.outline.polygon)
    return out


def _zone_components(slab: Slab) -> list[Component]:
    """What thicker zones add below the slab."""
    return [
        _upright(f"thicker zone {zone.id}", area, slab.thickness, thickness)
        for zone, (thickness, area) in zip(slab.zones, _zone_areas(slab), strict=True)
        if thickness > slab.thickness
    ]


def _upright(name: str, area: Footprint, top: float, bottom: float) -> Component:
    def at(depth: float) -> Footprint:
        return area if top < depth <= bottom else Polygon()

    return Component(name=name, tops=(top, bottom), sloping=False, at=at)


def _edge_component(band: EdgeBand, slab: Slab) -> Component:
    def at(depth: float) -> Footprint:
        if depth > band.depth:
            return Polygon()
        return band.footprint(band.width + band.slope * (band.depth - depth))

    return Component(
        name="turned-down edge",
        tops=(slab.thickness, band.depth),
        sloping=band.slope > 0,
        at=at,
    )


def _strip_components(slab: Slab) -> list[Component]:
    """What the strips under bearing walls add."""
    return [
        _strip(
            f"strip under {wall.id}",
            wall.line,
            wall.strip_width,
            wall.strip_depth,
            wall.strip_slope,
        )
        for wall in slab.walls
        if wall.bearing and wall.strip_depth > 0 and wall.strip_width > 0
    ]


def _strip(
    name: str, line: shapely.LineString, width: float, bottom: float, slope: float
) -> Component:
    def at(depth: float) -> Footprint:
        if depth > bottom:
            return Polygon()
        half = width / 2 + slope * (bottom - depth)
        return line.buffer(half, cap_style="flat", join_style="mitre")

    return Component(name=name, tops=(bottom,), sloping=slope > 0, at=at)
