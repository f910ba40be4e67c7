"""The placements of a layout: the division belongs to the layout, so that every sheet tells the same."""

from kerfline.model.day import DayInput, Ledger
from kerfline.model.job import Job
from kerfline.model.layout import Layout
from kerfline.model.slab import Slab
from kerfline.placement.formed import in_placements
from kerfline.placement.pours import day_limit, placement_homes
from kerfline.quantities.concrete import concrete_body
from kerfline.quantities.dowels import doweled
from kerfline.quantities.order import placing_rate
from kerfline.units import Display


def placed(job: Job, layout: Layout, *, renumber: bool = False) -> Layout:
    """The layout of a job as it is placed; unchanged where the job says nothing of its day.

    Args:
        job: The job, with its ``[day]`` tables.
        layout: Its joints and panels.
        renumber: Whether the joints are numbered anew where placements part them; joints that somebody
            named keep their names.

    Raises:
        InputRefused: The tables cannot be used.
    """
    from kerfline.files.day_file import read_choices

    if not job.day:
        return layout
    return placed_layout(job.slab, layout, read_choices(job), job.display, renumber=renumber)


def placed_layout(
    slab: Slab, layout: Layout, day: DayInput, display: Display, *, renumber: bool = True
) -> Layout:
    """A layout whose joints between placements are construction joints with their dowels.

    A layout that is divided already, within the day's limits, stays as it is.

    Args:
        slab: What is given.
        layout: Its joints and panels.
        day: What is known of the day.
        display: Feet and yards, or metres, for the habits that stand in for what is not given.
        renumber: As above.
    """
    asked = Ledger(display=display)  # the day's own plan writes down what is assumed here
    limit = day_limit(day.pours, placing_rate(day.concrete, display, asked), asked)
    body = concrete_body(slab)
    split = day.pours.always_split
    homes = placement_homes(slab, layout, limit, body.volume, always_split=split)
    formed = in_placements(layout, slab, homes, renumber=renumber)
    return doweled(formed, slab.thickness, day.steel.dowels)
