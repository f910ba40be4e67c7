"""How far a measure lies beyond a figure, and what that is called."""

import math
from collections.abc import Iterable
from dataclasses import dataclass

from kerfline.model.finding import Severity
from kerfline.rules.limits import Figure, Source


@dataclass(frozen=True, kw_only=True)
class Grade:
    """A measure beyond a figure.

    Attributes:
        severity: Error beyond the bound, warning beyond the advised value.
        limit: The value that it is beyond.
        source: Where that value comes from.
    """

    severity: Severity
    limit: float
    source: Source

    @property
    def error(self) -> bool:
        """Whether the bound itself is broken."""
        return self.severity is Severity.ERROR


def above(value: float, figure: Figure, slack: float) -> Grade | None:
    """Holds a measure against a greatest value; None where it is kept.

    Args:
        value: What was measured.
        figure: The advised value and the bound.
        slack: What the measure may be beyond either.
    """
    if value > figure.bound + slack:
        return Grade(severity=Severity.ERROR, limit=figure.bound, source=figure.source)
    if value > figure.advised + slack:
        return Grade(severity=Severity.WARNING, limit=figure.advised, source=figure.advised_by)
    return None


def below(value: float, figure: Figure, slack: float) -> Grade | None:
    """Holds a measure against a least value; see ``above``."""
    if value < figure.bound - slack:
        return Grade(severity=Severity.ERROR, limit=figure.bound, source=figure.source)
    if value < figure.advised - slack:
        return Grade(severity=Severity.WARNING, limit=figure.advised, source=figure.advised_by)
    return None


@dataclass(frozen=True, kw_only=True)
class Held:
    """A measure and the figure that it is held against.

    Attributes:
        value: What was measured.
        figure: The advised value and the bound.
        greatest: Whether the figure is a greatest value, not a least one.
    """

    value: float
    figure: Figure
    greatest: bool = True

    @property
    def use(self) -> float:
        """Share of the bound that is used; above 1 it is broken."""
        used, of = (
            (self.value, self.figure.bound) if self.greatest else (self.figure.bound, self.value)
        )
        return used / of if of else math.inf


def worst_held(held: Iterable[Held]) -> Held | None:
    """The measure that is nearest to breaking its figure, or breaks it most."""
    return max(held, key=lambda h: h.use, default=None)
