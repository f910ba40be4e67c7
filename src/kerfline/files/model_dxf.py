"""Draws the slab and its joints in model space, in real units, with true arcs and real dimensions."""

import math
from collections.abc import Iterable, Sequence
from itertools import pairwise

from ezdxf.document import Drawing
from ezdxf.entities import DXFGraphic
from ezdxf.layouts import Modelspace

from kerfline.files.dxf_marks import MarkWriter
from kerfline.files.dxf_records import RecordWriter
from kerfline.files.dxf_setup import APP_ID, DIM_STYLE, TEXT_HEIGHT, unit_length
from kerfline.files.dxf_shapes import add_curve, add_fill
from kerfline.files.own_records import (
    keep_out_tags,
    penetration_tags,
    slab_tags,
    wall_tags,
    zone_tags,
)
from kerfline.geometry.faces import lines_of
from kerfline.geometry.ring import Point, Ring
from kerfline.model.bars import Bars, bars
from kerfline.model.job import Job
from kerfline.model.layout import Layout
from kerfline.model.slab import Column, Slab
from kerfline.sheets.baselines import Baselines, baselines
from kerfline.sheets.choose import slab_extent
from kerfline.sheets.hatch import hatch_lines
from kerfline.sheets.lettering import text_width
from kerfline.sheets.marks import Layer, Path, Sheet, Text
from kerfline.sheets.placer import spread
from kerfline.sheets.plan_marks import (
    EDGE_LAYERS,
    EDGE_OFFSET,
    KEEP_OUT_PITCH,
    POST_SHARE,
    edge_beside,
    joint_layer,
    opening_cross,
    rings_of,
    thickened_lines,
)
from kerfline.sheets.running import dimension_text
from kerfline.sheets.stations import Station, stations, thinned
from kerfline.units import Display, in_steps, step

ROW = 12.0
"""Distance of the dimensions from the slab on paper, mm."""

TEXT_PITCH = 1.5
"""Least distance of neighbouring dimensions, in heights of their text."""

GREATEST_COUNT = 200
"""Most stations dimensioned along one side."""


def draw_model(document: Drawing, job: Job, layout: Layout, scale: float) -> None:
    """Draws slab, joints, panels' numbers and dimensions in model space."""
    space = document.modelspace()
    drawn = _Model(space, job.slab, unit_length(job), scale)
    drawn.slab_marks()
    drawn.joints(layout)
    drawn.bars(bars(job.slab, layout, job.steel))
    drawn.dimensions(job, layout)
    _extents(document, job, scale)


def draw_plan_marks(document: Drawing, job: Job, sheets: Sequence[Sheet]) -> None:
    """Draws the tags of all plans in model space, at their places."""
    space = document.modelspace()
    for sheet in sheets:
        for view in sheet.views:
            writer = MarkWriter(space, view.to_world, view.scale, -view.turn, unit_length(job))
            marks = sheet.marks_of(view)
            writer.write_all(m for m in marks if isinstance(m, Text | Path) and m.in_plan)


