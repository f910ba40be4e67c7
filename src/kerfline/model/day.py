"""What is known of the placement day: concrete, mix, pours, weather, saws and steel.

Every field that the user did not give is None. Whoever needs a missing value takes it from a named
habit through a ``Ledger``, which writes the assumption down, or puts a question; nothing is assumed
in silence.
"""

from dataclasses import dataclass, field
from enum import StrEnum

from kerfline.units import Display, RoundFigure


class Side(StrEnum):
    """A side of the drawing that trucks can come to."""

    LEFT = "left"
    RIGHT = "right"
    BOTTOM = "bottom"
    TOP = "top"


class Delivering(StrEnum):
    """How the concrete gets from the trucks to its place."""

    CHUTE = "chute"
    CONVEYOR = "conveyor"
    PUMP = "pump"


class SettingRule(StrEnum):
    """How temperature moves the time of setting."""

    HALVING = "halving"
    EQUIVALENT_AGE = "equivalent-age"
    NURSE_SAUL = "nurse-saul"


class Finish(StrEnum):
    """How the surface is finished."""

    FLOAT = "float"
    BROOM = "broom"
    TROWEL = "trowel"


class SawMethod(StrEnum):
    """The kind of saw."""

    CONVENTIONAL = "conventional"
    EARLY_ENTRY = "early-entry"


@dataclass(frozen=True, kw_only=True)
class Assumption:
    """A value that was not given and stands in the result all the same.

    Attributes:
        text: What it is, such as ``truck load``.
        value: The value as it is shown.
        source: Where it comes from; ``common practice`` where there is no publication.
    """

    text: str
    value: str
    source: str


@dataclass(frozen=True, kw_only=True)
class Habit:
    """A value that is used where the user gives none.

    Attributes:
        key: Key of the job file that replaces it, such as ``day.concrete.truck``.
        text: What it is.
        amount: The value in the program's own unit.
        shown: The value as it is shown.
        source: Where it comes from.
        metric: The value on metric jobs and as it is shown there; None where it is the same.
    """

    key: str
    text: str
    amount: float
    shown: str
    source: str = "common practice"
    metric: tuple[float, str] | None = None

    @classmethod
    def of(
        cls, key: str, text: str, figure: RoundFigure, source: str = "common practice"
    ) -> "Habit":
        """A figure of the trade, round in either kind of unit."""
        return cls(
            key=key,
            text=text,
            amount=figure.customary,
            shown=figure.customary_words,
            source=source,
            metric=(figure.metric, figure.metric_words),
        )


@dataclass
class Ledger:
    """Collects what was assumed and what must be asked while one plan is made.

    Attributes:
        assumptions: What was not given and is used all the same.
        questions: What should be asked.
        display: Feet or metres: habits are round figures in either.
    """

    assumptions: list[Assumption] = field(default_factory=list)
    questions: list[str] = field(default_factory=list)
    display: Display = Display.FEET_INCHES

    def take(self, given: float | None, habit: Habit) -> float:
        """The given value, or the habit's, which is then written down once."""
        if given is not None:
            return given
        amount, shown = habit.amount, habit.shown
        if habit.metric is not None and self.display is Display.METRIC:
            amount, shown = habit.metric
        self.note(f"{habit.text} ({habit.key})", shown, habit.source)
        return amount

    def note(self, text: str, value: str, source: str) -> None:
        """Writes an assumption down, once."""
        assumption = Assumption(text=text, value=value, source=source)
        if assumption not in self.assumptions:
            self.assumptions.append(assumption)

    def ask(self, question: str) -> None:
        """Writes a question down, once."""
        if question not in self.questions:
            self.questions.append(question)


@dataclass(frozen=True, kw_only=True)
class Batch:
    """The ingredients of the concrete: masses in one unit, whichever, and temperatures in degrees Celsius.

    Attributes:
        cement: Cement and other powder.
        aggregate: Fine and coarse, dry.
        water: Mixing water that is added as water.
        ice: Mixing water that is added as ice.
        moisture: Free water on the aggregate.
    """

    cement: float
    aggregate: float
    water: float
    cement_temperature: float
    aggregate_temperature: float
    water_temperature: float
    ice: float = 0.0
    moisture: float = 0.0


@dataclass(frozen=True, kw_only=True)
class Concrete:
    """What is known of the concrete and its delivery.

    Attributes:
        temperature: As placed, degrees Celsius.
        batch: Its ingredients, from which its temperature is reckoned where that is not given.
        allowance: Share added to the net volume, such as 0.05.
        truck: Load of one truck, mm3.
        rate: Placing rate, mm3 per hour.
        cycle: Time of one truck from plant to plant, hours.
        discharge_limit: Longest time from batching to discharge, hours.
    """

    temperature: float | None = None
    batch: Batch | None = None
    allowance: float | None = None
    truck: float | None = None
    rate: float | None = None
    cycle: float | None = None
    discharge_limit: float | None = None


