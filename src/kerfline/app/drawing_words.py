"""What was taken from a drawing, said to the user: its unit, its layers and why, what was left out."""

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import fields
from typing import TYPE_CHECKING

from kerfline.errors import InputRefused, Mistake
from kerfline.units import Display, counted, format_area, format_run

if TYPE_CHECKING:
    from kerfline.files.drawing import Drawing, Layers, Proposal, Reading, SlabParts

MOST = 8
"""Layers or kinds of entity that one sentence lists."""

MOST_LINES = 10
"""Lines that a command says of a reading at most."""

PARTS = {
    "walls": "interior wall",
    "columns": "column",
    "openings": "opening",
    "penetrations": "penetration",
    "joints": "joint",
    "keep_outs": "keep-out",
}
"""The parts of a slab as they are counted."""

FIGURES = re.compile(r"[\d\"'./-]*\d[\d\"'/-]*( \d+/\d+\"?)?|^[GWNCK]\d+")
"""What differs between two notes of one wording: lengths, places, names of joints."""

JOINTS = "joints"


def reading_of(read: "Reading", told: Mapping[str, tuple[str, ...]]) -> tuple[str, ...]:
    """Sentences on how a drawing was read, ``MOST_LINES`` at most.

    Args:
        read: The reading.
        told: Layers by what they hold, as far as the user named them.
    """
    drawing = read.drawing
    display = drawing.unit.display
    lines = [
        _slab_words(read, told),
        _unit_words(drawing),
        *_part_words(read.parts, read.look.layers, told, display),
        *_left_out(drawing, read.look.layers),
        *(n for n in read.look.proposal.notes if n.startswith(("Left out:", "Layers of small"))),
    ]
    return tuple(lines[:MOST_LINES])


def _slab_words(read: "Reading", told: Mapping[str, tuple[str, ...]]) -> str:
    """Size and area of the slab, where its edge was found, and why there."""
    from kerfline.files.drawing.size import read_as

    outline = read.parts.outline
    x0, y0, x1, y1 = outline.polygon.bounds if outline else read.drawing.bounds
    area = format_area(outline.polygon.area if outline else 0.0, read.drawing.unit.display)
    where = _edge_words(read, told)
    return f"Slab: {read_as(x1 - x0, y1 - y0)}, {area}; {where}."


def _edge_words(read: "Reading", told: Mapping[str, tuple[str, ...]]) -> str:
    if "outline" in told:
        return f"edge on {', '.join(told['outline'])}, as you say"
    note = next((n for n in read.look.proposal.notes if n.startswith("Outline:")), "")
    return f"edge: {note.removeprefix('Outline: ').rstrip('.')}" if note else "edge as drawn"


def _unit_words(drawing: "Drawing") -> str:
    if drawing.told:
        return f"Unit: {drawing.unit_name}, as you say."
    if drawing.declared:
        return f"Unit: {drawing.unit_name}, as the drawing says."
    why = next((n for n in drawing.notes if "does not say its unit" in n), "")
    return f"Unit: {drawing.unit_name}. {why}"


def _part_words(
    parts: "SlabParts", layers: "Layers", told: Mapping[str, tuple[str, ...]], display: Display
) -> Iterator[str]:
    """What was taken of each part, and from which layers."""
    for part, one in PARTS.items():
        found = getattr(parts, part)
        names = getattr(layers, part)
        if not found and not names:
            continue
        size = ""
        if part == "walls" and found:
            size = f", {format_run(sum(w.line.length for w in found), display)}"
        where = f" on {_some(names)}" if names else " on the slab's own layers"
        said = ", as you say" if part in told else ""
        yield f"{part.replace('_', '-').capitalize()}: {counted(len(found), one)}{size}{where}{said}."


def gathered(notes: Sequence[str]) -> list[str]:
    """Notes with those of one wording said once, and how many there are of them."""
    alike: dict[str, list[str]] = {}
    for note in notes:
        alike.setdefault(FIGURES.sub("#", note), []).append(note)
    return [
        own[0] if len(own) == 1 else f"{own[0]} (And {len(own) - 1:,} more of this kind.)"
        for own in alike.values()
    ]


def told_in_lines(
    reading: Sequence[str], notes: Sequence[str], rest: str = "kerfline new lists them all"
) -> list[str]:
    """The reading and the notes on it, ``MOST_LINES`` at most, the reading first.

    Args:
        reading: Sentences on how a drawing was read.
        notes: Sentences on what was repaired and left out.
        rest: Where those are that find no room.
    """
    every = [*reading, *gathered(notes)]
    if len(every) <= MOST_LINES:
        return every
    left = len(every) - MOST_LINES + 1
    return [*every[: MOST_LINES - 1], f"{left:,} more notes; {rest}."]


def _left_out(drawing: "Drawing", layers: "Layers") -> Iterator[str]:
    from kerfline.files.drawing.layers import chosen

    used = {
        n for f in fields(layers) for n in chosen(drawing.layers, getattr(layers, f.name))
    } | drawing.hidden
    unused = [n for n in drawing.layers if n not in used]
    if unused:
        yield f"Not used, as nothing says that they hold a part of the slab: {_some(unused)}."
    if drawing.ignored:
        kinds = [f"{count:,} {kind}" for kind, count in drawing.ignored.items()]
        yield f"Passed over, as no edge of anything: {_some(kinds)}."
    if drawing.skipped:
        kinds = [f"{s.count:,} {s.kind} on {s.layer} ({s.why})" for s in drawing.skipped]
        yield f"Not read: {_some(kinds)}."


def _some(names: Sequence[str]) -> str:
    more = len(names) - MOST
    listed = ", ".join(names[:MOST])
    return f"{listed} and {more:,} more" if more > 0 else listed


def ask(proposal: "Proposal", told: Mapping[str, tuple[str, ...]]) -> None:
    """Puts what only the user can answer, where he has not answered it yet.

    Raises:
        InputRefused: A layer says CJ, nothing says what that means, and the user did not name the joints.
    """
    if JOINTS in told:
        return
    asked = [q for q in proposal.questions if "CJ" in q]
    if asked:
        known = [f'--joints "{name}"' for name in proposal.layers.joints]
        also = f"; the other joint layers found are {', '.join(known)}" if known else ""
        raise InputRefused(
            *(Mistake(what=question.rstrip("."), remedy=_answer(also)) for question in asked)
        )


def _answer(also: str) -> str:
    return (
        f'on the command line, --joints "LAYER = control" or --joints "LAYER = construction"{also}'
    )