class _Model:
    def __init__(self, space: Modelspace, slab: Slab, unit: float, scale: float) -> None:
        self.space = space
        self.slab = slab
        self.unit = unit
        self.scale = scale

    def slab_marks(self) -> None:
        """Draws what is given, back to front."""
        slab = self.slab
        for wall in slab.walls:
            for ring in rings_of(wall.footprint):
                self._closed(Layer.WALL, ring).set_xdata(APP_ID, wall_tags(wall))
        for keep_out in slab.keep_outs:
            self._ring(Layer.KEEP_OUT, keep_out.outline).set_xdata(APP_ID, keep_out_tags(keep_out))
            for line in hatch_lines(keep_out.outline.polygon, KEEP_OUT_PITCH * self.scale):
                self._line(Layer.KEEP_OUT, line.coords)
        for zone in slab.zones:
            self._ring(Layer.ZONE, zone.outline).set_xdata(APP_ID, zone_tags(zone))
        for column in slab.columns:
            self._column(column)
        for hole in slab.penetrations:
            radius = max(hole.diameter / 2, self.scale * 0.9)
            circle = self.space.add_circle(
                self.at(hole.at), radius / self.unit, dxfattribs={"layer": Layer.PENETRATION.value}
            )
            circle.set_xdata(APP_ID, penetration_tags(hole))
            x, y = hole.at
            for dx, dy in ((1.5 * radius, 0.0), (0.0, 1.5 * radius)):
                self._line(Layer.PENETRATION, ((x - dx, y - dy), (x + dx, y + dy)))
        self._ring(Layer.EDGE, slab.outline).set_xdata(APP_ID, slab_tags(slab, self.unit))
        for opening in slab.openings:
            self._ring(Layer.OPENING, opening)
            for line in opening_cross(opening.polygon):
                self._line(Layer.OPENING, line.coords)
        self._edges()

    def joints(self, layout: Layout) -> None:
        """Draws the joints with id, kind, length and depth (mm) as extended data."""
        straight = RecordWriter(self.space)
        for joint in layout.joints:
            layer = joint_layer(joint, layout)
            data = [
                (1000, joint.id),
                (1000, joint.kind.value),
                (1040, joint.length),
                (1040, joint.depth),
            ]
            if len(joint.path) == 2:  # noqa: PLR2004 - a straight line
                start, end = (self.at(p) for p in joint.path)
                straight.line(start, end, {"layer": layer.value}, _extended(data))
            else:
                self._line(layer, joint.path).set_xdata(APP_ID, data)
        straight.finish()

    def bars(self, laid: Iterable[Bars]) -> None:
        """Draws bars across the re-entrant corners that no joint leaves, and at tees."""
        for place in laid:
            for bar in place.lines:
                self._line(Layer.BARS, bar.coords)

    def dimensions(self, job: Job, layout: Layout) -> None:
        """Running dimensions from the baselines below and left, chains above and right."""
        base = baselines(job.slab)
        along, across = stations(job.slab, layout, base)
        extent = slab_extent(job, base)
        strings = _Strings(self, job.display, base, extent)
        strings.draw(along, upright=False)
        strings.draw(across, upright=True)

    def _edges(self) -> None:
        for edge in self.slab.edges:
            layer = EDGE_LAYERS.get(edge.kind)
            if layer:
                line = edge_beside(self.slab, edge, EDGE_OFFSET * self.scale)
                for part in lines_of(line):
                    self._line(layer, part.coords)
        for _, line in thickened_lines(self.slab):
            self._line(Layer.ZONE, line.coords)

    def _column(self, column: Column) -> None:
        if column.outline:
            self._ring(Layer.ISOLATION, column.outline)
        half = column.size * POST_SHARE / 2
        cos, sin = math.cos(math.radians(column.turn)), math.sin(math.radians(column.turn))
        corners = ((-half, -half), (half, -half), (half, half), (-half, half))
        x, y = column.at
        post = tuple((x + a * cos - b * sin, y + a * sin + b * cos) for a, b in corners)
        self._solid(Layer.COLUMN, post)

    def at(self, point: Sequence[float]) -> Point:
        """A point in drawing units."""
        return (float(point[0]) / self.unit, float(point[1]) / self.unit)

    def _line(self, layer: Layer, path: Iterable[Sequence[float]]) -> DXFGraphic:
        points = [self.at(p) for p in path]
        attribs = {"layer": layer.value}
        if len(points) == 2:  # noqa: PLR2004 - a straight line
            return self.space.add_line(points[0], points[1], dxfattribs=attribs)
        return add_curve(self.space, [(x, y, 0.0) for x, y in points], attribs, closed=False)

    def _closed(self, layer: Layer, ring: Iterable[Point]) -> DXFGraphic:
        points = [(*self.at(p), 0.0) for p in ring]
        return add_curve(self.space, points, {"layer": layer.value}, closed=True)

    def _ring(self, layer: Layer, ring: Ring) -> DXFGraphic:
        points = [(*self.at(p), ring.bulge(i)) for i, p in enumerate(ring.points)]
        return add_curve(self.space, points, {"layer": layer.value}, closed=True)

    def _solid(self, layer: Layer, ring: Sequence[Point]) -> None:
        add_fill(self.space, [[self.at(p) for p in ring]], {"layer": layer.value})


