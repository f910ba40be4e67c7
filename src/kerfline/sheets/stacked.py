"""A long strip in parts that stand one under the other on a sheet, or side by side where it runs upward."""

import math
from collections.abc import Callable, Sequence

from kerfline.sheets.baselines import Baselines
from kerfline.sheets.marks import Bounds
from kerfline.sheets.paper import PaperSize
from kerfline.sheets.parts import (
    Choice,
    Ground,
    Rims,
    parted,
    plan_area,
    room_of,
    view_of,
    with_match_lines,
)

APART = 4.0
"""Room in mm between two parts with their dimensions."""

MOST_ROWS = 60
"""A strip in more parts than this is drawn smaller."""

RimsAt = Callable[[PaperSize, float], Rims]
"""Room that dimensions take on a paper at a scale."""


def stacked(
    sizes: Sequence[PaperSize],
    scales: Sequence[float],
    ground: Ground,
    base: Baselines,
    rims_at: RimsAt,
) -> Choice | None:
    """A strip on the smallest paper that holds all of its parts on one sheet, else on the largest.

    Args:
        sizes: Papers, smallest first.
        scales: Scales that can be read, largest drawing first.
        ground: The strip.
        base: Its baselines.
        rims_at: Room for the dimensions.

    Returns:
        The fewest parts, as large as they then can be; None where no sheet holds two of them.
    """
    for size in sizes:
        found = [_stack(size, scale, ground, base, rims_at(size, scale)) for scale in scales]
        on_one = [c for c in found if c and len(c.sheets) == 1]
        if on_one:
            return min(on_one, key=lambda c: (len(c.parts), c.scale))
    return _stack(sizes[-1], scales[-1], ground, base, rims_at(sizes[-1], scales[-1]))


def _stack(
    size: PaperSize, scale: float, ground: Ground, base: Baselines, rims: Rims
) -> Choice | None:
    rims = with_match_lines(rims)
    x0, y0, x1, y1 = ground.shape.bounds
    upright = y1 - y0 > x1 - x0
    left, bottom, right, top = plan_area(size)
    thin, span = (x1 - x0, right - left) if upright else (y1 - y0, top - bottom)
    need = thin / scale + (rims[0] + rims[2] if upright else rims[1] + rims[3])
    held = math.floor((span + APART) / (need + APART))
    across, up = room_of(size, rims)
    if held < 2 or min(across, up) <= 0:  # noqa: PLR2004 - one part alone is no stack
        return None
    long = y1 - y0 if upright else x1 - x0
    if long / scale / (up if upright else across) > MOST_ROWS:
        return None
    cells, parts = parted(ground, (across * scale, up * scale))
    if len(parts) < 2:  # noqa: PLR2004
        return None
    views = []
    for index, (cell, part) in enumerate(zip(cells, parts, strict=True)):
        seat = index % held * (need + APART)
        area: Bounds = (left, top - seat - need, right, top - seat)
        if upright:
            area = (left + seat, bottom, left + seat + need, top)
        views.append(view_of(area, scale, part, base, rims, own=cell, share=(0.0, 0.5)))
    return Choice(
        paper=size, scale=scale, views=tuple(views), parts=tuple(parts), cells=tuple(cells),
        seats=tuple(index // held for index in range(len(parts))), rims=rims,
    )  # fmt: skip