@dataclass(frozen=True, kw_only=True)
class MixSetting:
    """How the mix sets; durations in hours at the reference temperature.

    Attributes:
        initial_set: From placing to initial set.
        finish: How the surface is finished; None where it is not known.
        floating: From placing until the concrete has bled and takes the float or the broom.
        finishing: From placing to the end of finishing.
        shift: How much later (retarder) or sooner (accelerator, below 0) the mix sets there, hours.
        reference: The temperature those hours hold at, degrees Celsius.
        rule: How temperature moves them; None where the user names none.
        activation: Activation energy over the gas constant, kelvin, for ``equivalent-age``.
        datum: Datum temperature, degrees Celsius, for ``nurse-saul``.
    """

    initial_set: float | None = None
    finish: Finish | None = None
    floating: float | None = None
    finishing: float | None = None
    shift: float = 0.0
    reference: float | None = None
    rule: SettingRule | None = None
    activation: float | None = None
    datum: float | None = None


@dataclass(frozen=True, kw_only=True)
class PourChoice:
    """How the slab may be divided into placements.

    Attributes:
        volume: Most concrete in one day, mm3.
        area: Most area in one day, mm2.
        hours: Hours of placing in one day, which with the placing rate make a volume.
        screed: Reach of the screed, mm.
        access: Sides of the drawing that trucks can come to.
        delivery: How the concrete gets from the trucks; None where it is not known.
        reach: How far that reaches, mm.
        always_split: Whether a slab that fits one day is still divided at re-entrant corners.
        pump_above: Volume of a pour above which a pump is a habit, mm3.
        ride_on_above: Area of a day above which a ride-on trowel is a habit, mm2.
        forms_up_to: Width up to which a screed rides the forms, mm.
    """

    volume: float | None = None
    area: float | None = None
    hours: float | None = None
    screed: float | None = None
    access: tuple[Side, ...] = ()
    delivery: Delivering | None = None
    reach: float | None = None
    always_split: bool = False
    pump_above: float | None = None
    ride_on_above: float | None = None
    forms_up_to: float | None = None


@dataclass(frozen=True, kw_only=True)
class WeatherHour:
    """The weather at one time.

    Attributes:
        clock: Hours after the midnight that begins the first day of placing; may be negative.
        air: Air temperature, degrees Celsius.
        humidity: Relative humidity as a share, 0 to 1.
        wind: Wind speed in km/h at the height it was measured at.
        wind_height: Height of that wind above the slab, mm.
        sun: Radiation of the sun, W/m2; None where it is not known.
        rain: Rain in an hour, mm; None where it is not known.
    """

    clock: float
    air: float
    humidity: float
    wind: float
    wind_height: float
    sun: float | None = None
    rain: float | None = None


@dataclass(frozen=True, kw_only=True)
class TrialCut:
    """The first cut of the day that did not ravel; clock hours.

    Attributes:
        placed: When the concrete there was placed.
        cut: When it stood the saw.
        temperature: Its mean temperature between the two, degrees Celsius; None where it was not taken.
    """

    placed: float
    cut: float
    temperature: float | None = None


@dataclass(frozen=True, kw_only=True)
class SawChoice:
    """The saws and what they do; times in hours.

    Attributes:
        method: Kind of saw; None takes the job's own method of cutting.
        count: Saws on site.
        rate: Length cut in an hour, mm.
        move: Time per line for snapping, setting and turning.
        blade_life: Length cut with one blade, mm.
        blade_change: Time to change a blade.
        blade: Diameter of the blade, mm.
        guard: From the blade's front to the foremost part of the saw, mm.
        opens: From placing to the first cut at the reference temperature.
        closes: From placing to the last cut at the reference temperature.
        trial: The trial cut that the rest of the day goes by.
        late_from: Clock hours from when sawing can begin at all, for an emergency; None for no
            emergency.
    """

    method: SawMethod | None = None
    count: int | None = None
    rate: float | None = None
    move: float | None = None
    blade_life: float | None = None
    blade_change: float | None = None
    blade: float | None = None
    guard: float | None = None
    opens: float | None = None
    closes: float | None = None
    trial: TrialCut | None = None
    late_from: float | None = None


@dataclass(frozen=True, kw_only=True)
class SteelChoice:
    """What goes into and beside the joints.

    Attributes:
        dowels: Name of the dowel table for construction joints; empty where none is chosen.
        corner_bars: Bars at each re-entrant corner.
        tee_bars: Bars at each tee end.
        bar: Size of those bars, number of eighths of an inch.
        bar_length: Length of those bars, mm.
        filler_width: Width of the filled cut, mm; 0 for joints that stay unfilled.
        filler_depth: Depth of the filler, mm.
        isolation: Thickness of the isolation strip, mm.
        friction: Coefficient of friction between slab and base.
        steel_stress: Stress allowed in drag steel and tie bars, N/mm2.
        bond: Stress allowed in the bond of tie bars, N/mm2.
        restraint: Factor C of the joint opening.
        expansion: Coefficient of thermal expansion, 1/K.
        temperature_drop: From placing to the coldest, K.
        shrinkage: Free drying shrinkage as a share.
        tensile: Indirect tensile strength, N/mm2, which gives the shrinkage where that is not given.
        modulus: Elastic modulus of the concrete, N/mm2.
        subgrade: Modulus of subgrade reaction, N/mm3.
        curing_cover: Area covered by a volume of curing compound, mm2 per mm3 (5 m2/L is 5).
    """

    dowels: str = ""
    corner_bars: int | None = None
    tee_bars: int | None = None
    bar: int | None = None
    bar_length: float | None = None
    filler_width: float | None = None
    filler_depth: float | None = None
    isolation: float | None = None
    friction: float | None = None
    steel_stress: float | None = None
    bond: float | None = None
    restraint: float | None = None
    expansion: float | None = None
    temperature_drop: float | None = None
    shrinkage: float | None = None
    tensile: float | None = None
    modulus: float | None = None
    subgrade: float | None = None
    curing_cover: float | None = None


