"""The cut sheets as files: one set for each placement, and all of them as one to print."""

from typing import TYPE_CHECKING

from kerfline.app.file_names import file_stem
from kerfline.app.outcome import Outcome
from kerfline.app.sheet_files import sheet_files

if TYPE_CHECKING:
    from kerfline.sheets.day.day_plan import DayPlan


def cut_files(outcome: Outcome, plan: "DayPlan | None") -> dict[str, bytes]:
    """The cut sheets of a layout by name.

    Args:
        outcome: The layout.
        plan: Its placement day; None where it is not known.

    Returns:
        ``NAME-cut-sheet.pdf`` with everything that is cut, and its drawings. Where the slab comes in
        several placements, each has ``NAME-cut-sheet-placement-1.pdf`` and so on beside it.
    """
    from kerfline.files.sheet_pdf import pdf_bytes
    from kerfline.sheets.cut.areas import pour_areas
    from kerfline.sheets.cut.lines import Saw
    from kerfline.sheets.cut.passes import planned_passes
    from kerfline.sheets.cut.sheet import cut_sheet

    job, layout, rules = outcome.job, outcome.layout, outcome.rules
    stem = f"{file_stem(job.name)}-cut-sheet"
    if plan is None:
        return sheet_files(stem, cut_sheet(job, layout, rules))
    saw = Saw.planned(plan.placement.method, plan.day.saws)
    areas = pour_areas(plan, layout)
    if not areas:
        passes = planned_passes(plan)
        return sheet_files(stem, cut_sheet(job, layout, rules, passes=passes, saw=saw))
    sets = {area.id: cut_sheet(job, layout, rules, saw=saw, area=area) for area in areas}
    files = {f"{stem}.pdf": pdf_bytes([sheet for sheets in sets.values() for sheet in sheets])}
    for name, sheets in sets.items():
        files |= sheet_files(f"{stem}-placement-{name}", sheets)
    return files
