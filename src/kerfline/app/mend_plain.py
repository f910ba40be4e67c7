"""A mend by hand's own way: ends that stop are carried straight on, panels too long are cut across.

It is offered beside the engine's, since around joints at odd angles the plain way is often the shorter one.
"""

import itertools
import math
from collections.abc import Iterator, Sequence

import numpy as np
import shapely
from shapely import LineString

from kerfline.app.mend_ends import landed
from kerfline.checks.measures import Measures, measures_of
from kerfline.engine.steps import Steps
from kerfline.geometry.arrays import Numbers
from kerfline.geometry.ends import EndKind, joint_ends
from kerfline.geometry.faces import lines_of
from kerfline.geometry.tolerance import MEASURE, RATIO, SAME, TOUCH
from kerfline.model.layout import Joint, Layout, Panel, Reason
from kerfline.model.panelling import panels_of
from kerfline.model.slab import JointKind, Slab
from kerfline.rules.limits import Limits
from kerfline.rules.slab_rules import SlabRules
from kerfline.units import Display, grid_step

MOST_BAYS = 12
"""Bays that one panel is cut into at once, at most."""

MOST_STEPS = 60
"""Panels that are cut across, at most: a layout that asks for more is the engine's to complete."""


def plain_additions(
    slab: Slab, layout: Layout, rules: SlabRules, display: Display
) -> tuple[Joint, ...]:
    """The joints that the plain way adds to existing ones, as ``A1``, ``A2``, ...

    Args:
        slab: The slab.
        layout: Its joints.
        rules: The limits; panels are cut to the greatest span and aspect.
        display: How lengths are written: cuts stand at whole inches or 10 mm where the limits allow.
    """
    measures = measures_of(slab, layout, rules, display)
    lines = [j.line for j in layout.joints]
    shut = shapely.union_all([k.outline.polygon for k in slab.keep_outs])
    added = [(line, Reason.PINNED) for line in _carried_on(slab, lines) if not _cut_off(line, shut)]
    for _ in range(MOST_STEPS):
        panels = panels_of(slab.concrete, [*lines, *(line for line, _ in added)])
        long = [p for p in panels if _too_long(p, _limits(measures, p))]
        if not long:
            break
        worst = max(long, key=lambda p: (round(p.length), p.id))
        cuts = [c for c in _across(worst, long, measures) if not _cut_off(c, shut)]
        if not cuts:
            break
        added += [(cut, Reason.SPAN) for cut in cuts]
    joints = (_joint(n, line, reason, measures) for n, (line, reason) in enumerate(added, 1))
    return landed(slab.concrete, lines, joints)


def _limits(measures: Measures, panel: Panel) -> Limits:
    """The limits at the thickness of a panel."""
    return measures.limits(measures.thickness_in(panel.polygon))


def _joint(number: int, line: LineString, reason: Reason, measures: Measures) -> Joint:
    return Joint(
        id=f"A{number}",
        kind=JointKind.CONTROL,
        path=tuple((float(x), float(y)) for x, y in line.coords),
        depth=measures.rules.cut_depth(measures.thickest_along(line)),
        reason=reason,
        note="cuts across a panel that is too long"
        if reason is Reason.SPAN
        else "carries a joint on",
        hidden=measures.slab.under_walls(line),
    )


def _carried_on(slab: Slab, lines: Sequence[LineString]) -> Iterator[LineString]:
    """From each free end straight on to the next joint or edge."""
    x0, y0, x1, y1 = slab.concrete.bounds
    reach = math.hypot(x1 - x0, y1 - y0)
    met = shapely.union_all([*lines, slab.concrete.boundary])
    for end in joint_ends(slab.concrete, lines):
        if end.kind is not EndKind.FREE:
            continue
        (x, y), (dx, dy) = end.at, end.outward
        start = (x + TOUCH * dx, y + TOUCH * dy)
        ray = LineString([start, (x + reach * dx, y + reach * dy)])
        hits = shapely.get_coordinates(ray.intersection(met))
        if len(hits):
            far = min(hits, key=lambda p: math.dist(p, start))
            yield LineString([end.at, (float(far[0]), float(far[1]))])


def _cut_off(line: LineString, shut: shapely.Geometry) -> bool:
    """Whether a line runs where no saw may go; a cut that only touches there ends there."""
    return bool(line.intersection(shut).length > TOUCH)


def _too_long(panel: Panel, limits: Limits) -> bool:
    """Whether cuts across would help a panel: one that is too narrow they only make into more of them."""
    if panel.width < limits.width.bound - MEASURE:
        return False
    long = panel.span > limits.span.bound + MEASURE
    return long or panel.aspect > limits.aspect.bound + RATIO


def _across(panel: Panel, long: Sequence[Panel], measures: Measures) -> Iterator[LineString]:
    """Cuts square to a panel's long side at even bays, each through all panels in line that are too long."""
    limits = _limits(measures, panel)
    along = _way(panel.box.angle)
    square = np.array((-along[1], along[0]))
    spread = shapely.get_coordinates(panel.polygon) @ along
    origin = float((shapely.get_coordinates(measures.slab.outline.polygon) @ along).min())
    steps = Steps(origin, grid_step(measures.words.display))
    area = shapely.union_all([p.polygon.buffer(SAME) for p in long])
    middle = shapely.get_coordinates(panel.polygon.centroid)[0]
    reach = area.length
    for place in _places(float(spread.min()), float(spread.max()), panel.width, limits, steps):
        at = middle + along * (place - float(middle @ along))
        line = LineString([at - reach * square, at + reach * square])
        parts = [p for p in lines_of(line.intersection(area)) if p.intersects(panel.polygon)]
        yield from (p for p in parts if p.length > TOUCH)


def _way(angle: float) -> Numbers:
    """The direction of an angle (degrees) that leads away from where positions are measured."""
    turn = math.radians(angle)
    way = np.array((math.cos(turn), math.sin(turn)))
    ahead = way[0] > SAME or (abs(way[0]) <= SAME and way[1] > 0)
    return way if ahead else -way


def _places(low: float, high: float, width: float, limits: Limits, steps: Steps) -> list[float]:
    """Where a panel is cut: at whole steps, unless only the even places between them keep the limits."""
    bays = _bays(high - low, width, limits)
    even = [low + (high - low) * i / bays for i in range(1, bays)]
    whole = [steps.nearest(place) for place in even]
    broken = [_breaks([low, *places, high], width, limits) for places in (whole, even)]
    return even if broken[1] < broken[0] else whole


def _breaks(stops: Sequence[float], width: float, limits: Limits) -> int:
    """How many of the bays between stops break a limit."""
    bays = [b - a for a, b in itertools.pairwise(stops)]
    return sum(
        bay > limits.span.bound + MEASURE
        or bay < limits.width.bound - MEASURE
        or max(bay, width) / min(bay, width) > limits.aspect.bound + RATIO
        for bay in bays
    )


def _bays(length: float, width: float, limits: Limits) -> int:
    """The fewest even bays within the limits; those nearest to square where none are."""
    least = max(2, math.ceil(length / (limits.span.bound + MEASURE)))

    def aspect(bays: int) -> float:
        return max(length / bays, width) / min(length / bays, width)

    most = max(least, min(MOST_BAYS, math.floor(length / limits.width.bound)))
    choices = range(least, most + 1)
    kept = [n for n in choices if aspect(n) <= limits.aspect.bound + RATIO]
    return kept[0] if kept else min(choices, key=aspect)
