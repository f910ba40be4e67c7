"""A drawing as read: its curves in mm, and what is known of its unit.

The sizes and shares below are common practice, weighed on the drawings of the forge (``tests/forge``).
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property
from pathlib import Path, PureWindowsPath

import numpy as np
from ezdxf.document import Drawing as Document

from kerfline.errors import InputRefused, Mistake
from kerfline.files.drawing.curves import Curve, Label, Skipped, Spot, Stated
from kerfline.files.drawing.entities import Harvest, harvest
from kerfline.files.drawing.expansion import refuse_endless
from kerfline.files.drawing.open_file import open_document
from kerfline.files.drawing.size import LEAST_SLAB, DrawnUnit, declared_unit
from kerfline.files.own_records import Record
from kerfline.geometry.near import Crowded
from kerfline.geometry.regions import Enclosed, enclosed
from kerfline.geometry.ring import Ring
from kerfline.units import Unit

MEETS = 25.4
"""Widest gap (mm, one inch) that is closed in an outline without being asked."""

Bounds = tuple[float, float, float, float]


@dataclass(frozen=True, kw_only=True)
class Drawing:
    """What a drawing holds, whatever kind of file it came from.

    Attributes:
        path: The file.
        curves: Every curve of the plan, blocks taken apart, in mm; in drawing units where the unit is open.
        drawn_in: The unit that ``curves`` were read in; None while it is open.
        declared: What the file itself says of its unit; None where it says nothing.
        told: Whether the user stated the unit, not the drawing.
        sure: Whether the unit was settled where the file was read, as the scale of a page is.
        spots: Every drawn point.
        labels: Every text.
        fills: The edges of hatches and other fills.
        stated: The lengths that dimensions state.
        records: What a drawing of ours says of its parts beside the lines.
        counts: Entities by layer and type.
        hidden: Layers that are off or frozen.
        ignored: Entities that draw no edge, by type.
        skipped: What could not be read, and why.
        notes: Sentences about the file.
        blocks: The name of the block of each block reference, by the number that its curves carry as their group.
        attached: Drawings that it only refers to, which are not in the file.
    """

    path: Path
    curves: tuple[Curve, ...]
    drawn_in: DrawnUnit | None = None
    declared: DrawnUnit | None = None
    told: bool = False
    sure: bool = False
    spots: tuple[Spot, ...] = ()
    labels: tuple[Label, ...] = ()
    fills: tuple[Curve, ...] = ()
    stated: tuple[Stated, ...] = ()
    records: tuple[Record, ...] = ()
    counts: Mapping[tuple[str, str], int] = field(default_factory=dict)
    hidden: frozenset[str] = frozenset()
    ignored: Mapping[str, int] = field(default_factory=dict)
    skipped: tuple[Skipped, ...] = ()
    notes: tuple[str, ...] = ()
    blocks: Mapping[int, str] = field(default_factory=dict)
    attached: tuple[str, ...] = ()

    @property
    def factor(self) -> float:
        """Millimetres in one drawing unit; 1 while the unit is open."""
        return self.drawn_in.mm if self.drawn_in else 1.0

    @property
    def unit(self) -> Unit:
        """The unit of a job on this drawing: its own, or of the four that a job may be in the one nearest in kind."""
        return self.drawn_in.job if self.drawn_in else Unit.MM

    @property
    def unit_name(self) -> str:
        """Name of the unit, such as ``inches``; empty while it is open."""
        return self.drawn_in.name if self.drawn_in else ""

    def read_in(self, unit: DrawnUnit, *, told: bool = False) -> "Drawing":
        """The same drawing in a unit."""
        by = unit.mm / self.factor
        if by == 1.0:
            return replace(self, drawn_in=unit, told=told)
        return replace(
            self,
            drawn_in=unit,
            told=told,
            curves=tuple(c.scaled(by) for c in self.curves),
            spots=tuple(s.scaled(by) for s in self.spots),
            labels=tuple(label.scaled(by) for label in self.labels),
            fills=tuple(c.scaled(by) for c in self.fills),
            records=tuple(r.scaled(by) for r in self.records),
        )

    @cached_property
    def layers(self) -> tuple[str, ...]:
        """Layers that something is drawn on, sorted."""
        return tuple(sorted({layer for layer, _ in self.counts}))

    @cached_property
    def block_names(self) -> tuple[str, ...]:
        """The blocks that something is drawn by, sorted."""
        return tuple(sorted(set(self.blocks.values())))

    def of_blocks(self, names: Sequence[str]) -> tuple[Curve, ...]:
        """The curves of block references, each on the block's name in place of its layer."""
        wanted = {group: name for group, name in self.blocks.items() if name in set(names)}
        return tuple(replace(c, layer=wanted[c.group]) for c in self.curves if c.group in wanted)

    @cached_property
    def bounds(self) -> Bounds:
        """Extents of the curves in mm; zeros where there are none."""
        return bounds_of(self.curves)

    def on(self, layer: str) -> tuple[Curve, ...]:
        """The curves on one layer."""
        return self.by_layer.get(layer, ())

    @cached_property
    def by_layer(self) -> Mapping[str, tuple[Curve, ...]]:
        """The curves by layer."""
        sorted_out: dict[str, list[Curve]] = {}
        for curve in self.curves:
            sorted_out.setdefault(curve.layer, []).append(curve)
        return {layer: tuple(curves) for layer, curves in sorted_out.items()}

    def outlines(self, layer: str) -> tuple[Ring, ...]:
        """The closed outlines of a slab's size on a layer, small gaps closed, largest first."""
        return self.linework(layer).rings

    def linework(self, layer: str) -> Enclosed:
        """What a layer encloses of a slab's size; nothing where too much is drawn to look for it."""
        if layer not in self._linework:
            self._linework[layer] = _enclosed(self.on(layer))
        return self._linework[layer]

    @cached_property
    def _linework(self) -> dict[str, Enclosed]:
        return {}


