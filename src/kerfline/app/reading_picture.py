"""The picture of how a drawing was read: everything in grey, the outlines that may be the slab numbered."""

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

from kerfline.app.file_names import file_stem
from kerfline.app.sheet_files import sheet_files
from kerfline.errors import InputRefused, Mistake
from kerfline.geometry.ring import Point
from kerfline.sheets.reading_sheet import Outlined, Picture, reading_sheet
from kerfline.units import Display

if TYPE_CHECKING:
    from kerfline.files.drawing import Candidate, Drawing, Reading
    from kerfline.files.slab_parts import SlabParts

TAKEN = "How the drawing was read"
OPEN = "Which outline is the slab?"


def reading_files(read: "Reading", name: str, words: Sequence[str]) -> dict[str, bytes]:
    """The picture of a reading by file name: ``NAME-reading.pdf`` and ``.svg``.

    Args:
        read: The reading.
        name: Name of the job.
        words: Sentences on how it was read.
    """
    slab = read.look.slab
    candidates = read.look.proposal.decision.candidates
    number = slab.number if slab else 0
    picture = _picture(TAKEN, read.drawing, candidates, read.parts, number, words)
    sheet = reading_sheet(picture, read.drawing.unit.display)
    return sheet_files(f"{file_stem(name)}-reading", [sheet])


def question_files(drawing: "Drawing", candidates: "Sequence[Candidate]") -> dict[str, bytes]:
    """The picture of a question by file name."""
    words = (
        "Say which, as --slab 1, or --slab-at for the one around a point, or --outline LAYER.",
    )
    picture = _picture(OPEN, drawing, candidates, None, 0, words)
    sheet = reading_sheet(picture, drawing.unit.display)
    return sheet_files(f"{file_stem(drawing.path.stem)}-reading", [sheet])


@contextmanager
def pictured(folder: Path | None) -> Iterator[None]:
    """Draws the picture where a drawing leaves open which outline is the slab's, and says where it is.

    Args:
        folder: Where to; ``out/NAME`` where it is None.

    Raises:
        InputRefused: The question, with the names of the picture's files.
        OutputRefused: The picture cannot be written.
    """
    try:
        yield
    except InputRefused as refused:
        from kerfline.files.drawing.candidates.question import SlabOpen

        if not isinstance(refused, SlabOpen) or not refused.candidates:
            raise
        from kerfline.files.atomic import write_all

        target = folder or Path("out") / file_stem(refused.drawing.path.stem)
        files = write_all(target, question_files(refused.drawing, refused.candidates))
        names = " and ".join(f.name for f in files)
        shown = Mistake(what=f"{names} in {target} show them, numbered, over the drawing")
        raise InputRefused(*refused.mistakes, shown) from None


def _picture(
    title: str,
    drawing: "Drawing",
    candidates: "Sequence[Candidate]",
    parts: "SlabParts | None",
    taken: int,
    words: Sequence[str],
) -> Picture:
    display = drawing.unit.display
    lines = [tuple(c.path.coordinates) for c in drawing.curves if c.layer not in drawing.hidden]
    outlines = [_outlined(c, display, taken=c.number == taken) for c in candidates]
    if parts and parts.outline and not taken:
        outlines = [_named(parts.outline.coordinates)]
    walls, holes = _parts(parts) if parts else ((), ())
    return Picture(
        title=title, lines=lines, outlines=outlines, walls=walls, holes=holes, words=words
    )


def _outlined(candidate: "Candidate", display: Display, *, taken: bool) -> Outlined:
    from kerfline.files.drawing.candidates.question import described

    return Outlined(
        number=candidate.number,
        ring=candidate.ring.coordinates,
        courts=tuple(c.coordinates for c in candidate.courts),
        label=candidate.label,
        taken=taken,
        words=described(candidate, display),
    )


def _named(ring: tuple[Point, ...]) -> Outlined:
    """The outline on the layers that the user named."""
    from shapely import Polygon

    inside = Polygon(ring).representative_point()
    return Outlined(number=1, ring=ring, label=(inside.x, inside.y), taken=True)


def _parts(
    parts: "SlabParts",
) -> tuple[tuple[tuple[Point, ...], ...], tuple[tuple[Point, ...], ...]]:
    """Centre lines of the walls; edges of openings and columns."""
    columns = [c.outline.coordinates for c in parts.columns if c.outline]
    holes = (*(o.coordinates for o in parts.openings), *columns)
    return tuple(w.path for w in parts.walls), holes
