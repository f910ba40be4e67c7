"""The placements of a slab: where they meet, in what order they come and when."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import shapely
from shapely import LineString, MultiPolygon

from kerfline.geometry.faces import lines_of, polygons_of
from kerfline.geometry.tolerance import TOUCH
from kerfline.model.day import DayInput, Habit, Ledger, PourChoice, Side
from kerfline.model.layout import Layout
from kerfline.model.slab import GivenJoint, JointKind, Slab
from kerfline.placement.clock import VolumeOf
from kerfline.placement.division import DayLimit, Region, Sizes, divide, members
from kerfline.placement.panel_graph import Border, borders
from kerfline.placement.pour_order import Pour, Site, against_the_clock, in_order

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
        joints: The construction joints between them, to be pinned in the layout.
        limit: What one day was taken to hold.
    """

    pours: tuple[Pour, ...]
    joints: tuple[GivenJoint, ...]
    limit: DayLimit

    @property
    def lines(self) -> tuple[LineString, ...]:
        """The construction joints as lines."""
        return tuple(LineString(joint.path) for joint in self.joints)


def plan_pours(
    slab: Slab, layout: Layout, day: DayInput, rate: float, volume_of: VolumeOf, ledger: Ledger
) -> PourPlan:
    """Divides a slab into placements and sets them against the clock.

    Args:
        slab: What is given.
        layout: Its planned joints and panels.
        day: What is known of the day.
        rate: Placing rate, mm3 per hour.
        volume_of: Concrete (mm3) over a region of the plan.
        ledger: Takes down what had to be assumed or must be asked.
    """
    limit = day_limit(day.pours, rate, ledger)
    polygons = [panel.polygon for panel in layout.panels]
    sizes = Sizes(
        volumes=[volume_of(polygon) for polygon in polygons],
        polygons=polygons,
        holes=_holes(slab),
    )
    meets = borders(layout)
    regions = divide(sizes, meets, limit, always_split=day.pours.always_split)
    sides = _access(day.pours, ledger)
    site = Site(
        bounds=slab.concrete.bounds,
        panels=tuple(panel.id for panel in layout.panels),
        sizes=sizes,
        sides=sides,
        limit=limit,
        start=ledger.take(day.start, START),
        rate=rate,
        volume_of=volume_of,
    )
    ordered = in_order(regions, site)
    return PourPlan(
        pours=tuple(against_the_clock(ordered, site)),
        joints=tuple(_construction_joints(ordered, meets)),
        limit=limit,
    )


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


def _construction_joints(regions: Sequence[Region], meets: Sequence[Border]) -> list[GivenJoint]:
    """Where placements meet, along planned joints, stretches on one line joined."""
    home = {i: n for n, region in enumerate(regions) for i in members(region)}
    stretches: dict[int, list[LineString]] = {}
    for border in meets:
        if home[border.first] != home[border.second]:
            stretches.setdefault(border.chain, []).extend(border.lines)
    paths = [
        line.simplify(TOUCH)
        for chain in sorted(stretches)
        for line in lines_of(
            shapely.line_merge(shapely.union_all(stretches[chain], grid_size=TOUCH / 10))
        )
    ]
    paths.sort(key=lambda line: (line.bounds[1], line.bounds[0], line.bounds[3]))
    return [
        GivenJoint(
            id=f"CNTJ{n}",
            path=tuple((float(x) + 0.0, float(y) + 0.0) for x, y in path.coords),  # no -0.0
            kind=JointKind.CONSTRUCTION,
        )
        for n, path in enumerate(paths, 1)
    ]