def _enclosed(curves: Sequence[Curve]) -> Enclosed:
    try:
        return enclosed([c.path for c in curves], MEETS, LEAST_SLAB)
    except Crowded:
        return Enclosed(rings=())


def bounds_of(curves: tuple[Curve, ...]) -> Bounds:
    """Extents of curves in mm; zeros where there are none."""
    if not curves:
        return (0.0, 0.0, 0.0, 0.0)
    points = np.asarray([p for c in curves for p in c.path.coordinates])
    (x0, y0), (x1, y1) = points.min(axis=0), points.max(axis=0)
    return (float(x0), float(y0), float(x1), float(y1))


def gather(path: str | Path) -> Drawing:
    """Reads what a DXF holds into plain curves, in the unit that it says it is in, open where it says none.

    Args:
        path: The file.

    Raises:
        InputRefused: The file is no readable DXF, draws nothing, or more than can be read.
    """
    path = Path(path)
    document, notes = open_document(path)
    return drawing_of(document, path, notes)


def drawing_of(document: Document, path: Path, notes: Sequence[str] = ()) -> Drawing:
    """What a document holds, wherever it was read from.

    Args:
        document: The document.
        path: The file that it came from.
        notes: Sentences on how it was read.

    Raises:
        InputRefused: It draws nothing, or more than can be read.
    """
    refuse_endless(path, document)
    declared = declared_unit(document)
    found = harvest(document, declared.mm if declared else 1.0, fine=declared is None)
    if not found.curves:
        raise _nothing_drawn(path, found, document)
    return Drawing(
        path=path,
        curves=tuple(found.curves),
        drawn_in=declared,
        declared=declared,
        spots=tuple(found.spots),
        labels=tuple(found.labels),
        fills=tuple(found.fills),
        stated=tuple(found.stated),
        records=tuple(found.records),
        counts=dict(sorted(found.counts.items())),
        hidden=_hidden(document),
        ignored=dict(sorted(found.ignored.items())),
        skipped=found.skipped,
        notes=(*notes, *_attached(found)),
        blocks=found.blocks,
        attached=tuple(sorted(found.attached)),
    )


def _attached(found: Harvest) -> list[str]:
    """A sentence on each drawing that this one only refers to."""
    return [
        f"The drawing {PureWindowsPath(name).name} is attached and not in this file, so that nothing of it was read: "
        "bind it and save again if it holds a part of the slab."
        for name in sorted(found.attached)
    ]


def _hidden(document: Document) -> frozenset[str]:
    return frozenset(
        str(layer.dxf.name) for layer in document.layers if layer.is_off() or layer.is_frozen()
    )


def _nothing_drawn(path: Path, found: Harvest, document: Document) -> InputRefused:
    sheets_apart = [
        f"the attached drawing {PureWindowsPath(n).name}" for n in sorted(found.attached)
    ]
    held = ", ".join(f"{count} {kind}" for kind, count in sorted(found.ignored.items()))
    why = "; ".join(sorted({f"{s.kind} on {s.layer}: {s.why}" for s in found.skipped}))
    sheets = [
        f"things on the paper-space sheet {name}"
        for name in document.layout_names_in_taborder()
        if name != "Model" and any(e.dxftype() != "VIEWPORT" for e in document.layout(name))
    ]
    return InputRefused(
        Mistake(
            what="the drawing's model space holds no lines, arcs or other curves",
            where=str(path),
            found="; ".join(filter(None, [held, why, *sheets, *sheets_apart])) or "nothing at all",
            remedy="draw the slab in model space, or export the file again: it may be cut off",
        )
    )