def _extended(data: Iterable[tuple[int, str | float]]) -> str:
    """Extended data as records."""
    return "".join([f"1001\n{APP_ID}\n", *(f"{code}\n{value}\n" for code, value in data)])


class _Strings:
    """Real dimensions along two sides; the drawn text is ours, a program that edits them measures anew."""

    def __init__(
        self, model: _Model, display: Display, base: Baselines, extent: tuple[float, ...]
    ) -> None:
        self.model = model
        self.display = display
        self.base = base
        self.extent = extent

    def draw(self, found: list[Station], *, upright: bool) -> None:
        """The running string on the near side and the chain on the far one."""
        kept = [s.offset for s in thinned(found, self.display, GREATEST_COUNT)]
        pitch = TEXT_PITCH * TEXT_HEIGHT * self.model.scale
        for offset, seat in zip(kept, spread(kept, pitch), strict=True):
            self._ordinate(offset, seat - offset, upright=upright)
        for start, end in pairwise(kept):
            if self._holds(start, end):
                self._link(start, end, upright=upright)

    def _holds(self, start: float, end: float) -> bool:
        """Whether the text of a link finds room in it; the running dimensions tell the others."""
        text = dimension_text(self._rounded(end) - self._rounded(start), self.display)
        return text_width(text, TEXT_PITCH * TEXT_HEIGHT) * self.model.scale <= end - start

    def _ordinate(self, offset: float, aside: float, *, upright: bool) -> None:
        x0, y0, _, _ = self.extent
        row, side = ROW * self.model.scale / self.model.unit, aside / self.model.unit
        feature = self._world((x0, offset) if upright else (offset, y0))
        add = (
            self.model.space.add_ordinate_y_dim if upright else self.model.space.add_ordinate_x_dim
        )
        dim = add(
            feature_location=feature,
            offset=(-row, side) if upright else (side, -row),
            origin=self._world((0.0, 0.0)),
            rotation=self.base.turn,
            dimstyle=DIM_STYLE,
            text=dimension_text(self._rounded(offset), self.display),
            dxfattribs={"layer": Layer.DIMENSION.value},
        )
        dim.render()
        dim.dimension.dxf.text = "<>"

    def _link(self, start: float, end: float, *, upright: bool) -> None:
        _, _, x1, y1 = self.extent
        row = ROW * self.model.scale
        text = dimension_text(self._rounded(end) - self._rounded(start), self.display)
        ends = [(x1, v) if upright else (v, y1) for v in (start, end)]
        foot = (x1 + row, start) if upright else (start, y1 + row)
        dim = self.model.space.add_linear_dim(
            base=self._world(foot),
            p1=self._world(ends[0]),
            p2=self._world(ends[1]),
            angle=self.base.turn + (90.0 if upright else 0.0),
            dimstyle=DIM_STYLE,
            text=text,
            dxfattribs={"layer": Layer.DIMENSION.value},
        )
        dim.render()
        if text == dimension_text(self._rounded(end - start), self.display):
            dim.dimension.dxf.text = "<>"

    def _rounded(self, mm: float) -> float:
        return in_steps(mm, self.display) * step(self.display)

    def _world(self, local: Point) -> Point:
        """A point of the baselines' coordinates in drawing units."""
        cos, sin = math.cos(math.radians(self.base.turn)), math.sin(math.radians(self.base.turn))
        x, y = local
        ox, oy = self.base.origin
        return self.model.at((ox + x * cos - y * sin, oy + x * sin + y * cos))


def _extents(document: Drawing, job: Job, scale: float) -> None:
    x0, y0, x1, y1 = (v / unit_length(job) for v in job.slab.outline.polygon.bounds)
    rim = 4 * ROW * scale / unit_length(job)
    low, high = (x0 - rim, y0 - rim), (x1 + rim, y1 + rim)
    document.modelspace().reset_extents(low, high)
    document.header["$EXTMIN"] = (*low, 0.0)
    document.header["$EXTMAX"] = (*high, 0.0)
    document.set_modelspace_vport(
        height=high[1] - low[1], center=((low[0] + high[0]) / 2, (low[1] + high[1]) / 2)
    )
