"""What was taken from a drawing, in sentences: its slab, its unit, the parts and their layers, what was left out."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, fields

from kerfline.files.drawing.layers import Layers, chosen
from kerfline.files.drawing.opened import Drawing
from kerfline.files.drawing.perhaps import offers
from kerfline.files.drawing.size import read_as
from kerfline.files.slab_parts import MOST_LINES, SlabParts
from kerfline.units import Display, counted, format_area, format_run, listed

MOST = 8
"""Layers or kinds of entity that one sentence lists."""

PARTS = {
    "walls": "interior wall",
    "columns": "column",
    "openings": "opening",
    "penetrations": "penetration",
    "joints": "joint",
    "keep_outs": "keep-out",
}
"""The parts of a slab as they are counted."""


@dataclass(frozen=True, kw_only=True)
class Chosen:
    """Which layers were read for what, and who says so.

    Attributes:
        layers: The layers.
        told: Those that the user named, by the part that they hold.
        notes: Why the others were taken, and what was left out.
        joints: Whether layers that may hold joints are offered, where none are read.
    """

    layers: Layers
    told: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    notes: tuple[str, ...] = ()
    joints: bool = False


def account(drawing: Drawing, parts: SlabParts, by: Chosen) -> tuple[str, ...]:
    """Sentences on how a drawing was read, ``MOST_LINES`` at most.

    Args:
        drawing: The drawing in its unit.
        parts: What was taken from it.
        by: The layers that it was taken from.
    """
    lines = [
        *_slab_words(drawing, parts, by),
        _unit_words(drawing),
        *_part_words(parts, by, drawing.unit.display),
        *offers(drawing, parts, by.layers, joints=by.joints),
        *_left_out(drawing, by.layers),
        *(n for n in by.notes if n.startswith(("Left out:", "Layers of small"))),
    ]
    return tuple(lines[:MOST_LINES])


def _slab_words(drawing: Drawing, parts: SlabParts, by: Chosen) -> Iterator[str]:
    """Size and area of the slab, where its edge was found, and why there."""
    if parts.outline is None:
        return
    polygon = parts.outline.polygon
    x0, y0, x1, y1 = polygon.bounds
    area = format_area(polygon.area, drawing.unit.display)
    yield f"Slab: {read_as(x1 - x0, y1 - y0, drawing.unit.display)}, {area}; {_edge_words(by)}."


def _edge_words(by: Chosen) -> str:
    if "outline" in by.told:
        return f"edge on {', '.join(by.told['outline'])}, as you say"
    note = next((n for n in by.notes if n.startswith("Outline:")), "")
    return f"edge: {note.removeprefix('Outline: ').rstrip('.')}" if note else "edge as drawn"


def _unit_words(drawing: Drawing) -> str:
    if drawing.told:
        return f"Unit: {drawing.unit_name}, as you say."
    if drawing.declared and drawing.drawn_in == drawing.declared:
        return f"Unit: {drawing.unit_name}, as the drawing says."
    why = next((n for n in drawing.notes if "its unit" in n), "")
    return f"Unit: {drawing.unit_name}. {why}".rstrip()


def _part_words(parts: SlabParts, by: Chosen, display: Display) -> Iterator[str]:
    """What was taken of each part, and from which layers."""
    for part, one in PARTS.items():
        found = getattr(parts, part)
        names = getattr(by.layers, part)
        if not found and not names:
            continue
        size = ""
        if part == "walls" and found:
            size = f", {format_run(sum(w.line.length for w in parts.walls), display)}"
        where = f" on {listed(names, MOST)}" if names else " on the slab's own layers"
        said = ", as you say" if part in by.told else ""
        yield f"{part.replace('_', '-').capitalize()}: {counted(len(found), one)}{size}{where}{said}."


def _left_out(drawing: Drawing, layers: Layers) -> Iterator[str]:
    used = {
        n for f in fields(layers) for n in chosen(drawing.layers, getattr(layers, f.name))
    } | drawing.hidden
    unused = [n for n in drawing.layers if n not in used]
    if unused:
        yield f"Not used, as nothing says that they hold a part of the slab: {listed(unused, MOST)}."
    if drawing.ignored:
        kinds = [f"{count:,} {kind}" for kind, count in drawing.ignored.items()]
        yield f"Passed over, as no edge of anything: {listed(kinds, MOST)}."
    if drawing.skipped:
        kinds = [f"{s.count:,} {s.kind} on {s.layer} ({s.why})" for s in drawing.skipped]
        yield f"Not read: {listed(kinds, MOST)}."
