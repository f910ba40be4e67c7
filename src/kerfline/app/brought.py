"""A file that is brought to the page, what is said of it, and what its layers can be."""

import contextlib
from collections.abc import Iterator
from dataclasses import dataclass, fields
from pathlib import Path
from typing import TYPE_CHECKING

from kerfline.errors import InputRefused, Mistake
from kerfline.units import Unit

if TYPE_CHECKING:
    from kerfline.files.drawing import Drawing

ROLES = ("outline", "openings", "walls", "columns", "penetrations", "keep_outs", "joints")
"""What a layer can be."""

MODELLED = {
    "outline": "slab",
    "openings": "holes in it",
    "walls": "walls above it",
    "columns": "columns",
    "penetrations": "round holes",
}
"""What the parts of a building model are called where the page lists layers."""


@dataclass(frozen=True, kw_only=True)
class Brought:
    """What is said of a file that was brought: a DXF, a DWG, a PDF or a building model.

    Attributes:
        unit: The unit that the user states; None leaves it to the file.
        page: Page of a PDF, from 1; 0 where it is not said.
        scale: Scale of that page as text; empty where it is not said.
        storey: Storey of a building model that holds the slab; empty where it is not said.
        floor: Number of the floor that is meant there, or ``all``; empty where it is not said.
    """

    unit: Unit | None = None
    page: int = 0
    scale: str = ""
    storey: str = ""
    floor: str = ""


def is_model(path: Path) -> bool:
    """Whether a file is a building model and no drawing.

    Raises:
        InputRefused: It is neither.
    """
    from kerfline.files.kinds import DRAWINGS, Kind, cannot_start, kind_of

    kind = kind_of(path)
    if kind not in DRAWINGS:
        raise InputRefused(cannot_start(kind, path))
    return kind is Kind.IFC


def gathered(path: Path, brought: Brought) -> "Drawing":
    """What a DXF, a DWG or a page of a PDF holds; a page is in its unit already.

    Raises:
        InputRefused: It cannot be read, or the scale of the page is open.
    """
    from kerfline.files.drawing import gather
    from kerfline.files.kinds import Kind, kind_of
    from kerfline.files.plan_pdf.read_pdf import PageChoice, read_pdf

    if kind_of(path) is not Kind.PDF:
        return gather(path)
    return read_pdf(path, PageChoice(page=brought.page, scale=brought.scale, units=brought.unit))


@contextlib.contextmanager
def unnamed(path: Path) -> Iterator[None]:
    """Refusals that do not name a file of the moment, which means nothing to the user."""
    try:
        yield
    except InputRefused as refused:
        names = (str(path), path.name)
        raise InputRefused(*(_without(m, names) for m in refused.mistakes)) from None


def _without(mistake: Mistake, names: tuple[str, ...]) -> Mistake:
    values = {f.name: str(getattr(mistake, f.name)) for f in fields(mistake)}
    for name in names:
        values = {key: text.replace(name, "the drawing") for key, text in values.items()}
    return Mistake(**values)
