"""The ``[day]`` tables of a job file: which keys there are and what kind of value each takes."""

import re
from collections.abc import Mapping
from datetime import date
from typing import Annotated

from pydantic import AfterValidator, BaseModel, BeforeValidator, ConfigDict, Field

from kerfline.errors import InputRefused
from kerfline.files.job_values import (
    LengthFromZero,
    NumberFromZero,
    PositiveLength,
    PositiveNumber,
    wrong,
)
from kerfline.files.time_zone import zone_of
from kerfline.model.day import CuringMethod, Delivering, Finish, SawMethod, SettingRule, Side
from kerfline.units import (
    HOURS_PER_DAY,
    MINUTES_PER_HOUR,
    MM3_PER_M3,
    MM3_PER_YD3,
    MM_PER_FOOT,
    MM_PER_METRE,
    Measure,
    parse_measure,
)

_CLOCK = re.compile(r"(\d{1,2}):(\d{2})(?:\s*\+\s*(\d+)\s*d)?")
_SHARE = re.compile(r"(\d+(?:\.\d+)?|\.\d+)\s*%")
_COUNTRY = re.compile(r"[A-Za-z]{2}")
_PRICE = re.compile(r"(\d+(?:\.\d+)?)\s*/\s*(\w+)")
PERCENT = 100.0
SLOWEST, FASTEST = 0.1 * MM3_PER_M3, 1e4 * MM3_PER_M3
"""Rates of placing (mm3 an hour) beyond which the unit is a slip."""

NARROWEST_SCREED = 300.0
"""Width (mm) below which a screed is a slip of the unit; strips are as wide as the screed."""


class _Table(BaseModel):
    """A table that takes only the keys it knows, and no value of a wrong kind."""

    model_config = ConfigDict(strict=True, extra="forbid", frozen=True)


def _measured(measure: Measure, *, above: float | None) -> BeforeValidator:
    """Reads a number with its unit that must lie above a value."""

    def read(value: object) -> float:
        if isinstance(value, bool) or not isinstance(value, str | int | float):
            raise wrong(f"a {measure} with its unit is needed here")
        try:
            number = parse_measure(value, measure)
        except InputRefused as refused:
            mistake = refused.mistakes[0]
            raise wrong(mistake.what, allowed=mistake.allowed, remedy=mistake.remedy) from None
        if above is not None and number <= above:
            raise wrong(f"this {measure} must be above {above:g}")
        return number

    return BeforeValidator(read)


def _clock(value: object) -> float:
    """Clock hours of ``06:30``, or of ``02:00 +1 d`` on the day after."""
    match = _CLOCK.fullmatch(value.strip()) if isinstance(value, str) else None
    if match is None or int(match[1]) >= HOURS_PER_DAY or int(match[2]) >= MINUTES_PER_HOUR:
        raise wrong("this is no time of day", allowed='"06:30", or "02:00 +1 d" for the day after')
    days = int(match[3] or 0)
    return days * HOURS_PER_DAY + int(match[1]) + int(match[2]) / MINUTES_PER_HOUR


def _share(value: object) -> float:
    """A share such as 0.05 or ``5 %``."""
    if isinstance(value, str) and (match := _SHARE.fullmatch(value.strip())):
        return _within(float(match[1]) / PERCENT)
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise wrong("a share is needed here", allowed='0.05 or "5 %"')
    return _within(float(value))


def _within(share: float) -> float:
    if not 0 <= share <= 1:
        raise wrong("this share is out of range", allowed='0 to 1: write 5 % as 0.05 or "5 %"')
    return share


def _date(value: object) -> str:
    """A date as TOML knows it, or as text of the same form."""
    try:
        return str(date.fromisoformat(str(value)))
    except ValueError:
        raise wrong("this is no date", allowed="2026-06-14") from None


def _zone(name: str) -> str:
    """A time zone by its name, such as ``America/Denver``, or an offset such as ``-07:00``."""
    if name and zone_of(name) is None:
        raise wrong(
            "there is no such time zone", allowed='"America/Denver", "Europe/Berlin", or "-07:00"'
        )
    return name


