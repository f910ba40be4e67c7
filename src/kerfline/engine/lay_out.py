"""The engine's table of contents: from a slab and its rules to a layout."""

import time
from collections.abc import Sequence
from dataclasses import replace

from kerfline.engine.effort import Budget, Effort
from kerfline.engine.finish import closed, joints_of, saw_passes
from kerfline.engine.large.blocks import Arrivals
from kerfline.engine.method import region_layout
from kerfline.engine.options import EngineOptions
from kerfline.engine.patterns import too_fine
from kerfline.engine.regions.frames import regions_of
from kerfline.engine.regions.placing import working_limits
from kerfline.engine.regions.region import Cut, PlacedRegion, RegionLayout
from kerfline.engine.regions.walls import without_crowd
from kerfline.geometry.tolerance import MEASURE, SAME
from kerfline.model.layout import Layout, RegionSolution, Solution
from kerfline.model.panelling import panels_of
from kerfline.model.slab import Slab
from kerfline.rules.slab_rules import SlabRules


def lay_out(slab: Slab, rules: SlabRules, options: EngineOptions = EngineOptions()) -> Layout:  # noqa: B008 - frozen
    """The best layout that the engine finds.

    Args:
        slab: What is given.
        rules: The limits.
        options: Display, effort, weights and progress.

    Returns:
        A layout, always; rules that it could not keep are for the checks to find.
    """
    began = time.perf_counter()
    options.say("Dividing the slab into parts with directions of their own")
    slab, given_up = _with_drawable_patterns(slab, rules, options)
    placed = regions_of(slab, rules, options)
    solved = _solved(placed, options)
    drawn = [cut for place, region in solved for cut in _in_slab(place, region)]
    cuts = closed(saw_passes(drawn), slab.concrete)
    options.say("Naming joints and panels")
    joints = joints_of(slab, rules, cuts)
    panels = panels_of(slab.concrete, [joint.line for joint in joints])
    found = RegionLayout.joined([region for _, region in solved])
    return Layout(
        joints=joints,
        panels=panels,
        solution=_solution(solved, found, time.perf_counter() - began),
        limits=working_limits(rules, slab.thickness, options),
        walls_left=found.walls_left,
        wall_shifts=found.wall_shifts,
        notes=(*given_up, *found.notes),
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
    placed: Sequence[PlacedRegion], options: EngineOptions
) -> list[tuple[PlacedRegion, RegionLayout]]:
    """Each region solved, the largest effort to the largest; later ones meet the joints of earlier."""
    total = sum(p.region.concrete.area for p in placed)
    budget = Budget.of(sum(p.region.concrete.area / p.region.working.span**2 for p in placed))
    out: list[tuple[PlacedRegion, RegionLayout]] = []
    for number, place in enumerate(placed, 1):
        options.say(f"Laying out part {number} of {len(placed)}")
        ready = _with_landings(place, out)
        effort = Effort(options.effort, budget=budget).share(place.region.concrete.area / total)
        roomy, left = without_crowd(ready.region)
        region = region_layout(replace(ready, region=roomy), options, effort)
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


def _solution(
    solved: Sequence[tuple[PlacedRegion, RegionLayout]], found: RegionLayout, seconds: float
) -> Solution:
    """How good the whole is: sums over the regions, and the borders' length in cost and bounds.

    The bound of the joint length is the best one, which may hold for layouts alone whose joints run through as these do.
    Rounded down, for sums have their last bits.
    """
    border = sum(cut.line.length for place, _ in solved for cut in place.borders)
    return Solution(
        status=found.status,
        cost=border + found.cost,
        bound=border + found.bound,
        length_bound=max(0.0, round(border + found.through_bound - SAME, 2)),
        through=found.through_bound > found.length_bound + MEASURE,
        seconds=seconds,
        regions=tuple(
            RegionSolution(
                name=place.region.name, status=region.status, cost=region.cost, bound=region.bound
            )
            for place, region in solved
        ),
    )
