"""The question which outline is the slab's, with the candidates numbered and the words to answer with."""

from collections.abc import Sequence
from pathlib import Path

from kerfline.errors import InputRefused, Mistake
from kerfline.files.drawing.candidates.candidate import Candidate, Source
from kerfline.files.drawing.candidates.decide import Decision
from kerfline.files.drawing.opened import Drawing
from kerfline.files.drawing.wording import place, wide
from kerfline.units import Display, format_length, listed


class SlabOpen(InputRefused):
    """Which outline is the slab's is for the user to say.

    Attributes:
        drawing: The drawing in its unit.
        candidates: The candidates, numbered.
    """

    def __init__(
        self, drawing: Drawing, decision: Decision, display: Display, others: str = ""
    ) -> None:
        sentences = _sentences(drawing.path, decision, display)
        super().__init__(*sentences, *_others(others), *_missing(drawing))
        self.drawing = drawing
        self.candidates = decision.candidates


def slab_question(drawing: Drawing, decision: Decision, others: str = "") -> SlabOpen:
    """The question for a drawing whose slab is not clear.

    Args:
        drawing: The drawing in its unit.
        decision: The candidates.
        others: Which layers may hold the other parts, as a clause.
    """
    return SlabOpen(drawing, decision, drawing.unit.display, others)


def _sentences(path: Path, decision: Decision, display: Display) -> list[Mistake]:
    candidates = decision.candidates
    if not candidates:
        remedy = "draw the slab's edge as one closed outline, or name the layers of its pieces with --outline"
        return [Mistake(what=decision.why, where=str(path), remedy=remedy)]
    several = "side by side" in decision.why
    every = ", or --slab all for a job of each" if several else ""
    at = ", ".join(format_length(c, display) for c in candidates[0].label)
    head = Mistake(
        what=decision.why,
        where=str(path),
        remedy=f"say which, as --slab 1{every}, or --slab-at {at!r} for the one around a point, or "
        "--outline LAYER",
    )
    return [head, *(Mistake(what=described(c, display)) for c in candidates)]


def _others(others: str) -> list[Mistake]:
    """The layers that the other parts are read from once the slab is clear."""
    if not others:
        return []
    remedy = "where that is wrong, name the layers with --walls, --columns or --joints"
    return [Mistake(what=f"beside the slab: {others}", remedy=remedy)]


def _missing(drawing: Drawing) -> list[Mistake]:
    """What is attached to a drawing and not in the file: the slab may stand there."""
    return [Mistake(what=n.rstrip(".")) for n in drawing.notes if "is attached and not in" in n]


def described(candidate: Candidate, display: Display) -> str:
    """One candidate as a line of the list: its size, where it is drawn, what lies in it, what is doubtful."""
    x0, y0, x1, y1 = candidate.polygon.bounds
    size = f"{format_length(x1 - x0, display)} x {format_length(y1 - y0, display)}"
    parts = [
        f"{candidate.number}. {size}, {wide(candidate.floor, display)} at {place(candidate.floor, display)}",
        f"{candidate.source} on {_layers(candidate.layers)}",
        f"in it {candidate.inside}" if candidate.inside else "",
        court_words(candidate, display),
        f"but {candidate.doubts[0]}" if candidate.doubts else "",
    ]
    return "; ".join(p for p in parts if p)


def court_words(candidate: Candidate, display: Display) -> str:
    """What is left out of a candidate as courts; empty for nothing."""
    if not candidate.courts:
        return ""
    listed = " and ".join(
        f"{wide(c.polygon, display)} at {place(c.polygon, display)}" for c in candidate.courts
    )
    tiles = candidate.source is Source.TILES
    why = "which no tile lies in: a pool or a bed" if tiles else WALLED
    return f"without {listed}, {why}"


WALLED = "which walls go all around: a court or a shaft"


def _layers(names: Sequence[str]) -> str:
    return f"{'layer' if len(names) == 1 else 'layers'} {listed(names, SHOWN)}"


SHOWN = 3
"""Layers that a line of the list names at most."""
