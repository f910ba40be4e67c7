"""The placement day as plain text, for the terminal."""

import math
from collections.abc import Sequence

from kerfline.model.day import Finish
from kerfline.placement.climate import worst
from kerfline.placement.clock import front_speed
from kerfline.placement.cutting import STAND_BY, Cut
from kerfline.placement.evaporation import (
    ACTION,
    CAUTION,
    Evaporation,
    Risk,
    remedies,
    threshold_words,
)
from kerfline.placement.pour_hours import PourHours
from kerfline.placement.window import TRIAL, LineWindow, Span
from kerfline.quantities.order import minutes, shortfall
from kerfline.sheets.day.day_plan import DayOrder, DayPlan
from kerfline.sheets.day.trucks import trucks
from kerfline.units import (
    HOURS_PER_DAY,
    MM_PER_INCH,
    Display,
    counted,
    format_area,
    format_clock,
    format_depth,
    format_evaporation,
    format_run,
    format_temperature,
    format_volume,
)

NEVER = "not within ten days"


def day_text(plan: DayPlan, display: Display) -> str:
    """The day in sections: concrete, placements, weather, windows, cutting, take-off, cautions."""
    head = " ".join(filter(None, ["Placement day", plan.job, plan.day.date]))
    sections = [
        ("Mind today", list(plan.placement.cautions)),
        ("Concrete", concrete_lines(plan, display)),
        ("Trucks", truck_lines(plan, display)),
        ("Placements", pour_lines(plan, display)),
        ("Weather", weather_lines(plan, display)),
        ("Cutting", cutting_lines(plan, display)),
        ("Fewer days or fewer bulkheads", choice_lines(plan, display)),
        ("Take-off", take_off_lines(plan)),
        ("Setting out and acceptance", list(plan.placement.setting_out)),
        ("Habits of the trade", list(plan.placement.hints)),
        ("Safety", list(plan.placement.standing)),
        ("Assumed", assumption_lines(plan)),
        ("To be asked", list(plan.questions)),
    ]
    out = [head]
    for title, lines in sections:
        if lines:
            out.extend(["", title, *(f"  {line}" for line in lines)])
    return "\n".join(out) + "\n"


def concrete_lines(plan: DayPlan, display: Display) -> list[str]:
    """Net, allowance, order and deliveries, day by day."""
    order = plan.order
    parts = [
        f"{name}: {format_volume(volume, display)}"
        for name, volume in plan.body.by_component().items()
    ]
    return [
        *parts,
        (
            f"net {format_volume(order.net, display)} + allowance {format_volume(order.allowance, display)} "
            f"({order.share:.0%})"
        ),
        *(
            line
            for today in plan.orders
            for line in (order_line(today, display), today.delivery.hold(display))
        ),
        base_line(plan, display),
    ]


def truck_lines(plan: DayPlan, display: Display) -> list[str]:
    """Every load by the clock."""
    return [
        f"day {t.day}, truck {t.number}: {format_volume(t.size, display)} at {clock(t.discharge, t.day)} for placement "
        f"{', '.join(t.pours)}, empty by {clock(t.done, t.day)}, batched after {clock(t.batched, t.day)}"
        for t in trucks(plan)
    ]


def base_line(plan: DayPlan, display: Display) -> str:
    """What a base that lies too low costs."""
    low = MM_PER_INCH / 8 if display is Display.FEET_INCHES else 5.0
    share = shortfall(low, plan.thickness)
    return (
        f"a base {format_depth(low, display)} too low under {format_depth(plan.thickness, display)} takes "
        f"{share:.1%} more: check it before ordering"
    )


def order_line(today: DayOrder, display: Display) -> str:
    """What to order for one day, and how it comes."""
    order = today.delivery
    return (
        f"day {today.day} (placement {', '.join(today.pours)}): order "
        f"{format_volume(order.ordered, display)} in {counted(order.loads, 'load')} of at most "
        f"{format_volume(order.truck, display)}, a truck every {minutes(order.interval)}, "
        f"{order.ring} on the road, emptied in {order.placing_time:.1f} h in all, discharge within "
        f"{minutes(order.discharge_limit)} of batching (project's or producer's limit)"
    )


def pour_lines(plan: DayPlan, display: Display) -> list[str]:
    """Each placement with its size and hours."""
    placement = plan.placement
    lines = [
        f"{_pour_line(hours, plan.order.rate, placement.setting.finish, display)}; a front lies open {front.open_for:.1f} h, {front.allowed:.1f} h allowed"
        for hours, front in zip(placement.hours, placement.fronts, strict=True)
    ]
    joints = plan.construction_joints
    if joints:
        ids = ", ".join(f"{j.id} ({format_run(j.length, display)})" for j in joints)
        lines.append(f"construction joints between placements: {ids}")
    return lines


