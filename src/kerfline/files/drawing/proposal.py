"""The best reading of a drawing: which layers hold the outline, the walls and the rest."""

from collections.abc import Sequence
from dataclasses import dataclass

from kerfline.files.drawing.figures import figures
from kerfline.files.drawing.joint_kinds import is_ambiguous, meaning_of_cj, question
from kerfline.files.drawing.layers import Layers
from kerfline.files.drawing.names import decorates, outline_rank, part_named
from kerfline.files.drawing.opened import Drawing
from kerfline.files.drawing.outline import GAP, LEAST_SLAB
from kerfline.files.drawing.standing import LARGEST_COLUMN
from kerfline.files.drawing.wording import wide
from kerfline.geometry.regions import enclosed
from kerfline.geometry.ring import Ring

MOST = 20_000
"""Layers with more curves than this are not searched for an outline unless their name speaks of one."""

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
        if not part or layer in outline or layer in drawing.hidden or not _draws(drawing, layer):
            continue
        if part == "joints" and is_ambiguous(layer) and legend is None:
            questions.append(str(question(drawing.path, layer)))
            continue
        parts.setdefault(part, []).append(layer)
    if "columns" not in parts:
        notes += _columns_somewhere(drawing, outline, parts)
    notes += [_named_note(part, names) for part, names in sorted(parts.items())]
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


def largest_ring(drawing: Drawing, layers: Sequence[str]) -> Ring | None:
    """The largest closed outline that the curves on some layers make; None where it is no slab's."""
    curves = [c.path for name in layers for c in drawing.on(name)]
    rings = enclosed(curves, GAP).rings
    return rings[0] if rings and rings[0].polygon.area >= LEAST_SLAB else None


def _outline(drawing: Drawing, notes: list[str]) -> list[str]:
    """The layers of the outline: by name where what is named closes, else the largest closed curve's."""
    areas = _areas(drawing)
    largest = max(areas.values(), default=0.0)
    ranks: dict[int, list[str]] = {}
    for layer in drawing.layers:
        rank = outline_rank(layer)
        if rank is not None and layer not in drawing.hidden and _draws(drawing, layer):
            ranks.setdefault(rank, []).append(layer)
    for _, named in sorted(ranks.items()):
        closed = [n for n in named if areas.get(n, 0.0) >= SHARE * largest]
        if closed:
            best = max(closed, key=lambda n: (areas[n], n))
            notes.append(f"Outline: layer {best}, by its name.")
            return [best]
        together = largest_ring(drawing, named) if len(named) > 1 else None
        if together and together.polygon.area >= SHARE * largest:
            notes.append(f"Outline: pieces on the layers {_listed(named)}, by their names.")
            return named
    return _outline_by_size(drawing, areas, notes)


def _outline_by_size(drawing: Drawing, areas: dict[str, float], notes: list[str]) -> list[str]:
    if not areas:
        return []
    best = max(areas, key=lambda n: (round(areas[n]), n))
    area = wide(_ring(drawing, best).polygon, drawing.unit.display)
    notes.append(
        f"Outline: layer {best}, only because its closed outline of {area} is the largest; no name "
        "says so."
    )
    return [best]


def _ring(drawing: Drawing, layer: str) -> Ring:
    ring = largest_ring(drawing, [layer])
    return ring or Ring(())


def _areas(drawing: Drawing) -> dict[str, float]:
    """Area of the largest closed outline on each layer that could hold the slab's edge."""
    found = {}
    for layer in drawing.layers:
        if layer in drawing.hidden or decorates(layer):
            continue
        if len(drawing.on(layer)) > MOST and outline_rank(layer) is None:
            continue
        if part_named(layer) in ("joints", "penetrations", "walls", "columns"):
            continue
        ring = largest_ring(drawing, [layer])
        if ring:
            found[layer] = ring.polygon.area
    return found


def _columns_somewhere(
    drawing: Drawing, outline: Sequence[str], parts: dict[str, list[str]]
) -> list[str]:
    """A sentence on layers that look like columns although no name says so."""
    taken = {name for names in parts.values() for name in names} | set(outline)
    looks = [
        layer
        for layer in drawing.layers
        if layer not in taken and not decorates(layer) and _all_small(drawing, layer)
    ]
    if not looks:
        return []
    return [f"Layers of small closed figures, columns perhaps: {_listed(looks)}."]


def _all_small(drawing: Drawing, layer: str) -> bool:
    """Whether a layer holds nothing but a few small closed figures."""
    curves = drawing.on(layer)
    few = 500
    if not curves or len(curves) > few or not all(c.path.closed for c in curves):
        return False
    return len(figures(curves, (), LARGEST_COLUMN)) == len(curves)


def _named_note(part: str, names: Sequence[str]) -> str:
    return f"{part.replace('_', '-').capitalize()}: {_listed(names)}, by name."


def _draws(drawing: Drawing, layer: str) -> bool:
    return bool(drawing.on(layer)) or any(s.layer == layer for s in drawing.spots)


def _hidden(drawing: Drawing) -> list[str]:
    return sorted(drawing.hidden & set(drawing.layers))


def _listed(names: Sequence[str]) -> str:
    return ", ".join(names)
