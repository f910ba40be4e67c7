"""What the page can do to the picture under the drawing, and what comes of it.

Points are those of the plan as it is shown; lengths come as they were typed.
"""

from dataclasses import dataclass, replace
from typing import Annotated, Literal

from pydantic import Field

from kerfline.app import tracing as lay
from kerfline.errors import InputRefused, Mistake
from kerfline.model.tracing import Tracing
from kerfline.units import Unit
from kerfline.web.values import Coordinate, Index, Name, Spot, Text

Side = Annotated[float, Field(ge=1, le=1e6)]


@dataclass(frozen=True, kw_only=True)
class LayTracing:
    """Lays a picture that was brought upright into what is seen of the plan."""

    do: Literal["lay-tracing"]
    file: Name
    page: Index
    size: tuple[Side, Side]
    view: tuple[Coordinate, Coordinate, Coordinate, Coordinate]


@dataclass(frozen=True, kw_only=True)
class ScaleTracing:
    """Gives a stretch of the picture its real length."""

    do: Literal["scale-tracing"]
    ends: tuple[Spot, Spot]
    text: Text
    way: Literal["", "level", "upright"] = ""


@dataclass(frozen=True, kw_only=True)
class SquareTracing:
    """Makes four corners of the picture those of a rectangle with these sides."""

    do: Literal["square-tracing"]
    corners: tuple[Spot, Spot, Spot, Spot]
    texts: tuple[Text, Text]


@dataclass(frozen=True, kw_only=True)
class MoveTracing:
    """Moves the picture."""

    do: Literal["move-tracing"]
    by: Spot


@dataclass(frozen=True, kw_only=True)
class ShowTracing:
    """Changes how the picture is shown; what is not said stays."""

    do: Literal["show-tracing"]
    fade: Annotated[float, Field(ge=0, le=1)] | None = None
    shown: bool | None = None
    locked: bool | None = None


@dataclass(frozen=True, kw_only=True)
class RemoveTracing:
    """Takes the picture away from under the drawing; its file stays."""

    do: Literal["remove-tracing"]


TracingAction = (
    LayTracing | ScaleTracing | SquareTracing | MoveTracing | ShowTracing | RemoveTracing
)


def on_tracing(action: TracingAction, tracing: Tracing | None, units: Unit) -> Tracing | None:
    """The picture after an action; None where there is none any more.

    Raises:
        InputRefused: It cannot be done, or there is no picture to do it to.
    """
    if isinstance(action, LayTracing):
        return lay.laid(action.file, action.page, action.size, action.view)
    if tracing is None:
        raise InputRefused(Mistake(what="there is no picture under the drawing"))
    match action:
        case ScaleTracing():
            length = lay.length_between(action.text, units)
            return lay.scaled(tracing, action.ends, length, action.way)
        case SquareTracing():
            along, across = (lay.length_between(text, units) for text in action.texts)
            return lay.squared(tracing, action.corners, (along, across))
        case MoveTracing():
            return lay.moved(tracing, action.by)
        case ShowTracing():
            return replace(
                tracing,
                fade=tracing.fade if action.fade is None else action.fade,
                shown=tracing.shown if action.shown is None else action.shown,
                locked=tracing.locked if action.locked is None else action.locked,
            )
        case RemoveTracing():
            return None
