"""The slab that a file gives which was brought to the page, once the user has said what each layer is."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING

from kerfline.app.brought import MODELLED, ROLES, Brought, gathered, is_model, unnamed
from kerfline.app.drawing_words import told_in_lines
from kerfline.app.slab_edit import positive_length
from kerfline.errors import InputRefused, Mistake
from kerfline.model.slab import Slab
from kerfline.units import Unit, depth_unit

if TYPE_CHECKING:
    from kerfline.files.drawing import Drawing
    from kerfline.files.slab_parts import SlabParts


@dataclass(frozen=True, kw_only=True)
class Taken:
    """What was taken of such a file.

    Attributes:
        slab: The slab.
        notes: How it was read and what was repaired, ten lines at most.
    """

    slab: Slab
    notes: tuple[str, ...]


def take(
    path: Path,
    brought: Brought,
    roles: Mapping[str, str],
    thickness: str,
    slab: int = 0,
) -> Taken:
    """The slab that a file gives, and what the user should know of the reading.

    Args:
        path: The file.
        brought: What is said of it; ``unit`` is that of the drawing and of the job.
        roles: What each layer is, by its name.
        thickness: Thickness of the slab as text; only a building model may say it itself.
        slab: Number of the candidate that is the slab; 0 takes the layer that is its outline.

    Raises:
        InputRefused: The layers give no slab that makes sense.
    """
    layers = {role: tuple(sorted(n for n, r in roles.items() if r == role)) for role in ROLES}
    if not slab and not layers["outline"]:
        raise InputRefused(
            Mistake(what="no layer is the outline", remedy="say which layer holds the slab's edge")
        )
    own = 0.0
    with unnamed(path):
        if is_model(path):
            read, own = _of_model(path, brought, layers)
        else:
            read = _of_drawing(gathered(path, brought), brought, layers, slab)
    return Taken(
        slab=_slab(read, _thickness(thickness, brought.unit or Unit.MM, own)),
        notes=tuple(told_in_lines(read.reading, read.notes, "they are kept with the job")),
    )


def _of_drawing(
    drawing: "Drawing", brought: Brought, layers: Mapping[str, tuple[str, ...]], slab: int
) -> "SlabParts":
    """The parts of a drawing: around a numbered candidate, or on the layers of the outline."""
    from kerfline.files.drawing import ReadingWishes, reading
    from kerfline.files.drawing.account import Chosen, account
    from kerfline.files.drawing.size import drawn_unit

    told = {role: names for role, names in layers.items() if not (slab and role == "outline")}
    unit = drawn_unit(brought.unit.value) if brought.unit and not drawing.sure else None
    read = reading(drawing, ReadingWishes(unit=unit, layers=told, slab=slab or None))
    by = Chosen(
        layers=read.look.layers,
        told={role: names for role, names in told.items() if names},
        notes=read.look.proposal.notes,
    )
    return replace(read.parts, reading=account(read.drawing, read.parts, by))


def _of_model(
    path: Path, brought: Brought, layers: Mapping[str, tuple[str, ...]]
) -> "tuple[SlabParts, float]":
    """The parts of a building model that the user did not take out, and its slab's own thickness (mm)."""
    from kerfline.files.building import FloorChoice
    from kerfline.files.building.read_apart import read_building_apart

    read = read_building_apart(path, FloorChoice(storey=brought.storey, slab=brought.floor))

    def kept(part: str) -> bool:
        return MODELLED[part] in layers[part]

    parts = read.parts
    return (
        replace(
            parts,
            openings=parts.openings if kept("openings") else (),
            walls=parts.walls if kept("walls") else (),
            columns=parts.columns if kept("columns") else (),
            penetrations=parts.penetrations if kept("penetrations") else (),
            reading=read.reading,
        ),
        read.thickness or 0.0,
    )


def _thickness(text: str, unit: Unit, own: float) -> float:
    """The thickness (mm) that was typed, else the model's own."""
    if own and not text.strip():
        return own
    return positive_length(text, depth_unit(unit), "thickness")


def _slab(parts: "SlabParts", thickness: float) -> Slab:
    from kerfline.files.slab_parts import slab_of
    from kerfline.files.slab_sense import check_slab

    if parts.outline is None:
        raise InputRefused(Mistake(what="the drawing gives no outline"))
    slab = slab_of(parts, parts.outline, thickness)
    if mistakes := check_slab(slab):
        raise InputRefused(*mistakes)
    return slab
