"""What a saw crew should know of dust, noise and what lies in the slab.

These lines repeat published tables; the employer, the local code and a competent person on site decide.
"""

from enum import StrEnum

from kerfline.model.day import DayInput
from kerfline.units import Display

LONG_TASK = 4.0
"""Hours of sawing in a shift above which the table's second column holds."""

NO_RESPIRATOR = 0
APF_10 = 10

CRITERION_LEVEL = 90.0
EXCHANGE = 5.0
SHIFT = 8.0
"""29 CFR 1926.52, Table D-2: 90 dBA for 8 hours, half the time for every 5 dB more."""

NIOSH_LEVEL = 85.0
NIOSH_EXCHANGE = 3.0
"""NIOSH criteria: 85 dBA for 8 hours, half the time for every 3 dB more."""


class SawKind(StrEnum):
    """The saws of 29 CFR 1926.1153, Table 1, used with water fed to the blade."""

    WALK_BEHIND = "walk-behind"
    HANDHELD = "handheld"
    DRIVABLE = "drivable"


def respirator(saw: SawKind, *, outdoors: bool, hours: float) -> int | None:
    """Assigned protection factor of the respirator that Table 1 asks for with wet sawing.

    Args:
        saw: Kind of saw, water fed continuously to the blade.
        outdoors: False indoors and in enclosed places.
        hours: Of sawing in the shift.

    Returns:
        0 for none, 10 for APF 10, None where the table has no row (a drivable saw indoors; any dry
        saw): the employer then assesses the exposure.

    Source: 29 CFR 1926.1153, Table 1, rows (ii), (iv) and (v).
    """
    if saw is SawKind.DRIVABLE:
        return NO_RESPIRATOR if outdoors else None
    if not outdoors:
        return APF_10
    return APF_10 if saw is SawKind.HANDHELD and hours > LONG_TASK else NO_RESPIRATOR


FEDERAL = "US"
"""Country whose federal rules the tables here are."""

COUNTRIES = {
    "canada": "CA",
    "plain-british": "GB",
    "fabric-reinforced": "GB",
}
"""Country of a rule set that is of one; the others are of the United States."""


def country_of(day: DayInput, rule_set: str, display: Display) -> str:
    """The country whose rules hold: as the job says, else that of its rule set, else by its units.

    Returns:
        Two letters, or nothing where a metric job names no country.
    """
    if day.country:
        return day.country
    if rule_set in COUNTRIES:
        return COUNTRIES[rule_set]
    return FEDERAL if display is Display.FEET_INCHES else ""


def noise_hours(level: float) -> float:
    """Hours a day allowed at a sound level (dBA) by 29 CFR 1926.52, Table D-2."""
    return SHIFT / float(2 ** ((level - CRITERION_LEVEL) / EXCHANGE))


def niosh_hours(level: float) -> float:
    """Hours a day that NIOSH recommends at a sound level (dBA)."""
    return SHIFT / float(2 ** ((level - NIOSH_LEVEL) / NIOSH_EXCHANGE))
