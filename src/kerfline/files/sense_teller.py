"""How the mistakes in a slab's sense are put into words."""

from collections.abc import Callable
from dataclasses import dataclass

from kerfline.errors import Mistake
from kerfline.geometry.ring import Point
from kerfline.units import Display, format_area, format_depth, format_length

CHECK_UNITS = "check the units"

Where = Callable[[str], str]
"""Turns a subject (``outline``, ``opening 1``, ``W3``) into the place that the user is told."""


@dataclass(frozen=True)
class Teller:
    """Writes mistakes with their place, lengths as the user works."""

    where: Where
    display: Display

    def mistake(
        self, subject: str, what: str, *, found: str = "", allowed: str = "", remedy: str = ""
    ) -> Mistake:
        """A mistake about a subject."""
        return Mistake(
            what=what, where=self.where(subject), found=found, allowed=allowed, remedy=remedy
        )

    def length(self, mm: float) -> str:
        """A length for people."""
        return format_length(mm, self.display)

    def depth(self, mm: float) -> str:
        """A thickness for people."""
        return format_depth(mm, self.display)

    def area(self, mm2: float) -> str:
        """An area for people."""
        return format_area(mm2, self.display)

    def point(self, point: Point) -> str:
        """A place for people."""
        return f"({self.length(point[0])}, {self.length(point[1])})"


def place_in(file: str) -> Where:
    """Places in a file that has no lines of its own; an empty name leaves the subject alone."""
    return lambda subject: f"{file}, {subject}" if file else subject
