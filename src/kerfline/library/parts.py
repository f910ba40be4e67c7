"""Joints, panels and findings as plain data, lengths in mm, areas in mm2, angles in degrees."""

from dataclasses import dataclass

from shapely import LineString, Polygon

Point = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Joint:
    """One saw pass or bulkhead.

    Attributes:
        id: Its name on the sheets.
        kind: ``control``, ``construction`` or ``isolation``.
        path: Its line, two points or more.
        length: Length, mm.
        hidden_length: Length of it under walls, mm.
        depth: Depth of the cut, mm; 0 where it is not sawn.
        reason: Why it is there, in one word.
        note: The reason in words.
    """

    id: str
    kind: str
    path: tuple[Point, ...]
    length: float
    hidden_length: float
    depth: float
    reason: str
    note: str

    @property
    def line(self) -> LineString:
        """The joint as a shapely line."""
        return LineString(self.path)


@dataclass(frozen=True, slots=True, kw_only=True)
class Panel:
    """A piece of slab bounded by edges and joints.

    Attributes:
        id: Its name on the sheets.
        outline: Its corners, anticlockwise, the first not repeated.
        openings: Those of each opening in it, clockwise.
        length: Long side of its smallest enclosing rectangle, mm.
        width: Short side, mm.
        aspect: Length over width.
        area: Area of concrete, mm2.
        status: ``ok``, ``warning`` or ``error``, by the findings.
    """

    id: str
    outline: tuple[Point, ...]
    openings: tuple[tuple[Point, ...], ...]
    length: float
    width: float
    aspect: float
    area: float
    status: str

    @property
    def polygon(self) -> Polygon:
        """The panel as a shapely polygon."""
        return Polygon(self.outline, self.openings)


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """One rule held against one place.

    Attributes:
        rule: Which rule.
        severity: ``error``, ``warning`` or ``advice``.
        at: Where, mm.
        subject: What it is about, such as ``P3``.
        measured: What was measured; None where the rule measures nothing.
        limit: What is allowed; None where it is no figure.
        message: The finding in words.
        source: Where the rule stands.
        remedy: What can be done.
    """

    rule: str
    severity: str
    at: Point
    subject: str
    measured: float | None
    limit: float | None
    message: str
    source: str
    remedy: str
