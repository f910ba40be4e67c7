"""Draws the sheets of a layout anew, at another size, scale or unit, without laying out again."""

from dataclasses import replace
from pathlib import Path

from kerfline.app.file_names import file_stem
from kerfline.app.outcome import Outcome, held
from kerfline.app.placements import placed
from kerfline.app.rules_of import rules_of
from kerfline.errors import InputRefused, Mistake
from kerfline.model.job import Job
from kerfline.units import Unit

SAME_SHARE = 1e-4
"""Two slabs are the same where their areas differ by less than this share."""


def redraw_job(
    job: Job, layout_file: Path, *, size: str, scale: float, units: Unit | None
) -> Outcome:
    """The saved layout of a job, ready to be drawn.

    Args:
        job: The job.
        layout_file: Its ``NAME-layout.json``.
        size: Sheet size by name; empty keeps the job's.
        scale: Scale denominator; 0 keeps the job's.
        units: Unit to write lengths in; None keeps the job's.

    Raises:
        InputRefused: The layout file cannot be read or was made for another slab.
    """
    from kerfline.files.layout_json import read_layout_json

    saved = read_layout_json(layout_file)
    own = job.slab.concrete
    if saved.concrete.symmetric_difference(own).area > SAME_SHARE * own.area:
        raise InputRefused(
            Mistake(
                what="this layout was made for another slab than the job now gives",
                where=layout_file.name,
                remedy="lay the job out anew with kerfline layout",
            )
        )
    sheet = replace(job.sheet, size=size or job.sheet.size, scale=scale or job.sheet.scale)
    drawn = replace(job, sheet=sheet, units=units or job.units)
    rules = rules_of(drawn)
    return held(drawn, rules, placed(drawn, saved.layout))


def saved_layout(job: Job, source: Path, folder: Path | None) -> Path:
    """The saved layout of a job: the first that is there, or else where it is missed first of all.

    Args:
        job: The job.
        source: Its file.
        folder: Where ``kerfline layout`` or the page may have left it; where they usually do where it is None.
    """
    usual = Path("out") / file_stem(job.name)
    files = [
        place / f"{file_stem(job.name)}-layout.json"
        for place in (folder or usual, usual, source.parent / usual)
    ]
    return next((file for file in files if file.is_file()), files[0])
