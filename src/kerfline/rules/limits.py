"""The limits that a rule set puts on one slab: numbers in mm, mm2, degrees and ratios, with sources."""

from dataclasses import dataclass

from kerfline.model.layout import WorkingLimits

AS_KNOWN = {"quoted": " (as quoted)", "memory": " (from memory)"}
"""What is said after a publication that was not read itself."""


@dataclass(frozen=True, kw_only=True)
class Source:
    """Where a figure comes from.

    Attributes:
        publication: Title or designation; ``common practice`` where there is no publication.
        edition: Year or edition.
        section: Section, table or clause.
        known: ``read`` (the clause itself), ``quoted`` (a page that quotes it), ``memory``, ``practice`` or ``user``.
        page: Address of a page that carries the clause or quotes it; empty where none is known.
    """

    publication: str
    edition: str = ""
    section: str = ""
    known: str = "read"
    page: str = ""

    def __str__(self) -> str:
        """The source as it stands beside a finding."""
        text = ", ".join(filter(None, [self.publication, self.edition, self.section]))
        return f"{text}{AS_KNOWN.get(self.known, '')}"


@dataclass(frozen=True, kw_only=True)
class Figure:
    """A figure with two steps.

    Attributes:
        advised: Beyond this (above for a greatest value, below for a least one) is a warning.
        bound: Beyond this is an error.
        source: Where the bound comes from, and the advised value too unless it has its own source.
        advised_source: Where the advised value comes from, if elsewhere.
    """

    advised: float
    bound: float
    source: Source
    advised_source: Source | None = None

    @property
    def advised_by(self) -> Source:
        """Where the advised value comes from."""
        return self.advised_source or self.source


LONG_WALL = 0.5
"""Share of the span from which on a wall is to have its joint; for a shorter one it is a wish (common practice)."""


@dataclass(frozen=True, kw_only=True)
class Limits:
    """What a rule set allows for a slab of one thickness.

    Attributes:
        rule_set: Name of the rule set.
        thickness: Thickness they hold for, mm.
        span: Greatest length of a panel, mm.
        aspect: Greatest length / width.
        width: Least width, mm.
        angle: Least angle between joints and between joint and edge, degrees.
        area: Greatest panel area, mm2; None where the set has none.
    """

    rule_set: str
    thickness: float
    span: Figure
    aspect: Figure
    width: Figure
    angle: Figure
    area: Figure | None = None

    def working(self, *, to_maximum: bool = False) -> WorkingLimits:
        """What the engine works to: the advised span (or the greatest), and the bounds of the rest."""
        return WorkingLimits(
            span=self.span.bound if to_maximum else self.span.advised,
            aspect=self.aspect.bound,
            width=self.width.bound,
            angle=self.angle.bound,
        )
