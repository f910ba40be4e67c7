"""What was taken from a drawing, said to the user: its unit, its layers and why, what was left out."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import fields
from typing import TYPE_CHECKING

from kerfline.errors import InputRefused, Mistake

if TYPE_CHECKING:
    from kerfline.files.drawing import Drawing, Layers, Proposal, Reading

MOST = 8
"""Layers or kinds of entity that one sentence lists."""

JOINTS = "joints"


def reading_of(read: "Reading", told: Mapping[str, tuple[str, ...]]) -> tuple[str, ...]:
    """Sentences on how a drawing was read.

    Args:
        read: The reading.
        told: Layers by what they hold, as far as the user named them.
    """
    from kerfline.files.drawing.size import read_as

    drawing, outline = read.drawing, read.parts.outline
    said = (
        "as you say"
        if drawing.told
        else "as the drawing says"
        if drawing.declared
        else "by what is drawn"
    )
    x0, y0, x1, y1 = outline.polygon.bounds if outline else drawing.bounds
    return (
        f"Unit: {drawing.unit_name}, {said}. The slab is read as {read_as(x1 - x0, y1 - y0)}.",
        *(f"{_head(part)} {', '.join(names)}, as you say." for part, names in told.items()),
        *(
            n
            for n in read.look.proposal.notes
            if not n.startswith(tuple(_head(part) for part in told))
        ),
        *_left_out(drawing, read.look.layers),
    )


def _head(part: str) -> str:
    """How a sentence of the proposal on a part begins."""
    return f"{part.replace('_', '-').capitalize()}:"


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
