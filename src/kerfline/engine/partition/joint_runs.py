"""The straight runs of joint between chosen panels, still on the lines of the grid."""

from dataclasses import dataclass

import numpy as np

from kerfline.engine.lines.features import X, Y
from kerfline.engine.partition.grid import Flags, Grid, Whole
from kerfline.engine.partition.rectangles import Panels


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """A joint along one line, from one vertex to another.

    Attributes:
        axis: The axis that the line belongs to.
        line: Index of the line.
        first: Index of the line of the other axis where it begins.
        last: Index of the one where it ends.
    """

    axis: int
    line: int
    first: int
    last: int


def joint_pieces(grid: Grid, panels: Panels, chosen: Whole) -> tuple[Flags, Flags]:
    """Which pieces of the lines are joints when these panels are chosen."""
    out = (np.zeros_like(grid.interior[X]), np.zeros_like(grid.interior[Y]))
    for p in chosen:
        for axis in (X, Y):
            span = slice(panels.low[1 - axis][p], panels.high[1 - axis][p])
            for line in (panels.low[axis][p], panels.high[axis][p]):
                out[axis][line, span] = True
    return out[X] & grid.interior[X], out[Y] & grid.interior[Y]


def runs(joints: tuple[Flags, Flags]) -> list[Run]:
    """Unbroken stretches of joint, by axis, line and place."""
    out: list[Run] = []
    for axis in (X, Y):
        for line in range(joints[axis].shape[0]):
            marks = np.flatnonzero(np.diff(np.r_[0, joints[axis][line].astype(int), 0]))
            out.extend(
                Run(axis=axis, line=line, first=int(a), last=int(b))
                for a, b in zip(marks[::2], marks[1::2], strict=True)
            )
    return out
