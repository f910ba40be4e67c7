"""What the checks measure: the concrete, the joints and the panels between them, taken afresh.

Nothing here comes from whoever made the layout but the lines of its joints, their kinds and depths, and
the names of its panels.
"""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from typing import TypeVar, cast

import shapely
from shapely import LineString, Polygon
from shapely.geometry.base import BaseGeometry

from kerfline.checks.closing import ClosedPanel, closed_panels
from kerfline.checks.net import Net
from kerfline.checks.parting import Parted, parted
from kerfline.checks.wording import Wording, wording_of
from kerfline.geometry.faces import Area
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import TOUCH
from kerfline.model.finding import Finding
from kerfline.model.layout import Joint, Layout
from kerfline.model.slab import TIP, Column, Penetration, Slab
from kerfline.rules.limits import Limits
from kerfline.rules.slab_rules import SlabRules
from kerfline.units import Display

T = TypeVar("T")

SHARE = 0.02
"""A zone that covers less than this share of a panel (a joint cut an inch off its border) is not in it."""


@dataclass(frozen=True, kw_only=True)
class Measures:
    """A slab, a layout and the rules, with what is measured on them.

    Attributes:
        slab: The slab.
        layout: The layout that is held against the rules.
        rules: The rules.
        words: Writes places and measures.
        known: The concrete cut along these very joints, where somebody has cut it already.
        kept: The panels of an earlier layout, which stay themselves where nothing changed them.
    """

    slab: Slab
    layout: Layout
    rules: SlabRules
    words: Wording
    known: Parted | None = None
    kept: Sequence[ClosedPanel] = ()
    _limits: dict[float, Limits] = field(default_factory=dict, repr=False)
    _of_slab: dict[object, object] = field(default_factory=dict, repr=False)

    @cached_property
    def joints(self) -> tuple[Joint, ...]:
        """The joints, in the layout's order."""
        return self.layout.joints

    @cached_property
    def lines(self) -> tuple[LineString, ...]:
        """The lines of the joints."""
        return tuple(j.line for j in self.joints)

    @cached_property
    def tree(self) -> shapely.STRtree:
        """Finds joints by place."""
        return shapely.STRtree(self.lines)

    @cached_property
    def concrete(self) -> Area:
        """The concrete, prepared for many questions."""
        concrete = self.slab.concrete
        shapely.prepare(concrete)
        return concrete

    @cached_property
    def parted(self) -> Parted:
        """The concrete cut along the joints."""
        return self.known or parted(self.concrete, self.lines)

    @property
    def net(self) -> Net:
        """Where joints and edges meet."""
        return self.parted.net

    @cached_property
    def panels(self) -> tuple[ClosedPanel, ...]:
        """The panels that the joints close off, named as in the layout."""
        return closed_panels(self.parted.faces, self.layout.panels, self.kept)

    @cached_property
    def panel_tree(self) -> shapely.STRtree:
        """Finds panels by place."""
        return shapely.STRtree([p.polygon for p in self.panels])

    def limits(self, thickness: float) -> Limits:
        """The rule set's limits at a thickness."""
        if thickness not in self._limits:
            self._limits[thickness] = self.rules.limits(thickness)
        return self._limits[thickness]

    def limits_in(self, panel: ClosedPanel) -> Limits:
        """The limits that hold in a panel."""
        return self.limits(self.thickness_in(panel.polygon))

    def of_slab(self, make: Callable[[Slab], T]) -> T:
        """What is made of the slab alone, made once."""
        if make not in self._of_slab:
            self._of_slab[make] = make(self.slab)
        return cast("T", self._of_slab[make])

    @property
    def slab_limits(self) -> Limits:
        """The limits at the slab's own thickness, for rules that do not turn on it."""
        return self.limits(self.slab.thickness)

    def nearest_joint(self, at: Point) -> tuple[Joint, float] | None:
        """The joint nearest to a place and its distance in mm; None where there are no joints."""
        if not self.lines:
            return None
        spot = shapely.Point(at)
        index = int(self.tree.nearest(spot))
        return self.joints[index], float(self.lines[index].distance(spot))

    def joints_near(self, shape: shapely.Geometry, within: float = 0.0) -> list[int]:
        """Indices of the joints within a distance of a shape, in the layout's order."""
        return sorted(int(i) for i in self.tree.query(shape, "dwithin", within))

    def on_concrete(self, line: LineString) -> BaseGeometry:
        """The parts of a line on the concrete."""
        boxes = [self.slab.boxouts[i] for i in self.boxout_tree.query(line, "intersects")]
        inside = shapely.intersection(line, self.slab.gross)
        return shapely.difference(inside, shapely.union_all(boxes)) if boxes else inside

    @cached_property
    def boundary(self) -> BaseGeometry:
        """The edges of the concrete, prepared for many questions."""
        boundary = self.slab.concrete.boundary
        shapely.prepare(boundary)
        return boundary

    @cached_property
    def boxout_tree(self) -> shapely.STRtree:
        """Finds the areas isolated round columns."""
        return shapely.STRtree(self.slab.boxouts)

    @cached_property
    def _squares(self) -> tuple[list[Column], shapely.STRtree]:
        """The columns with square boxouts, and a tree of the corners of each."""
        found = [(c, edge) for c in self.slab.columns if c.is_square and (edge := c.outline)]
        corners = [shapely.MultiPoint(edge.points) for _, edge in found]
        return [column for column, _ in found], shapely.STRtree(corners)

    def square_at(self, at: Point) -> Column | None:
        """The column whose square boxout has a corner at a place; the first of several."""
        columns, tree = self._squares
        near = tree.query(shapely.Point(at), "dwithin", TIP).tolist()
        return columns[min(near)] if near else None

    @cached_property
    def keep_out_tree(self) -> shapely.STRtree:
        """Finds keep-outs by place."""
        return shapely.STRtree([k.outline.polygon for k in self.slab.keep_outs])

    @cached_property
    def drains(self) -> list[Penetration]:
        """The penetrations whose width is known."""
        return [p for p in self.slab.penetrations if p.diameter]

    @cached_property
    def drain_tree(self) -> shapely.STRtree:
        """Finds ``drains`` by place."""
        return shapely.STRtree([p.footprint for p in self.drains])

    def thickest_along(self, line: LineString) -> float:
        """Thickness of the thickest concrete that a joint crosses."""
        zones = self._zones_at(line)
        over = [own for own, area in zones if area.intersection(line).length > TOUCH]
        beyond = shapely.difference(line, _union(zones)) if zones else line
        return max(over if over and beyond.length <= TOUCH else [*over, self.slab.thickness])

    @cached_property
    def _zones(self) -> list[tuple[float, Polygon]]:
        """Thickness and area of each zone."""
        return [(z.thickness, z.outline.polygon) for z in self.slab.zones]

    @cached_property
    def _zone_tree(self) -> shapely.STRtree:
        return shapely.STRtree([area for _, area in self._zones])

    def _zones_at(self, shape: BaseGeometry) -> list[tuple[float, Polygon]]:
        if not self.slab.zones:
            return []
        return [self._zones[i] for i in sorted(self._zone_tree.query(shape, "intersects").tolist())]

    def thickness_in(self, panel: Polygon) -> float:
        """The thickness whose limits hold for a panel: the least of those in it."""
        zones = self._zones_at(panel)
        if not zones:
            return self.slab.thickness
        least = SHARE * panel.area
        found = [own for own, area in zones if area.intersection(panel).area > least]
        if panel.area - shapely.area(shapely.intersection(panel, _union(zones))) > least:
            found.append(self.slab.thickness)
        return min(found)


def _union(zones: Iterable[tuple[float, Polygon]]) -> BaseGeometry:
    return shapely.union_all([area for _, area in zones])


Check = Callable[[Measures], Iterable[Finding]]
"""A rule, or a part of one: what it finds wrong on the whole."""


def measures_of(
    slab: Slab,
    layout: Layout,
    rules: SlabRules,
    display: Display,
    known: Parted | None = None,
    kept: Sequence[ClosedPanel] = (),
) -> Measures:
    """What the checks measure on a layout; see ``Measures`` for what may be known already."""
    words = wording_of(slab, display)
    return Measures(slab=slab, layout=layout, rules=rules, words=words, known=known, kept=kept)
