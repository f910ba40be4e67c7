"""Holds a layout that somebody else made against the rules."""

from kerfline.app.live import kept_outcome
from kerfline.app.outcome import Outcome
from kerfline.errors import InputRefused, Mistake
from kerfline.model.job import Job


def check_job(job: Job) -> Outcome:
    """Holds the joints that a job's file or drawing gives against the job's rules.

    Raises:
        InputRefused: The job gives no joints.
    """
    if not job.slab.pinned:
        raise InputRefused(
            Mistake(
                what="there are no joints to check",
                where=job.name,
                remedy="give them as [[joint]] in the job file, or name their layers under [drawing] joints",
            )
        )
    return kept_outcome(job)