def _country(name: str) -> str:
    """A country by its two letters."""
    if name and not _COUNTRY.fullmatch(name):
        raise wrong("a country is named by two letters", allowed='"US", "CA", "GB" (ISO 3166)')
    return name.upper()


def _placeable(rate: float) -> float:
    """A rate at which concrete can be placed (mm3 an hour)."""
    if not SLOWEST <= rate <= FASTEST:
        raise wrong("no crew places at this rate", allowed="0.1 m3/h to 10,000 m3/h")
    return rate


def _strikeable(width: float) -> float:
    """A width (mm) that a screed can have."""
    if width < NARROWEST_SCREED:
        raise wrong("no screed is as narrow", allowed='1 ft or "300 mm" or more')
    return width


def _price(units: Mapping[str, float]) -> BeforeValidator:
    """Reads a price for one unit of something, as ``160 / yd3``."""

    def read(value: object) -> float:
        match = _PRICE.fullmatch(value.strip()) if isinstance(value, str) else None
        if match is None or match[2] not in units:
            raise wrong(
                "a price with what it is for is needed here", allowed=f'"160 / {next(iter(units))}"'
            )
        return float(match[1]) / units[match[2]]

    return BeforeValidator(read)


def _words(value: object) -> object:
    return [value] if isinstance(value, str) else value


Temperature = Annotated[float, _measured(Measure.TEMPERATURE, above=None)]
Drop = Annotated[float, _measured(Measure.TEMPERATURE_STEP, above=0)]
Volume = Annotated[float, _measured(Measure.VOLUME, above=0)]
Area = Annotated[float, _measured(Measure.AREA, above=0)]
Duration = Annotated[float, _measured(Measure.DURATION, above=0)]
PlacingRate = Annotated[float, _measured(Measure.PLACING_RATE, above=0), AfterValidator(_placeable)]
CuttingRate = Annotated[float, _measured(Measure.CUTTING_RATE, above=0)]
Stress = Annotated[float, _measured(Measure.STRESS, above=0)]
Subgrade = Annotated[float, _measured(Measure.SUBGRADE, above=0)]
Expansion = Annotated[float, _measured(Measure.EXPANSION, above=0)]
Cover = Annotated[float, _measured(Measure.COVER, above=0)]
Screed = Annotated[PositiveLength, AfterValidator(_strikeable)]
Clock = Annotated[float, BeforeValidator(_clock)]
Share = Annotated[float, BeforeValidator(_share)]
VolumePrice = Annotated[float, _price({"yd3": MM3_PER_YD3, "m3": MM3_PER_M3})]
LengthPrice = Annotated[float, _price({"ft": MM_PER_FOOT, "m": MM_PER_METRE})]
AreaPrice = Annotated[float, _price({"ft2": MM_PER_FOOT**2, "m2": MM_PER_METRE**2})]
Count = Annotated[int, Field(ge=1)]
CountFromZero = Annotated[int, Field(ge=0)]


class BatchTable(_Table):
    """``[day.concrete.batch]``: masses in one unit."""

    cement: PositiveNumber
    aggregate: PositiveNumber
    water: PositiveNumber
    cement_temperature: Temperature
    aggregate_temperature: Temperature
    water_temperature: Temperature
    ice: NumberFromZero = 0.0
    moisture: NumberFromZero = 0.0


class ConcreteTable(_Table):
    """``[day.concrete]``."""

    temperature: Temperature | None = None
    batch: BatchTable | None = None
    allowance: Share | None = None
    truck: Volume | None = None
    rate: PlacingRate | None = None
    cycle: Duration | None = None
    discharge_limit: Duration | None = None


class SettingTable(_Table):
    """``[day.setting]``."""

    initial_set: Duration | None = None
    finish: Annotated[Finish | None, Field(strict=False)] = None
    floating: Duration | None = None
    finishing: Duration | None = None
    retarded: Duration | None = None
    accelerated: Duration | None = None
    reference: Temperature | None = None
    rule: Annotated[SettingRule | None, Field(strict=False)] = None
    activation: PositiveNumber | None = None
    datum: Temperature | None = None


