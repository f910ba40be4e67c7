"""The cuts as the crew's cut sheets give them, sheet by sheet: for the page that lies beside the sheets."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

from kerfline.app.outcome import Outcome

if TYPE_CHECKING:
    from kerfline.sheets.baselines import Baselines
    from kerfline.sheets.cut.lines import CutLine
    from kerfline.sheets.day.day_plan import DayPlan

TEXT = 2.5
"""Height of text that a table is asked with; it decides nothing here."""


@dataclass(frozen=True, kw_only=True)
class CutSection:
    """The cuts of one cut sheet.

    Attributes:
        name: Name of the placement; empty where the slab is one.
        start: What its offsets are measured from, such as ``corner A``.
        base: The corner and the two faces that they are measured along.
        cuts: The cuts in their order.
        rows: For each the texts of its row in the sheet's table.
        closes: For each when its window closes, clock hours on the day of placing; None where not known.
    """

    name: str
    start: str
    base: "Baselines"
    cuts: tuple["CutLine", ...]
    rows: tuple[tuple[str, ...], ...]
    closes: tuple[float | None, ...]


def cut_sections(outcome: Outcome, plan: "DayPlan | None") -> tuple[CutSection, ...]:
    """The cuts of a layout, a section for each placement or one for the slab.

    Args:
        outcome: The layout.
        plan: Its placement day; None where it is not known.
    """
    from kerfline.sheets.baselines import baselines
    from kerfline.sheets.cut.areas import pour_areas
    from kerfline.sheets.cut.lines import Saw, cut_lines
    from kerfline.sheets.cut.passes import passes_along, planned_passes
    from kerfline.sheets.cut.words import cut_table, start_name

    job, layout = outcome.job, outcome.layout
    saw = Saw.planned(plan.placement.method, plan.day.saws, job.display) if plan else Saw.usual(job)
    closing = _closing(plan) if plan else {}
    whole = baselines(job.slab)
    pours = pour_areas(plan) if plan else ()
    out = []
    for area in pours or (None,):
        if area is None:
            base, name = whole, ""
            passes = planned_passes(plan) if plan else passes_along(layout, whole)
        else:
            base, name, passes = baselines(job.slab, area.region), area.name, area.passes
        cuts = cut_lines(job, passes, base, saw=saw, formed=area.formed if area else ())
        start = start_name(area, base)
        table = cut_table(job, cuts, saw, TEXT, start)
        out.append(
            CutSection(
                name=name,
                start=start,
                base=base,
                cuts=cuts,
                rows=tuple(tuple(row) for row in table.rows),
                closes=tuple(closing.get(cut.number) for cut in cuts),
            )
        )
    return tuple(out)


def _closing(plan: "DayPlan") -> dict[int, float]:
    """When each cut's window closes, clock hours."""
    return {
        cut.order: float(cut.window.closes.likely if cut.window.workable else cut.window.deadline)
        for cut in plan.placement.cutting.cuts
    }
