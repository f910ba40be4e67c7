"""The best reading of a drawing: which outline is the slab's, which layers hold the walls and the rest."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

import shapely

from kerfline.files.drawing.between_rooms import layers_of_rooms
from kerfline.files.drawing.candidates import (
    Candidate,
    Decision,
    Scene,
    Source,
    decide,
    gathered,
    judged,
    scene_of,
)
from kerfline.files.drawing.joint_kinds import is_ambiguous, meaning_of_cj, question
from kerfline.files.drawing.layers import Layers
from kerfline.files.drawing.legend import legend_of
from kerfline.files.drawing.likely_layers import Likely, likely_layers
from kerfline.files.drawing.names import outline_rank, part_named
from kerfline.files.drawing.opened import Drawing
from kerfline.files.drawing.size import LEAST_SLAB
from kerfline.files.drawing.unnamed import add_unnamed
from kerfline.files.drawing.wording import wide
from kerfline.units import counted


@dataclass(frozen=True, kw_only=True)
class Proposal:
    """Which outline is the slab's and which layers hold the other parts, and why.

    Attributes:
        decision: The candidates, and the one that is taken.
        layers: The layers; a part that nothing was found for is empty.
        notes: Why each was taken, and what is doubtful, as sentences.
        questions: What only the user can answer, as sentences.
        mixed: Layers of walls that hold other things too.
        likely: The layers that may hold walls, columns and joints, where the slab is open.
    """

    decision: Decision
    layers: Layers
    mixed: frozenset[str] = frozenset()
    notes: tuple[str, ...] = ()
    questions: tuple[str, ...] = ()
    likely: Mapping[str, Likely] = field(default_factory=dict)

    @property
    def slab(self) -> Candidate | None:
        """The candidate that is taken for the slab."""
        return self.decision.slab


def propose(drawing: Drawing) -> Proposal:
    """Holds the candidates for the slab against the evidence, and reads the layers' names."""
    scene = scene_of(drawing)
    return _proposal(scene, decide(judged(scene, gathered(scene))))


def _proposal(scene: Scene, decision: Decision) -> Proposal:
    """The reading that goes with a decision on the slab."""
    drawing, slab = scene.drawing, decision.slab
    notes: list[str] = []
    questions: list[str] = []
    outline: tuple[str, ...] = ()
    if slab:
        notes.append(_outline_note(drawing, slab))
        notes += [_other_note(drawing, other) for other in decision.others]
        outline = slab.layers
    else:
        outline = _open_outline(drawing, notes) if not decision.candidates else ()
        questions += (
            [] if outline else [f"{decision.why}: which layers is the slab's edge drawn on?"]
        )
    parts, more = _parts(scene, outline, questions)
    notes += more
    if slab and "walls" in parts:
        notes += _walls_between_rooms(drawing, slab, parts["walls"])
    hidden = sorted(drawing.hidden & set(drawing.layers))
    if hidden:
        notes.append(f"Layers that are off or frozen were passed over: {', '.join(hidden)}.")
    layers = Layers(outline=outline, **{part: tuple(names) for part, names in parts.items()})
    return Proposal(
        decision=decision,
        layers=layers,
        mixed=frozenset(n for n in parts.get("walls", ()) if part_named(n) != "walls"),
        notes=tuple(notes),
        questions=tuple(questions),
        likely={} if slab else likely_layers(scene),
    )


def with_slab(drawing: Drawing, decision: Decision, slab: Candidate) -> Proposal:
    """The reading for a candidate that the user chose."""
    return _proposal(scene_of(drawing), replace(decision, slab=slab, others=(), why=""))


def _outline_note(drawing: Drawing, slab: Candidate) -> str:
    """Where the slab's edge was found, and why there."""
    names = f"layer{'s' if len(slab.layers) > 1 else ''} {', '.join(slab.layers)}"
    if slab.source is Source.WALLS:
        bridged = f", openings up to {wide(slab.gap, drawing.unit.display)} wide bridged"
        butted = f", straight past {counted(slab.butted, 'butted corner')}" if slab.butted else ""
        return f"Outline: the outer faces of the walls on {names}{bridged}{butted}. Check it."
    if slab.source is Source.TILES:
        return f"Outline: the outer edge of tiles and walls on {names}. Check it."
    if any(outline_rank(n) is not None for n in slab.layers):
        how = "pieces on the " if slab.source is Source.PIECES else ""
        return f"Outline: {how}{names}, by {'their names' if len(slab.layers) > 1 else 'its name'}."
    why = f": {slab.reasons[0]}" if slab.reasons else ""
    return f"Outline: {names}, though no name says so{why}. Check it."


def _other_note(drawing: Drawing, other: Candidate) -> str:
    area = wide(other.polygon, drawing.unit.display)
    return (
        f"Left out: a further outline of {area} beside the slab (--slab {other.number} takes it)."
    )


def _parts(
    scene: Scene, outline: Sequence[str], questions: list[str]
) -> tuple[dict[str, list[str]], list[str]]:
    """The layers of the other parts, by name or by what is drawn there, and sentences on them."""
    drawing, parts = scene.drawing, dict[str, list[str]]()
    legend, shown = meaning_of_cj(drawing.labels), legend_of(drawing).layers
    pointed = {s.layer for s in drawing.spots}
    for layer in drawing.layers:
        part = "joints" if layer in shown else part_named(layer)
        if not part or layer in drawing.hidden or not (drawing.on(layer) or layer in pointed):
            continue
        if layer in outline and part != "walls":
            continue
        if part == "joints" and is_ambiguous(layer) and legend is None and layer not in shown:
            questions.append(str(question(drawing.path, layer)))
            continue
        parts.setdefault(part, []).append(layer)
    notes = [_named_note(part, names, shown) for part, names in sorted(parts.items())]
    if outline and "walls" not in parts and scene.wall_layers:
        parts["walls"] = list(scene.wall_layers)
        named = ", ".join(scene.wall_layers)
        notes.append(f"Walls: {named}, by the pairs of parallel lines; no name says so. Check it.")
    return parts, notes + add_unnamed(drawing, outline, parts)


def _walls_between_rooms(drawing: Drawing, slab: Candidate, walls: list[str]) -> list[str]:
    """Adds the layers of rooms that walls stand between to those of walls that show none inside; sentences on them."""
    rooms = layers_of_rooms(drawing, slab.ring, walls)
    walls += rooms
    where = ", ".join(rooms)
    return [f"Walls: what stands between the rooms on {where}. Check it."] if rooms else []


def _open_outline(drawing: Drawing, notes: list[str]) -> tuple[str, ...]:
    """The layers whose names speak of the slab best although nothing there closes: the reader says why."""
    ranks: dict[int, list[str]] = {}
    for layer in drawing.layers:
        rank = outline_rank(layer)
        if rank is not None and layer not in drawing.hidden and drawing.on(layer):
            ranks.setdefault(rank, []).append(layer)
    named = ranks[min(ranks)] if ranks else []
    lines = [c.path.line for name in named for c in drawing.on(name)]
    if shapely.GeometryCollection(lines).convex_hull.area < LEAST_SLAB:
        return ()
    notes.append(f"Outline: {', '.join(named)}, by name, although nothing there closes yet.")
    return tuple(named)


def _named_note(part: str, names: Sequence[str], shown: Sequence[str]) -> str:
    legend = part == "joints" and set(names) <= set(shown)
    how = "as the drawing's own legend shows" if legend else "by name"
    return f"{part.replace('_', '-').capitalize()}: {', '.join(names)}, {how}."
