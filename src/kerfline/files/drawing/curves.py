"""What is taken from a drawing: plain curves in mm, each with the layer it was drawn on."""

from dataclasses import dataclass

from kerfline.geometry.paths import Path
from kerfline.geometry.ring import Point


@dataclass(frozen=True, kw_only=True)
class Curve:
    """One drawn curve.

    Attributes:
        layer: Its layer; inside a block the block reference's, where the curve itself stands on layer 0.
        kind: Type of the entity it was drawn as, such as ``LINE``.
        path: The curve in mm.
        group: Number of the block reference that it came with; 0 for none.
    """

    layer: str
    kind: str
    path: Path
    group: int = 0


@dataclass(frozen=True, kw_only=True)
class Spot:
    """A drawn point, in mm; the fields are those of ``Curve``."""

    layer: str
    kind: str
    at: Point
    group: int = 0


@dataclass(frozen=True, kw_only=True)
class Label:
    """A piece of text and its place in mm."""

    layer: str
    text: str
    at: Point


@dataclass(frozen=True, kw_only=True, order=True)
class Skipped:
    """Entities that were not read.

    Attributes:
        kind: Type of the entity.
        layer: Its layer.
        why: The reason, as a clause.
        count: How many.
    """

    kind: str
    layer: str
    why: str
    count: int
