"""The workshop's cuts where its floor is placed in parts."""

from kerfline.app.placements import placed_layout
from kerfline.model.day import DayInput, PourChoice, SawChoice, Side, SteelChoice
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from kerfline.units import MM3_PER_YD3, MM_PER_INCH
from shapes import workshop_job, workshop_layout

RULES = SlabRules(rule_set=load("floor"))
DAY = DayInput(
    pours=PourChoice(volume=14 * MM3_PER_YD3, access=(Side.BOTTOM,)),
    saws=SawChoice(blade=10 * MM_PER_INCH),
    steel=SteelChoice(dowels="ufc-3-260-02"),
)


def parted():
    """Its layout with the construction joints between the placements."""
    return placed_layout(workshop_job().slab, workshop_layout(), DAY, workshop_job().display)


def words_of(sheets):
    """All that stands on sheets."""
    return " ".join(t.text for s in sheets for t in s.texts).replace("\u00a0", " ")
