"""Joins collinear cuts into saw passes: one straight line from end to end."""

import math
from collections.abc import Sequence
from dataclasses import replace

from shapely import LineString

from kerfline.engine.regions.region import Cut
from kerfline.geometry.corners import direction
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import TOUCH
from kerfline.model.layout import Reason

STRAIGHT = 2
"""Points of a straight cut."""

IN_LINE = 1e-3
"""Sine of the angle under which two cuts that meet are one pass."""

STRENGTH = tuple(Reason)
"""Reasons from the strongest: a pass takes the strongest of its cuts' reasons."""


def saw_passes(cuts: Sequence[Cut]) -> list[Cut]:
    """The cuts with those joined that meet end to end in one line and are of one kind."""
    long = [c for c in cuts if LineString(c.path).length > TOUCH]
    out = [c for c in long if len(c.path) != STRAIGHT]
    for row in _rows([c for c in long if len(c.path) == STRAIGHT]):
        passes: list[Cut] = []
        for cut in sorted(row, key=lambda c: c.path):
            passes = _joined(passes, cut)
        out.extend(passes)
    return out


def _rows(cuts: Sequence[Cut]) -> list[list[Cut]]:
    """Cuts along the axes in rows of one line each; all others in one row."""
    slanted: list[Cut] = []
    along: tuple[list[Cut], list[Cut]] = ([], [])
    for cut in cuts:
        flat = [abs(cut.path[0][axis] - cut.path[1][axis]) <= TOUCH for axis in (0, 1)]
        (along[flat.index(True)] if any(flat) else slanted).append(cut)
    rows = [slanted]
    for axis in (0, 1):
        last = -math.inf
        for cut in sorted(along[axis], key=lambda c: c.path[0][axis]):
            if cut.path[0][axis] - last > TOUCH:
                rows.append([])
            rows[-1].append(cut)
            last = cut.path[0][axis]
    return rows


def _joined(passes: list[Cut], cut: Cut) -> list[Cut]:
    """The passes with one more cut, which may join two of them."""
    rest = []
    for other in passes:
        path = _common(other, cut)
        if path is None:
            rest.append(other)
        else:
            strong = min((other, cut), key=lambda c: STRENGTH.index(c.reason))
            cut = replace(strong, path=path, kind=cut.kind, depth=cut.depth)
    return [*rest, cut]


def _common(one: Cut, other: Cut) -> tuple[Point, Point] | None:
    """The path of two straight cuts that meet or overlap in one line; None where they do not."""
    if len(one.path) != STRAIGHT or (one.kind, one.depth) != (other.kind, other.depth):
        return None
    ends = [*one.path, *other.path]
    a, b = direction(*one.path), direction(*other.path)
    if abs(a[0] * b[1] - a[1] * b[0]) > IN_LINE:
        return None
    start = one.path[0]
    off = [abs((p[0] - start[0]) * a[1] - (p[1] - start[1]) * a[0]) for p in other.path]
    if max(off) > TOUCH:
        return None
    along = sorted((p[0] - start[0]) * a[0] + (p[1] - start[1]) * a[1] for p in one.path)
    others = sorted((p[0] - start[0]) * a[0] + (p[1] - start[1]) * a[1] for p in other.path)
    if others[0] > along[1] + TOUCH or others[1] < along[0] - TOUCH:
        return None
    order = sorted(ends, key=lambda p: (p[0] - start[0]) * a[0] + (p[1] - start[1]) * a[1])
    return order[0], order[-1]
