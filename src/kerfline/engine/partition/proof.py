"""How far the search for the cheapest layout on candidate lines came: of parts, and of all together."""

from collections.abc import Iterable
from dataclasses import dataclass

from kerfline.model.layout import Status

CLOSED = 1e-6
"""Share of the cost by which cost and bound may differ and still be the same."""


@dataclass(frozen=True)
class Proof:
    """What a part costs, and the least that it may cost on its candidate lines.

    Attributes:
        cost: Weighted cost in mm of joint.
        bound: Proven lower bound of that cost; 0 where nothing is proven.
    """

    cost: float = 0.0
    bound: float = 0.0

    @property
    def known(self) -> bool:
        """Whether something is proven about it; of a part that costs nothing there is nothing to prove."""
        return self.cost <= 0.0 or self.bound > 0.0

    @property
    def closed(self) -> bool:
        """Whether it is proven to be the best."""
        return self.cost - self.bound <= CLOSED * self.cost

    def __add__(self, other: "Proof") -> "Proof":
        """That of both together."""
        return Proof(self.cost + other.cost, self.bound + other.bound)


def together(parts: Iterable[Proof]) -> tuple[Status, Proof]:
    """How far the search for the best came in a layout of parts that were searched one after the other."""
    found = list(parts)
    whole = sum(found, Proof())
    if not all(part.known for part in found):
        return Status.HEURISTIC, whole
    if len(found) > 1:
        return Status.PARTS, whole
    return Status.OPTIMAL if whole.closed else Status.TIME_LIMIT, whole
