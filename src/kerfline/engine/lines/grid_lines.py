"""Merges features into the lines that joints may run on."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from kerfline.engine.lines.features import Feature, Rank
from kerfline.engine.steps import Steps
from kerfline.geometry.tolerance import SAME

MERGE = 127.0
"""Edges, columns and corners that lie within this (mm, five inches) of one line share it."""

CLOSE = 50.8
"""A wished line closer than this (mm, two inches) to one that stands for more is not worth its own."""


@dataclass(frozen=True, slots=True, kw_only=True)
class GridLine:
    """A line that joints may run on.

    Attributes:
        at: Its place on the axis, mm.
        features: What it serves, strongest first; empty for a division of open floor.
        rank: The rank of the strongest.
    """

    at: float
    rank: Rank
    features: tuple[Feature, ...] = ()


def merged(features: Sequence[Feature], steps: Steps) -> list[GridLine]:
    """The lines that serve the features of one axis, strongest features placed first."""
    lines = _edge_lines([f for f in features if f.rank is Rank.EDGE])
    for rank in sorted({f.rank for f in features} - {Rank.EDGE}):
        lines = _with_rank(lines, [f for f in features if f.rank is rank], steps)
    return sorted(lines, key=lambda line: line.at)


def _edge_lines(features: Sequence[Feature]) -> list[GridLine]:
    """One line for the edges within ``MERGE``; it lies on the longest of them."""
    groups: list[list[Feature]] = []
    for feature in sorted(features, key=lambda f: (f.at, f.start)):
        if groups and feature.at - groups[-1][0].at <= MERGE:
            groups[-1].append(feature)
        else:
            groups.append([feature])
    return [
        GridLine(at=_place_of(group), rank=Rank.EDGE, features=tuple(group)) for group in groups
    ]


def _place_of(group: Sequence[Feature]) -> float:
    """The place of the longest edges of a group; the middle where equals differ."""
    lengths: dict[float, float] = {}
    for feature in group:
        at = next((a for a in lengths if abs(a - feature.at) <= SAME), feature.at)
        lengths[at] = lengths.get(at, 0.0) + feature.length
    longest = max(lengths.values())
    best = sorted(at for at, length in lengths.items() if length >= longest - 1.0)
    return (best[0] + best[-1]) / 2


def _with_rank(lines: list[GridLine], features: Sequence[Feature], steps: Steps) -> list[GridLine]:
    left: list[Feature] = []
    for feature in features:
        index = _line_for(lines, feature)
        if index is None:
            left.append(feature)
        else:
            line = lines[index]
            lines = [
                *lines[:index],
                replace(line, features=(*line.features, feature)),
                *lines[index + 1 :],
            ]
    return [*lines, *(_new_line(group, steps) for group in _groups(left))]


def _line_for(lines: Sequence[GridLine], feature: Feature) -> int | None:
    """The line that serves a feature already: the nearest within its slack."""
    reach = feature.slack or _reach(feature)
    near = [
        (abs(line.at - feature.at), i)
        for i, line in enumerate(lines)
        if abs(line.at - feature.at) <= reach + SAME
    ]
    return min(near)[1] if near else None


def _reach(feature: Feature) -> float:
    """How far an exact feature lets itself be drawn to a line: the joint may run a little aslant."""
    return MERGE if feature.rank in (Rank.COLUMN, Rank.LANDING) else SAME


def _groups(features: Sequence[Feature]) -> list[list[Feature]]:
    """Features whose ranges have a common part."""
    groups: list[list[Feature]] = []
    high = 0.0
    for feature in sorted(features, key=lambda f: (f.at - f.slack, f.at, f.start)):
        if groups and feature.at - feature.slack <= high + SAME:
            groups[-1].append(feature)
            high = min(high, feature.at + feature.slack)
        else:
            groups.append([feature])
            high = feature.at + feature.slack
    return groups


def _new_line(group: Sequence[Feature], steps: Steps) -> GridLine:
    low = max(f.at - f.slack for f in group)
    high = min(f.at + f.slack for f in group)
    weight = sum(f.length or 1.0 for f in group)
    wish = sum(f.at * (f.length or 1.0) for f in group) / weight
    at = steps.within(low, high, wish) if high - low > SAME else (low + high) / 2
    return GridLine(at=at, rank=group[0].rank, features=tuple(group))
