"""The parts of a slab, read from the layers that hold them.

The sizes and shares below are common practice, weighed on the drawings of the forge (``tests/forge``).
"""

from collections.abc import Sequence
from dataclasses import fields
from pathlib import Path

import shapely
from shapely import Polygon

from kerfline.errors import InputRefused
from kerfline.files.drawing.candidates.candidate import Candidate, Source
from kerfline.files.drawing.candidates.scene import scene_of
from kerfline.files.drawing.curves import Curve, Spot
from kerfline.files.drawing.joint_kinds import kinds_of
from kerfline.files.drawing.joint_labels import joint_labels
from kerfline.files.drawing.joints import REACH, read_joints
from kerfline.files.drawing.layers import Layers, blocks_chosen, chosen, unmatched
from kerfline.files.drawing.legend import Legend, legend_of
from kerfline.files.drawing.likely_layers import likely_layers, likely_words
from kerfline.files.drawing.marked import marked_openings
from kerfline.files.drawing.noted_depths import with_depths
from kerfline.files.drawing.opened import Drawing
from kerfline.files.drawing.openings import read_openings
from kerfline.files.drawing.outline import openings_beside, read_outline
from kerfline.files.drawing.read import read_drawing
from kerfline.files.drawing.size import Size, ask_for_unit, unlikely
from kerfline.files.drawing.standing import (
    boxout_curves,
    read_columns,
    read_keep_outs,
    read_penetrations,
)
from kerfline.files.drawing.walls import read_walls
from kerfline.files.drawing.wording import place, wide
from kerfline.files.own_records import with_records
from kerfline.files.slab_parts import SlabParts
from kerfline.geometry.faces import polygons_of
from kerfline.geometry.ring import Ring
from kerfline.model.slab import Column, GivenJoint, JointKind, KeepOut, Penetration, Wall
from kerfline.units import Display, Unit, counted

SMALL = 3_000.0
"""A slab whose longer side is under this (mm) makes the drawing's unit doubtful."""


def read_slab_parts(
    path: str | Path, layers: Layers, unit: Unit | None = None, *, reach: float = REACH
) -> SlabParts:
    """Reads a slab's parts from a DXF.

    Args:
        path: The file.
        layers: Which layers hold what; parts without layers stay empty.
        unit: Unit of the drawing where the user states it.
        reach: How far a joint that stops short or runs over is carried on or cut back, mm.

    Raises:
        InputRefused: The file or its unit is refused (see ``read_drawing``), a layer is not there, or the
            outline is not closed.
    """
    return slab_parts(read_drawing(path, unit), layers, reach=reach)


def slab_parts(
    drawing: Drawing,
    layers: Layers,
    display: Display | None = None,
    *,
    slab: Candidate | None = None,
    mixed: frozenset[str] = frozenset(),
    reach: float = REACH,
) -> SlabParts:
    """Reads a slab's parts from a drawing that is open already; see ``read_slab_parts``.

    Args:
        drawing: The drawing.
        layers: Which layers hold what.
        display: How lengths are written in notes; None for the way of the drawing's unit.
        slab: The outline that is the slab's; None to take the largest on the outline's layers.
        mixed: Layers of walls that hold other things too.
        reach: How far a joint that stops short or runs over is carried on or cut back, mm.
    """
    refuse_unmatched(drawing, layers)
    reader = _Reader(drawing, display or drawing.unit.display, reach)
    reader.notes += _unread(drawing, layers)
    outline, inner = reader.around(slab) if slab else reader.outline(layers)
    openings = (*inner, *reader.openings(layers, outline))
    openings = (*openings, *reader.marked(outline, openings))
    columns = reader.columns(layers, outline)
    parts = SlabParts(
        outline=outline,
        openings=openings,
        walls=reader.walls(layers, outline, mixed),
        columns=columns,
        penetrations=reader.penetrations(layers, outline),
        joints=reader.joints(layers, outline, openings, columns),
        keep_outs=reader.keep_outs(layers, outline),
        notes=tuple(reader.notes),
    )
    return with_records(parts, drawing.records)


