"""The slab that a page of a PDF gives, by the same reading as a drawing's."""

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from kerfline.app.drawn_job import taken_by
from kerfline.app.wishes import Wishes

if TYPE_CHECKING:
    from kerfline.files.drawing import Drawing, Look, Reading

UNNAMED = "the lines of a page do not say which of them are walls, so their outer faces are a guess"


def page_of(path: Path, wishes: Wishes) -> "tuple[Drawing, Wishes]":
    """A page of a PDF as a drawing, and what the user says of it: its scale has given it its unit.

    Raises:
        InputRefused: The page cannot be read, or its scale must be asked for.
    """
    from kerfline.files.plan_pdf.read_pdf import PageChoice, read_pdf

    choice = PageChoice(page=wishes.page, scale=wishes.scale, units=wishes.units)
    return read_pdf(path, choice), replace(wishes, units=None, drawn_in="")


def taken_from_page(look: "Look", wishes: Wishes) -> "Reading":
    """What is taken from a page; an outline around what only may be walls is asked about, never taken.

    Raises:
        SlabOpen: Which outline is the slab's is for the user to say.
        InputRefused: A layer is not there, or what is named gives no slab.
    """
    from kerfline.files.drawing.candidates import slab_question
    from kerfline.files.drawing.candidates.candidate import Source

    chosen = wishes.slab or wishes.slab_at or dict(wishes.layers).get("walls")
    if look.slab and look.slab.source is Source.WALLS and not chosen:
        decision = replace(look.proposal.decision, slab=None, why=UNNAMED)
        raise slab_question(look.drawing, decision)
    return taken_by(look, wishes)
