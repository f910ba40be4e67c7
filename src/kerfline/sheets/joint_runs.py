"""Joints that differ in their place alone, at equal distances: one row of the joint table."""

from collections.abc import Sequence
from dataclasses import dataclass

from kerfline.geometry.ring import Point
from kerfline.sheets.rows import JointRow
from kerfline.units import Display, in_steps

LEAST = 4
"""Fewer joints than this have a row each."""


@dataclass(frozen=True)
class JointRun:
    """Joints of one row.

    Attributes:
        rows: The joints, in order; one that stands alone is a run of one.
        pitch: Distance from one to the next along the first and the second baseline, mm; zeros where
            there is one.
    """

    rows: tuple[JointRow, ...]
    pitch: Point = (0.0, 0.0)


def joint_runs(rows: Sequence[JointRow], display: Display) -> list[JointRun]:
    """The rows of the joint table, runs of four and more alike joints at equal distances gathered."""
    runs: list[JointRun] = []
    start = 0
    while start < len(rows):
        end = start + 1
        while end < len(rows) and _goes_on(rows[start : end + 1], display):
            end += 1
        if end - start >= LEAST:
            first, second = rows[start].start, rows[start + 1].start
            pitch = (second[0] - first[0], second[1] - first[1])
            runs.append(JointRun(tuple(rows[start:end]), pitch))
            start = end
        else:
            runs.append(JointRun((rows[start],)))
            start += 1
    return runs


def _goes_on(rows: Sequence[JointRow], display: Display) -> bool:
    """Whether the last of some joints, of which the others are a run, goes on with it."""
    *_, before, last = rows
    if _kind(before, display) != _kind(last, display):
        return False
    return _step(rows[0], rows[1], display) == _step(before, last, display)


def _kind(row: JointRow, display: Display) -> tuple[object, ...]:
    """What alike joints share: all but their place, as it is written."""
    across = tuple(in_steps(b - a, display) for a, b in zip(row.start, row.end, strict=True))
    return (
        row.kind,
        in_steps(row.length, display),
        round(row.depth, 1),
        across,
        row.reason,
        row.note,
    )


def _step(one: JointRow, two: JointRow, display: Display) -> tuple[int, int]:
    """From one joint to the next along both baselines, in whole steps of what is written."""
    ends = zip(one.start, two.start, strict=True)
    x, y = (in_steps(b, display) - in_steps(a, display) for a, b in ends)
    return (x, y)