def refuse_unmatched(drawing: Drawing, layers: Layers) -> None:
    """Holds the patterns of layers against the drawing.

    Raises:
        InputRefused: One meets no layer, or no block; it lists the layers, and those that may hold the other parts.
    """
    mistakes = unmatched(
        drawing.path,
        drawing.layers,
        layers,
        drawing.block_names,
        lambda: likely_words(likely_layers(scene_of(drawing))),
    )
    if mistakes:
        raise InputRefused(*mistakes)


def _unread(drawing: Drawing, layers: Layers) -> list[str]:
    """Sentences on what the layers that are used hold and could not be read, and on hidden ones."""
    patterns = [p for part in fields(layers) for p in getattr(layers, part.name)]
    used = chosen(drawing.layers, patterns)
    notes = [
        f"{s.layer}: {s.count:,} {s.kind} not read, {s.why}."
        for s in drawing.skipped
        if s.layer in used
    ]
    hidden = [n for n in used if n in drawing.hidden]
    if hidden:
        notes.append(f"Off or frozen in the drawing, and read as you say: {', '.join(hidden)}.")
    return notes


def _concrete(outline: Ring, openings: Sequence[Ring], columns: Sequence[Column]) -> Polygon:
    """The concrete that joints part, also where rings are not sound yet: whoever checks the slab says so."""
    holes = [o.polygon for o in openings] + [c.outline.polygon for c in columns if c.outline]
    gone = shapely.union_all([shapely.make_valid(h) for h in holes])
    parts = polygons_of(shapely.make_valid(outline.polygon).difference(gone))
    return max(parts, key=lambda p: p.area, default=outline.polygon)


def _by_legend(
    legend: Legend, curves: Sequence[Curve], kind: JointKind | None
) -> list[tuple[JointKind | None, list[Curve]]]:
    """Curves of joints by the kind that a legend shows for their types of line, where nothing else says it."""
    if kind:
        return [(kind, list(curves))]
    found: dict[JointKind | None, list[Curve]] = {}
    for curve in curves:
        found.setdefault(legend.of(curve), []).append(curve)
    return [(k, found[k]) for k in (*JointKind, None) if k in found]


