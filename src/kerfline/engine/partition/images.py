"""The mirror lines and half turns of a net and of a grid: the images of a panel are chosen together."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from shapely import Polygon

from kerfline.engine.lines.charts import Chart
from kerfline.engine.lines.divisions import extent
from kerfline.engine.partition.grid import Grid
from kerfline.engine.partition.net import SETTLED, Net
from kerfline.engine.partition.panels import CandidatePanel
from kerfline.engine.partition.rectangles import Panels
from kerfline.engine.problem import Problem
from kerfline.engine.regions.region import X, Y
from kerfline.engine.symmetry import (
    ALONG_AXES,
    ALONG_DIAGONALS,
    NEAR,
    Flip,
    are_symmetric,
    matched,
)
from kerfline.geometry.arrays import Integers, Numbers
from kerfline.units import MM_PER_FOOT

ALIKE = 0.03
"""Images whose areas or costs differ by no more than this share are alike."""

SAME_COST = 1.0
"""Images whose costs differ by less than this (mm of joint) are alike."""


@dataclass(frozen=True)
class Symmetric:
    """The panels of a symmetric layout.

    Attributes:
        panels: The panels whose images are panels too and lie clear of them.
        images: For each the first of those that must be chosen with it.
    """

    panels: list[CandidatePanel]
    images: list[int]


def symmetric_panels(
    problem: Problem, net: Net, panels: Sequence[CandidatePanel], prices: Sequence[float]
) -> Symmetric | None:
    """The panels of a symmetric layout, and for each the first of those that must be chosen with it.

    Args:
        problem: The piece.
        net: Its net.
        panels: The panels that the net allows.
        prices: What each seam of the net costs as a joint.

    Returns:
        None where the net has no symmetry.
    """
    found = list(_images(problem, net, prices))
    if not found:
        return None
    numbers = {c.cells: n for n, c in enumerate(panels)}
    orbits = [_orbit(panel, found, numbers) for panel in panels]
    if any(o is None and len(c.cells) == 1 for o, c in zip(orbits, panels, strict=True)):
        return None
    kept = [n for n, o in enumerate(orbits) if o is not None and _clear(panels, o)]
    places = {n: place for place, n in enumerate(kept)}
    images = [places[min(orbits[n] or {n})] for n in kept]
    return Symmetric([panels[n] for n in kept], images)


def _orbit(
    panel: CandidatePanel, images: Sequence[Sequence[int]], numbers: dict[tuple[int, ...], int]
) -> set[int] | None:
    """The numbers of a panel and its images; None where one of them is no panel."""
    found = {numbers[panel.cells]}
    for image in images:
        number = numbers.get(tuple(sorted(image[c] for c in panel.cells)))
        if number is None:
            return None
        found.add(number)
    return found


def _clear(panels: Sequence[CandidatePanel], orbit: set[int]) -> bool:
    """Whether the panels of an orbit have no cell in common."""
    cells = [c for n in sorted(orbit) for c in panels[n].cells]
    return len(set(cells)) == len(cells)


def _images(problem: Problem, net: Net, prices: Sequence[float]) -> Iterator[list[int]]:
    """For every symmetry of a net the image of each of its cells."""
    box = _box(problem.concrete, net.chart)
    for flips in (ALONG_AXES, ALONG_DIAGONALS):
        found = [
            image
            for flip in flips
            if _keeps_features(problem, net.chart, flip, box)
            and (image := _cell_images(net, flip, box)) is not None
            and _keeps_seams(net, prices, flip, box)
        ]
        if found:
            yield from found
            return


def _box(shape: Polygon, chart: Chart) -> Numbers:
    """Least and greatest coordinates of a piece, a row for each axis."""
    return np.asarray([extent(shape, chart, axis) for axis in (0, 1)])


def _keeps_features(problem: Problem, chart: Chart, flip: Flip, box: Numbers) -> bool:
    """Whether everything that bears on the joints lies as its image does."""
    for spots in (
        [t.at for t in problem.targets],
        [s.at for s in problem.shies],
        list(problem.landings),
        [p for w in problem.walls for p in shapely.get_coordinates(w.path).tolist()],
        shapely.get_coordinates(problem.barred).tolist(),
        shapely.get_coordinates(problem.border).tolist() if problem.border else [],
    ):
        places = np.asarray(sorted({(round(x, 1), round(y, 1)) for x, y in spots}))
        if len(places) and matched(chart.measure(places), flip, box) is None:
            return False
    return True


def _cell_images(net: Net, flip: Flip, box: Numbers) -> list[int] | None:
    polygons = [c.polygon for c in net.cells]
    spots = shapely.get_coordinates(shapely.centroid(polygons))
    image = matched(net.chart.measure(spots), flip, box)
    if image is None:
        return None
    areas = shapely.area(polygons)
    same = np.abs(areas - areas[image]) <= ALIKE * areas + NEAR * np.sqrt(areas)
    return image if bool(same.all()) else None


def _keeps_seams(net: Net, prices: Sequence[float], flip: Flip, box: Numbers) -> bool:
    """Whether joints that are settled, and prices of others, are as their images."""
    if not net.seams:
        return True
    middles = shapely.line_interpolate_point([s.path for s in net.seams], 0.5, normalized=True)
    image = matched(net.chart.measure(shapely.get_coordinates(middles)), flip, box)
    if image is None:
        return False
    price = np.asarray(prices)
    settled = np.array([s.line == SETTLED for s in net.seams])
    same = np.abs(price - price[image]) <= ALIKE * price + MM_PER_FOOT
    return bool(same.all()) and bool((settled == settled[image]).all())


def grid_images(grid: Grid, panels: Panels, costs: Numbers) -> Integers:
    """For each panel the index of the first of its images under the grid's symmetries.

    A symmetric slab gets a symmetric layout: the images of a panel are chosen together. Mirroring in
    x, in y, and the half turn are looked for; one holds where the cells, the prices and the costs of
    all panels agree with their images.
    """
    count = len(panels)
    out = np.arange(count)
    index = _index(panels)
    for flip in _grid_flips(grid):
        image = _grid_images(grid, panels, index, flip)
        if image is None or not np.allclose(costs, costs[image], atol=SAME_COST):
            continue
        out = np.minimum(out, out[image])
    return out


def _grid_flips(grid: Grid) -> Iterator[Flip]:
    mirrored = [are_symmetric(at, (at[0], at[-1])) for at in grid.places]
    for flip in ALONG_AXES:
        if all(holds or not turned for holds, turned in zip(mirrored, flip.turned, strict=True)):
            image = np.flip(grid.inside, tuple(np.flatnonzero(flip.turned).tolist()))
            if np.array_equal(image, grid.inside):
                yield flip


def _key(low_x: Integers, high_x: Integers, low_y: Integers, high_y: Integers) -> Integers:
    return np.asarray(((low_x * 1000 + high_x) * 1000 + low_y) * 1000 + high_y)


def _index(panels: Panels) -> tuple[Integers, Integers]:
    keys = _key(panels.low[X], panels.high[X], panels.low[Y], panels.high[Y])
    order = np.argsort(keys)
    return keys[order], order


def _grid_images(
    grid: Grid, panels: Panels, index: tuple[Integers, Integers], flip: Flip
) -> Integers | None:
    """The image of every panel; None where one has none."""
    ends = []
    for axis in (X, Y):
        low, high = panels.low[axis], panels.high[axis]
        last = len(grid.places[axis]) - 1
        ends.extend([last - high, last - low] if flip.turned[axis] else [low, high])
    keys, order = index
    wanted = _key(*ends)
    found = np.searchsorted(keys, wanted)
    if (found >= len(keys)).any() or not np.array_equal(keys[found], wanted):
        return None
    return np.asarray(order[found])
