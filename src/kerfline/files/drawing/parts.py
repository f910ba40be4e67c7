"""The parts of a slab, read from the layers that hold them."""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from kerfline.errors import InputRefused
from kerfline.files.drawing.curves import Curve
from kerfline.files.drawing.layers import Layers, chosen, unmatched
from kerfline.files.drawing.opened import Drawing, read_drawing
from kerfline.files.drawing.outline import read_openings, read_outline
from kerfline.files.drawing.walls import read_walls
from kerfline.geometry.ring import Ring
from kerfline.model.slab import Column, GivenJoint, KeepOut, Penetration, Wall
from kerfline.units import Display, Unit


@dataclass(frozen=True, kw_only=True)
class SlabParts:
    """What the layers of a drawing give of a slab.

    Attributes:
        outline: The slab's edge; None where no layer was named for it.
        openings: Holes, those drawn inside the outline on its own layers first.
        walls: Interior walls.
        columns: Columns with their boxouts.
        penetrations: Pipes, drains and the like.
        joints: Joints that are drawn.
        keep_outs: Areas where no saw may go.
        notes: Sentences on what was used, repaired, assumed and left out, and why.
    """

    outline: Ring | None = None
    openings: tuple[Ring, ...] = ()
    walls: tuple[Wall, ...] = ()
    columns: tuple[Column, ...] = ()
    penetrations: tuple[Penetration, ...] = ()
    joints: tuple[GivenJoint, ...] = ()
    keep_outs: tuple[KeepOut, ...] = ()
    notes: tuple[str, ...] = ()


def read_slab_parts(path: str | Path, layers: Layers, unit: Unit | None = None) -> SlabParts:
    """Reads a slab's parts from a DXF.

    Args:
        path: The file.
        layers: Which layers hold what; parts without layers stay empty.
        unit: Unit of the drawing where the user states it.

    Raises:
        InputRefused: The file or its unit is refused (see ``read_drawing``), a layer is not there, or the
            outline is not closed.
    """
    drawing = read_drawing(path, unit)
    return parts_of(drawing, layers, display_of(drawing, unit))


def display_of(drawing: Drawing, unit: Unit | None = None) -> Display:
    """How the lengths of a drawing are written: as the user's unit says, else as its own."""
    if unit:
        return unit.display
    metric = "met" in drawing.unit
    return Display.METRIC if metric else Display.FEET_INCHES


def parts_of(drawing: Drawing, layers: Layers, display: Display) -> SlabParts:
    """Reads a slab's parts from a drawing that is open already; see ``read_slab_parts``."""
    mistakes = unmatched(drawing.path, drawing.layers, layers)
    if mistakes:
        raise InputRefused(*mistakes)
    notes = list(drawing.notes)
    edge = _on(drawing, layers.outline)
    if not layers.outline:
        return SlabParts(notes=tuple(notes))
    reading = read_outline(drawing.path, edge, display)
    notes += reading.notes
    openings, more = read_openings(_on(drawing, layers.openings), reading.outline, display)
    notes += more
    walls, more = read_walls(_on(drawing, layers.walls), reading.outline, display)
    notes += more
    return SlabParts(
        outline=reading.outline,
        openings=(*reading.openings, *openings),
        walls=walls,
        notes=tuple(notes),
    )


def _on(drawing: Drawing, patterns: Sequence[str]) -> tuple[Curve, ...]:
    """The curves on the layers that meet the patterns, in the order of the drawing."""
    names = set(chosen(drawing.layers, patterns))
    return tuple(c for c in drawing.curves if c.layer in names)
