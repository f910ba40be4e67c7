"""The best reading of a drawing: which layers hold the outline, the walls and the rest."""

from collections.abc import Sequence
from dataclasses import dataclass

import shapely
from shapely import Polygon

from kerfline.files.drawing.curves import Curve
from kerfline.files.drawing.joint_kinds import is_ambiguous, meaning_of_cj, question
from kerfline.files.drawing.layers import Layers
from kerfline.files.drawing.names import decorates, outline_rank, part_named
from kerfline.files.drawing.opened import MEETS, Drawing
from kerfline.files.drawing.outline import wrapped_walls
from kerfline.files.drawing.size import LEAST_SLAB
from kerfline.files.drawing.unnamed import add_unnamed
from kerfline.files.drawing.wording import wide
from kerfline.geometry.regions import enclosed
from kerfline.geometry.ring import Ring

MANY = 20
"""Other curves from which on a rectangle around everything is the frame of a sheet."""

HOLDS = 0.15
"""A slab that no name speaks of holds at least this share of the walls' length."""

WHOLE = 0.97
"""Share of the drawing's extents that such a frame takes up."""

SHARE = 0.2
"""A layer whose name speaks of the slab is believed where it encloses this share of the largest outline."""


@dataclass(frozen=True, kw_only=True)
class Proposal:
    """Which layers hold what, and why.

    Attributes:
        layers: The layers; a part that nothing was found for is empty.
        notes: Why each was taken, and what is doubtful, as sentences.
        questions: What only the user can answer, as sentences.
    """

    layers: Layers
    notes: tuple[str, ...] = ()
    questions: tuple[str, ...] = ()


def propose(drawing: Drawing) -> Proposal:
    """Reads the layers' names, and where names say nothing, what is drawn on them."""
    notes: list[str] = []
    outline = _outline(drawing, notes)
    parts: dict[str, list[str]] = {}
    questions: list[str] = []
    legend = meaning_of_cj(drawing.labels)
    for layer in drawing.layers:
        part = part_named(layer)
        if not part or layer in drawing.hidden or not _draws(drawing, layer):
            continue
        if layer in outline and part != "walls":
            continue
        if part == "joints" and is_ambiguous(layer) and legend is None:
            questions.append(str(question(drawing.path, layer)))
            continue
        parts.setdefault(part, []).append(layer)
    notes += [_named_note(part, names) for part, names in sorted(parts.items())]
    notes += add_unnamed(drawing, outline, parts)
    if not outline:
        questions.append(
            "No layer closes to an outline of a slab: which layers is the slab's edge drawn on?"
        )
    if drawing.hidden & set(drawing.layers):
        notes.append(
            f"Layers that are off or frozen were passed over: {_listed(_hidden(drawing))}."
        )
    layers = Layers(outline=tuple(outline), **{part: tuple(names) for part, names in parts.items()})
    return Proposal(layers=layers, notes=tuple(notes), questions=tuple(questions))


def _outline(drawing: Drawing, notes: list[str]) -> list[str]:
    """The layers of the outline: by name where what is named closes, else the largest closed curve's."""
    rings = _rings(drawing)
    areas = {layer: ring.polygon.area for layer, ring in rings.items()}
    largest = max(areas.values(), default=0.0)
    ranks: dict[int, list[str]] = {}
    for layer in drawing.layers:
        rank = outline_rank(layer)
        if rank is not None and layer not in drawing.hidden and _draws(drawing, layer):
            ranks.setdefault(rank, []).append(layer)
    for _, named in sorted(ranks.items()):
        closed = [n for n in named if n in areas and areas[n] >= SHARE * largest]
        if closed:
            best = max(closed, key=lambda n: (areas[n], n))
            notes.append(f"Outline: layer {best}, by its name.")
            return [best]
        together = _together(drawing, named) if len(named) > 1 else None
        if together and together.polygon.area >= SHARE * largest:
            notes.append(f"Outline: pieces on the layers {_listed(named)}, by their names.")
            return named
    return _outline_by_size(drawing, rings, notes) or _open_outline(drawing, ranks, notes)


