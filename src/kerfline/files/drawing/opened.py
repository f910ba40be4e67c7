"""A drawing as read: its curves in mm, and what is known of its unit."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from pathlib import Path

import numpy as np
from ezdxf.document import Drawing as Document

from kerfline.errors import InputRefused, Mistake
from kerfline.files.drawing.curves import Curve, Label, Skipped, Spot
from kerfline.files.drawing.entities import Harvest, harvest
from kerfline.files.drawing.expansion import refuse_endless
from kerfline.files.drawing.open_file import open_document
from kerfline.files.drawing.size import (
    LEAST_SLAB,
    ask_for_unit,
    declared_factor,
    sizes_of,
    unlikely,
)
from kerfline.geometry.near import Crowded
from kerfline.geometry.regions import enclosed
from kerfline.geometry.ring import Ring
from kerfline.units import Unit

MEETS = 25.4
"""Widest gap (mm, one inch) that is closed in an outline without being asked."""

Bounds = tuple[float, float, float, float]


@dataclass(frozen=True, kw_only=True)
class Drawing:
    """What a drawing holds.

    Attributes:
        path: The file.
        unit: The unit, or of the four that a job may be in the one nearest in kind.
        unit_name: Its name, such as ``inches``.
        told: Whether the user stated the unit, not the drawing.
        factor: Millimetres in one drawing unit.
        curves: Every curve of the model space, blocks taken apart.
        spots: Every drawn point.
        labels: Every text.
        counts: Entities by layer and type.
        hidden: Layers that are off or frozen.
        ignored: Entities that draw no edge, by type.
        skipped: What could not be read, and why.
        notes: Sentences about the file.
    """

    path: Path
    unit: Unit
    unit_name: str
    told: bool
    factor: float
    curves: tuple[Curve, ...]
    spots: tuple[Spot, ...] = ()
    labels: tuple[Label, ...] = ()
    counts: Mapping[tuple[str, str], int] = field(default_factory=dict)
    hidden: frozenset[str] = frozenset()
    ignored: Mapping[str, int] = field(default_factory=dict)
    skipped: tuple[Skipped, ...] = ()
    notes: tuple[str, ...] = ()

    @cached_property
    def layers(self) -> tuple[str, ...]:
        """Layers that something is drawn on, sorted."""
        return tuple(sorted({layer for layer, _ in self.counts}))

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

    @cached_property
    def outlines(self) -> Mapping[str, tuple[Ring, ...]]:
        """The closed outlines on each layer, small gaps closed, largest first."""
        return {layer: _rings(curves) for layer, curves in self.by_layer.items()}


def _rings(curves: Sequence[Curve]) -> tuple[Ring, ...]:
    """The closed outlines of a slab's size; none where too much is drawn to look for them."""
    try:
        return enclosed([c.path for c in curves], MEETS, LEAST_SLAB).rings
    except Crowded:
        return ()


def bounds_of(curves: tuple[Curve, ...]) -> Bounds:
    """Extents of curves in mm; zeros where there are none."""
    if not curves:
        return (0.0, 0.0, 0.0, 0.0)
    points = np.asarray([p for c in curves for p in c.path.coordinates])
    (x0, y0), (x1, y1) = points.min(axis=0), points.max(axis=0)
    return (float(x0), float(y0), float(x1), float(y1))


def read_drawing(path: str | Path, unit: Unit | None = None) -> Drawing:
    """Reads a DXF into curves in mm.

    Args:
        path: The file.
        unit: Unit of the drawing where the user states it; it wins over what the drawing says.

    Raises:
        InputRefused: The file is no readable DXF, draws nothing, or its unit is unknown or at odds with
            the size of what is drawn.
    """
    path = Path(path)
    document, notes = open_document(path)
    refuse_endless(path, document)
    factor, name = (unit.mm, _WORDS[unit]) if unit else declared_factor(document)
    # With no unit, read as millimetres: the sizes in the question are then in drawing units.
    found = harvest(document, factor or 1.0)
    if not found.curves:
        raise _nothing_drawn(path, found, document)
    _check_unit(path, found.curves, factor, name, told=unit is not None)
    return Drawing(
        path=path,
        unit=unit or _job_unit(name),
        unit_name=name,
        told=unit is not None,
        factor=factor,
        curves=tuple(found.curves),
        spots=tuple(found.spots),
        labels=tuple(found.labels),
        counts=dict(sorted(found.counts.items())),
        hidden=_hidden(document),
        ignored=dict(sorted(found.ignored.items())),
        skipped=found.skipped,
        notes=notes,
    )


def _check_unit(
    path: Path, curves: Sequence[Curve], factor: float, name: str, *, told: bool
) -> None:
    """Asks for the unit where there is none, or where nothing drawn has a likely size in it."""
    sizes = sizes_of(curves)
    if not factor:
        raise ask_for_unit(path, sizes[0], "the drawing does not say its unit")
    if all(unlikely(size) for size in sizes):
        what = (
            f"the unit {name} cannot be right for this drawing"
            if told
            else f"the drawing says its unit is {name}, which cannot be right"
        )
        raise ask_for_unit(path, sizes[0].divided(factor), what)


_WORDS = {Unit.FT: "feet", Unit.IN: "inches", Unit.M: "metres", Unit.MM: "millimetres"}


def _job_unit(name: str) -> Unit:
    """The unit of a job on a drawing in the named unit: centimetre drawings make jobs in millimetres."""
    for unit, word in _WORDS.items():
        if word == name:
            return unit
    return Unit.MM if "met" in name else Unit.FT


def _hidden(document: Document) -> frozenset[str]:
    return frozenset(
        str(layer.dxf.name) for layer in document.layers if layer.is_off() or layer.is_frozen()
    )


def _nothing_drawn(path: Path, found: Harvest, document: Document) -> InputRefused:
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
            found="; ".join(filter(None, [held, why, *sheets])) or "nothing at all",
            remedy="draw the slab in model space, or export the file again: it may be cut off",
        )
    )
