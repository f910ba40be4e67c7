"""Lays out a job: rules, engine, placements, checks."""

from collections.abc import Callable

from kerfline.app.outcome import Outcome, held
from kerfline.app.placements import placed
from kerfline.app.rules_of import rules_of
from kerfline.engine.lay_out import lay_out
from kerfline.engine.options import EngineOptions
from kerfline.model.job import Job


def lay_out_job(job: Job, progress: Callable[[str], None] | None = None) -> Outcome:
    """Places the joints of a job, divides it into placements and holds the result against its rules.

    Args:
        job: What the user told us.
        progress: Told in words what the engine is at.
    """
    rules = rules_of(job)
    layout = placed(job, lay_out(job.slab, rules, engine_options(job, progress)), renumber=True)
    return held(job, rules, layout)


def engine_options(job: Job, progress: Callable[[str], None] | None = None) -> EngineOptions:
    """The engine's options that a job asks for."""
    return EngineOptions(
        display=job.display, effort=job.effort, weights=job.weights, progress=progress
    )
