"""Columns on layers whose names say nothing, by what is drawn there, and blocks that say what they are.

The sizes and shares below are common practice, weighed on the drawings of the forge (``tests/forge``).
"""

from collections.abc import Sequence

import shapely
from shapely.geometry.base import BaseGeometry

from kerfline.files.drawing.figures import Figure, figures
from kerfline.files.drawing.layers import BLOCK
from kerfline.files.drawing.names import decorates, outline_rank, part_named
from kerfline.files.drawing.opened import Drawing
from kerfline.files.drawing.standing import LARGEST_COLUMN

MOST = 5_000
"""Layers with more curves than this are not looked at."""

FEWEST = 2
"""Columns that a layer holds at least."""

ALIKE = 1.2
"""The largest of the columns on one layer is at most this many times as wide as the smallest."""

WIDEST = 1_200.0
"""Figures larger than this (mm) may be plinths and machines as well, and are only told of."""

SMALLEST = 75.0
"""Figures smaller than this (mm) are bolts and marks, not columns."""


def add_unnamed(drawing: Drawing, outline: Sequence[str], parts: dict[str, list[str]]) -> list[str]:
    """Adds the layers that look like columns, where no name says so, to the parts.

    Args:
        drawing: The drawing.
        outline: Layers of the outline.
        parts: Layers of the other parts so far; added to.

    Returns:
        Sentences on what was added and on what looks like columns without being sure.
    """
    notes: list[str] = []
    if not outline:
        return notes
    notes += _named_blocks(drawing, outline, parts)
    if "columns" not in parts:
        notes += _columns(drawing, outline, parts)
    return notes


def _named_blocks(
    drawing: Drawing, outline: Sequence[str], parts: dict[str, list[str]]
) -> list[str]:
    """Adds the blocks whose names speak of columns or penetrations, where their layers are taken for nothing."""
    taken = {n for names in parts.values() for n in names} | set(outline)
    layers: dict[str, set[str]] = {}
    for curve in drawing.curves:
        if curve.group and curve.layer not in drawing.hidden:
            layers.setdefault(drawing.blocks.get(curve.group, ""), set()).add(curve.layer)
    notes = []
    for part in ("columns", "penetrations"):
        found = [n for n in sorted(layers) if part_named(n) == part and not layers[n] & taken]
        if found:
            parts.setdefault(part, []).extend(f"{BLOCK}{n}" for n in found)
            named = ", ".join(found)
            notes.append(f"{part.capitalize()}: block{'s' * (len(found) > 1)} {named}, by name.")
    return notes


def _untold(drawing: Drawing, outline: Sequence[str], parts: dict[str, list[str]]) -> list[str]:
    """The layers whose names say nothing."""
    taken = {name for names in parts.values() for name in names} | set(outline) | drawing.hidden
    return [
        n
        for n in drawing.layers
        if n not in taken
        and drawing.on(n)
        and len(drawing.on(n)) <= MOST
        and not decorates(n)
        and not part_named(n)
        and outline_rank(n) is None
    ]


def _columns(drawing: Drawing, outline: Sequence[str], parts: dict[str, list[str]]) -> list[str]:
    """Adds layers of alike small figures in the slab; names others that may be columns."""
    slab = shapely.union_all([r.polygon for n in outline for r in drawing.outlines(n)[:1]])
    sure: list[str] = []
    perhaps: list[str] = []
    for layer in _untold(drawing, outline, parts):
        found = _small_figures(drawing, layer)
        if not found:
            continue
        (sure if _plainly_columns(drawing, found, slab) else perhaps).append(layer)
    notes = []
    if sure:
        parts["columns"] = sure
        notes.append(
            f"Columns: {', '.join(sure)}, by their small closed curves, all alike; no name says so. Check it."
        )
    if perhaps:
        notes.append(f"Layers of small closed curves, columns perhaps: {', '.join(perhaps)}.")
    return notes


def _plainly_columns(drawing: Drawing, found: Sequence[Figure], slab: BaseGeometry) -> bool:
    """Whether figures, smallest first, are alike, on the slab, of a column's size, and hold no words as signs do."""
    texts = shapely.STRtree([shapely.Point(t.at) for t in drawing.labels])
    return (
        len(found) >= FEWEST
        and found[-1].size <= min(WIDEST, ALIKE * found[0].size)
        and all(slab.covers(shapely.Point(f.at)) for f in found)
        and not any(
            len(texts.query(shapely.Point(f.at), "dwithin", distance=f.size / 2)) for f in found
        )
    )


def holds_small_figures(drawing: Drawing, layer: str) -> bool:
    """Whether a layer holds nothing but a few small closed figures, of a size of columns."""
    return bool(_small_figures(drawing, layer))


def _small_figures(drawing: Drawing, layer: str) -> list[Figure]:
    """The figures of a layer that holds nothing but a few small closed ones, smallest first."""
    curves = drawing.on(layer)
    few = 500
    if not 0 < len(curves) <= few or not all(c.path.closed for c in curves):
        return []
    found = figures(curves, (), LARGEST_COLUMN)
    if len(found) != len(curves) or min(f.size for f in found) < SMALLEST:
        return []
    return sorted(found, key=lambda f: f.size)
