"""The exact search of one region, on its grid and on the true slab."""

import math
from collections.abc import Sequence
from contextlib import nullcontext
from dataclasses import dataclass, field

import numpy as np
import shapely

from kerfline.engine.effort import Effort
from kerfline.engine.lines.lattice import NOTHING, Asked, lattice
from kerfline.engine.measure.cost import cost_on
from kerfline.engine.options import Weights
from kerfline.engine.partition.formulation import grid_partition
from kerfline.engine.partition.grid import Grid, grid
from kerfline.engine.partition.images import grid_images
from kerfline.engine.partition.rectangle_costs import breaks_nothing, panel_costs
from kerfline.engine.partition.rectangles import (
    Panels,
    all_panels,
    joint_pieces,
    rectangle_count,
    runs,
)
from kerfline.engine.partition.rounds import Rounds
from kerfline.engine.partition.solve import Cover, best_cover
from kerfline.engine.partition.true_panels import (
    Extent,
    TruePanels,
    extents,
    is_barred,
    true_panels,
)
from kerfline.engine.partition.true_runs import TrueRun, true_runs
from kerfline.engine.regions.nooks import without_nooks
from kerfline.engine.regions.region import Region, X, Y
from kerfline.engine.steps import bay_count
from kerfline.geometry.arrays import Flags

MOST_LINES = (36, 31, 27, 23, 19)
"""Candidate lines on an axis: the most that leave no more panels within the rules than are enough."""

ENOUGH = 4200
"""Panels within the rules for which the exact search is comfortable."""

AMPLE = 9000
"""The same where a region has no other layout: many walls need many lines to be served without joints that chase them."""

HURRIED = 0.08
"""With less effort (s) for a region, as for each of many unlike blocks, it is searched on the fewest lines."""

MENDING = 4.0
"""What may be spent on further searches on other lines, in times the patience with the first: a floor of 35 walls takes
five rounds of a few lines in that."""

NARROW = 3
"""A region no more than so many bays high, such as a walk or a row of garages, has few panels however many lines there are."""

MOST_WHEN_NARROW = 200
"""Candidate lines along such a region: an even division must be whole to be even."""

MOST_RECTANGLES = 400_000
"""Rectangles within the span that are listed, about as many as 36 lines on both axes of one panel draw; a grid
with more of them is no grid."""

SHORTEST = 0.75
"""The span is not shortened below this share of the working one."""

BARRINGS = 3
"""How often a cover is found on the same lines, each time without what came out too long on the true slab."""

ATTEMPTS = 4
"""How often the search is tried, each time with a shorter span when a true panel turns out too long."""

SECOND = 2
"""The same where another layout is there already."""

HOPELESS = 2.5
"""Times the cost of that other layout from which a grid is searched on no further lines: of 160 surveyed footprints those
that ended up better began at twice its cost or less."""

STILL_HOPELESS = 1.5
"""The same once it was searched on further lines: those that ended up better were then at 1.13 times or less."""


@dataclass(frozen=True, kw_only=True)
class Answer:
    """A cover of the grid, and what was chosen from."""

    grid: Grid
    panels: Panels
    cover: Cover

    @property
    def joints(self) -> tuple[Flags, Flags]:
        """The pieces of the lines that are joints."""
        return joint_pieces(self.grid, self.panels, self.cover.chosen)


@dataclass(frozen=True, kw_only=True)
class Exact:
    """An answer, its joints and what is amiss of its panels on the true slab."""

    answer: Answer
    runs: tuple[TrueRun, ...]
    panels: TruePanels

    @property
    def fits(self) -> bool:
        """Whether no true panel is too long."""
        return not self.panels.long

    @property
    def order(self) -> tuple[bool, int, int]:
        """The lesser is the better."""
        return not self.fits, len(self.panels.poor), round(self.answer.cover.cost)


@dataclass(frozen=True)
class Search:
    """What a region is searched for.

    Attributes:
        region: The region, in its canonical orientation.
        weights: What each thing is worth.
        span: The span that is worked to, mm.
        enough: Panels within the rules among which it chooses at most, by the number of its lines.
        barred: Extents of panels that came out too long on the true slab, which no panel may have there.
    """

    region: Region
    weights: Weights
    span: float
    enough: int
    barred: list[Extent] = field(default_factory=list)


def solve_exact(
    region: Region,
    weights: Weights,
    effort: Effort,
    attempts: int = ATTEMPTS,
    enough: int = ENOUGH,
    *,
    beat: float = math.inf,
) -> Exact | None:
    """The best layout of a region, searched as a whole.

    Args:
        region: The region, in its canonical orientation.
        weights: What each thing is worth.
        effort: What may be spent.
        attempts: How often the search is tried. More often than ``SECOND`` there is no other way, and the first layout
            and one on a shorter span are carried to their ends.
        enough: Panels within the rules among which it chooses at most, by the number of its lines.
        beat: Cost of another layout (mm of joint), where there is one.

    Returns:
        The layout; None where the slab is so irregular that its true panels keep coming out too long,
        where the effort was used up before they came out right, or where the grid has no hope to beat the other.
    """
    region, span = without_nooks(region), region.working.span
    for attempt in range(attempts):
        only_way = attempts > SECOND and attempt < SECOND
        begun = only_way and attempt > 0
        if not begun and (effort.over or (attempt >= SECOND and effort.left <= 0.0)):
            return None
        search = Search(region, weights, span, enough)
        found = _best(search, effort, beat, carried=only_way)
        if found is None or found.fits:
            return found
        span = max(span - max(found.panels.long.values()), SHORTEST * region.working.span)
    return None


