"""Layouts of one job that differ in what they favour, for the page to show side by side."""

from collections.abc import Callable
from dataclasses import replace
from typing import Any

from kerfline.app.alternatives import choices
from kerfline.app.outcome import Outcome
from kerfline.app.working import working_of
from kerfline.model.job import Job
from kerfline.web.picture import picture
from kerfline.web.wire import state_data

Data = dict[str, Any]

MOST = 6
"""Layouts side by side."""

EFFORT_EACH = 5.0
"""Seconds that the engine may search for each: the user is waiting."""


def alternatives_data(job: Job, progress: Callable[[str], None] | None = None) -> list[Data]:
    """The distinct layouts of a job, each with its state, its picture and its figures in words.

    Args:
        job: The job; its pinned joints stay in all of them.
        progress: Told in words what the engine is at.
    """
    quick = replace(job, effort=min(job.effort, EFFORT_EACH))
    return [
        _shown(each.name, replace(each.outcome, job=job)) for each in choices(quick, MOST, progress)
    ]


def _shown(name: str, outcome: Outcome) -> Data:
    seen = picture(outcome)
    return {
        "name": name[:1].upper() + name[1:],
        "words": seen["totals"]["words"],
        "state": state_data(working_of(outcome)),
        "picture": seen,
    }
