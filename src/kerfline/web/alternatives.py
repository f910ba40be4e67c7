"""Layouts of one job that differ in what they favour, side by side."""

from dataclasses import replace
from typing import Any

from kerfline.app.lay_out import lay_out_job
from kerfline.app.live import measured
from kerfline.app.outcome import Outcome
from kerfline.app.working import working_of
from kerfline.model.job import Job
from kerfline.units import format_run
from kerfline.web.picture import picture
from kerfline.web.wire import state_data

Data = dict[str, Any]

FAVOURS: tuple[tuple[str, dict[str, float]], ...] = (
    ("As laid out", {}),
    ("Fewest chalk lines", {"line": 12.0, "tee": 9.0}),
    ("Most under walls", {"length_open": 1.6, "length_hidden": 0.2}),
    ("Squarest panels", {"square": 12.0, "aspect_advised": 20.0}),
    ("Largest panels", {"small": 0.0, "length_open": 2.0, "uneven": 1.0}),
)
"""Names, and the engine's weights that they change."""

EFFORT_EACH = 5.0
"""Seconds that the engine may search for each."""


def alternatives_data(job: Job) -> list[Data]:
    """The distinct layouts of a job, each with its state and its picture."""
    found: dict[tuple[object, ...], Data] = {}
    for name, weights in FAVOURS:
        favoured = replace(
            job, weights={**job.weights, **weights}, effort=min(job.effort, EFFORT_EACH)
        )
        outcome = lay_out_job(favoured)
        key = tuple(
            sorted(tuple((round(x), round(y)) for x, y in j.path) for j in outcome.layout.joints)
        )
        found.setdefault(key, _shown(name, replace(outcome, job=job)))
    return list(found.values())


def _shown(name: str, outcome: Outcome) -> Data:
    layout, display = outcome.layout, outcome.job.display
    working = working_of(outcome)
    seen = picture(measured(outcome.job, working))
    totals = seen["totals"]
    words = (
        f"{totals['panels']} panels, {format_run(layout.joint_length, display)} of joint, "
        f"{totals['hidden']} under walls, {totals['lines']} chalk lines, {totals['tees']} tee ends; "
        f"{totals['errors']} errors, {totals['warnings']} warnings"
    )
    return {"name": name, "words": words, "state": state_data(working), "picture": seen}
