"""The units that a job may be written in, and the two ways in which lengths are shown."""

from enum import StrEnum

from kerfline.units.factors import MM_PER_FOOT, MM_PER_INCH, MM_PER_METRE, MM_PER_SURVEY_FOOT


class Unit(StrEnum):
    """A unit that a bare number may be declared in."""

    FT = "ft"
    IN = "in"
    M = "m"
    MM = "mm"

    @property
    def mm(self) -> float:
        """Millimetres in one of this unit."""
        return _FACTORS[self]

    @property
    def display(self) -> "Display":
        """The way lengths are written for a user who works in this unit."""
        return Display.FEET_INCHES if self in (Unit.FT, Unit.IN) else Display.METRIC


class SiteUnit(StrEnum):
    """A unit that surveyors give eastings, northings and heights in."""

    M = "m"
    FT = "ft"
    SURVEY_FT = "us-ft"

    @property
    def mm(self) -> float:
        """Millimetres in one of this unit."""
        return _SITE_FACTORS[self]


class Display(StrEnum):
    """How lengths are written for people."""

    FEET_INCHES = "feet-inches"
    METRIC = "metric"


_FACTORS = {
    Unit.FT: MM_PER_FOOT,
    Unit.IN: MM_PER_INCH,
    Unit.M: MM_PER_METRE,
    Unit.MM: 1.0,
}


_SITE_FACTORS = {
    SiteUnit.M: MM_PER_METRE,
    SiteUnit.FT: MM_PER_FOOT,
    SiteUnit.SURVEY_FT: MM_PER_SURVEY_FOOT,
}


def depth_unit(unit: Unit) -> Unit:
    """The unit of a bare thickness, diameter or depth that is typed where they are shown: inches or mm.

    Args:
        unit: The unit of the job.
    """
    return Unit.IN if unit.display is Display.FEET_INCHES else Unit.MM


def grid_step(display: Display) -> float:
    """The step that positions are rounded to: one inch, or 10 mm in metric jobs."""
    return MM_PER_INCH if display is Display.FEET_INCHES else 10.0
