"""The least depth of a cut by method and thickness."""

from collections.abc import Sequence
from dataclasses import dataclass

from kerfline.rules.limits import Figure, Source
from kerfline.rules.span import NOMINAL


@dataclass(frozen=True, kw_only=True)
class CutRow:
    """The least depth of cut from one thickness up.

    Attributes:
        advised: Advised depth as a share of the thickness; 0 where the floor alone holds.
        least: Least depth as a share of the thickness; 0 where the floor alone holds.
        floor: Least depth (mm) whatever the thickness.
        above: The row holds for slabs thicker than this (mm).
        source: Where the least depth comes from.
        advised_source: Where the advised depth comes from, if elsewhere.
    """

    advised: float
    least: float
    floor: float
    source: Source
    above: float = 0.0
    advised_source: Source | None = None

    def at(self, thickness: float) -> Figure:
        """The figure (mm) at a thickness (mm)."""
        return Figure(
            advised=max(self.advised * thickness, self.floor),
            bound=max(self.least * thickness, self.floor),
            source=self.source,
            advised_source=self.advised_source,
        )


def row_for(rows: Sequence[CutRow], thickness: float) -> CutRow:
    """The last row that holds at a thickness (mm); the first one holds for every slab."""
    return [row for row in rows if not row.above or thickness * NOMINAL > row.above][-1]
