"""What is taken from a drawing: plain curves in mm, each with the layer it was drawn on."""

from dataclasses import dataclass, replace

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
        width: Width (mm) that it is drawn with, such as that of a wide polyline; 0 for a line.
        linetype: Name of the type of line that it is drawn with, in capitals; its layer's where it has none of its own.
        one_joint: Whether a drawing of ours says that it is a joint as it stands, bends and all.
    """

    layer: str
    kind: str
    path: Path
    group: int = 0
    width: float = 0.0
    linetype: str = ""
    one_joint: bool = False

    def scaled(self, by: float) -> "Curve":
        """The same in a unit that is so many times as long."""
        points = tuple((x * by, y * by) for x, y in self.path.points)
        path = Path(points, self.path.bulges, self.path.closed)
        return replace(self, path=path, width=self.width * by)


@dataclass(frozen=True, kw_only=True)
class Spot:
    """A drawn point, in mm; the fields are those of ``Curve``."""

    layer: str
    kind: str
    at: Point
    group: int = 0

    def scaled(self, by: float) -> "Spot":
        """The same in a unit that is so many times as long."""
        return replace(self, at=(self.at[0] * by, self.at[1] * by))


@dataclass(frozen=True, kw_only=True)
class Label:
    """A piece of text and its place in mm.

    Attributes:
        layer: Its layer.
        text: What it says.
        at: Where it stands.
        height: Height of its capitals (mm); 0 where the drawing does not say.
    """

    layer: str
    text: str
    at: Point
    height: float = 0.0

    def scaled(self, by: float) -> "Label":
        """The same in a unit that is so many times as long."""
        return replace(self, at=(self.at[0] * by, self.at[1] * by), height=self.height * by)


@dataclass(frozen=True, kw_only=True)
class Stated:
    """A length that the drawing states: a dimension and what its text says.

    Attributes:
        drawn: Distance between its two points as drawn, in drawing units.
        text: What it says, as the user reads it.
    """

    drawn: float
    text: str


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
