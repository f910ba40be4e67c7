"""What a drawing holds, in words and columns, for the user who is to say which layer is what."""

from collections import Counter
from collections.abc import Iterator

from kerfline.errors import InputRefused
from kerfline.files.drawing.opened import Drawing
from kerfline.files.drawing.perhaps import offers
from kerfline.files.drawing.reading import Look
from kerfline.files.drawing.size import LEAST_SLAB, read_as
from kerfline.files.drawing.wording import place, wide
from kerfline.files.slab_parts import SlabParts
from kerfline.units import Display, counted, format_depth, format_length, format_run

OUTLINES_SHOWN = 10
"""Closed outlines that are listed at most."""

LAYERS_SHOWN = 200
"""Layers that are listed at most."""

NOTES_SHOWN = 40
"""Notes that are listed at most."""

SKIPPED_SHOWN = 12
"""Kinds of skipped entities that are listed at most."""


def report(look: Look, outcome: SlabParts | InputRefused) -> str:
    """What a drawing holds.

    Args:
        look: The drawing and what is proposed for it.
        outcome: The parts that it gives, or why it gives none.

    Returns:
        Lines of text: unit and extents, layers with counts, closed outlines with areas, the proposed reading
        with the walls and columns that it gives, and what was left out and why.
    """
    drawing, display = look.drawing, look.drawing.unit.display
    return "\n".join(
        [
            *_heading(drawing, display),
            *_layer_table(drawing),
            *_outlines(drawing, display),
            *_reading(look, outcome, display),
            *_left_out(drawing),
        ]
    )


def _heading(drawing: Drawing, display: Display) -> Iterator[str]:
    x0, y0, x1, y1 = drawing.bounds
    said = "as you say" if drawing.told else "as the drawing says"
    yield f"{drawing.path.name}: drawn in {drawing.unit_name} ({said})"
    yield (
        f"extents {format_length(x1 - x0, display)} x {format_length(y1 - y0, display)}, from "
        f"{place((x0, y0), display)} to {place((x1, y1), display)}"
    )
    yield from drawing.notes


def _layer_table(drawing: Drawing) -> Iterator[str]:
    yield ""
    yield "Layers"
    kinds: dict[str, list[str]] = {}
    for (layer, kind), count in drawing.counts.items():
        kinds.setdefault(layer, []).append(f"{count:,} {kind}")
    shown = drawing.layers[:LAYERS_SHOWN]
    width = max(len(name) for name in shown)
    for name in shown:
        off = " (off or frozen)" if name in drawing.hidden else ""
        yield f"  {name:<{width}}  {', '.join(kinds[name])}{off}"
    if len(drawing.layers) > len(shown):
        yield f"  and {len(drawing.layers) - len(shown):,} more"


def _outlines(drawing: Drawing, display: Display) -> Iterator[str]:
    """The closed outlines of every layer, largest first."""
    found = []
    for layer in drawing.layers:
        rings = drawing.outlines(layer)
        found += [(r.polygon, layer) for r in rings if r.polygon.area >= LEAST_SLAB]
    found.sort(key=lambda f: (-round(f[0].area), f[1], f[0].bounds))
    yield ""
    yield (
        "Closed outlines, largest first" if found else "No closed outline of a square metre or more"
    )
    for polygon, layer in found[:OUTLINES_SHOWN]:
        x0, y0, x1, y1 = polygon.bounds
        size = f"{format_length(x1 - x0, display)} x {format_length(y1 - y0, display)}"
        yield f"  {wide(polygon, display):>16}  {size:<28}  {layer}"
    if len(found) > OUTLINES_SHOWN:
        yield f"  and {len(found) - OUTLINES_SHOWN:,} more"


def _reading(look: Look, outcome: SlabParts | InputRefused, display: Display) -> Iterator[str]:
    yield ""
    yield "Proposed reading"
    for sentence in look.proposal.notes:
        yield f"  {sentence}"
    for sentence in look.proposal.questions:
        yield f"  To be answered: {sentence}"
    if isinstance(outcome, SlabParts):
        yield from _parts_found(outcome, display)
        for sentence in offers(look.drawing, outcome, look.layers, joints=True):
            yield f"  {sentence}"
    elif look.layers.outline:
        yield f"  It cannot be read that way: {outcome}"


def _parts_found(parts: SlabParts, display: Display) -> Iterator[str]:
    yield ""
    yield f"This gives {_summary(parts, display)}"
    if parts.outline:
        x0, y0, x1, y1 = parts.outline.polygon.bounds
        yield f"  The outline is read as {read_as(x1 - x0, y1 - y0, display)}"
    yield from _walls_and_columns(parts, display)
    for note in parts.notes[:NOTES_SHOWN]:
        yield f"  {note}"
    if len(parts.notes) > NOTES_SHOWN:
        yield f"  and {len(parts.notes) - NOTES_SHOWN:,} more notes"


def _summary(parts: SlabParts, display: Display) -> str:
    area = wide(parts.outline.polygon, display) if parts.outline else "no area"
    return (
        f"a slab of {area} with {counted(len(parts.openings), 'opening')}, "
        f"{counted(len(parts.walls), 'wall')}, {counted(len(parts.columns), 'column')}, "
        f"{counted(len(parts.penetrations), 'penetration')}, {counted(len(parts.joints), 'joint')}"
    )


def _walls_and_columns(parts: SlabParts, display: Display) -> Iterator[str]:
    """The walls by thickness, the columns by shape and size."""
    if parts.walls:
        kinds = Counter(format_depth(w.thickness, display) for w in parts.walls)
        run = format_run(sum(w.line.length for w in parts.walls), display)
        yield f"  walls: {_kinds(kinds)} thick, {run} in all"
    if parts.columns:
        shapes = Counter(f"{c.boxout.value} {format_depth(c.size, display)}" for c in parts.columns)
        yield f"  columns: {_kinds(shapes)}"


def _kinds(kinds: Counter[str]) -> str:
    """Counts by kind, the most frequent first."""
    ordered = sorted(kinds.items(), key=lambda item: (-item[1], item[0]))
    return ", ".join(f"{count} of {kind}" for kind, count in ordered)


def _left_out(drawing: Drawing) -> Iterator[str]:
    if drawing.ignored:
        yield ""
        kinds = ", ".join(f"{count:,} {kind}" for kind, count in drawing.ignored.items())
        yield f"Passed over, as no edge of anything: {kinds}"
    if drawing.skipped:
        yield ""
        yield "Not read"
        for s in drawing.skipped[:SKIPPED_SHOWN]:
            yield f"  {s.count:,} {s.kind} on {s.layer}: {s.why}"
        if len(drawing.skipped) > SKIPPED_SHOWN:
            yield f"  and {len(drawing.skipped) - SKIPPED_SHOWN:,} more kinds"
