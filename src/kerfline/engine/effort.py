"""How much work a search may do: counted in steps of the solver, never read off a clock.

A busy machine thus finds the same layout as an idle one. Work is given in seconds of a plain machine,
for that is how a person thinks of it: what the counted steps take on one core of about the year 2020.
"""

import math
from dataclasses import dataclass

PER_SECOND = 1e7
"""Rows times simplex iterations that a plain machine does in a second."""

ROUND = 600
"""Simplex iterations that a round of the branching solver (cuts, or a node) counts for."""


@dataclass
class Effort:
    """Work that is left.

    Attributes:
        left: In seconds of a plain machine; below zero when it is used up.
        patience: How far it may be overspent before a search gives up without an answer; endless where one
            answer is carried to its end in any case.
        cut: Whether something was left undone because it was used up.
    """

    left: float
    patience: float = math.inf
    cut: bool = False

    def allows(self) -> bool:
        """Whether there is some left for one more step; a step that is left undone is remembered."""
        self.cut = self.cut or self.left <= 0.0
        return self.left > 0.0

    def spend(self, iterations: int, rows: int) -> None:
        """Takes off what simplex iterations on a programme of so many rows cost."""
        self.left -= max(iterations, 0) * rows / PER_SECOND

    def rounds(self, rows: int) -> int:
        """How many rounds of the branching solver the rest is good for."""
        return int(max(self.left, 0.0) * PER_SECOND / (ROUND * max(rows, 1)))

    def share(self, part: float, *, patience: float = math.inf) -> "Effort":
        """A part of what is left, to be spent apart."""
        return Effort(max(self.left, 0.0) * part, patience)

    @property
    def over(self) -> bool:
        """Whether a search must give up."""
        return self.left <= -self.patience
