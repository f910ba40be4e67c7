"""The passes of the saw in the order in which they are cut, with their numbers."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from kerfline.geometry.ring import Point
from kerfline.model.joint_lines import SawnLine, joint_lines
from kerfline.model.layout import Layout
from kerfline.sheets.baselines import Baselines
from kerfline.sheets.day.day_plan import DayPlan
from kerfline.sheets.day.text import day_of, window_words
from kerfline.sheets.spots import middle_of


@dataclass(frozen=True, kw_only=True)
class CutPass:
    """One line in the order of cutting.

    Attributes:
        number: Its number, from 1, one count for the whole job.
        sawn: The line.
        window: When it may be cut, as text; empty where that is not known.
    """

    number: int
    sawn: SawnLine
    window: str = ""


def passes_along(layout: Layout, base: Baselines) -> tuple[CutPass, ...]:
    """The sawn joints of a layout by their middle along the longer way of the slab.

    Joints are cut one after another in the order in which the concrete was placed (TM 5-822-7); where
    nobody said how it is placed, from one end of the slab to the other.
    """
    sawn = in_order(joint_lines(layout).sawn, base)
    return tuple(CutPass(number=n, sawn=line) for n, line in enumerate(sawn, 1))


def planned_passes(plan: DayPlan) -> tuple[CutPass, ...]:
    """The lines of a placement day, numbered as on the day sheet, each with its window."""
    return tuple(
        CutPass(
            number=cut.order,
            sawn=cut.window.sawn,
            window=window_words(cut.window, day_of(cut, plan)),
        )
        for cut in plan.placement.cutting.cuts
    )


def in_order(sawn: Iterable[SawnLine], base: Baselines) -> tuple[SawnLine, ...]:
    """Sorts lines by their middle along the longer way in which they are spread."""
    parts = list(sawn)
    middles = [base.local(middle_of(p.line)) for p in parts]
    along = _longer_way(middles)

    def key(index: int) -> tuple[int, int, int]:
        return round(middles[index][along]), round(middles[index][1 - along]), index

    return tuple(parts[i] for i in sorted(range(len(parts)), key=key))


def _longer_way(middles: Sequence[Point]) -> int:
    """0 where the lines are spread along the first baseline, 1 along the second."""
    if not middles:
        return 0
    spreads = [max(m[i] for m in middles) - min(m[i] for m in middles) for i in (0, 1)]
    return 0 if spreads[0] >= spreads[1] else 1
