"""The engine's table of contents: from a slab and its rules to a layout."""

import time
from collections.abc import Sequence
from dataclasses import replace

from kerfline.engine.effort import Effort
from kerfline.engine.finish import closed, joints_of, saw_passes
from kerfline.engine.large.blocks import Arrivals
from kerfline.engine.method import region_layout
from kerfline.engine.options import EngineOptions, Weights
from kerfline.engine.patterns import too_fine
from kerfline.engine.regions.frames import regions_of
from kerfline.engine.regions.placing import working_limits
from kerfline.engine.regions.region import Cut, PlacedRegion, RegionLayout
from kerfline.engine.regions.walls import without_crowd
from kerfline.geometry.tolerance import MEASURE, SAME
from kerfline.model.layout import Layout, RegionSolution, Solution, Status
from kerfline.model.panelling import panels_of
from kerfline.model.slab import Slab
from kerfline.rules.slab_rules import SlabRules

WORST = (Status.OPTIMAL, Status.TIME_LIMIT, Status.PARTS, Status.HEURISTIC)
"""States of a search from the best; a layout's is the worst of its regions'."""


def lay_out(slab: Slab, rules: SlabRules, options: EngineOptions = EngineOptions()) -> Layout:  # noqa: B008 - frozen
    """The best layout that the engine finds.

    Args:
        slab: What is given.
        rules: The limits.
        options: Display, effort, weights and progress.

    Returns:
        A layout, always; rules that it could not keep are for the checks to find.

    Raises:
        InputRefused: A weight in the options is unknown or out of range.
    """
    began = time.perf_counter()
    weights = Weights.of(options.weights)
    options.say("Dividing the slab into parts with directions of their own")
    slab, given_up = _with_drawable_patterns(slab, rules, options)
    placed = regions_of(slab, rules, options)
    solved = _solved(placed, weights, options)
    drawn = [cut for place, region in solved for cut in _in_slab(place, region)]
    cuts = closed(saw_passes(drawn), slab.concrete)
    options.say("Naming joints and panels")
    joints = joints_of(slab, rules, cuts)
    panels = panels_of(slab.concrete, [joint.line for joint in joints])
    least = _least_length(solved)
    return Layout(
        joints=joints,
        panels=panels,
        solution=_solution(solved, least, time.perf_counter() - began),
        limits=working_limits(rules, slab.thickness, options),
        walls_left={k: why for _, region in solved for k, why in region.walls_left.items()},
        wall_shifts={k: mm for _, region in solved for k, mm in region.wall_shifts.items()},
        notes=(*given_up, *(note for _, region in solved for note in region.notes)),
    )


def _with_drawable_patterns(
    slab: Slab, rules: SlabRules, options: EngineOptions
) -> tuple[Slab, tuple[str, ...]]:
    """The slab without the patterns whose grids are too fine to lay out, and a sentence for each of those."""
    drawable, notes = [], []
    for pattern in slab.patterns:
        area = pattern.area.polygon.intersection(slab.concrete)
        here = [z.thickness for z in slab.zones if z.outline.polygon.intersects(area)]
        thicknesses = [slab.thickness, *here]
        span = min(working_limits(rules, t, options).span for t in thicknesses)
        note = "" if area.is_empty else too_fine(pattern, area, span)
        if note:
            notes.append(note)
        else:
            drawable.append(pattern)
    return replace(slab, patterns=tuple(drawable)), tuple(notes)


def _solved(
    placed: Sequence[PlacedRegion], weights: Weights, options: EngineOptions
) -> list[tuple[PlacedRegion, RegionLayout]]:
    """Each region solved, the largest effort to the largest; later ones meet the joints of earlier."""
    total = sum(p.region.concrete.area for p in placed)
    out: list[tuple[PlacedRegion, RegionLayout]] = []
    for number, place in enumerate(placed, 1):
        options.say(f"Laying out part {number} of {len(placed)}")
        ready = _with_landings(place, out)
        effort = Effort(options.effort).share(place.region.concrete.area / total)
        roomy, left = without_crowd(ready.region)
        region = region_layout(replace(ready, region=roomy), weights, options, effort)
        out.append((ready, replace(region, walls_left={**region.walls_left, **left})))
    return out


def _with_landings(
    place: PlacedRegion, solved: Sequence[tuple[PlacedRegion, RegionLayout]]
) -> PlacedRegion:
    """A region with the places where joints of solved neighbours arrive at its border."""
    paths = (
        tuple(place.to_region(neighbour.to_slab(p)) for p in cut.path)
        for neighbour, region in solved
        for cut in region.cuts
    )
    return replace(place, region=Arrivals(paths).on(place.region))


def _in_slab(place: PlacedRegion, region: RegionLayout) -> list[Cut]:
    """The cuts of a region and of its borders in the slab's frame."""
    return [*(cut.moved(place.to_slab) for cut in region.cuts), *place.borders]


def _least_length(solved: Sequence[tuple[PlacedRegion, RegionLayout]]) -> tuple[float, bool]:
    """The best bound of the joint length, and whether only layouts whose joints run through as these keep to it.

    Those of the regions and the joints between them. Rounded down, for sums have their last bits.
    """
    border = _between(solved)
    of_any = border + sum(region.length_bound for _, region in solved)
    of_through = border + sum(max(r.length_bound, r.through_bound) for _, r in solved)
    least = max(0.0, round(of_through - SAME, 2))
    return least, of_through > of_any + MEASURE


def _between(solved: Sequence[tuple[PlacedRegion, RegionLayout]]) -> float:
    """Length of the joints between regions, mm."""
    return sum(c.line.length for place, _ in solved for c in place.borders)


def _solution(
    solved: Sequence[tuple[PlacedRegion, RegionLayout]], least: tuple[float, bool], seconds: float
) -> Solution:
    """How good the whole is: sums over the regions, and the borders' length in cost and bounds."""
    border, (length, through) = _between(solved), least
    statuses = [region.status for _, region in solved]
    return Solution(
        status=max([*statuses, *([Status.PARTS] if len(solved) > 1 else [])], key=WORST.index),
        cost=border + sum(region.cost for _, region in solved),
        bound=border + sum(region.bound for _, region in solved),
        length_bound=length,
        through=through,
        seconds=seconds,
        regions=tuple(
            RegionSolution(
                name=place.region.name, status=region.status, cost=region.cost, bound=region.bound
            )
            for place, region in solved
        ),
    )
