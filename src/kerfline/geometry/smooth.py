"""Curves that run on into one another without a corner, brought together."""

import math
from collections.abc import Sequence
from itertools import pairwise

from kerfline.geometry.chains import MEET
from kerfline.geometry.corners import angle_between, direction
from kerfline.geometry.near import near_pairs, spots
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import CORNER_TURN

Line = tuple[Point, ...]


def smooth_chains(lines: Sequence[Line], reach: float = MEET) -> list[tuple[Line, tuple[int, ...]]]:
    """Chains of lines that go on into one another, turning less than a corner.

    Args:
        lines: Open lines of two points or more.
        reach: How far apart (mm) ends may be.

    Returns:
        Each chain with the indices of its lines, in the order of their first lines.
    """
    partner = _partners(lines, reach)
    done: set[int] = set()
    firsts = [e for e in range(2 * len(lines)) if e not in partner] + list(
        range(0, 2 * len(lines), 2)
    )
    # What has been followed from one end is not followed from the other.
    out = [_followed(lines, partner, first, done) for first in firsts if first // 2 not in done]
    return sorted(out, key=lambda chain: min(chain[1]))


def split_at_corners(line: Line) -> list[Line]:
    """The pieces of a line between its corners."""
    cuts = [0]
    for i in range(1, len(line) - 1):
        before, after = direction(line[i - 1], line[i]), direction(line[i], line[i + 1])
        if angle_between(before, after) > CORNER_TURN:
            cuts.append(i)
    cuts.append(len(line) - 1)
    return [line[a : b + 1] for a, b in pairwise(cuts)]


def end_of(lines: Sequence[Line], end: int) -> tuple[Point, Point]:
    """End number 2 i or 2 i + 1 of line i: its place, and the direction out of the line there."""
    line = lines[end // 2]
    if end % 2 == 0:
        return line[0], direction(line[1], line[0])
    return line[-1], direction(line[-2], line[-1])


def _partners(lines: Sequence[Line], reach: float) -> dict[int, int]:
    """Which end goes on into which: nearest first, then the straightest."""
    ends = [end_of(lines, e) for e in range(2 * len(lines))]
    first, second = near_pairs(spots([at for at, _ in ends]), reach)
    found = []
    for a, b in zip(first.tolist(), second.tolist(), strict=True):
        turn = _turn(ends[a], ends[b])
        if a // 2 != b // 2 and turn <= CORNER_TURN:
            found.append((round(math.dist(ends[a][0], ends[b][0]), 3), round(turn, 6), a, b))
    partner: dict[int, int] = {}
    for _, _, a, b in sorted(found):
        if a not in partner and b not in partner:
            partner[a], partner[b] = b, a
    return partner


def _turn(one: tuple[Point, Point], other: tuple[Point, Point]) -> float:
    """The larger of the turns from the one line over the gap into the other, degrees."""
    (at, out), (there, back) = one, other
    turn = angle_between(out, (-back[0], -back[1]))
    if math.dist(at, there) <= MEET:
        return turn
    across = direction(at, there)
    return max(turn, angle_between(out, across))


def _followed(
    lines: Sequence[Line], partner: dict[int, int], first: int, done: set[int]
) -> tuple[Line, tuple[int, ...]]:
    points: list[Point] = []
    members = []
    end = first
    while end // 2 not in done:
        done.add(end // 2)
        members.append(end // 2)
        line = lines[end // 2] if end % 2 == 0 else lines[end // 2][::-1]
        skip = 1 if points and math.dist(points[-1], line[0]) <= MEET else 0
        points.extend(line[skip:])
        end = partner.get(end ^ 1, end)
    return tuple(points), tuple(members)
