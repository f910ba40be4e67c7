"""The panel sheet: every panel with its number, and with its sizes where they find room in any way."""

from checked import grid_slab
from kerfline.checks.given import given_layout
from kerfline.model.job import Job, SheetChoice
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from kerfline.sheets.panel_sheet import panel_sheet
from kerfline.units import Unit
from sheet_checks import assert_clean

RULES = SlabRules(rule_set=load("floor"))


def test_sizes_stand_in_two_lines_where_one_is_too_long():
    """Bays of 8'-6 13/16" x 7'-10 5/16" are 27 mm wide at 1/8 in = 1 ft, too narrow for both sizes in a row."""
    slab = grid_slab(4, 3, bay=8 + 6.8125 / 12, aside=7 + 10.3125 / 12)
    job = Job(name="Bays", units=Unit.FT, slab=slab, sheet=SheetChoice(size="tabloid", scale=96))
    layout = given_layout(slab)
    sheets = panel_sheet(job, layout, (), RULES)
    assert_clean(sheets)
    texts = [t.text for t in sheets[0].texts if t.in_plan]
    assert texts.count("8'-6 7/8\" x") == len(layout.panels) == 12
    assert texts.count("7'-10 3/8\"") == 12
