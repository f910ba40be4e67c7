"""Reads the ``[day]`` tables of a job, and the weather table that they name."""

from pathlib import Path
from typing import Any

from pydantic import BaseModel, ValidationError

from kerfline.errors import InputRefused, Mistake
from kerfline.files.day_schema import (
    ConcreteTable,
    DayFile,
    DayTable,
    OrderTable,
    SawsTable,
    SettingTable,
)
from kerfline.files.job_locate import Places, lines_of
from kerfline.files.job_mistakes import mistakes_of
from kerfline.files.kinds import Kind, kind_of
from kerfline.files.time_zone import SiteClock, zone_of
from kerfline.files.weather_file import read_weather
from kerfline.model.day import (
    Batch,
    Concrete,
    CuringChoice,
    DayInput,
    MaterialChoice,
    MixSetting,
    PourChoice,
    Prices,
    SawChoice,
    SteelChoice,
    TrialCut,
    WeatherHour,
)
from kerfline.model.job import Job
from kerfline.placement.evaporation import concrete_mistakes
from kerfline.quantities.dowels import dowel_table
from kerfline.units import format_clock


def read_day(job: Job, path: Path) -> DayInput:
    """Reads what a job says of the placement day.

    Args:
        job: The job, its ``day`` tables as they stand in the file.
        path: The job file, for naming lines and for finding the weather table beside it.

    Raises:
        InputRefused: A value cannot be used; every mistake in the tables and in the weather is listed.
    """
    if path.is_file() and kind_of(path) is not Kind.JOB:
        raise InputRefused(
            Mistake(
                what="only a job file says something of the placement day",
                where=path.name,
                remedy="write a job file from this with kerfline new, and the day under [day] there",
            )
        )
    places = _places(path)
    table = _table(job, places)
    mistakes = _sense(table, places)
    weather = _weather(table, path, mistakes)
    if mistakes:
        raise InputRefused(*mistakes)
    return _input(table, weather)


def read_choices(job: Job) -> DayInput:
    """What a job says of the placement day apart from the weather, which has no part in the layout.

    Raises:
        InputRefused: A value cannot be used.
    """
    places = Places(f"[day] of {job.name}", {})
    table = _table(job, places)
    if mistakes := _sense(table, places):
        raise InputRefused(*mistakes)
    return _input(table, ())


def _table(job: Job, places: Places) -> DayTable:
    try:
        return DayFile.model_validate({"day": dict(job.day)}, context={"unit": job.units}).day
    except ValidationError as error:
        raise InputRefused(*mistakes_of(error, DayFile, places)) from None


def _input(table: DayTable, weather: tuple[WeatherHour, ...]) -> DayInput:
    site = _site(table)
    return DayInput(
        date=table.date,
        starts=tuple(table.start),
        country=table.country,
        latitude=table.latitude,
        longitude=table.longitude,
        utc_offset=site.utc_offset if site else None,
        clock_change=site.change() if site else None,
        sunrise=table.sunrise,
        sunset=table.sunset,
        concrete=Concrete(**{**_values(table.concrete), "batch": _batch(table.concrete)}),
        setting=_mix(table.setting),
        pours=PourChoice(**{**_values(table.pours), "access": tuple(table.pours.access)}),
        weather=weather,
        saws=SawChoice(**{**_values(table.saws), "trial": _trial(table.saws)}),
        steel=SteelChoice(**_values(table.steel)),
        curing=CuringChoice(**_values(table.curing)),
        order=_order(table.order),
        prices=Prices(**_values(table.prices)),
    )


def _site(table: DayTable) -> SiteClock | None:
    zone = zone_of(table.time_zone) if table.time_zone else None
    first = table.start[0] if table.start else None
    return SiteClock.at(table.date, first, zone) if zone and table.date else None


def _batch(table: ConcreteTable) -> Batch | None:
    return Batch(**_values(table.batch)) if table.batch else None


def _mix(table: SettingTable) -> MixSetting:
    values = _values(table)
    later, sooner = values.pop("retarded"), values.pop("accelerated")
    return MixSetting(**values, shift=(later or 0.0) - (sooner or 0.0))


def _order(table: OrderTable) -> MaterialChoice:
    values = _values(table)
    sheet = values.pop("mesh_sheet")
    return MaterialChoice(**values, mesh_sheet=(sheet[0], sheet[1]) if sheet else None)


def _trial(table: SawsTable) -> TrialCut | None:
    return TrialCut(**_values(table.trial)) if table.trial else None


def _places(path: Path) -> Places:
    try:
        return Places(path.name, lines_of(path.read_text(encoding="utf-8-sig")))
    except (OSError, UnicodeDecodeError):
        return Places(path.name, {})


def _values(table: BaseModel) -> dict[str, Any]:
    """A table's values by the names that the model shares with it."""
    return {name: getattr(table, name) for name in type(table).model_fields}


def _weather(table: DayTable, path: Path, mistakes: list[Mistake]) -> tuple[WeatherHour, ...]:
    if not table.weather:
        return ()
    try:
        return read_weather(
            path.parent / table.weather, table.date, table.concrete.temperature, _site(table)
        )
    except InputRefused as refused:
        mistakes.extend(refused.mistakes)
        return ()


def _sense(table: DayTable, places: Places) -> list[Mistake]:
    """What each value allows and all of them together do not."""
    return [
        *_temperature_mistakes(table, places),
        *_dowel_mistakes(table, places),
        *_window_mistakes(table, places),
        *_trial_mistakes(table, places),
        *_datum_mistakes(table, places),
    ]


def _temperature_mistakes(table: DayTable, places: Places) -> list[Mistake]:
    if table.concrete.temperature is None:
        return []
    where = places.of(("day", "concrete", "temperature"))
    return concrete_mistakes(table.concrete.temperature, where)


def _dowel_mistakes(table: DayTable, places: Places) -> list[Mistake]:
    if not table.steel.dowels:
        return []
    try:
        dowel_table(table.steel.dowels)
    except InputRefused as refused:
        found = refused.mistakes[0]
        where = places.of(("day", "steel", "dowels"))
        return [Mistake(what=found.what, where=where, found=found.found, allowed=found.allowed)]
    return []


def _window_mistakes(table: DayTable, places: Places) -> list[Mistake]:
    saws = table.saws
    if saws.opens is None or saws.closes is None or saws.opens < saws.closes:
        return []
    return [
        Mistake(
            what="the window closes before it opens",
            where=places.of(("day", "saws", "closes")),
            found=f"opens {saws.opens:g} h, closes {saws.closes:g} h",
            remedy="give both in hours after placing, the first one shorter",
        )
    ]


def _trial_mistakes(table: DayTable, places: Places) -> list[Mistake]:
    trial = table.saws.trial
    if trial is None or trial.placed < trial.cut:
        return []
    return [
        Mistake(
            what="the trial cut comes before its concrete",
            where=places.of(("day", "saws", "trial", "cut")),
            found=f"placed {format_clock(trial.placed)}, cut {format_clock(trial.cut)}",
            remedy='a cut on the next day is written as "02:00 +1 d"',
        )
    ]


def _datum_mistakes(table: DayTable, places: Places) -> list[Mistake]:
    """Setting cannot be reckoned where the reference lies at or below the datum."""
    setting = table.setting
    if setting.reference is None or setting.datum is None or setting.reference > setting.datum:
        return []
    return [
        Mistake(
            what="the reference temperature must be above the datum temperature",
            where=places.of(("day", "setting", "datum")),
            found=f"{setting.datum:.1f} °C under a reference of {setting.reference:.1f} °C",
        )
    ]
