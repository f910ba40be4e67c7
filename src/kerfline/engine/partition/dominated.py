"""Leaves out panels that are dearer than two others in their place, however the rest is laid out."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from kerfline.engine.options import Weights
from kerfline.engine.partition.net import SETTLED, Net
from kerfline.engine.partition.panels import CandidatePanel
from kerfline.units import MM_PER_FOOT

POOR = 10 * MM_PER_FOOT
"""Cost (mm of joint) up to which a panel is not looked at: no joint more would pay."""

SURE = 1.0
"""By so much (mm of joint) the two must be cheaper."""


@dataclass(frozen=True, slots=True)
class _Divide:
    """A place between two neighbouring rows of cells.

    Attributes:
        before: The cells before it, as bits.
        seams: The seams that lie in it: their two cells as bits, and their numbers.
    """

    before: int
    seams: list[tuple[int, int]] = field(default_factory=list)


def undominated(
    net: Net, panels: Sequence[CandidatePanel], prices: Sequence[float], weights: Weights
) -> list[CandidatePanel]:
    """The panels that can be in a cheapest cover.

    A panel is left out where a line divides it into two others that cost less, the joint between
    them, its ends as tees and the line counted in.

    Args:
        net: The net.
        panels: Its panels.
        prices: What each seam costs as a joint, mm of joint.
        weights: What tees and lines cost.
    """
    bits = [sum(1 << c for c in p.cells) for p in panels]
    costs = {b: p.cost for b, p in zip(bits, panels, strict=True)}
    divides = _divides(net)
    return [
        panel
        for panel, whole in zip(panels, bits, strict=True)
        if panel.cost <= POOR or not _is_dearer(net, whole, costs, divides, prices, weights)
    ]


def _divides(net: Net) -> list[_Divide]:
    """The places between rows along both axes."""
    out: list[_Divide] = []
    for axis in (0, 1):
        levels = sorted({c.index[axis] for c in net.cells})
        for level, _ in pairwise(levels):
            before = sum(1 << n for n, c in enumerate(net.cells) if c.index[axis] <= level)
            out.append(_Divide(before))
    for number, seam in enumerate(net.seams):
        first, second = (1 << c for c in seam.cells)
        for divide in out:
            if bool(first & divide.before) != bool(second & divide.before):
                divide.seams.append((first | second, number))
    return out


def _is_dearer(
    net: Net,
    whole: int,
    costs: dict[int, float],
    divides: Sequence[_Divide],
    prices: Sequence[float],
    weights: Weights,
) -> bool:
    """Whether two panels in the place of one are cheaper."""
    for divide in divides:
        one, other = whole & divide.before, whole & ~divide.before
        if not one or not other or one not in costs or other not in costs:
            continue
        room = costs[whole] - costs[one] - costs[other] - SURE
        if room > 0 and room > _joint(net, whole, divide, prices, weights):
            return True
    return False


def _joint(
    net: Net, whole: int, divide: _Divide, prices: Sequence[float], weights: Weights
) -> float:
    """What the joint that divides a panel costs at most."""
    members = [n for pair, n in divide.seams if pair & whole == pair]
    ends = Counter((node, net.seams[n].line) for n in members for node in net.seams[n].nodes)
    tees = sum(count % 2 for count in ends.values())
    lines = {net.seams[n].line for n in members} - {SETTLED}
    more = weights.tee * tees + weights.line * len(lines)
    return sum(prices[n] for n in members) + more * MM_PER_FOOT
