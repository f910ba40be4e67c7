"""On which lines a grid is searched again: those in use, and a few others at a time that may better its layout.

Candidate lines come from features and from even divisions of whole free spans, more than a search can take; which of
them meet nobody knows before. Once a layout is there, the lines that serve nothing make room: first for divisions of
each panel that breaks a rule or is warned of, alone and together with one beside it; then, a few at a time, for places
that suit the panels beside a line better and, where joints stop on others, for lines that were not tried yet. Each round
begins from the best layout so far.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from itertools import chain, zip_longest

import numpy as np

from kerfline.engine.lines.divisions import Places, mending_places
from kerfline.engine.lines.lattice import CLOSE, Asked, GridLine, lattice
from kerfline.engine.measure.cost import Cost, cost_on
from kerfline.engine.measure.shape import rectangle_shape
from kerfline.engine.options import Weights
from kerfline.engine.partition.grid import Grid
from kerfline.engine.partition.rectangles import Panels, joint_pieces
from kerfline.engine.regions.features import CLEAR_OF, Rank
from kerfline.engine.regions.region import MERGE, Region, X, Y
from kerfline.engine.steps import Steps
from kerfline.engine.symmetry import are_symmetric
from kerfline.geometry.arrays import Flags, Numbers
from kerfline.geometry.tolerance import MEASURE, SAME
from kerfline.model.slab import Meeting
from kerfline.units import MM_PER_FOOT

MANY = 60
"""Lines on an axis, the most wanted first, of which each is tried once."""

ROOM = 8
"""New lines on an axis in one round: few enough that a round takes a part of what the first search did."""

FACING = 2000.0
"""Joints that stop on one from either side may become one line where they are no farther apart than this (mm)."""

FRUITLESS = 4
"""Rounds without a gain after which no more lines are tried."""

GAIN = 0.998
"""A layout that costs no more than this share of the one before is a gain."""

MUCH = 0.98
"""The same after a wide round, which takes several times as long."""

REACH = 610.0
"""How far (mm, two feet) from a line in use a place is looked for that suits the panels on either side better."""

LEAST_GAIN = 0.1 * MM_PER_FOOT
"""By how much (mm of joint) these must be cheaper there: by less, the place is as good as where the line is."""

DIGITS = 1
"""Digits of a millimetre to which what panels cost is compared."""

ASIDE = (300.0, 150.0, 450.0)
"""How far beside a line that is in use another is tried (mm)."""


@dataclass(frozen=True, kw_only=True)
class Mending:
    """Lines that a layout asks for.

    Attributes:
        stay: Those in use on both axes.
        broken: Those beside panels that break a rule, the most wanted first.
        warned: Those beside panels that are warned of.
    """

    stay: Places
    broken: Places
    warned: Places

    @property
    def asked(self) -> Asked:
        """All of them."""
        more = [(*self.broken[a], *self.warned[a]) for a in (X, Y)]
        return Asked(stay=self.stay, more=(more[X], more[Y]))


@dataclass
class Rounds:
    """The rounds of one region.

    Attributes:
        region: The region.
        weights: What each thing is worth.
        spare: Lines that the first search had no room for.
        ragged: Lines beside which no other is tried, for the figure that is divided would be another.
        wide_only: Whether there are no more rounds when a wide one gains little.
        wide: Whether the next round takes all lines that mend panels at once: the first does, where the search before
            it was not hard, and further ones as long as rules are broken and much is gained.
        begun: Whether there was a round.
        fruitless: How many rounds, one after another, gained nothing worth the name.
        tried: The lines of both axes that had their round.
    """

    region: Region
    weights: Weights
    spare: Places
    ragged: Places
    wide_only: bool = False
    wide: bool = True
    begun: bool = False
    fruitless: int = 0
    tried: tuple[set[float], set[float]] = field(default_factory=lambda: (set(), set()))

    @staticmethod
    def on(region: Region, weights: Weights, span: float, *, wide_only: bool = False) -> "Rounds":
        """The rounds of a region, before the first."""
        lines = lattice(region, MANY, span).lines
        spare = tuple(tuple(line.at for line in lines[a] if not line.features) for a in (X, Y))
        ragged = tuple(tuple(line.at for line in lines[a] if _is_ragged(line)) for a in (X, Y))
        return Rounds(region, weights, (spare[X], spare[Y]), (ragged[X], ragged[Y]), wide_only)

    def asked(self, grid: Grid, panels: Panels) -> Asked | None:
        """The lines of the next round; None where no line is left to try, or no round.

        Where all joints run through, lines are tried for the sake of the panels' shapes alone.

        Args:
            grid: The grid of the best layout so far.
            panels: Its panels.
        """
        mending = mending_lines(grid, self.region, panels, self.weights)
        self.wide &= any(mending.broken) or (not self.begun and any(mending.warned))
        if self.wide:
            return self._with_images(mending.asked)
        if self.wide_only or self.fruitless >= FRUITLESS:
            return None
        joints = joint_pieces(grid, panels, np.arange(len(panels)))
        through = not any(_stops(grid.interior[a], joints[a]).any() for a in (X, Y))
        between = [_facing(grid.places[a], joints[a]) for a in (X, Y)]
        more = []
        for axis in (X, Y):
            steps = Steps(self.region.baseline[axis], self.region.step)
            stay = mending.stay[axis]
            better = _better_places(grid, panels, axis, cost_on(self.region, self.weights), steps)
            pools = (
                (better,)
                if through
                else (
                    better,
                    mending.warned[axis],
                    [steps.nearest(at) for at in between[axis]],
                    [steps.nearest(at) for at in _aside(stay, grid.firm[axis])],
                    self.spare[axis],
                )
            )
            more.append(self._next(axis, stay, mending.broken[axis], pools))
        if not any(more):
            return None
        return Asked(stay=mending.stay, more=(more[X], more[Y]), room=ROOM)

    def _with_images(self, asked: Asked) -> Asked:
        """The same lines, those of a symmetric axis with their images, so that the next layout may be symmetric too."""
        more = []
        for axis in (X, Y):
            stay, out = asked.stay[axis], list[float]()
            ends = (stay[0], stay[-1])
            for at in asked.more[axis] if are_symmetric(stay, ends) else ():
                pair = (at, sum(ends) - at)
                if all(abs(p - other) > CLOSE for p in pair for other in (*stay, *out)):
                    out.extend(pair)
            more.append(tuple(out) if are_symmetric(stay, ends) else asked.more[axis])
        return replace(asked, more=(more[X], more[Y]))

    def tell(self, before: float, after: float) -> None:
        """Takes note of what a layout cost before the last round and after it."""
        self.begun = True
        if self.wide:
            self.wide = after <= MUCH * before
        else:
            self.fruitless = 0 if after <= GAIN * before else self.fruitless + 1

    def _next(
        self,
        axis: int,
        stay: Sequence[float],
        first: Sequence[float],
        pools: Sequence[Sequence[float]],
    ) -> tuple[float, ...]:
        """The next lines on an axis, then from each pool in turn, those of a symmetric axis with their images."""
        ends = (stay[0], stay[-1])
        mirrored = are_symmetric(stay, ends)
        out: list[float] = []
        for at in chain(first, chain.from_iterable(zip_longest(*pools))):
            if at is None or not ends[0] < at < ends[1]:
                continue
            for place in (at, sum(ends) - at) if mirrored else (at,):
                if place in self.tried[axis] or _is_in_the_way(self.region, axis, place):
                    continue
                if any(abs(place - edge) <= 2 * MERGE for edge in self.ragged[axis]):
                    continue
                if all(abs(place - other) > CLOSE for other in (*stay, *out)):
                    out.append(place)
                    self.tried[axis].add(place)
            if len(out) >= ROOM:
                break
        return tuple(out)


def mending_lines(grid: Grid, region: Region, panels: Panels, weights: Weights) -> Mending:
    """The lines in use, and those beside panels that break a rule or are warned of.

    Args:
        grid: The grid.
        region: Where the panels lie.
        panels: Those of the layout.
        weights: What each thing is worth.
    """
    low, high = ([grid.places[a][ends[a]] for a in (X, Y)] for ends in (panels.low, panels.high))
    boxes = [(x0, y0, x1, y1) for x0, y0, x1, y1 in np.transpose([*low, *high]).tolist()]
    price = cost_on(region, weights)
    sound, advised = price.keeps(panels.shape), price.is_advised(panels.shape)
    rules = replace(region.working, aspect=region.advised.aspect)
    stay = [tuple(sorted({*low[a].tolist(), *high[a].tolist()})) for a in (X, Y)]
    return Mending(
        stay=(stay[X], stay[Y]),
        broken=_on_steps(region, mending_places(boxes, (~sound).tolist(), region.working)),
        warned=_on_steps(region, mending_places(boxes, (sound & ~advised).tolist(), rules)),
    )


def _on_steps(region: Region, places: Places) -> Places:
    """Places on whole steps, less those that lie in the way of something."""
    out = []
    for axis in (X, Y):
        steps = Steps(region.baseline[axis], region.step)
        near = (steps.nearest(at) for at in places[axis])
        out.append(tuple(at for at in near if not _is_in_the_way(region, axis, at)))
    return out[X], out[Y]


def _is_in_the_way(region: Region, axis: int, at: float) -> bool:
    """Whether a line would run too near a penetration that asks to stay clear, or graze a boxout.

    To mend a panel is no reason for that. A line that grazes a boxout leaves a sliver beside it, or a panel around it.
    """
    near = any(
        hole.meeting is Meeting.CLEAR and abs(at - hole.at[axis]) < hole.clear - MEASURE
        for hole in region.penetrations
    )
    boxes = (c.outline.polygon.bounds for c in region.columns if c.outline is not None)
    return near or any(abs(at - box[end]) < CLEAR_OF for box in boxes for end in (axis, axis + 2))


def _is_ragged(line: GridLine) -> bool:
    """Whether a line stands for edges that lie a little apart: the figure that is divided may not depend on lines beside it."""
    places = [f.at for f in line.features if f.rank is Rank.EDGE]
    return bool(places) and max(places) - min(places) > SAME


def _aside(stay: Sequence[float], firm: Numbers) -> Iterator[float]:
    """Places a step to either side of lines in use that nothing holds."""
    loose = [at for at in stay if not len(firm) or np.abs(firm - at).min() > CLOSE]
    yield from (at + side * step for step in ASIDE for at in loose for side in (-1.0, 1.0))


def _better_places(
    grid: Grid, panels: Panels, axis: int, price: Cost, steps: Steps
) -> tuple[float, ...]:
    """Where lines in use that nothing holds would suit the panels on either side better, the most gain first."""
    firm = grid.firm[axis]
    found: list[tuple[float, float]] = []
    for line in np.unique([panels.low[axis], panels.high[axis]]).tolist():
        at = float(grid.places[axis][line])
        if not len(firm) or np.abs(firm - at).min() > CLOSE:
            places = _within_reach(at, steps)
            cost = _cost_beside(panels, axis, line, places - at, price)
            best = int(np.argmin(np.round(cost, DIGITS)))
            gain = round(float(cost[len(places) // 2]) - float(cost[best]), DIGITS)
            if gain > LEAST_GAIN:
                found.append((-gain, float(places[best])))
    return tuple(at for _, at in sorted(found))


def _within_reach(at: float, steps: Steps) -> Numbers:
    """A place, in the middle, and as many whole steps on either side of it as are within reach."""
    count = int(REACH // steps.step)
    around = [steps.nearest(at + n * steps.step) for n in range(-count, count + 1) if n]
    return np.array([*around[:count], at, *around[count:]])


def _cost_beside(panels: Panels, axis: int, line: int, moves: Numbers, price: Cost) -> Numbers:
    """What the shapes of the panels on both sides of a line cost when it is moved; endless where one is too long or narrow."""
    before, after = (np.flatnonzero(end[axis] == line) for end in (panels.high, panels.low))
    size, across = panels.size[axis], panels.size[1 - axis]
    sizes = np.concatenate(
        [np.add.outer(size[before], moves), np.subtract.outer(size[after], moves)]
    )
    both = np.concatenate([before, after])
    span = panels.span[both][:, None]
    shape = rectangle_shape(sizes, np.broadcast_to(across[both][:, None], sizes.shape))
    fits = (sizes >= price.working.width - MEASURE) & (sizes <= span * price.stretch + MEASURE)
    cost = price.of(shape, span) + price.uneven(shape)
    return np.asarray(np.where(fits, cost, np.inf).sum(axis=0))


def _stops(interior: Flags, joints: Flags) -> Flags:
    """Where on each line of an axis a joint stops on one across, and not on the edge."""
    inside = interior[:, :-1] & interior[:, 1:]
    return np.asarray(inside & (joints[:, :-1] != joints[:, 1:]), dtype=bool)


def _facing(places: Numbers, joints: Flags) -> tuple[float, ...]:
    """Halfway between the lines of two joints that stop on one joint from either side, the nearest first."""
    before, after = joints[:, :-1], joints[:, 1:]
    found = []
    for stop in range(before.shape[1]):
        ends = np.flatnonzero(before[:, stop] & ~after[:, stop])
        starts = np.flatnonzero(after[:, stop] & ~before[:, stop])
        gaps = np.abs(places[ends][:, None] - places[starts])
        for i, j in zip(*np.nonzero(gaps <= FACING), strict=True):
            found.append((float(gaps[i, j]), float(places[ends[i]] + places[starts[j]]) / 2))
    return tuple(at for _, at in sorted(set(found)))
