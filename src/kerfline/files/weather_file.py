"""Reads the weather by the hour from a CSV table whose headings carry the units.

::

    time, air F, humidity %, wind mph, wind height ft, sun W/m2
    06:00, 61, 78, 3, 33, 40

``air C``, ``wind km/h``, ``wind m/s`` and ``wind height m`` serve as well; ``sun W/m2``, and ``rain in`` or
``rain mm`` in the hour, may be left out. A time is ``06:00`` of the first day of placing (times that fall back go
on past midnight) or carries its date, ``2026-06-14 06:00``, and with it ``Z`` or an offset from universal time.
Clock hours are those of the site's clock as it stands at the first truck, so that a change of the clock in
between neither stretches nor shrinks an hour.
"""

import csv
import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date, datetime
from pathlib import Path

from kerfline.errors import InputRefused, Mistake
from kerfline.files.largest import LARGEST_WEATHER, refuse_too_large
from kerfline.files.time_zone import SiteClock
from kerfline.model.day import WeatherHour
from kerfline.placement.evaporation import COLDEST, HOTTEST, LEAST_HUMIDITY, MOST_WIND
from kerfline.units import (
    HOURS_PER_DAY,
    KMH_PER_MPH,
    MINUTES_PER_HOUR,
    MM_PER_FOOT,
    MM_PER_INCH,
    MM_PER_METRE,
    celsius,
    to_fahrenheit,
)

PERCENT = 100.0
MOST_SUN = 1500.0
"""Radiation (W/m2) that the sun never passes at the ground."""

HALF_DAY = 12.0
"""A time that falls back by more than this (hours) has passed midnight."""

WARM_CONCRETE, COLD_FAHRENHEIT = celsius(75), 45.0
"""Concrete warmer than the first (degrees Celsius) under air that never passes the second (degrees F):
Celsius under a Fahrenheit heading. In the cold, concrete is placed at 55 to 75 °F (13 to 24 °C) and no
warmer, for it then loses heat and water the faster (ACI 306R; the upper figure by memory)."""

COLUMNS: Mapping[str, Mapping[str, float]] = {
    "air": {"air f": 0.0, "air c": 0.0},
    "humidity": {"humidity %": 1 / PERCENT},
    "wind": {"wind mph": KMH_PER_MPH, "wind km/h": 1.0, "wind m/s": 3.6},
    "wind height": {"wind height ft": MM_PER_FOOT, "wind height m": MM_PER_METRE},
    "sun": {"sun w/m2": 1.0},
    "rain": {"rain mm": 1.0, "rain in": MM_PER_INCH},
}
OPTIONAL = ("sun", "rain")
MOST_RAIN = 300.0
"""Rain (mm in an hour) that falls nowhere."""

DAY_BEFORE, DAYS_AFTER = -24.0, 336.0
"""A dated table of which no reading lies in this range (clock hours) is that of another date."""
HINTS = {
    "humidity": "write 50 for 50 %, not 0.5",
    "wind height": "10 m (33 ft) for a forecast",
}


def read_weather(
    path: Path, day: str = "", concrete: float | None = None, site: SiteClock | None = None
) -> tuple[WeatherHour, ...]:
    """Reads a weather table.

    Args:
        path: The CSV file.
        day: First day of placing, ``2026-06-14``; empty where it is not known.
        concrete: Temperature of the concrete as placed (degrees Celsius), for telling Celsius under a
            Fahrenheit heading; None where it is not known.
        site: The site's clock; None where its time zone is not known.

    Returns:
        The weather in order of time.

    Raises:
        InputRefused: The table cannot be read, or a value cannot be meant; every mistake is listed.
    """
    table = _Table(path=path, day=day, site=site)
    rows = table.rows()
    hours = [hour for number, row in rows if (hour := table.hour(number, row))]
    table.check_whole(hours, concrete)
    if table.mistakes:
        raise InputRefused(*table.mistakes)
    return tuple(hours)


