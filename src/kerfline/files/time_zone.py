"""Time zones of a site: by their name in the IANA database, or as a fixed offset; and the site's clock."""

import re
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta, timezone, tzinfo
from zoneinfo import ZoneInfo

from kerfline.units import MINUTES_PER_HOUR

_OFFSET = re.compile(r"([+-])(\d{2}):?(\d{2})")
MOST_OFFSET = 14
HOUR = timedelta(hours=1)
NOON = 12.0

WATCHED = 96
"""Hours from the first midnight in which a change of the clock is told."""


@dataclass(frozen=True, kw_only=True)
class SiteClock:
    """The clock of a site as it stands at the first truck.

    Attributes:
        zone: The site's time zone.
        midnight: The midnight, by that clock, from which clock hours count.
    """

    zone: tzinfo
    midnight: datetime

    @staticmethod
    def at(day: str, start: float | None, zone: tzinfo) -> "SiteClock":
        """The clock at the first truck (clock hours; noon where they are not known) of a day."""
        local = datetime.combine(date.fromisoformat(day), time())
        away = (local + HOUR * (NOON if start is None else start)).replace(tzinfo=zone).utcoffset()
        return SiteClock(zone=zone, midnight=local.replace(tzinfo=timezone(away or timedelta())))

    @property
    def utc_offset(self) -> float:
        """Hours before universal time."""
        return (self.midnight.utcoffset() or timedelta()) / HOUR

    def clock(self, moment: datetime, after: float) -> float:
        """Clock hours of a moment; one without an offset is by the wall clock of its own day.

        Args:
            moment: The moment.
            after: Clock hours of the one before: of an hour that comes twice, the second is meant where the
                first does not lie after it.
        """
        if moment.tzinfo is not None:
            return (moment - self.midnight) / HOUR
        first, second = (
            (moment.replace(tzinfo=self.zone, fold=fold).astimezone(UTC) - self.midnight) / HOUR
            for fold in (0, 1)
        )
        return second if first <= after < second else first

    def change(self) -> tuple[float, float] | None:
        """The first change of the clock after the first midnight: its clock hour, and by how many hours."""
        before = (self.midnight + HOUR * 0).astimezone(self.zone).utcoffset()
        for hour in range(1, WATCHED + 1):
            now = (self.midnight + HOUR * hour).astimezone(self.zone).utcoffset()
            if now != before:
                return float(hour), ((now or timedelta()) - (before or timedelta())) / HOUR
        return None


def zone_of(name: str) -> tzinfo | None:
    """The zone of that name, or of an offset such as ``-07:00``; None where there is none."""
    if name.upper() in ("Z", "UTC"):
        return UTC
    if match := _OFFSET.fullmatch(name):
        hours, minutes = int(match[2]), int(match[3])
        if hours > MOST_OFFSET or minutes >= MINUTES_PER_HOUR:
            return None
        away = timedelta(hours=hours, minutes=minutes)
        return timezone(-away if match[1] == "-" else away)
    try:
        return ZoneInfo(name)
    except (KeyError, OSError, ValueError):
        return None
