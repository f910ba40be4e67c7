"""The charts that are worth a try on a piece, the likeliest first."""

import math
from collections.abc import Sequence

import numpy as np

from kerfline.engine.lines.arcs import round_charts
from kerfline.engine.lines.charts import Chart, SquareChart
from kerfline.engine.problem import Problem
from kerfline.engine.regions.directions import (
    DIGITS,
    QUARTER,
    Direction,
    is_mirrored,
    main_directions,
    misfit,
    segments,
)

ANOTHER = 0.18
"""Share of the boundary along another direction from which on that direction is tried."""

TAPER = (3.0, 40.0)
"""Angle (degrees) between two long edges whose bisector is tried as an axis."""

LONG = 0.5
"""A long edge is at least this share of the longest."""

MOST = 4
"""Charts tried on one piece."""

MOST_LARGE = 2
"""Charts tried on a piece of many panels."""

LARGE = 12.0
"""Area, in squares of the span, from which on a piece is large."""

APART = 1.0
"""Charts turned by less than this (degrees) are one."""


def likely_charts(problem: Problem) -> list[Chart]:
    """Square charts along the main directions and bisectors, and the round chart of its arcs.

    On a symmetric piece only those remain in which a layout can be symmetric.
    """
    directions = main_directions(
        problem.concrete, [line.path for line in (*problem.lines, *problem.walls)]
    )
    turns = [0.0, *_tapers(problem), *(d.angle for d in _others(directions))]
    kept: list[float] = []
    for turn in turns:
        if all(misfit(turn, other) >= APART for other in kept):
            kept.append(turn)
    if is_mirrored(problem.concrete, 0.0):
        kept = [turn for turn in kept if is_mirrored(problem.concrete, turn)]
    large = problem.concrete.area > LARGE * problem.limits.span**2
    squares: list[Chart] = [SquareChart(_small(turn)) for turn in kept]
    return [squares[0], *round_charts(problem.concrete), *squares[1:]][
        : MOST_LARGE if large else MOST
    ]


def _others(directions: Sequence[Direction]) -> list[Direction]:
    return [d for d in directions if d.share >= ANOTHER]


def _small(turn: float) -> float:
    """The same axes, turned by no more than 45 degrees."""
    return turn - QUARTER if turn > QUARTER / 2 else turn


def _tapers(problem: Problem) -> list[float]:
    """Bisectors of long edges that all but face each other."""
    angles, lengths = segments([problem.concrete.exterior])
    if not lengths.size:
        return []
    long = lengths >= LONG * lengths.max()
    whole = np.unique(np.round(angles[long], 3))
    out = []
    for i, first in enumerate(whole):
        for second in whole[i + 1 :]:
            gap = misfit(float(first), float(second))
            if TAPER[0] <= gap <= TAPER[1]:
                mean = np.angle(
                    np.exp(4j * math.radians(first)) + np.exp(4j * math.radians(second))
                )
                out.append(round(math.degrees(float(mean)) / 4, DIGITS) % QUARTER)
    return out
