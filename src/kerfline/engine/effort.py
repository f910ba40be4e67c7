"""How much work a search may do: counted in steps of the solver, never read off a clock.

A busy machine thus finds the same layout as an idle one. Work is given in seconds of a plain machine,
for that is how a person thinks of it: what the counted steps take on one core of about the year 2020.
"""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field

PER_SECOND = 1e7
"""Rows times simplex iterations that a plain machine does in a second."""

ENTRIES_PER_SECOND = 3e6
"""Entries times iterations from the inside that a plain machine does in a second."""

ROUND = 600
"""Simplex iterations that a round of the branching solver (cuts, or a node) counts for."""

GROUPS_PER_SECOND = 4e4
"""Groups of cells that a plain machine finds and measures in a second."""

WINDOWS_PER_SECOND = 8e4
"""Windows of a net that a plain machine looks through for groups of cells in a second."""

CARRIED = 5.0
"""Seconds more that the first layout of a part may overspend, so that it is carried to its end."""

CARRIED_BY_SQUARE = 0.2
"""Seconds more for each square of the span by which the parts of a slab may overspend together, beside ``CARRIED``: the
fullest, halls of 100 and 140 pits that follow no grid, take eight and six tenths of that."""

HURRIED = 0.3
"""With less than this left (s), the patience included, as for each of many unlike blocks, a first layout is hurried."""

MOST_SECONDS = 20.0
"""No call of the solver is given more than this (s of a plain machine), however patient one is."""


OVERSPENT = 5.0
"""Seconds by which a slab may overspend its effort: one layout of each part is carried to its end, and while these
last each further way to lay it out still makes one proposal. Then only what is proposed first is laid out."""


@dataclass
class Budget:
    """What the parts of a slab have in common, so that they cannot spend without end however many they are.

    Attributes:
        reserve: Seconds by which their first layouts may overspend, all together, and searches of blocks on further lines.
        spent: Seconds that were spent in all.
    """

    reserve: float = CARRIED
    spent: float = 0.0

    @staticmethod
    def of(squares: float) -> "Budget":
        """That of a slab of so many squares of the span."""
        return Budget(CARRIED + CARRIED_BY_SQUARE * squares)


@dataclass
class Effort:
    """Work that is left.

    Attributes:
        left: In seconds of a plain machine; below zero when it is used up.
        patience: How far it may be overspent before a search gives up without an answer.
        cut: Whether something was left undone because it was used up.
        hurried: Whether a first layout is carried to its end though next to nothing is left of the patience either.
        budget: What all parts of the slab have in common.
    """

    left: float
    patience: float = OVERSPENT
    cut: bool = False
    hurried: bool = False
    budget: Budget = field(default_factory=Budget, repr=False, compare=False)

    def allows(self) -> bool:
        """Whether there is some left for one more step; a step that is left undone is remembered."""
        self.cut = self.cut or self.left <= 0.0
        return self.left > 0.0

    def spend(self, iterations: int, rows: int) -> None:
        """Takes off what simplex iterations on a programme of so many rows cost."""
        self._take(max(iterations, 0) * rows / PER_SECOND)

    def spend_inside(self, iterations: int, entries: int) -> None:
        """Takes off what iterations from the inside on a programme of so many entries cost."""
        self._take(max(iterations, 0) * entries / ENTRIES_PER_SECOND)

    def measure(self, groups: int) -> None:
        """Takes off what it costs to find and measure so many groups of cells."""
        self._take(groups / GROUPS_PER_SECOND)

    def look_through(self, windows: int) -> None:
        """Takes off what it costs to look through so many windows of a net for groups of cells."""
        self._take(windows / WINDOWS_PER_SECOND)

    def _take(self, seconds: float) -> None:
        self.left -= seconds
        self.budget.spent += seconds

    def iterations(self, rows: int, least: int) -> int:
        """How many simplex iterations a solver may take before the patience ends, and so many in any case."""
        return max(least, int(self._longest() * PER_SECOND / max(rows, 1)))

    def inner_iterations(self, entries: int, least: int) -> int:
        """The same of iterations from the inside."""
        return max(least, int(self._longest() * ENTRIES_PER_SECOND / max(entries, 1)))

    def _longest(self) -> float:
        """Seconds that one call of the solver may take."""
        return min(self.left + self.patience, MOST_SECONDS)

    def rounds(self, rows: int) -> int:
        """How many rounds of the branching solver the rest is good for."""
        seconds = min(max(self.left, 0.0), MOST_SECONDS)
        return int(seconds * PER_SECOND / (ROUND * max(rows, 1)))

    def share(self, part: float, *, patience: float | None = None) -> "Effort":
        """A part of what is left, to be spent apart, with as much of the patience or with one of its own."""
        own = self.patience * part if patience is None else patience
        return Effort(max(self.left, 0.0) * part, own, budget=self.budget)

    def wait(self, seconds: float) -> None:
        """Lets it be overspent by so much more."""
        self.patience += seconds

    @contextmanager
    def carrying(self) -> Iterator[None]:
        """Lets what is searched meanwhile overspend by ``CARRIED`` more, whatever is used up already, from the budget."""
        before = self.patience, self.hurried
        own = max(self.patience, -self.left)
        self.hurried = self.left + self.patience < HURRIED
        self.patience = own + min(CARRIED, max(self.budget.reserve, 0.0))
        try:
            yield
        finally:
            self.budget.reserve -= max(-self.left - own, 0.0)
            self.patience, self.hurried = before

    def charge(self) -> None:
        """Takes out of the budget what was overspent within the patience; what was carried beyond it is taken already."""
        self.budget.reserve -= min(max(-self.left, 0.0), self.patience)

    @property
    def spent_up(self) -> bool:
        """Whether not even the first layout of a part may be searched any more."""
        return self.over and self.budget.reserve <= 0.0

    @property
    def over(self) -> bool:
        """Whether a search must give up."""
        return self.left <= -self.patience
