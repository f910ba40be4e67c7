"""The keys of ``[drawing]`` that read a drawing again as it was read, where layers alone do."""

import os
from collections.abc import Sequence
from dataclasses import dataclass, fields
from pathlib import Path

from kerfline.errors import InputRefused
from kerfline.files.drawing import Reading, slab_parts
from kerfline.files.drawing.joints import REACH
from kerfline.files.slab_parts import SlabParts
from kerfline.geometry.ring import Ring
from kerfline.units import Unit

SAME = 0.01
"""Points that lie nearer together than this (mm) are one."""


@dataclass(frozen=True, kw_only=True)
class Said:
    """What the user said beside a drawing that its layers do not say.

    Attributes:
        units: Its unit; None where he left it to the drawing.
        page: Page of a PDF; 0 for none.
        scale: Scale of that page.
        repair: How far joints are mended, as text; empty for the usual.
        reach: The same in mm.
    """

    units: Unit | None = None
    page: int = 0
    scale: str = ""
    repair: str = ""
    reach: float = REACH


def drawing_keys(read: Reading, source: Path, folder: Path, said: Said) -> dict[str, object] | None:
    """The keys that give the same slab again; None where its layers alone give another one, or none.

    Args:
        read: How the drawing was read.
        source: The drawing.
        folder: Where the job file will lie.
        said: What the user said beside it.
    """
    layers = read.look.layers
    try:
        again = slab_parts(read.drawing, layers, reach=said.reach)
    except InputRefused:
        return None
    if not _same(read.parts, again):
        return None
    named = {part.name: list(getattr(layers, part.name)) for part in fields(layers)}
    keys: dict[str, object] = {"file": _beside(source, folder)}
    keys |= {"units": said.units.value} if said.units else {}
    keys |= {"page": said.page} if said.page else {}
    keys |= {"scale": said.scale} if said.scale else {}
    keys |= {part: names for part, names in named.items() if names}
    return keys | ({"repair": said.repair} if said.repair else {})


def _beside(source: Path, folder: Path) -> str:
    """How a job file in a folder names a file."""
    try:
        return Path(os.path.relpath(source.resolve(), folder.resolve())).as_posix()
    except ValueError:  # on another drive
        return source.resolve().as_posix()


def _same(one: SlabParts, other: SlabParts) -> bool:
    """Whether two readings give the same slab, whatever is said of them."""
    if one.outline is None or other.outline is None:
        return False
    return (
        _same_ring(one.outline, other.outline)
        and _same_rings(one.openings, other.openings)
        and _same_rings([k.outline for k in one.keep_outs], [k.outline for k in other.keep_outs])
        and one.walls == other.walls
        and one.columns == other.columns
        and one.penetrations == other.penetrations
        and one.joints == other.joints
    )


def _same_rings(one: Sequence[Ring], other: Sequence[Ring]) -> bool:
    return len(one) == len(other) and all(map(_same_ring, one, other))


def _same_ring(one: Ring, other: Ring) -> bool:
    return bool(one.polygon.normalize().equals_exact(other.polygon.normalize(), SAME))
