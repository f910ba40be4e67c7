"""The run mark: a short digest by which the sheets and tables of one layout are told to belong together."""

import hashlib
from dataclasses import replace

from kerfline.app.outcome import Outcome
from kerfline.model.day import DayInput
from kerfline.model.job import Job, SheetChoice
from kerfline.model.layout import Layout
from kerfline.units import Unit

LETTERS = 8
"""Letters of a mark: 32 bits, of which two layouts of one job hardly ever share all."""

PLACES = 2
"""Coordinates count to 0.01 mm."""


def marked(outcome: Outcome) -> Outcome:
    """The same outcome for whoever draws of it, its job carrying the run mark and what the day tells of steel.

    Raises:
        InputRefused: The ``[day]`` tables cannot be used.
    """
    from kerfline.files.day_file import read_choices

    job = outcome.job
    sheet = replace(job.sheet, mark=run_mark(job, outcome.layout))
    told = read_choices(job) if job.day else DayInput()
    drawn = replace(job, sheet=sheet, steel=told.steel, order=told.order)
    return replace(outcome, job=drawn)


def run_mark(job: Job, layout: Layout) -> str:
    """The mark of a layout.

    It is the same for the same job and layout, on whatever paper and in whatever unit they are drawn,
    whatever it was traced from.
    """
    from kerfline.files.job_text import job_text

    plain = replace(job, units=Unit.MM, sheet=SheetChoice(), tracing=None, notes=(), reading=())
    parts = [job_text(plain), *(f"{j.id} {j.kind.value} {_spots(j.path)}" for j in layout.joints)]
    return hashlib.sha256("\n".join(parts).encode()).hexdigest()[:LETTERS]


def _spots(path: tuple[tuple[float, float], ...]) -> str:
    return " ".join(f"{round(x, PLACES) + 0.0},{round(y, PLACES) + 0.0}" for x, y in path)