def _best(search: Search, effort: Effort, beat: float, *, carried: bool) -> Exact | None:
    """The best layout: found again on the lines in use and a few others, as long as that betters it.

    None where it is hopeless against the cost of another layout. Where there is no other the first is carried to
    its end, whatever is spent.
    """
    hurried = effort.left < HURRIED
    tries = MOST_LINES[-1:] if hurried else MOST_LINES
    with effort.carrying() if carried else nullcontext():
        best = _on_slab(search, effort, NOTHING, tries, None)
    if best is None or best.answer.cover.cost > HOPELESS * beat:
        return None
    further = effort.share(1.0, patience=MENDING * effort.patience)
    rounds = Rounds.on(search.region, search.weights, search.span, wide_only=hurried)
    rounds.wide = hurried or not best.answer.cover.hard  # one on more lines would take far longer
    fewer = tries if hurried else MOST_LINES[1:]
    while not further.over:
        answer = best.answer
        asked = rounds.asked(answer.grid, answer.panels.only(answer.cover.chosen))
        if asked is None:
            break
        new = _on_slab(search, further, asked, fewer, best)
        gain = new if new is not None and new.order < best.order else None
        rounds.tell(answer.cover.cost, gain.answer.cover.cost if gain else math.inf)
        best = gain or best
        if best.answer.cover.cost > STILL_HOPELESS * beat:
            return None
    further.charge()
    return best


def _on_slab(
    search: Search, effort: Effort, asked: Asked, tries: Sequence[int], best: Exact | None
) -> Exact | None:
    """The best cover on the true slab: found again without the extents of panels that come out too long there.

    None where there is none, or none that costs less than the best so far.
    """
    price = cost_on(search.region, search.weights)
    found = None
    for _ in range(BARRINGS):
        answer = _covered(search, effort, asked, tries)
        if answer is None or (best and best.order <= (False, 0, round(answer.cover.cost))):
            return found
        on_slab = true_runs(answer.grid, search.region, runs(answer.joints))
        panels = true_panels(search.region, price, on_slab)
        now = Exact(answer=answer, runs=tuple(on_slab), panels=panels)
        found = now if found is None or now.order < found.order else found
        chosen = answer.panels.only(answer.cover.chosen)
        more = list(extents(answer.grid, chosen, price, panels))
        if not more or effort.over:
            break
        search.barred.extend(more)
    return found


def _covered(search: Search, effort: Effort, asked: Asked, tries: Sequence[int]) -> Answer | None:
    """The best cover on the most lines that are not too many; where rules cannot be kept, they are broken at their price."""
    if effort.over:
        return None
    region, weights, span = search.region, search.weights, search.span
    if _is_narrow(region, span):
        tries = [MOST_WHEN_NARROW, *tries]
    if asked.room is not None:
        tries = tries[:1]
    too_many = True  # unless there is a number of lines to try, and one that will do
    for most in tries:
        lines = lattice(region, most, span, asked)
        if not lines.has_cells:
            return None
        net = grid(region, lines, weights)
        too_many = rectangle_count(net, region, span) > MOST_RECTANGLES
        if too_many:
            continue
        panels = all_panels(net, region, span)
        likely = breaks_nothing(net, region, panels, weights)
        if likely.sum() <= search.enough:
            break
    if too_many or (any(asked.more) and likely.sum() > search.enough):
        return None
    if search.barred:
        allowed = ~is_barred(net, panels, search.barred)
        panels, likely = panels.only(allowed), likely[allowed]
    cover = _cover(net, region, panels, likely, weights, effort)
    return Answer(grid=net, panels=panels, cover=cover) if cover is not None else None


def _is_narrow(region: Region, span: float) -> bool:
    left, bottom, right, top = region.gross.bounds
    return bay_count(min(right - left, top - bottom), span * region.stretch) <= NARROW


def _cover(
    net: Grid,
    region: Region,
    panels: Panels,
    likely: Flags,
    weights: Weights,
    effort: Effort,
) -> Cover | None:
    costs = panel_costs(net, region, panels, weights)
    hidden = _vertices_under_walls(net, region)
    alone = np.arange(len(panels))
    pairs = grid_images(net, panels, costs)
    for choice in [pairs, alone] if (pairs != alone).any() else [alone]:
        model = grid_partition(net, panels, costs, weights, hidden, choice)
        cover = best_cover(model, likely, effort)
        if cover is not None or effort.over:
            return cover
    return None


def _vertices_under_walls(net: Grid, region: Region) -> Flags:
    """Which vertices of the grid lie under a wall."""
    area = shapely.union_all([w.footprint for w in region.walls])
    x, y = np.meshgrid(net.places[X], net.places[Y], indexing="ij")
    return np.asarray(shapely.intersects_xy(area, x, y), dtype=bool)
