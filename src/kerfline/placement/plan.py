"""The placement plan: pours, weather, windows and cutting, one step a line."""

from dataclasses import dataclass

from kerfline.model.day import DayInput, Ledger, SawMethod
from kerfline.model.joint_lines import JointLines, joint_lines
from kerfline.model.layout import Layout
from kerfline.model.slab import Slab
from kerfline.placement.cautions import (
    buried_cautions,
    crew_cautions,
    cutting_cautions,
    end_cautions,
    pour_cautions,
    under_wall_lines,
)
from kerfline.placement.clashes import (
    clock_clashes,
    dark_clashes,
    drying_clashes,
    weather_clashes,
)
from kerfline.placement.climate import (
    Ageing,
    Climate,
    EvaporationHour,
    climate_of,
    temperature_cautions,
)
from kerfline.placement.clock import VolumeOf
from kerfline.placement.cut_ends import SawnEnd, blade_of, sawn_ends
from kerfline.placement.cutting import CuttingPlan, method_of, plan_cutting, saw_pace
from kerfline.placement.front import FrontCheck, check_front, front_cautions
from kerfline.placement.hints import hints
from kerfline.placement.light import Daylight, daylight_of
from kerfline.placement.pour_hours import PourHours, pour_hours
from kerfline.placement.pours import PourPlan, over_limit, plan_pours, reach_notes
from kerfline.placement.rain import rain_clashes
from kerfline.placement.safety import country_of
from kerfline.placement.setting import Setting, setting_of
from kerfline.placement.setting_out import setting_out_notes
from kerfline.placement.window import (
    LineWindow,
    WindowHours,
    calibrated,
    crossings,
    line_windows,
    window_hours,
)
from kerfline.rules.slab_rules import SlabRules
from kerfline.units import Display


@dataclass(frozen=True, kw_only=True)
class Supply:
    """How the concrete comes.

    Attributes:
        rate: Placing rate, mm3 per hour.
        interval: Between trucks, hours.
        volume_of: Concrete (mm3) over a region of the plan.
    """

    rate: float
    interval: float
    volume_of: VolumeOf


@dataclass(frozen=True, kw_only=True)
class PlacementPlan:
    """Everything about placing and cutting.

    Attributes:
        pours: Where, when and in what order the concrete goes.
        hours: Finishing and weather of each placement, in their order.
        setting: How the mix sets.
        climate: The temperatures.
        evaporation: The rate at every time of the weather file.
        method: Kind of saw.
        window_hours: Hours after placing that the windows were worked out from.
        lines: Sawn and construction joints.
        windows: When each sawn line, or stretch of one, may be cut.
        light: Sunrise and sunset; None where they are not known.
        cutting: Who cuts what when.
        ends: What stands at the ends of the lines.
        fronts: How long each front lies open.
        hints: Habits of the trade.
        cautions: What this day asks to be minded.
        standing: What holds on every day: what can hurt someone or spoil the slab.
        under_walls: Joints out of reach once the walls stand.
        setting_out: How to square and mark out, and what the finished slab is held against.
    """

    pours: PourPlan
    hours: tuple[PourHours, ...]
    setting: Setting
    climate: Climate
    evaporation: tuple[EvaporationHour, ...]
    method: SawMethod
    window_hours: WindowHours
    lines: JointLines
    windows: tuple[LineWindow, ...]
    light: Daylight | None
    cutting: CuttingPlan
    ends: tuple[SawnEnd, ...]
    fronts: tuple[FrontCheck, ...]
    hints: tuple[str, ...]
    cautions: tuple[str, ...]
    standing: tuple[str, ...]
    under_walls: tuple[str, ...]
    setting_out: tuple[str, ...]


def plan_placement(
    slab: Slab,
    layout: Layout,
    rules: SlabRules,
    day: DayInput,
    supply: Supply,
    display: Display,
    ledger: Ledger,
) -> PlacementPlan:
    """Plans placing and cutting.

    Args:
        slab: What is given.
        layout: Its planned joints and panels.
        rules: For the depth and method of the cuts.
        day: What is known of the day.
        supply: How the concrete comes.
        display: Feet or metres.
        ledger: Takes down what had to be assumed or must be asked.
    """
    setting = setting_of(day.setting, ledger)
    pours = plan_pours(slab, layout, day, supply.rate, supply.volume_of, ledger)
    start, end = pours.pours[0].start, pours.pours[-1].end
    climate = climate_of(day, start, setting.reference, ledger)
    ageing = Ageing.of(climate, setting, start, end)
    curve = climate.evaporation()
    method = method_of(day.saws, rules.cut.method)
    opening = window_hours(day.saws, method, setting, ledger)
    opening = calibrated(opening, day.saws.trial, ageing, setting)
    lines = joint_lines(layout)
    nodes = crossings(lines.sawn, layout)
    windows = tuple(
        window
        for sawn in lines.sawn
        for window in line_windows(sawn, pours.pours, ageing, opening, nodes[sawn.joint])
    )
    areas = {pour.id: pour.area for pour in pours.pours}
    cutting = plan_cutting(windows, day.saws, saw_pace(day.saws, ledger), areas)
    light = daylight_of(day, ledger)
    ends = sawn_ends(slab, lines.sawn, *blade_of(day.saws, method, ledger))
    fronts = tuple(check_front(p, supply.interval, ageing, setting) for p in pours.pours)
    depth = max((s.depth for s in lines.sawn), default=0.0)
    hours = tuple(pour_hours(p, ageing, setting, climate, curve) for p in pours.pours)
    return PlacementPlan(
        pours=pours,
        hours=hours,
        setting=setting,
        climate=climate,
        evaporation=curve,
        method=method,
        window_hours=opening,
        lines=lines,
        windows=windows,
        light=light,
        cutting=cutting,
        ends=ends,
        fronts=fronts,
        hints=hints(pours.pours, day.pours, display, ledger),
        cautions=(
            *rain_clashes(climate, hours),
            *temperature_cautions(climate, start, end, day.concrete.batch, display),
            *weather_clashes(climate, hours, cutting, display),
            *drying_clashes(hours, curve, display),
            *dark_clashes(light, hours, cutting),
            *clock_clashes(day.clock_change, hours, cutting),
            *pour_cautions(pours.pours),
            *over_limit(pours, display),
            *reach_notes(pours, day.pours, display, ledger),
            *front_cautions(fronts),
            *cutting_cautions(cutting, method, display),
            *end_cautions(ends, display),
            *buried_cautions(slab, depth, display),
        ),
        standing=crew_cautions(method, country_of(day, rules.rule_set.name, display)),
        under_walls=under_wall_lines(cutting),
        setting_out=setting_out_notes(slab, display),
    )
