"""Joint opening, drag steel and stiffness as rows, and what is asked where they cannot be told."""

import pytest

from kerfline.geometry.ring import Ring
from kerfline.model.day import Ledger, SteelChoice
from kerfline.model.layout import Layout, Reason, Solution, Status
from kerfline.model.slab import JointKind, Slab
from kerfline.quantities.movement_rows import movement_rows
from kerfline.units import Display
from shapes import layout_of

SLAB = Slab(outline=Ring(((0, 0), (10_000, 0), (10_000, 4000), (0, 4000))), thickness=100.0)
LAYOUT = layout_of(SLAB, [(JointKind.CONTROL, Reason.SPAN, ((6000, 0), (6000, 4000)))])
"""Two panels, the longer one 6 m."""

MOVING = SteelChoice(restraint=0.8, expansion=10e-6, temperature_drop=30.0, shrinkage=300e-6)


def rows(steel, display=Display.METRIC, layout=LAYOUT, ledger=None):
    ledger = ledger or Ledger(display=display)
    return {r.item: r for r in movement_rows(SLAB, layout, steel, display, ledger)}


def test_the_longest_panel_opens_most():
    """0.8 x 6000 x (10e-6 x 30 + 300e-6) = 2.88 mm; its seal 2.88 / 0.35 = 8.23 mm."""
    found = rows(MOVING)
    assert found["opening of a joint"].shown == "2.9 mm"
    assert found["opening of a joint"].amount == pytest.approx(2.88)
    assert found["compression seal, least width"].amount == pytest.approx(8.2286, abs=1e-4)


def test_on_a_job_in_feet_it_is_told_in_thousandths_of_an_inch():
    assert rows(MOVING, Display.FEET_INCHES)["opening of a joint"].shown == "0.113 in"


@pytest.mark.parametrize(
    "steel",
    [
        SteelChoice(),
        SteelChoice(temperature_drop=30.0),
        SteelChoice(shrinkage=3e-4),
        SteelChoice(tensile=3.0),
    ],
)
def test_without_the_drop_or_the_shrinkage_it_is_asked_and_not_made_up(steel):
    ledger = Ledger()
    assert rows(steel, ledger=ledger) == {}
    (asked,) = ledger.questions
    assert "day.steel.temperature_drop" in asked


def test_shrinkage_by_the_strength_is_noted_and_what_is_given_comes_first():
    """400 psi, 2.758 N/mm2: 0.0006 by FHWA T 5040.30 (1990), Table 2."""
    strong = SteelChoice(restraint=1.0, expansion=0.0, temperature_drop=0.0, tensile=2.757903)
    ledger = Ledger()
    assert rows(strong, ledger=ledger)["opening of a joint"].amount == pytest.approx(3.6, rel=1e-5)
    assert [a.value for a in ledger.assumptions] == ["0.00060"]
    both = SteelChoice(
        restraint=1.0, expansion=0.0, temperature_drop=0.0, tensile=2.757903, shrinkage=1e-4
    )
    assert rows(both)["opening of a joint"].amount == pytest.approx(0.6)


def test_restraint_and_expansion_are_habits_that_are_noted():
    ledger = Ledger()
    rows(SteelChoice(temperature_drop=30.0, shrinkage=3e-4), ledger=ledger)
    assert {a.text.split(" (")[1] for a in ledger.assumptions} == {
        "day.steel.restraint)",
        "day.steel.expansion)",
    }


def test_a_plain_slab_has_no_drag_steel():
    assert "drag steel" not in rows(MOVING)


def test_drag_steel_by_hand():
    """150 lb/ft3 are 2.3563e-5 N/mm3: 1.5 x 6000 x 100 x 2.3563e-5 / (2 x 200) = 0.05302 mm2/mm."""
    found = rows(SteelChoice(steel_stress=200.0, friction=1.5))["drag steel"]
    assert (found.amount, found.unit) == (pytest.approx(53.02, abs=0.01), "mm2/m")
    assert found.note.endswith("0.053% of the section")
    feet = rows(SteelChoice(steel_stress=200.0, friction=1.5), Display.FEET_INCHES)["drag steel"]
    assert (feet.amount, feet.unit) == (pytest.approx(0.05302 * 304.8 / 645.16, rel=1e-3), "in2/ft")


@pytest.mark.parametrize("steel", [SteelChoice(modulus=3e4), SteelChoice(subgrade=0.05)])
def test_stiffness_needs_modulus_and_ground(steel):
    assert "radius of relative stiffness" not in rows(steel)


def test_stiffness_by_hand():
    """(3e4 x 1e6 / (12 x 0.9775 x 0.05)) ** 0.25 = 475.6 mm; 6 m are 12.6 times that."""
    steel = SteelChoice(modulus=3e4, subgrade=0.05)
    found = rows(steel)["radius of relative stiffness"]
    assert found.amount == pytest.approx((3e10 / (12 * 0.9775 * 0.05)) ** 0.25)
    assert found.note == f"longest panel is {6000 / found.amount:.1f} times that"
    feet = rows(steel, Display.FEET_INCHES)["radius of relative stiffness"]
    assert (feet.amount, feet.unit) == (pytest.approx(found.amount / 25.4), "in")


def test_a_layout_without_panels_has_no_movement():
    empty = Layout(joints=(), panels=(), solution=Solution(status=Status.GIVEN))
    ledger = Ledger()
    assert rows(MOVING, layout=empty, ledger=ledger) == {}
    assert ledger.questions == []
