"""What is found: one rule held against one place."""

from dataclasses import dataclass
from enum import StrEnum

from kerfline.geometry.ring import Point


class Severity(StrEnum):
    """How much a finding matters: beyond the maximum, beyond the advised, or good to know."""

    ERROR = "error"
    WARNING = "warning"
    ADVICE = "advice"


class Rule(StrEnum):
    """The rules that a layout is held against."""

    SPAN = "span"
    ASPECT = "aspect"
    AREA = "area"
    WIDTH = "width"
    SHAPE = "shape"
    ANGLE = "angle"
    CORNER = "corner"
    FREE_END = "free-end"
    TEE_END = "tee-end"
    WALL = "wall"
    BEARING_WALL = "bearing-wall"
    COLUMN = "column"
    PENETRATION = "penetration"
    KEEP_OUT = "keep-out"
    DEPTH = "depth"
    EDGE = "edge"


@dataclass(frozen=True, kw_only=True)
class Finding:
    """One rule held against one place.

    Attributes:
        rule: The rule.
        severity: How much it matters.
        at: Place in mm, in the drawing's own origin.
        subject: Id of the panel, joint, wall or corner.
        measured: What was measured, in mm, mm2, degrees or as a ratio, by rule; None where the rule
            asks yes or no.
        limit: What the rule allows, in the same measure.
        message: One sentence for people.
        source: Publication, edition, section.
        remedy: What would mend it.
    """

    rule: Rule
    severity: Severity
    at: Point
    subject: str
    measured: float | None
    limit: float | None
    message: str
    source: str
    remedy: str
