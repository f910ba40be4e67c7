"""Holds a layout that somebody else made against the rules."""

from kerfline.app.outcome import Outcome
from kerfline.app.rules_of import rules_of
from kerfline.checks.check import check
from kerfline.checks.given import given_layout
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
    rules = rules_of(job)
    layout = given_layout(job.slab)
    findings = check(job.slab, layout, rules, job.display)
    return Outcome(job=job, rules=rules, layout=layout, findings=findings)