WORKED = {
    Finish.FLOAT: "floated",
    Finish.BROOM: "broomed",
    Finish.TROWEL: "floated and troweled",
}
"""What is done to the surface once it has bled."""


def bleeding_words(hours: PourHours) -> str:
    """How long the first and the last concrete bleeds."""
    first, last = (clock(time, hours.pour.day) for time in hours.floated)
    return f"bleeds until {first} to {last}"


def finishing_lines(plan: DayPlan) -> list[str]:
    """For each placement until when nobody works its surface, and until when it is finished."""
    placement = plan.placement
    worked = WORKED[placement.setting.finish]
    lines = []
    for hours in placement.hours:
        day = hours.pour.day
        bled, later = (clock(time, day) for time in hours.floated)
        first, last = (clock(time, day) for time in hours.finished)
        lines.append(
            f"Placement {hours.pour.id}: no tool on it while it bleeds, until {bled} (first concrete) to {later} (last). "
            f"Then {worked}, finished {first} to {last} by {counted(hours.finishers, 'finisher')}."
        )
    return [*lines, READY] if lines else []


READY = "Ready for float or broom: no bleed water left, a footprint no deeper than 1/4 in (6 mm), whatever the clock says."


def _pour_line(hours: PourHours, rate: float, finish: Finish, display: Display) -> str:
    pour = hours.pour
    first, last = hours.finished
    worked = WORKED[finish]
    lane = pour.clock.lanes[0]
    depth = pour.volume / float(pour.area.area)
    speed = format_run(front_speed(rate, lane.high - lane.low, depth), display)
    return (
        f"{pour.id}: {len(pour.panels)} panels, {format_area(float(pour.area.area), display)}, "
        f"{format_volume(pour.volume, display)}, day {pour.day}, placed {clock(pour.start, pour.day)} to "
        f"{clock(pour.end, pour.day)} at about {speed} an hour, {bleeding_words(hours)}, then {worked}, finished "
        f"{clock(first, pour.day)} to {clock(last, pour.day)} by {counted(hours.finishers, 'finisher')}"
    )


def clock(hours: float, day: int) -> str:
    """A time on the clock of one day of placing, or that it never comes."""
    return format_clock(hours - (day - 1) * HOURS_PER_DAY) if math.isfinite(hours) else NEVER


def day_of(cut: Cut, plan: DayPlan) -> int:
    """The day of placing on which a line's last concrete is placed."""
    return next(p.day for p in plan.placement.pours.pours if p.id == cut.window.pours[-1])


def weather_lines(plan: DayPlan, display: Display) -> list[str]:
    """Rates of evaporation with their band, by placement, and what helps."""
    placement = plan.placement
    if not placement.evaporation:
        return ["no weather given: no rate of evaporation"]
    concrete = format_temperature(placement.climate.concrete, display)
    lines = [f"concrete at {concrete}; true rates may lie 40 % either way"]
    risk = Risk.LOW
    for hours in placement.hours:
        lines.append(_risk_line(hours, plan, display))
        if hours.over_caution:
            risk = Risk.ACTION if hours.over_action or risk is Risk.ACTION else Risk.CAUTION
    return [*lines, *_sun_lines(plan), *remedies(risk)]


def _sun_lines(plan: DayPlan) -> list[str]:
    """The sun warms the surface beyond what the formula is given."""
    stretches = [(h.pour.start, h.finished[1]) for h in plan.placement.hours]
    strongest = max(
        (
            hour.sun or 0.0
            for hour in plan.placement.climate.hours
            for first, last in stretches
            if first <= hour.clock <= last
        ),
        default=0.0,
    )
    if strongest <= 0:
        return []
    return [
        (
            f"sun up to {strongest:.0f} W/m2 on the surface: it warms above the concrete as placed, and the rate "
            "with it; shade it"
        )
    ]


def _risk_line(hours: PourHours, plan: DayPlan, display: Display) -> str:
    pour, last = hours.pour, hours.finished[1]
    highest = worst(plan.placement.evaporation, pour.start, last)
    if highest is None:
        return f"placement {pour.id}: the weather table does not reach these hours"
    rate = highest.rate
    low, high = format_evaporation(rate.low, display), format_evaporation(rate.high, display)
    known = "" if hours.weather_known else "; the weather table covers a part of it only"
    return (
        f"placement {pour.id}: up to {format_evaporation(rate.rate, display)} at {clock(highest.clock, pour.day)} "
        f"({low} to {high}), {_risk_words(rate, display)}{_hours_over(hours, display)}{known}"
    )


