"""Lays out a job: rules, engine, checks."""

from collections.abc import Callable

from kerfline.app.outcome import Outcome
from kerfline.app.rules_of import rules_of
from kerfline.checks.check import check
from kerfline.engine.lay_out import lay_out
from kerfline.engine.options import EngineOptions
from kerfline.model.job import Job


def lay_out_job(job: Job, progress: Callable[[str], None] | None = None) -> Outcome:
    """Places the joints of a job and holds the result against its rules.

    Args:
        job: What the user told us.
        progress: Told in words what the engine is at.
    """
    rules = rules_of(job)
    layout = lay_out(job.slab, rules, engine_options(job, progress))
    findings = check(job.slab, layout, rules, job.display)
    return Outcome(job=job, rules=rules, layout=layout, findings=findings)


def engine_options(job: Job, progress: Callable[[str], None] | None = None) -> EngineOptions:
    """The engine's options that a job asks for."""
    return EngineOptions(
        display=job.display, effort=job.effort, weights=job.weights, progress=progress
    )