class _Reader:
    """Reads one part after the other and gathers what the user should know."""

    def __init__(self, drawing: Drawing, display: Display, reach: float) -> None:
        self.drawing = drawing
        self.display = display
        self.reach = reach
        self.notes: list[str] = list(drawing.notes)
        self.boxouts: tuple[Curve, ...] | None = None

    def outline(self, layers: Layers) -> tuple[Ring | None, tuple[Ring, ...]]:
        """The outline, and the openings drawn on its layers."""
        if not layers.outline:
            return None, ()
        curves = self._curves(layers.outline)
        reading = read_outline(self.drawing.path, curves, self.display)
        self._check_size(reading.outline)
        self.notes += reading.notes
        return reading.outline, reading.openings

    def around(self, slab: Candidate) -> tuple[Ring, tuple[Ring, ...]]:
        """The outline that was chosen, and the openings drawn on its layers."""
        self._check_size(slab.ring)
        if slab.source in (Source.WALLS, Source.TILES):
            return slab.ring, slab.courts
        curves = [c for n in slab.layers for c in self.drawing.on(n)]
        openings, notes = openings_beside(slab.ring, curves, self.display)
        self.notes += notes
        return slab.ring, openings

    def openings(self, layers: Layers, outline: Ring | None) -> tuple[Ring, ...]:
        """The openings on layers of their own."""
        found, notes = read_openings(self._curves(layers.openings), outline, self.display)
        self.notes += notes
        return found

    def marked(self, outline: Ring | None, known: Sequence[Ring]) -> tuple[Ring, ...]:
        """The openings on layers of other names that say themselves what they are."""
        if outline is None:
            return ()
        found = [
            ring
            for ring in marked_openings(self.drawing, outline)
            if not any(k.polygon.intersects(ring.polygon) for k in known)
        ]
        if found:
            first = place(found[0].polygon, self.display)
            self.notes.append(
                f"{counted(len(found), 'opening')} by a cross or a word inside, the first at {first}."
            )
        return tuple(found)

    def walls(
        self, layers: Layers, outline: Ring | None, mixed: frozenset[str]
    ) -> tuple[Wall, ...]:
        """The interior walls."""
        curves = self._curves(layers.walls)
        found, notes = read_walls(curves, outline, self.display, mixed=mixed)
        self.notes += notes
        return found

    def columns(self, layers: Layers, outline: Ring | None) -> tuple[Column, ...]:
        """The columns, with boxouts that are drawn as closed isolation joints."""
        curves = (*self._curves(layers.columns), *self._boxouts(layers))
        spots = self._spots(layers.columns)
        found, notes = read_columns(curves, spots, outline, self.display)
        self.notes += notes
        return found

    def penetrations(self, layers: Layers, outline: Ring | None) -> tuple[Penetration, ...]:
        """What goes through the slab."""
        curves, spots = self._curves(layers.penetrations), self._spots(layers.penetrations)
        found, notes = read_penetrations(curves, spots, outline, self.display)
        self.notes += notes
        return found

    def keep_outs(self, layers: Layers, outline: Ring | None) -> tuple[KeepOut, ...]:
        """Where no saw may go."""
        found, notes = read_keep_outs(self._curves(layers.keep_outs), outline, self.display)
        self.notes += notes
        return found

    def joints(
        self,
        layers: Layers,
        outline: Ring | None,
        openings: Sequence[Ring],
        columns: Sequence[Column],
    ) -> tuple[GivenJoint, ...]:
        """The joints, cut at the concrete's edge."""
        if not layers.joints:
            return ()
        drawing = self.drawing
        legend = legend_of(drawing)
        shown = {n: k for n in legend.layers if (k := legend.of_layer(n))}
        kinds, notes = kinds_of(drawing.path, drawing.layers, drawing.labels, layers.joints, shown)
        self.notes += notes
        boxed = set(map(id, self._boxouts(layers)))
        drawn = [
            (kind or by_legend, curves)
            for kind, names in kinds
            for by_legend, curves in _by_legend(
                legend, [c for n in names for c in drawing.on(n) if id(c) not in boxed], kind
            )
        ]
        concrete = _concrete(outline, openings, columns) if outline else None
        labels = joint_labels(self.drawing.labels)
        found, more = read_joints(drawn, concrete, self.display, reach=self.reach, labels=labels)
        found, depths = with_depths(found, self.drawing.labels, self.display)
        self.notes += (*more, *depths)
        return found

    def _boxouts(self, layers: Layers) -> tuple[Curve, ...]:
        """Curves on joint layers that go around columns."""
        if self.boxouts is None:
            names = chosen(self.drawing.layers, layers.joints)
            self.boxouts = tuple(c for n in names for c in boxout_curves(self.drawing.on(n)))
        return self.boxouts

    def _curves(self, patterns: Sequence[str]) -> tuple[Curve, ...]:
        """The curves on the layers, and of the blocks, that meet the patterns."""
        drawing = self.drawing
        names = chosen(drawing.layers, patterns)
        curves = tuple(c for n in names for c in drawing.on(n))
        blocks = blocks_chosen(drawing.block_names, patterns)
        groups = {c.group for c in curves}
        return (*curves, *(c for c in drawing.of_blocks(blocks) if c.group not in groups))

    def _spots(self, patterns: Sequence[str]) -> tuple[Spot, ...]:
        names = set(chosen(self.drawing.layers, patterns))
        return tuple(s for s in self.drawing.spots if s.layer in names)

    def _check_size(self, outline: Ring) -> None:
        """Refuses an outline of a size that no slab has, and doubts a small one: the unit may be wrong."""
        x0, y0, x1, y1 = outline.polygon.bounds
        size = Size(width=x1 - x0, height=y1 - y0, of="the slab's outline")
        name = self.drawing.unit_name
        if unlikely(size):
            plain = size.divided(self.drawing.factor)
            raise ask_for_unit(self.drawing.path, plain, f"the unit {name} cannot be right")
        if size.longer < SMALL:
            longer = wide(size.longer, self.display)
            self.notes.append(f"The slab is only {longer} long: is the drawing's unit {name}?")
