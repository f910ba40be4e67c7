"""Several good layouts of one job, each held against its rules."""

from collections.abc import Callable
from dataclasses import dataclass

from kerfline.app.lay_out import engine_options
from kerfline.app.outcome import Outcome, held
from kerfline.app.placements import placed
from kerfline.app.rules_of import rules_of
from kerfline.engine.alternatives import alternatives
from kerfline.model.job import Job


@dataclass(frozen=True, kw_only=True)
class Choice:
    """One of several layouts, and what it favours."""

    name: str
    outcome: Outcome


def choices(
    job: Job, count: int, progress: Callable[[str], None] | None = None
) -> tuple[Choice, ...]:
    """Up to ``count`` layouts that differ, the best overall first.

    Args:
        job: What the user told us; pinned joints stay in all of them.
        count: How many are wanted.
        progress: Told in words what the engine is at.
    """
    rules = rules_of(job)
    found = alternatives(job.slab, rules, engine_options(job, progress), count)
    return tuple(
        Choice(name=each.name, outcome=held(job, rules, placed(job, each.layout, renumber=True)))
        for each in found
    )
