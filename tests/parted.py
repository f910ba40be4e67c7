"""The workshop placed in three, and its day."""

from kerfline.app.day import plan_day
from kerfline.app.outcome import Outcome
from kerfline.app.placements import placed_layout
from kerfline.model.day import DayInput, PourChoice, Side
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from kerfline.sheets.day.day_plan import DayPlan
from kerfline.units import MM3_PER_YD3
from shapes import workshop_job, workshop_layout

RULES = SlabRules(rule_set=load("floor"))
DAY = DayInput(pours=PourChoice(volume=14 * MM3_PER_YD3, access=(Side.BOTTOM,)))


def parted_outcome() -> Outcome:
    job = workshop_job()
    layout = placed_layout(job.slab, workshop_layout(), DAY, job.display)
    return Outcome(job=job, layout=layout, findings=(), rules=RULES)


def parted_day(outcome: Outcome) -> DayPlan:
    return plan_day(outcome.job.slab, outcome.layout, RULES, DAY, outcome.job.display)
