"""What the user says beside a file."""

from dataclasses import dataclass

from kerfline.errors import InputRefused, Mistake
from kerfline.units import Unit, parse_length


@dataclass(frozen=True, kw_only=True)
class Wishes:
    """What the command line or the page may say beside the file; None leaves it to the file.

    Attributes:
        thickness: Text such as ``4 in``.
        units: Unit of the drawing, and of bare numbers.
        drawn_in: Unit of the drawing where it is none that a job may be in: ``cm``, ``survey-ft``.
        rules: Name of a rule set.
        to_maximum: Work to the greatest span instead of the advised one.
        effort: Seconds that the engine may search.
        layers: Layer patterns by what they hold (``outline``, ``walls``, ...), for drawings.
        repair: How far a joint that stops short or runs over is mended, as text, for drawings.
        page: Page that holds the plan, from 1, for PDFs; 0 where it is not said.
        scale: Scale of that page as text, such as ``1/8 in = 1 ft``.
        storey: Storey that holds the slab, for building models.
        slab: Number of the slab that is meant where there are several, or ``all``.
        slab_at: A place in the slab that is meant, as text such as ``12 m, 4 m``, for drawings.
        asks: Whether a question that only the user can answer stops the reading.
    """

    thickness: str | None = None
    units: Unit | None = None
    drawn_in: str = ""
    rules: str | None = None
    to_maximum: bool = False
    effort: float | None = None
    layers: tuple[tuple[str, tuple[str, ...]], ...] = ()
    repair: str | None = None
    page: int = 0
    scale: str = ""
    storey: str = ""
    slab: str = ""
    slab_at: str = ""
    asks: bool = False


def thickness_of(wishes: Wishes, units: Unit) -> float:
    """The thickness that the user gave beside a drawing.

    Raises:
        InputRefused: None was given, or it is not a thickness.
    """
    if wishes.thickness is None:
        raise InputRefused(
            Mistake(
                what="nothing says how thick the slab is",
                remedy='give --thickness, such as --thickness "4 in" or --thickness "100 mm"',
            )
        )
    thickness = parse_length(wishes.thickness, units, where="--thickness")
    if thickness <= 0:
        raise InputRefused(
            Mistake(
                what="the thickness must be more than nothing",
                where="--thickness",
                found=wishes.thickness,
                remedy='write it as "4 in" or "100 mm"',
            )
        )
    return thickness
