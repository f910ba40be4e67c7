"""The rules that a job chose."""

from kerfline.model.job import Job
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules


def rules_of(job: Job) -> SlabRules:
    """Loads the job's rule set with the user's changes.

    Raises:
        InputRefused: There is no such rule set, or a change names no figure of it.
    """
    return SlabRules(
        rule_set=load(job.rules.name, job.rules.overrides, unit=job.units),
        mix=job.mix,
        cut=job.cut,
        to_maximum=job.rules.to_maximum,
    )
