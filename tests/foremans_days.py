"""Twelve days of a foreman as job files: a depot of our own invention, each day with something to get wrong."""

from dataclasses import dataclass, field
from pathlib import Path

DEPOT = """\
[job]
name = "Depot"
units = "ft"

[slab]
thickness = "6 in"
outline = [[0, 0], [96, 0], [96, 48], [0, 48]]

[[wall]]
path = [[48, 0], [48, 48]]
thickness = "4 1/2 in"
"""

BULKHEAD = """
[[joint]]
path = [[48, 0], [48, 48]]
kind = "construction"
"""

STRIP = """\
[job]
name = "Depot"
units = "ft"

[slab]
thickness = "6 in"
outline = [[0, 0], [300, 0], [300, 24], [0, 24]]
"""

METRIC = """\
[job]
name = "Depot"
units = "m"

[slab]
thickness = "150 mm"
outline = [[0, 0], [28, 0], [28, 14], [0, 14]]

[rules]
set = "canada"
"""

HEAD = "time,air F,humidity %,wind mph,wind height ft,rain in\n"
PLACE = 'latitude = 41.0\nlongitude = -98.0\ntime_zone = "America/Chicago"\n'


@dataclass(frozen=True)
class ForemansDay:
    """A day: its slab, what ``[day]`` says, and the weather by the hour."""

    name: str
    day: str
    weather: str = ""
    slab: str = DEPOT
    files: dict[str, str] = field(default_factory=dict)

    def write(self, folder: Path) -> Path:
        """Writes job and weather; the job's path."""
        path = folder / "depot.toml"
        named = 'weather = "hours.csv"\n' if self.weather else ""
        path.write_text(f"{self.slab}\n[day]\n{named}{self.day}", encoding="utf-8")
        if self.weather:
            (folder / "hours.csv").write_text(self.weather, encoding="utf-8")
        return path


def hours(date, air, *, humidity=50, wind=6, rain=()):
    """Two days of weather from midnight of a date (June 14th and so on), air by the hour repeated or listed."""
    from datetime import datetime, timedelta

    start = datetime.fromisoformat(date)
    rows = []
    for hour in range(72):
        moment = start + timedelta(hours=hour)
        fell = 0.1 if hour in rain else 0
        rows.append(f"{moment:%Y-%m-%d %H:%M},{air(hour)},{humidity},{wind},33,{fell}\n")
    return HEAD + "".join(rows)


def daily(low, high):
    """Air in °F, lowest at 5 o'clock and highest at 15."""
    import math

    return lambda hour: round(
        (low + high) / 2 - (high - low) / 2 * math.cos((hour - 4) / 24 * math.tau), 1
    )


SUMMER = f'date = 2026-06-16\nstart = "06:00"\n{PLACE}'
POURS = '[day.pours]\naccess = ["left"]\ndelivery = "pump"\n'
RATE = '[day.concrete]\ntemperature = "75 F"\nrate = "40 yd3/h"\n'
HOT_AIR = daily(82, 104)

DAYS = (
    ForemansDay(
        "hot and windy",
        SUMMER + POURS + '[day.concrete]\ntemperature = "98 F"\nrate = "40 yd3/h"\n',
        hours("2026-06-16", HOT_AIR, humidity=18, wind=22),
    ),
    ForemansDay(
        "five degrees",
        f'date = 2026-11-10\nstart = "08:00"\n{PLACE}'
        + POURS
        + '[day.concrete]\ntemperature = "65 F"\nrate = "40 yd3/h"\n',
        hours("2026-11-10", lambda _: 41, humidity=70),
    ),
    ForemansDay(
        "frost at night",
        f'date = 2026-11-10\nstart = "08:00"\n{PLACE}'
        + POURS
        + '[day.concrete]\ntemperature = "65 F"\nrate = "40 yd3/h"\n[day.curing]\nkept_at = "55 F"\n',
        hours("2026-11-10", daily(21, 48), humidity=70),
    ),
    ForemansDay(
        "rain at noon",
        SUMMER + POURS + RATE,
        hours("2026-06-16", daily(60, 76), humidity=80, rain=(12, 13, 14)),
    ),
    ForemansDay(
        "night pour",
        f'date = 2026-06-16\nstart = "21:00"\n{PLACE}' + POURS + RATE,
        hours("2026-06-16", daily(66, 92)),
    ),
    ForemansDay(
        "two a day",
        f'date = 2026-06-16\nstart = ["06:00", "11:00"]\n{PLACE}'
        + POURS.replace("pump", "conveyor")
        + RATE.replace("40", "30"),
        hours("2026-06-16", daily(60, 80)),
        DEPOT + BULKHEAD,
    ),
    ForemansDay("no weather", "[day.pours]\nalways_split = true\n"),
    ForemansDay(
        "metric",
        f'date = 2026-06-16\nstart = "07:00"\ncountry = "CA"\n{PLACE}'
        + POURS
        + '[day.concrete]\ntemperature = "22 C"\nrate = "30 m3/h"\ntruck = "7 m3"\n',
        hours("2026-06-16", daily(58, 75)),
        METRIC,
    ),
    ForemansDay(
        "a strip of 300 ft",
        SUMMER + POURS + '[day.concrete]\ntemperature = "75 F"\nrate = "20 yd3/h"\n',
        hours("2026-06-16", daily(60, 80)),
        STRIP,
    ),
    ForemansDay(
        "from the bottom, in lanes",
        SUMMER + '[day.pours]\naccess = ["bottom"]\ndelivery = "chute"\nscreed = "16 ft"\n' + RATE,
        hours("2026-06-16", daily(60, 80)),
    ),
    ForemansDay(
        "one saw too few",
        SUMMER + POURS + RATE + '[day.saws]\ncount = 1\nrate = "0.5 ft/min"\n',
        hours("2026-06-16", daily(70, 92)),
    ),
    ForemansDay(
        "clocks go back",
        f'date = 2026-10-31\nstart = "14:00"\n{PLACE}' + POURS + RATE,
        hours("2026-10-31", daily(45, 62)),
    ),
)
