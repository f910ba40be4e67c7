"""What may be said of a slab beside its source."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from kerfline.errors import InputRefused, Mistake

if TYPE_CHECKING:
    from kerfline.app.wishes import Wishes
    from kerfline.units import Unit

DRAWN_IN = ("cm", "survey-ft")
"""Units that a drawing may be in and a job may not."""


@dataclass(frozen=True, kw_only=True)
class Options:
    """What may be said of a slab beside its source; None and empty leave it to the source.

    Attributes:
        thickness: Such as ``"4 in"``; needed where the source does not say.
        units: Unit of a drawing that does not say its own: ``ft``, ``in``, ``m``, ``mm``, ``cm``, ``survey-ft``.
        rules: Name of a rule set.
        to_maximum: Work to the greatest span instead of the advised one.
        effort: Seconds of a plain machine, counted in steps, to prove the layout the best.
        layers: For a drawing, its layers by what they hold: ``{"walls": ["A-WALL*"]}``.
        repair: For a drawing, how far a joint that stops short or runs over is mended, such as ``"2 in"``.
        page: For a PDF, the page that holds the plan, from 1.
        scale: For a PDF, the scale of that page: ``"1/8 in = 1 ft"`` or ``"1:100"``.
        storey: For a building model, the storey that holds the slab.
        slab: Number of the slab that is meant where there are several.
        slab_at: For a drawing, a place in the slab that is meant: ``"12 m, 4 m"``.
        review: Draw the findings on the joint plan.
    """

    thickness: str | None = None
    units: str | None = None
    rules: str | None = None
    to_maximum: bool = False
    effort: float | None = None
    layers: Mapping[str, Sequence[str]] | None = None
    repair: str | None = None
    page: int | None = None
    scale: str = ""
    storey: str = ""
    slab: str = ""
    slab_at: str = ""
    review: bool = False


def wishes_of(options: Options, *, asks: bool = False) -> "Wishes":
    """The same as the reading takes it.

    Args:
        options: What was said.
        asks: Whether a question about joint layers that only the user can answer stops the reading.

    Raises:
        InputRefused: There is no such unit.
    """
    from kerfline.app.wishes import Wishes

    units = options.units or ""
    return Wishes(
        thickness=options.thickness,
        units=None if not units or units in DRAWN_IN else _unit(units),
        drawn_in=units if units in DRAWN_IN else "",
        rules=options.rules,
        to_maximum=options.to_maximum,
        effort=options.effort,
        layers=tuple((kind, tuple(names)) for kind, names in (options.layers or {}).items()),
        repair=options.repair,
        page=options.page or 0,
        scale=options.scale,
        storey=options.storey,
        slab=options.slab,
        slab_at=options.slab_at,
        asks=asks,
    )


def _unit(name: str) -> "Unit":
    from kerfline.units import Unit

    try:
        return Unit(name)
    except ValueError:
        raise InputRefused(
            Mistake(
                what="there is no such unit",
                where="units",
                found=name,
                allowed=", ".join([*(unit.value for unit in Unit), *DRAWN_IN]),
                remedy="name one of these",
            )
        ) from None