@dataclass
class _Table:
    """One reading of a file: its headings, and the mistakes so far."""

    path: Path
    day: str
    site: SiteClock | None
    mistakes: list[Mistake] = field(default_factory=list)
    places: dict[str, tuple[int, str]] = field(default_factory=dict)
    width: int = 0
    last: float = -math.inf
    days: int = 0

    def rows(self) -> list[tuple[int, list[str]]]:
        """The rows with their line numbers; the headings are taken in."""
        lines = [
            (number, [cell.strip() for cell in row])
            for number, row in enumerate(self._cells(self._text().splitlines()), 1)
            if any(cell.strip() for cell in row)
        ]
        if not lines:
            self._refuse(1, "the weather table is empty", "", f"write {_form()}")
            return []
        self._headings(lines[0][0], lines[0][1])
        if len(lines) == 1:
            self._refuse(lines[0][0], "there is no row under the headings", "", "")
        return lines[1:] if not self.mistakes else []

    def _cells(self, lines: Sequence[str]) -> Iterator[list[str]]:
        """The cells of each line; where commas are decimal, programs part cells by semicolons or tabs."""
        head = next((line for line in lines if line.strip()), "")
        mark = next((mark for mark in (";", "\t") if mark in head), ",")
        try:
            for row in csv.reader(lines, delimiter=mark):
                yield row if mark == "," else [cell.replace(",", ".") for cell in row]
        except csv.Error:  # a cell without end
            what, remedy = "the weather table cannot be read as one", f"write {_form()}"
            raise InputRefused(Mistake(what=what, where=str(self.path), remedy=remedy)) from None

    def _text(self) -> str:
        remedy = "keep the days around the placement"
        try:
            refuse_too_large(self.path, "weather table", LARGEST_WEATHER, remedy)
            return self.path.read_text(encoding="utf-8-sig")
        except OSError as error:
            what = f"the weather table cannot be read ({error.strerror})"
            remedy = "check day.weather in the job file"
        except UnicodeDecodeError:
            what, remedy = "the weather table is not UTF-8 text", "save it as UTF-8"
        raise InputRefused(Mistake(what=what, where=str(self.path), remedy=remedy))

    def _headings(self, line: int, cells: Sequence[str]) -> None:
        heads = [" ".join(cell.lower().replace("°", "").split()) for cell in cells]
        self.width = len(heads)
        known = {"time", *(head for units in COLUMNS.values() for head in units)}
        for head in sorted(set(heads) - known):
            self._refuse(line, "this heading is not known", head, f"the headings are {_form()}")
        for name, units in {"time": {"time": 1.0}, **COLUMNS}.items():
            found = [i for i, head in enumerate(heads) if head in units]
            if len(found) == 1:
                self.places[name] = (found[0], heads[found[0]])
            elif found or name not in OPTIONAL:
                what = f"one column for {name} is needed, with its unit"
                self._refuse(line, what, f"{len(found)}", f"write {' or '.join(units)}")

    def hour(self, line: int, cells: Sequence[str]) -> WeatherHour | None:
        """The weather of one row; None where something in it is wrong."""
        if len(cells) != self.width:
            self._refuse(line, f"{self.width} values are needed", f"{len(cells)}", "")
            return None
        before = len(self.mistakes)
        clock = self._clock(line, cells[self.places["time"][0]])
        values = {name: self._value(line, name, cells) for name in COLUMNS if name in self.places}
        if len(self.mistakes) > before:
            return None
        return WeatherHour(
            clock=clock,
            air=values["air"],
            humidity=values["humidity"],
            wind=values["wind"],
            wind_height=values["wind height"],
            sun=values.get("sun"),
            rain=values.get("rain"),
        )

    def _value(self, line: int, name: str, cells: Sequence[str]) -> float:
        place, head = self.places[name]
        try:
            number = float(cells[place])
        except ValueError:
            number = math.nan
        if not math.isfinite(number):
            self._refuse(line, f"a number is needed under {head!r}", cells[place], "")
            return math.nan
        value = celsius(number) if head == "air f" else number * (COLUMNS[name][head] or 1.0)
        low, high = _range(name)
        if not low <= value <= high:
            remedy = HINTS.get(name, "check the unit in the heading")
            self._refuse(line, f"the value under {head!r} is out of range", cells[place], remedy)
        return value

    def _clock(self, line: int, text: str) -> float:
        """Hours after the midnight that begins the first day of placing."""
        clock = self._dated(line, text) if len(text.split()) > 1 or "T" in text else None
        if clock is None:
            clock = self._hour_alone(line, text)
        if clock <= self.last:
            self._refuse(line, "this time is not after the one before", text, "")
        self.last = clock if math.isfinite(clock) else self.last
        return clock

    def _dated(self, line: int, text: str) -> float:
        if not self.day:
            self._refuse(line, "a time with a date needs day.date in the job file", text, "")
            return math.nan
        try:
            moment = datetime.fromisoformat(text)
        except ValueError:
            self._refuse(line, "this is no time", text, "write 2026-06-14 06:00")
            return math.nan
        if self.site is not None:
            return self.site.clock(moment, self.last)
        if moment.tzinfo is not None:
            remedy = 'give day.time_zone in the job file, such as "America/Denver" or "-07:00"'
            self._refuse(
                line, "a time of universal time or with an offset needs a zone", text, remedy
            )
            return math.nan
        first = datetime.combine(date.fromisoformat(self.day), datetime.min.time())
        return (moment - first).total_seconds() / MINUTES_PER_HOUR**2

    def _hour_alone(self, line: int, text: str) -> float:
        hour, _, minute = text.partition(":")
        told = hour.isdigit() and minute.isdigit()
        if not (told and int(hour) < HOURS_PER_DAY and int(minute) < MINUTES_PER_HOUR):
            self._refuse(line, "this is no time of day", text, "write 06:00")
            return math.nan
        time = int(hour) + int(minute) / MINUTES_PER_HOUR
        if time + self.days * HOURS_PER_DAY < self.last - HALF_DAY:
            self.days += 1
        return time + self.days * HOURS_PER_DAY

    def check_whole(self, hours: Sequence[WeatherHour], concrete: float | None) -> None:
        """Slips of units that only the whole table shows."""
        if not hours or self.mistakes:
            return
        if hours[-1].clock < DAY_BEFORE or hours[0].clock > DAYS_AFTER:
            self._refuse(
                1,
                "the weather is of another date than the placing",
                f"{abs(hours[0].clock) / HOURS_PER_DAY:.0f} days from day.date {self.day}",
                "give the forecast of the day, or correct day.date",
            )
        warm = concrete is not None and concrete > WARM_CONCRETE
        hottest = max(to_fahrenheit(h.air) for h in hours)
        if self.places["air"][1] == "air f" and warm and hottest < COLD_FAHRENHEIT:
            self._refuse(
                1,
                "the air looks like Celsius under a heading of Fahrenheit",
                f"at most {hottest:.0f}",
                "write the heading 'air C'; where it is that cold, write the air in Celsius",
            )

    def _refuse(self, line: int, what: str, found: str, remedy: str) -> None:
        where = f"{self.path.name} line {line}"
        self.mistakes.append(Mistake(what=what, where=where, found=found, remedy=remedy))


def _range(name: str) -> tuple[float, float]:
    ranges = {
        "air": (COLDEST, HOTTEST),
        "humidity": (LEAST_HUMIDITY, 1.0),
        "wind": (0.0, MOST_WIND),
        "wind height": (1.0, 100 * MM_PER_METRE),
        "sun": (0.0, MOST_SUN),
        "rain": (0.0, MOST_RAIN),
    }
    return ranges[name]


def _form() -> str:
    return "time, air F, humidity %, wind mph, wind height ft (or air C, wind km/h, wind height m)"
