"""Tells a dashed line, drawn as many short pieces, from lines that end where they seem to."""

import math
from collections.abc import Sequence
from itertools import pairwise
from statistics import median

from kerfline.geometry.collinear import Run
from kerfline.geometry.ring import Point

FEWEST = 3
"""Dashes that a dashed line has at least."""

LONGEST_DASH = 1500.0
"""A piece longer than this (mm) is no dash."""

WIDEST = 450.0
"""A gap wider than this (mm, about 18 in) is not one between dashes."""

GAP_TO_DASH = 2.0
"""A gap between dashes is at most this many times as long as a dash."""

Span = tuple[Point, Point]


def undashed(run: Run, bridge: float) -> list[tuple[Span, tuple[float, ...]]]:
    """The lines that a run of pieces stands for.

    Args:
        run: Pieces on one line.
        bridge: Gaps up to this (mm) are closed whether or not the line is dashed.

    Returns:
        Each line from end to end, with the sizes of the gaps that were closed in it.
    """
    widest = max(bridge, _dash_gap(run.spans))
    lines: list[tuple[Span, tuple[float, ...]]] = []
    start, closed = run.spans[0][0], []
    for (_, here), (there, _) in pairwise(run.spans):
        size = math.dist(here, there)
        if size <= widest:
            closed.append(size)
            continue
        lines.append(((start, here), tuple(closed)))
        start, closed = there, []
    lines.append(((start, run.spans[-1][1]), tuple(closed)))
    return lines


def _dash_gap(spans: Sequence[Span]) -> float:
    """The widest gap between dashes of this line; 0 where it is not dashed."""
    if len(spans) < FEWEST:
        return 0.0
    # The end pieces of a dashed line may be of any length.
    dash = median(math.dist(a, b) for a, b in spans)
    if dash > LONGEST_DASH:
        return 0.0
    return min(WIDEST, GAP_TO_DASH * dash)
