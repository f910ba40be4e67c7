"""The rules that a job chose."""

from kerfline.errors import InputRefused, Mistake
from kerfline.model.job import Job
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from kerfline.units import format_length

SHORTEST_SPAN = 300.0
"""Nobody cuts a floor into panels smaller than this (mm): less is a slip in the user's own rules."""


def rules_of(job: Job) -> SlabRules:
    """Loads the job's rule set with the user's changes.

    Raises:
        InputRefused: There is no such rule set, a change names no figure of it, or the changes leave no
            span that a floor can have.
    """
    rules = SlabRules(
        rule_set=load(job.rules.name, job.rules.overrides, unit=job.units),
        mix=job.mix,
        cut=job.cut,
        to_maximum=job.rules.to_maximum,
    )
    _hold_span(job, rules)
    return rules


def _hold_span(job: Job, rules: SlabRules) -> None:
    slab = job.slab
    thinnest = min([slab.thickness, *(zone.thickness for zone in slab.zones)])
    span = rules.working(thinnest).span
    if span < SHORTEST_SPAN:
        raise InputRefused(
            Mistake(
                what="the rules allow no span that a floor can have",
                where="rules",
                found=f"{format_length(span, job.display)} at the thinnest concrete",
                allowed=f"{format_length(SHORTEST_SPAN, job.display)} or more",
                remedy="correct the changes under [rules.overrides]",
            )
        )
