"""The cut sheets as files: one set for each placement, and all of them as one to print."""

from collections.abc import Mapping
from typing import TYPE_CHECKING

from kerfline.app.file_names import file_stem
from kerfline.app.outcome import Outcome
from kerfline.app.sheet_files import sheet_files

if TYPE_CHECKING:
    from kerfline.sheets.cut.areas import CutArea
    from kerfline.sheets.day.day_plan import DayPlan
    from kerfline.sheets.marks import Sheet


def cut_files(outcome: Outcome, plan: "DayPlan | None") -> dict[str, bytes]:
    """The cut sheets of a layout as files by name.

    Args:
        outcome: The layout.
        plan: Its placement day; None where it is not known.

    Returns:
        ``NAME-cut-sheet.pdf`` with everything that is cut, and its drawings. Where the slab comes in
        several placements, each has ``NAME-cut-sheet-placement-1.pdf`` and so on beside it; an area
        that the job names has ``NAME-cut-sheet-area-1.pdf``, and a wing with joints of another direction
        ``NAME-cut-sheet-wing-1.pdf``.
    """
    return cut_set_files(outcome, cut_sets(outcome, plan))


def cut_set_files(outcome: Outcome, sets: Mapping[str, tuple["Sheet", ...]]) -> dict[str, bytes]:
    """Sets of cut sheets as files, and those of all placements as one to print."""
    from kerfline.files.sheet_pdf import pdf_bytes

    stem = f"{file_stem(outcome.job.name)}-cut-sheet"
    placed = [
        s for name, sheets in sets.items() if name.startswith(f"{stem}-placement") for s in sheets
    ]
    files = {f"{stem}.pdf": pdf_bytes(placed)} if placed else {}
    for name, sheets in sets.items():
        files |= sheet_files(name, sheets)
    return files


def cut_sets(outcome: Outcome, plan: "DayPlan | None") -> dict[str, tuple["Sheet", ...]]:
    """The sets of cut sheets of a layout by the stem of their files.

    Args:
        outcome: The layout.
        plan: Its placement day; None where it is not known.
    """
    from shapely import MultiPolygon

    from kerfline.geometry.faces import polygons_of
    from kerfline.model.slab import JointKind
    from kerfline.sheets.baselines import baselines
    from kerfline.sheets.cut.areas import named_area, pour_areas
    from kerfline.sheets.cut.lines import Saw
    from kerfline.sheets.cut.passes import passes_along, planned_passes
    from kerfline.sheets.cut.sheet import cut_sheet
    from kerfline.sheets.wings import wings

    job, layout, rules = outcome.job, outcome.layout, outcome.rules
    stem = f"{file_stem(job.name)}-cut-sheet"
    saw = Saw.planned(plan.placement.method, plan.day.saws, job.display) if plan else None
    passes = planned_passes(plan) if plan else passes_along(layout, baselines(job.slab))
    formed = tuple(j for j in layout.joints if j.kind is JointKind.CONSTRUCTION)

    def drawn(area: "CutArea") -> tuple["Sheet", ...]:
        return cut_sheet(job, layout, rules, saw=saw, area=area)

    pours = pour_areas(plan) if plan else ()
    if pours:
        sets = {f"{stem}-placement-{area.id}": drawn(area) for area in pours}
    else:
        sets = {stem: cut_sheet(job, layout, rules, passes=passes, saw=saw)}
        for number, wing in enumerate(wings(job.slab, layout, baselines(job.slab)), 1):
            turned = named_area(wing.id, wing.name, wing.region, passes, formed)
            sets[f"{stem}-wing-{number}"] = drawn(turned)
    for number, area in enumerate(job.sheet.areas, 1):
        concrete = polygons_of(area.outline.polygon.intersection(job.slab.concrete))
        named = named_area(f"{number}a", area.name, MultiPolygon(concrete), passes, formed)
        sets[f"{stem}-area-{number}"] = drawn(named)
    return sets
