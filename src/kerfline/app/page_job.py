"""The slab that a page of a PDF gives, by the same reading as a drawing's."""

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from kerfline.app.drawn_job import taken_by
from kerfline.app.wishes import Wishes

if TYPE_CHECKING:
    from collections.abc import Sequence

    from kerfline.files.drawing import Drawing, Look, Reading
    from kerfline.files.drawing.candidates.candidate import Candidate

UNNAMED = "the lines of a page do not say which of them are walls, so their outer faces are a guess"
AROUND = "an outline goes around what may be walls, and may be the slab's or a roof's"


def page_of(path: Path, wishes: Wishes) -> "tuple[Drawing, Wishes]":
    """A page of a PDF as a drawing, and what the user says of it: its scale has given it its unit.

    Raises:
        InputRefused: The page cannot be read, or its scale must be asked for.
    """
    from kerfline.files.plan_pdf.read_pdf import PageChoice, read_pdf

    choice = PageChoice(page=wishes.page, scale=wishes.scale, units=wishes.units)
    return read_pdf(path, choice), replace(wishes, units=None, drawn_in="")


def taken_from_page(look: "Look", wishes: Wishes) -> "Reading":
    """What is taken from a page; an outline around what only may be walls, or may be a roof, is asked about, never taken.

    Raises:
        SlabOpen: Which outline is the slab's is for the user to say.
        InputRefused: A layer is not there, or what is named gives no slab.
    """
    from kerfline.files.drawing.candidates import slab_question
    from kerfline.files.drawing.candidates.candidate import Source

    chosen = wishes.slab or wishes.slab_at or dict(wishes.layers).get("walls")
    if look.slab and not chosen:
        decision = look.proposal.decision
        guess = UNNAMED if look.slab.source in (Source.WALLS, Source.TILES) else ""
        if guess := guess or _roof_or_slab(look.slab, decision.candidates):
            raise slab_question(look.drawing, replace(decision, slab=None, why=guess))
    return taken_by(look, wishes)


def _roof_or_slab(slab: "Candidate", candidates: "Sequence[Candidate]") -> str:
    """Why an outline without a telling name may be a roof's: walls lie well inside of it; empty where it is none."""
    from kerfline.files.drawing.candidates.candidate import Source, on_ledge
    from kerfline.files.drawing.candidates.decide import NOT_FAR
    from kerfline.files.drawing.names import outline_rank

    if any(outline_rank(layer) is not None for layer in slab.layers):
        return ""
    inside = [
        c
        for c in candidates
        if c.source is Source.WALLS
        and slab.polygon.buffer(1.0).covers(c.polygon)
        and c.polygon.area > NOT_FAR * slab.polygon.area
    ]
    return AROUND if any(not on_ledge(c.polygon, slab.polygon) for c in inside) else ""