def _hours_over(hours: PourHours, display: Display) -> str:
    """How long the rate lies over the thresholds that it passes."""
    spells = ((hours.over_caution, Risk.CAUTION), (hours.over_action, Risk.ACTION))
    passed = [
        f"{spell:.1f} h over {threshold_words(risk, display)}" for spell, risk in spells if spell
    ]
    return f"; {', '.join(passed)}" if passed else ""


def _risk_words(rate: Evaporation, display: Display) -> str:
    """The risk, and that it is a near thing where the rate is written like the threshold that it misses."""
    above = {Risk.LOW: CAUTION, Risk.CAUTION: ACTION}.get(rate.risk)
    near = above and format_evaporation(rate.rate, display) == format_evaporation(above, display)
    return (
        f"just under {'caution' if rate.risk is Risk.LOW else 'action'}"
        if near
        else rate.risk.value
    )


def cutting_lines(plan: DayPlan, display: Display) -> list[str]:
    """Every line with its window and its turn, and how many saws that takes."""
    cutting = plan.placement.cutting
    if not cutting.cuts:
        return ["no line is sawn"]
    return [
        f"{plan.placement.method.value} saw. {TRIAL}",
        saws_line(plan),
        *(cut_line(cut, day_of(cut, plan), display) for cut in cutting.cuts),
        *_under_walls(plan.placement.under_walls),
    ]


def saws_line(plan: DayPlan) -> str:
    """How many saws the day takes."""
    cutting = plan.placement.cutting
    need = cutting.need
    if need.likely is None:
        head = "no number of saws gets every line within its window"
    else:
        head = f"{counted(need.likely, 'saw')} needed to get every line within its window"
        if need.shown != str(need.likely):
            head += f" ({need.shown} from the warmest to the coolest)"
    return (
        f"{head}; {STAND_BY} more in reserve; {cutting.hours:.1f} h of sawing in all, "
        f"{counted(cutting.blades, 'blade')}; the times are those of {counted(cutting.planned, 'saw')}"
    )


def cut_line(cut: Cut, day: int, display: Display) -> str:
    """One line with its window and its turn."""
    window = cut.window
    tail = "".join(f", {mark}" for mark in cut_marks(cut, display))
    turn = (
        f"saw {cut.saw} at {clock(cut.start, day)} to {clock(cut.end, day)}" if cut.saw else NEVER
    )
    return (
        f"{cut.order}. day {day}, {window.sawn.name}: opens {span(window.opens, day)}, closes "
        f"{span(window.closes, day)}; {turn}{tail}"
    )


def cut_marks(cut: Cut, display: Display) -> list[str]:
    """What is to be minded at a cut."""
    return [
        *(["relief cut"] if cut.relief else []),
        *([f"LATE: {format_run(cut.run.late, display)}"] if cut.late else []),
        *(["from the end placed first"] if cut.follows else []),
        *(["new blade"] if cut.new_blade else []),
    ]


def span(times: Span, day: int) -> str:
    """A clock time of one day of placing, with its range."""
    if math.isinf(times.likely):
        return NEVER
    return f"{clock(times.likely, day)} ({clock(times.early, day)} to {clock(times.late, day)})"


def window_words(window: LineWindow, day: int) -> str:
    """When a line may be cut: while all of it is open, or from its first opening, following the placing."""
    if window.workable:
        return f"{clock(window.opens.likely, day)} to {clock(window.closes.likely, day)}"
    return f"{clock(window.ready, day)} to {clock(window.deadline, day)}, behind the placing"


def _under_walls(joints: Sequence[str]) -> list[str]:
    if not joints:
        return []
    return [f"cut before walls stand: {', '.join(joints)}"]


def choice_lines(plan: DayPlan, display: Display) -> list[str]:
    """What other divisions of the same joints would take."""
    return [
        f"{counted(c.placements, 'placement')} of at most {format_volume(c.most, display)}: "
        f"{format_run(c.bulkhead, display)} of bulkhead"
        for c in plan.choices
    ]


def take_off_lines(plan: DayPlan) -> list[str]:
    """The take-off as text."""
    return [
        f"{row.item}: {row.shown}" + (f" ({row.note})" if row.note else "")
        for row in plan.take_off.rows
    ]


def assumption_lines(plan: DayPlan) -> list[str]:
    """What was assumed, with its source."""
    return [f"{a.text}: {a.value} [{a.source}]" for a in plan.assumptions]