class PoursTable(_Table):
    """``[day.pours]``."""

    volume: Volume | None = None
    area: Area | None = None
    hours: PositiveNumber | None = None
    screed: Screed | None = None
    access: Annotated[list[Annotated[Side, Field(strict=False)]], BeforeValidator(_words)] = []
    delivery: Annotated[Delivering | None, Field(strict=False)] = None
    reach: PositiveLength | None = None
    always_split: bool = False
    pump_above: Volume | None = None
    ride_on_above: Area | None = None
    forms_up_to: PositiveLength | None = None


class TrialTable(_Table):
    """``[day.saws.trial]``."""

    placed: Clock
    cut: Clock
    temperature: Temperature | None = None


class SawsTable(_Table):
    """``[day.saws]``."""

    method: Annotated[SawMethod | None, Field(strict=False)] = None
    count: Count | None = None
    rate: CuttingRate | None = None
    move: Duration | None = None
    blade_life: PositiveLength | None = None
    blade_change: Duration | None = None
    blade: PositiveLength | None = None
    guard: LengthFromZero | None = None
    opens: Duration | None = None
    closes: Duration | None = None
    trial: TrialTable | None = None
    late_from: Clock | None = None


class SteelTable(_Table):
    """``[day.steel]``."""

    dowels: str = ""
    corner_bars: CountFromZero | None = None
    tee_bars: CountFromZero | None = None
    bar: Count | None = None
    bar_length: PositiveLength | None = None
    filler_width: LengthFromZero | None = None
    filler_depth: PositiveLength | None = None
    isolation: PositiveLength | None = None
    friction: PositiveNumber | None = None
    steel_stress: Stress | None = None
    bond: Stress | None = None
    restraint: PositiveNumber | None = None
    expansion: Expansion | None = None
    temperature_drop: Drop | None = None
    shrinkage: NumberFromZero | None = None
    tensile: Stress | None = None
    modulus: Stress | None = None
    subgrade: Subgrade | None = None
    curing_cover: Cover | None = None


class CuringTable(_Table):
    """``[day.curing]``."""

    method: Annotated[CuringMethod | None, Field(strict=False)] = None
    days: PositiveNumber | None = None
    kept_at: Temperature | None = None


class OrderTable(_Table):
    """``[day.order]``: what else is ordered."""

    base_depth: PositiveLength | None = None
    retarder_roll: PositiveLength | None = None
    retarder_lap: PositiveLength = 150.0
    mesh_sheet: Annotated[list[PositiveLength], Field(min_length=2, max_length=2)] | None = None
    mesh_lap: PositiveLength = 150.0
    mat_bar: Count = 4
    mat_spacing: PositiveLength | None = None
    chairs_every: PositiveLength | None = None
    baskets: bool = False
    backer_rod: bool = False


class PricesTable(_Table):
    """``[day.prices]``: a price and what it is for, such as ``160 / yd3``."""

    currency: str = ""
    concrete: VolumePrice | None = None
    bulkhead: LengthPrice | None = None
    sawing: LengthPrice | None = None
    saw_hour: NumberFromZero | None = None
    finisher_hour: NumberFromZero | None = None
    curing: AreaPrice | None = None
    day: NumberFromZero | None = None


class DayTable(_Table):
    """``[day]``."""

    date: Annotated[str, BeforeValidator(_date)] = ""
    start: Annotated[list[Clock], BeforeValidator(_words)] = []
    country: Annotated[str, AfterValidator(_country)] = ""
    latitude: Annotated[float | None, Field(ge=-90, le=90)] = None
    longitude: Annotated[float | None, Field(ge=-180, le=180)] = None
    time_zone: Annotated[str, AfterValidator(_zone)] = ""
    sunrise: Clock | None = None
    sunset: Clock | None = None
    weather: str = ""
    concrete: ConcreteTable = ConcreteTable()
    setting: SettingTable = SettingTable()
    pours: PoursTable = PoursTable()
    saws: SawsTable = SawsTable()
    steel: SteelTable = SteelTable()
    curing: CuringTable = CuringTable()
    order: OrderTable = OrderTable()
    prices: PricesTable = PricesTable()


class DayFile(_Table):
    """The part of a job file that tells of the day, keyed as it stands there."""

    day: DayTable
