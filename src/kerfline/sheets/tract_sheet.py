"""The summary of many slabs as a sheet: one row a slab, the totals, and what was not done and why."""

from collections.abc import Sequence

from kerfline.geometry.ring import Ring
from kerfline.model.job import Job, SheetChoice
from kerfline.model.slab import Slab
from kerfline.sheets.marks import Sheet
from kerfline.sheets.paper import AUTOMATIC, paper
from kerfline.sheets.sheet_frame import SheetSet, text_sheets
from kerfline.sheets.table import Column, Table
from kerfline.units import Display, Unit

WIDEST_NAME = 70.0
"""Widest names and reasons in mm; longer ones are wrapped."""

Rows = Sequence[tuple[str, ...]]


def tract_sheets(
    title: str, display: Display, head: Sequence[str], rows: Rows, totals: Rows, left: Rows
) -> tuple[Sheet, ...]:
    """Draws the summary.

    Args:
        title: What the slabs are called together.
        display: For the paper: feet and inches, or metric.
        head: Headings of the rows; all but the first two columns are numbers.
        rows: A row for each slab.
        totals: Name and figure of each total.
        left: Slab and reason of each that was not done.
    """
    unit = Unit.MM if display is Display.METRIC else Unit.FT
    nothing = Slab(outline=Ring(()), thickness=0.0)
    job = Job(name=title, units=unit, slab=nothing, sheet=SheetChoice())
    size = paper(AUTOMATIC[display][0])
    drawn = SheetSet(job=job, paper=size, name="summary", title="Summary")
    slabs = tuple(Column(h, right=i > 1, widest=WIDEST_NAME) for i, h in enumerate(head))
    tables = [
        Table("Totals", (Column("total"), Column("", right=True)), tuple(totals), size.small),
        Table("Slabs", slabs, tuple(rows), size.small),
    ]
    if left:
        why = (Column("slab", widest=WIDEST_NAME), Column("why", widest=2 * WIDEST_NAME))
        tables.insert(1, Table("Not done", why, tuple(left), size.small))
    text_sheets(drawn, list(tables))
    return drawn.finished()
