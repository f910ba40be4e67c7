"""Everything that the page can do to a working state, each as one small message.

A message names what to do in ``do`` and carries points in mm. What the user wrote (a thickness, a
distance) comes as text; ``acting`` reads it as the job file's reader does.
"""

from dataclasses import dataclass
from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field, ValidationError

from kerfline.errors import InputRefused, Mistake
from kerfline.model.slab import JointKind
from kerfline.web.tracing_actions import (
    LayTracing,
    MoveTracing,
    RemoveTracing,
    ScaleTracing,
    ShowTracing,
    SquareTracing,
)
from kerfline.web.values import LARGEST, Coordinate, Index, Name, Points, Spot, Text

Bent = Literal["joint", "outline", "opening", "zone", "keep-out"]
SlabKind = Literal["wall", "column", "penetration", "keep-out", "forbidden", "zone", "opening"]


@dataclass(frozen=True, kw_only=True)
class Slide:
    """Moves a joint sideways."""

    do: Literal["slide"]
    id: Name
    by: Spot


@dataclass(frozen=True, kw_only=True)
class Place:
    """Moves an upright or level joint to a written distance from the slab's lower left."""

    do: Literal["place"]
    id: Name
    text: Text


@dataclass(frozen=True, kw_only=True)
class MoveEnd:
    """Moves a joint's end; ``near`` (mm) is how near to a stop on its line a bent joint's is drawn to it."""

    do: Literal["end"]
    id: Name
    end: Literal[0, 1]
    to: Spot
    near: Coordinate = LARGEST


@dataclass(frozen=True, kw_only=True)
class StepEnd:
    """Moves a joint's end to the next stop that way, or a bent joint's one step along its edge."""

    do: Literal["step-end"]
    id: Name
    end: Literal[0, 1]
    by: Spot


@dataclass(frozen=True, kw_only=True)
class MoveVertex:
    """Moves a bend of a joint, or a corner of the outline or of an opening."""

    do: Literal["vertex"]
    what: Bent
    id: Name
    index: Index
    to: Spot


@dataclass(frozen=True, kw_only=True)
class PlaceVertex:
    """Moves a bend to a written distance from the slab's lower left, a corner to a written coordinate."""

    do: Literal["place-vertex"]
    what: Bent
    id: Name
    index: Index
    axis: Literal["x", "y"]
    text: Text


@dataclass(frozen=True, kw_only=True)
class AddVertex:
    """Adds a bend or corner at a point, or in the middle of the stretch after one; else of the longest."""

    do: Literal["add-vertex"]
    what: Bent
    id: Name
    at: Spot | None = None
    after: Index | None = None


@dataclass(frozen=True, kw_only=True)
class RemoveVertex:
    """Takes a bend or corner away."""

    do: Literal["remove-vertex"]
    what: Bent
    id: Name
    index: Index


@dataclass(frozen=True, kw_only=True)
class Draw:
    """Adds a joint."""

    do: Literal["draw"]
    start: Spot
    end: Spot


@dataclass(frozen=True, kw_only=True)
class Split:
    """Divides a panel: across its length, or along it where ``turned``."""

    do: Literal["split"]
    id: Name
    at: Spot | None = None
    turned: bool = False


@dataclass(frozen=True, kw_only=True)
class Delete:
    """Takes a joint or a thing away."""

    do: Literal["delete"]
    what: Literal["joint"] | SlabKind
    id: Name


@dataclass(frozen=True, kw_only=True)
class Pin:
    """Pins or unpins a joint; every joint where no id is given."""

    do: Literal["pin"]
    pinned: bool
    id: Text = ""


@dataclass(frozen=True, kw_only=True)
class Kind:
    """Makes a joint a control, construction or isolation joint."""

    do: Literal["kind"]
    id: Name
    kind: JointKind


@dataclass(frozen=True, kw_only=True)
class Forbid:
    """Takes a joint away and lets no joint lie along its line."""

    do: Literal["forbid"]
    id: Name


@dataclass(frozen=True, kw_only=True)
class Add:
    """Adds a wall, column, drain, keep-out, zone, opening or forbidden line."""

    do: Literal["add"]
    what: SlabKind
    points: Points


@dataclass(frozen=True, kw_only=True)
class Move:
    """Moves a thing."""

    do: Literal["move"]
    what: SlabKind
    id: Name
    by: Spot


@dataclass(frozen=True, kw_only=True)
class Set:
    """Changes one value of a thing."""

    do: Literal["set"]
    what: SlabKind
    id: Name
    field: Name
    value: bool | Text


@dataclass(frozen=True, kw_only=True)
class Thickness:
    """Changes the slab's thickness."""

    do: Literal["thickness"]
    text: Text


@dataclass(frozen=True, kw_only=True)
class Rules:
    """Changes the rule set."""

    do: Literal["rules"]
    set: Name
    to_maximum: bool = False


@dataclass(frozen=True, kw_only=True)
class Item:
    """One thing that an action is about."""

    what: Literal["joint"] | SlabKind
    id: Name


Way = Literal["right", "left", "up", "down"]


@dataclass(frozen=True, kw_only=True)
class Repeat:
    """Copies things: by a step, or so far (as written) to one side, a number of times."""

    do: Literal["repeat"]
    items: Annotated[tuple[Item, ...], Field(min_length=1, max_length=200)]
    by: Spot | None = None
    way: Way = "right"
    text: Text = ""
    times: Annotated[int, Field(ge=1, le=200)] = 1


Count = Annotated[int, Field(ge=1, le=100)]


@dataclass(frozen=True, kw_only=True)
class ColumnGrid:
    """Adds columns on a grid: the first so far from the slab's lower left, then every so far."""

    do: Literal["column-grid"]
    at: tuple[Text, Text]
    every: tuple[Text, Text]
    times: tuple[Count, Count]


Single = (
    Slide | Place | MoveEnd | StepEnd | Draw | Split | Delete | Pin | Kind | Forbid | Add | Move | Set
    | Thickness | Rules | MoveVertex | PlaceVertex | AddVertex | RemoveVertex | Repeat
    | ColumnGrid | LayTracing | ScaleTracing | SquareTracing | MoveTracing | ShowTracing
    | RemoveTracing
)  # fmt: skip


@dataclass(frozen=True, kw_only=True)
class Many:
    """Several actions as one step; where one is refused none is done."""

    do: Literal["many"]
    actions: Annotated[
        tuple[Annotated[Single, Field(discriminator="do")], ...],
        Field(min_length=1, max_length=500),
    ]


Action = Single | Many

VertexAction = MoveVertex | PlaceVertex | AddVertex | RemoveVertex
"""What is done to one point of a line."""


class _Message(BaseModel):
    """Carries the configuration down to the plain dataclasses below it."""

    model_config = ConfigDict(extra="forbid", allow_inf_nan=False)

    action: Annotated[Action, Field(discriminator="do")]


def read_action(data: object) -> Action:
    """An action that came from the page.

    Raises:
        InputRefused: It is not one.
    """
    try:
        return _Message.model_validate({"action": data}).action
    except ValidationError as error:
        first = error.errors(include_url=False, include_input=False)[0]
        place = ".".join(str(part) for part in first["loc"])
        raise InputRefused(Mistake(what=str(first["msg"]), where=place)) from None
