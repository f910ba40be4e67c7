"""The placements of a slab: where they meet, in what order they come and when."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import shapely
from shapely import MultiPolygon

from kerfline.geometry.faces import polygons_of
from kerfline.geometry.tolerance import TOUCH
from kerfline.model.day import DayInput, Delivering, Habit, Ledger, PourChoice, Side
from kerfline.model.layout import Joint, Layout
from kerfline.model.slab import JointKind, Slab
from kerfline.placement.clock import VolumeOf
from kerfline.placement.division import SLACK, DayLimit, Sizes, divide, kept_apart, members
from kerfline.placement.panel_graph import Border, borders
from kerfline.placement.pour_order import Pour, Site, against_the_clock, in_order
from kerfline.placement.wording import are, placements
from kerfline.units import Display, format_area, format_length, format_volume, round_figure

START = Habit(
    key="day.start",
    text="first truck discharges",
    amount=7.0,
    shown="07:00",
    source="common practice",
)


@dataclass(frozen=True, kw_only=True)
class PourPlan:
    """All placements.

    Attributes:
        pours: In the order of placing.
        joints: The layout's construction joints.
        limit: What one day was taken to hold.
    """

    pours: tuple[Pour, ...]
    joints: tuple[Joint, ...]
    limit: DayLimit


def placement_homes(
    slab: Slab, layout: Layout, limit: DayLimit, volume_of: VolumeOf, *, always_split: bool
) -> list[int]:
    """For each panel the number of the placement that it is best placed with.

    Args:
        slab: What is given.
        layout: Its planned joints and panels.
        limit: What one day can take.
        volume_of: Concrete (mm3) over a region of the plan.
        always_split: Whether a slab that fits one day is divided at re-entrant corners all the same.
    """
    sizes = sizes_of(slab, layout, volume_of)
    return homes_within(sizes, borders(layout), limit, always_split=always_split)


def homes_within(
    sizes: Sizes, meets: Sequence[Border], limit: DayLimit, *, always_split: bool
) -> list[int]:
    """The same from panels and borders that are measured already."""
    regions = divide(sizes, meets, limit, always_split=always_split)
    home = {panel: number for number, region in enumerate(regions) for panel in members(region)}
    return [home[panel] for panel in range(len(sizes.polygons))]


def plan_pours(
    slab: Slab, layout: Layout, day: DayInput, rate: float, volume_of: VolumeOf, ledger: Ledger
) -> PourPlan:
    """Sets the placements of a slab against the clock.

    Args:
        slab: What is given.
        layout: Its joints and panels; its construction joints part the placements.
        day: What is known of the day.
        rate: Placing rate, mm3 per hour.
        volume_of: Concrete (mm3) over a region of the plan.
        ledger: Takes down what had to be assumed or must be asked.
    """
    limit = day_limit(day.pours, rate, ledger)
    sizes = sizes_of(slab, layout, volume_of)
    site = Site(
        bounds=slab.concrete.bounds,
        panels=tuple(panel.id for panel in layout.panels),
        sizes=sizes,
        sides=_access(day.pours, ledger),
        limit=limit,
        starts=day.starts or (ledger.take(None, START),),
        rate=rate,
        volume_of=volume_of,
    )
    ordered = in_order(kept_apart(sizes, borders(layout)), site)
    return PourPlan(
        pours=tuple(against_the_clock(ordered, site)),
        joints=tuple(j for j in layout.joints if j.kind is JointKind.CONSTRUCTION),
        limit=limit,
    )


def sizes_of(slab: Slab, layout: Layout, volume_of: VolumeOf) -> Sizes:
    """What is measured of the panels of a layout."""
    polygons = [panel.polygon for panel in layout.panels]
    volumes = [volume_of(polygon) for polygon in polygons]
    return Sizes(volumes=volumes, polygons=polygons, holes=_holes(slab))


def over_limit(plan: PourPlan, display: Display) -> list[str]:
    """Placements that take more than a day can: a panel that is too large alone, or joints moved by hand."""
    limit = plan.limit
    big = [
        p.id
        for p in plan.pours
        if p.volume > limit.volume * (1 + SLACK) or p.area.area > limit.area * (1 + SLACK)
    ]
    if not big:
        return []
    most = [
        format_volume(limit.volume, display) if math.isfinite(limit.volume) else "",
        format_area(limit.area, display) if math.isfinite(limit.area) else "",
    ]
    return [
        (
            f"{placements(big)} {are(big)} more than a day's {' or '.join(m for m in most if m)}: add a construction "
            "joint on a planned line, or a crew that places more."
        )
    ]


CHUTE = Habit.of(
    "day.pours.reach",
    "reach of the chute from the trucks",
    round_figure(20, "ft"),
    "trade article on placing by chute: a truck within about 20 ft of the point of deposit",
)
CONVEYOR = Habit.of(
    "day.pours.reach",
    "reach of the conveyor from the trucks",
    round_figure(30, "ft"),
    "trade article on placing: a conveyor to about 30 ft",
)


def reach_notes(plan: PourPlan, choice: PourChoice, display: Display, ledger: Ledger) -> list[str]:
    """Whether the concrete reaches every corner from where the trucks stand."""
    how = choice.delivery
    if how is None:
        ledger.ask(
            "How does the concrete get from the trucks? Give day.pours.delivery: chute, conveyor or pump."
        )
        ledger.note("way from the trucks (day.pours.delivery)", "by chute", "a stopgap")
    if how is Delivering.PUMP and choice.reach is None:
        return []
    habit = CONVEYOR if how is Delivering.CONVEYOR else CHUTE
    reach = ledger.take(choice.reach, habit)
    far = [p for p in plan.pours if p.reach > reach + TOUCH]
    if not far:
        return []
    worst = max(far, key=lambda p: p.reach)
    ids = [p.id for p in far]
    return [
        (
            f"{placements(ids)} {'reach' if len(far) > 1 else 'reaches'} up to {format_length(worst.reach, display)} from "
            f"the side that trucks come to, and the {how.value if how else 'chute'} reaches "
            f"{format_length(reach, display)}: trucks back up over the base, which must carry them, or "
            f"{_farther(how)} is ordered. Begin at the far end."
        )
    ]


def _farther(how: Delivering | None) -> str:
    """What reaches beyond the way that the concrete comes."""
    match how:
        case Delivering.PUMP:
            return "a pump with a longer line"
        case Delivering.CONVEYOR:
            return "a pump or a longer conveyor"
        case _:
            return "a pump or conveyor"


def day_limit(choice: PourChoice, rate: float, ledger: Ledger) -> DayLimit:
    """What one day can take: the least of volume, area and hours at the placing rate."""
    volumes = [choice.volume or math.inf, (choice.hours or math.inf) * rate]
    limit = DayLimit(
        volume=min(volumes),
        area=choice.area or math.inf,
        screed=choice.screed or math.inf,
    )
    if not limit.bounded:
        ledger.ask(
            "How much can be placed in a day? Give day.pours.volume, area or hours: without it the slab is "
            "taken as one placement."
        )
    if choice.screed is None:
        ledger.note(
            "reach of the screed (day.pours.screed)",
            "one front across the whole width",
            "a stopgap",
        )
    return limit


def _holes(slab: Slab) -> MultiPolygon:
    rings = [opening.polygon for opening in slab.openings]
    return MultiPolygon(polygons_of(shapely.union_all([*rings, *slab.boxouts])))


def _access(choice: PourChoice, ledger: Ledger) -> tuple[Side, ...]:
    if choice.access:
        return choice.access
    ledger.ask(
        "From which sides can trucks come? Give day.pours.access, such as ['bottom', 'left']."
    )
    ledger.note(
        "access of trucks (day.pours.access)", "from the bottom of the drawing", "a stopgap"
    )
    return (Side.BOTTOM,)