class CuringMethod(StrEnum):
    """How the concrete is cured."""

    COMPOUND = "compound"
    WET = "wet"
    SHEET = "sheet"


@dataclass(frozen=True, kw_only=True)
class CuringChoice:
    """How the concrete is cured and kept.

    Attributes:
        method: Curing compound, wet covering or sheeting; None where it is not known.
        days: How long.
        kept_at: Temperature (degrees Celsius) below which blankets or heat keep the concrete from falling;
            None where nothing is provided.
    """

    method: CuringMethod | None = None
    days: float | None = None
    kept_at: float | None = None


@dataclass(frozen=True, kw_only=True)
class MaterialChoice:
    """What else is ordered for the slab; None where the job does not tell of it.

    Attributes:
        base_depth: Compacted depth of the base stone, mm.
        retarder_roll: Width of the vapour retarder's rolls, mm.
        retarder_lap: Its laps, mm.
        mesh_sheet: Length and width of the sheets of mesh, mm.
        mesh_lap: Their laps, mm.
        mat_bar: Size of the mat's bars, number of eighths of an inch.
        mat_spacing: Their spacing each way, mm.
        chairs_every: Distance of chairs each way, mm.
        baskets: Whether dowel baskets stand under the sawn joints.
        backer_rod: Whether joints get a backer rod.
    """

    base_depth: float | None = None
    retarder_roll: float | None = None
    retarder_lap: float = 150.0
    mesh_sheet: tuple[float, float] | None = None
    mesh_lap: float = 150.0
    mat_bar: int = 4
    mat_spacing: float | None = None
    chairs_every: float | None = None
    baskets: bool = False
    backer_rod: bool = False


@dataclass(frozen=True, kw_only=True)
class Prices:
    """The job's own prices in one currency; None where none is given.

    Attributes:
        currency: How amounts are marked, such as ``USD``.
        concrete: Of concrete, per mm3.
        bulkhead: Of bulkhead with its dowels, per mm.
        sawing: Of sawing by length, per mm.
        saw_hour: Of a saw with its crew, per hour.
        finisher_hour: Of a finisher, per hour.
        curing: Of curing, per mm2.
        day: Of a day on site, whatever is placed.
    """

    currency: str = ""
    concrete: float | None = None
    bulkhead: float | None = None
    sawing: float | None = None
    saw_hour: float | None = None
    finisher_hour: float | None = None
    curing: float | None = None
    day: float | None = None


@dataclass(frozen=True, kw_only=True)
class DayInput:
    """Everything that is known of the placement day.

    Attributes:
        date: First day of placing as ``2026-06-14``; empty where it is not known.
        starts: Clock hours of the first truck of each day's placements, the first one first; those that are
            not given follow the one before. Empty where nothing is known.
        country: Two letters of ISO 3166 whose rules the safety lines name; empty where it is not given.
        latitude: Of the site, degrees, north positive; None where it is not known.
        longitude: Of the site, degrees, east positive; None where it is not known.
        utc_offset: Hours of the site's clock before universal time; None where it is not known.
        clock_change: Clock hour at which the site's clock is changed, and by how many hours; None for none.
        sunrise: Clock hours when light comes; None where it is not given.
        sunset: Clock hours when light fails; None where it is not given.
        weather: In order of time; empty where there is none.
        others: See the classes above.
    """

    date: str = ""
    starts: tuple[float, ...] = ()
    country: str = ""
    latitude: float | None = None
    longitude: float | None = None
    utc_offset: float | None = None
    clock_change: tuple[float, float] | None = None
    sunrise: float | None = None
    sunset: float | None = None
    concrete: Concrete = field(default_factory=Concrete)
    setting: MixSetting = field(default_factory=MixSetting)
    pours: PourChoice = field(default_factory=PourChoice)
    weather: tuple[WeatherHour, ...] = ()
    saws: SawChoice = field(default_factory=SawChoice)
    steel: SteelChoice = field(default_factory=SteelChoice)
    curing: CuringChoice = field(default_factory=CuringChoice)
    order: MaterialChoice = field(default_factory=MaterialChoice)
    prices: Prices = field(default_factory=Prices)