def _open_outline(drawing: Drawing, ranks: dict[int, list[str]], notes: list[str]) -> list[str]:
    """The layers whose names speak of the slab best although nothing there closes: the reader says why."""
    named = ranks[min(ranks)] if ranks else []
    lines = [c.path.line for name in named for c in drawing.on(name)]
    if shapely.GeometryCollection(lines).convex_hull.area < LEAST_SLAB:
        return []
    notes.append(f"Outline: {_listed(named)}, by name, although nothing there closes yet.")
    return named


def _together(drawing: Drawing, layers: Sequence[str]) -> Ring | None:
    """The largest closed outline that the curves on some layers make; None where it is no slab's."""
    curves = [c.path for name in layers for c in drawing.on(name)]
    rings = enclosed(curves, MEETS).rings
    return rings[0] if rings and rings[0].polygon.area >= LEAST_SLAB else None


def _outline_by_size(drawing: Drawing, rings: dict[str, Ring], notes: list[str]) -> list[str]:
    """The layer of the largest closed curve that holds the walls and is no frame of the sheet."""
    walls = [
        c
        for n in drawing.layers
        if part_named(n) == "walls" and n not in drawing.hidden
        for c in drawing.on(n)
    ]
    for layer in sorted(rings, key=lambda n: (-round(rings[n].polygon.area), n)):
        polygon = rings[layer].polygon
        if _is_frame(drawing, layer, polygon):
            notes.append(
                f"Layer {layer} has a rectangle around the whole drawing: taken for the sheet's frame."
            )
        elif not walls or _holds(polygon, walls):
            notes.append(
                f"Outline: layer {layer}, only because its closed outline of "
                f"{wide(polygon, drawing.unit.display)} is the largest; no name says so. Check it."
            )
            return [layer]
    if not walls or wrapped_walls(walls) is None:
        return []
    notes.append("Outline: no layer has one, so the outer faces of the walls. Check it.")
    return sorted({c.layer for c in walls})


def _is_frame(drawing: Drawing, layer: str, polygon: Polygon) -> bool:
    """Whether a closed curve is a rectangle around everything else in a drawing of some size."""
    others = len(drawing.curves) - len(drawing.on(layer))
    x0, y0, x1, y1 = drawing.bounds
    box = shapely.box(x0, y0, x1, y1)
    return others >= MANY and polygon.area > WHOLE * box.area


def _holds(polygon: Polygon, walls: Sequence[Curve]) -> bool:
    """Whether a fair part of the walls' length lies within a closed curve."""
    lines = shapely.union_all([c.path.line for c in walls])
    return bool(lines.intersection(polygon.buffer(1.0)).length > HOLDS * lines.length)


def _rings(drawing: Drawing) -> dict[str, Ring]:
    """The largest closed outline on each layer that could hold the slab's edge."""
    found: dict[str, Ring] = {}
    for layer in drawing.layers:
        if layer in drawing.hidden or decorates(layer):
            continue
        if part_named(layer) in ("joints", "penetrations", "walls", "columns"):
            continue
        rings = drawing.outlines.get(layer, ())
        if rings and rings[0].polygon.area >= LEAST_SLAB:
            found[layer] = rings[0]
    return found


def _named_note(part: str, names: Sequence[str]) -> str:
    return f"{part.replace('_', '-').capitalize()}: {_listed(names)}, by name."


def _draws(drawing: Drawing, layer: str) -> bool:
    return bool(drawing.on(layer)) or any(s.layer == layer for s in drawing.spots)


def _hidden(drawing: Drawing) -> list[str]:
    return sorted(drawing.hidden & set(drawing.layers))


def _listed(names: Sequence[str]) -> str:
    return ", ".join(names)
