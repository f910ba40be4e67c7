"""Dowels, bars at corners and tees, and tie bars as rows; and what is asked where they cannot be told."""

import pytest
from shapely import LineString

from kerfline.geometry.ring import Ring
from kerfline.model.bars import BarPlace, Bars
from kerfline.model.day import Ledger, SteelChoice
from kerfline.model.slab import Edge, EdgeKind, JointKind, Slab
from kerfline.quantities.dowels import doweled
from kerfline.quantities.steel_rows import steel_rows
from kerfline.units import MPA_PER_PSI, Display
from shapes import feet, workshop_layout

INCH, FOOT = 25.4, 304.8
FLOOR = Slab(outline=Ring(feet((0, 0), (60, 0), (60, 40), (0, 40))), thickness=4 * INCH)
STRESSES = {"steel_stress": 30_000 * MPA_PER_PSI, "bond": 350 * MPA_PER_PSI, "friction": 1.5}


def told(steel, slab=FLOOR, construction=(), bars=(), display=Display.FEET_INCHES):
    ledger = Ledger()
    rows = steel_rows(slab, construction, bars, steel, display, ledger)
    return {r.item: r for r in rows}, ledger


def formed(table, inches=4.0):
    layout = doweled(workshop_layout(), inches * INCH, table)
    return [j for j in layout.joints if j.kind is JointKind.CONSTRUCTION]


def at(*places):
    line = LineString([(0, 0), (0, 900)])
    return [Bars(place=p, at=(0, 0), into=(1, 0), lines=(line,)) for p in places]


def test_dowels_are_counted_and_weighed():
    """24 of 3/4 in, 16 in long: 24 x 1.502 lb/ft x 4/3 ft are 48.1 lb (ASTM A615, No. 6)."""
    rows, ledger = told(SteelChoice(dowels="ufc-3-260-02"), construction=formed("ufc-3-260-02"))
    assert rows["dowels"].amount == 24
    assert rows["dowels, weight"].amount == pytest.approx(48.1, abs=0.1)
    assert '3/4" round, 16" long, at 12"' in rows["dowels"].note
    assert ledger.questions == []


@pytest.mark.parametrize(("inches", "said"), [(4.0, True), (5.9, True), (6.0, False), (7.0, False)])
def test_a_slab_thinner_than_the_tables_first_row_has_its_dowels_with_a_word(inches, said):
    slab = Slab(outline=FLOOR.outline, thickness=inches * INCH)
    rows, _ = told(
        SteelChoice(dowels="ufc-3-260-02"), slab=slab, construction=formed("ufc-3-260-02", inches)
    )
    assert ("this slab is thinner" in rows["dowels"].note) is said


def test_a_choice_of_diameters_is_shown_as_one():
    """UFC 3-260-02 (2001), Table 12-8: 1 to 1 1/4 in from 12 to 15.5 in of thickness."""
    slab = Slab(outline=FLOOR.outline, thickness=14 * INCH)
    steel = SteelChoice(dowels="ufc-3-260-02")
    rows, _ = told(steel, slab=slab, construction=formed("ufc-3-260-02", 14.0))
    assert '1" to 1 1/4" round' in rows["dowels"].note


def test_where_no_table_is_chosen_or_none_serves_it_is_asked():
    _, ledger = told(SteelChoice(), construction=formed(""))
    assert ledger.questions[0].endswith("one of ufc-3-260-02, floor-eighth, aci-302-1996.")
    rows, ledger = told(SteelChoice(dowels="floor-eighth"), construction=formed("floor-eighth"))
    assert rows == {}
    assert ledger.questions[0].endswith('names no dowel for 4": ask the engineer.')


def test_without_construction_joints_there_is_nothing_to_ask():
    rows, ledger = told(SteelChoice())
    assert (rows, ledger.questions, ledger.assumptions) == ({}, [], [])


def test_bars_at_corners_and_tees_are_counted_by_place():
    """3 corners of 2 and 2 tees of 3: 12 bars of 3 ft at 0.668 lb/ft are 24.0 lb (ASTM A615, No. 4)."""
    places = [BarPlace.CORNER] * 3 + [BarPlace.TEE] * 2
    rows, ledger = told(SteelChoice(), bars=at(*places))
    assert (rows["corner bars"].amount, rows["tee bars"].amount) == (6, 6)
    assert rows["corner and tee bars, weight"].amount == pytest.approx(24.0, abs=0.1)
    assert len(ledger.assumptions) == 4


def test_only_the_habits_that_are_used_are_noted():
    rows, ledger = told(SteelChoice(bar=5, bar_length=600.0), bars=at(BarPlace.TEE))
    assert "corner bars" not in rows
    assert [a.text for a in ledger.assumptions] == ["bars at a tee end (day.steel.tee_bars)"]
    assert rows["tee bars"].note.endswith('No. 5, 23 5/8" long')


def test_no_bars_at_a_place_are_no_row():
    rows, _ = told(SteelChoice(corner_bars=0), bars=at(BarPlace.CORNER))
    assert rows == {}


def continuous(*segments, thickness=4 * INCH, outline=FLOOR.outline):
    edges = tuple(Edge(ring=0, segment=s, kind=EdgeKind.CONTINUOUS) for s in segments)
    return Slab(outline=outline, thickness=thickness, edges=edges)


@pytest.mark.parametrize(
    ("segment", "spacing", "count"), [(0, 23, 31), (1, 15, 32), (2, 23, 31), (3, 15, 32)]
)
def test_tie_bars_hold_what_hangs_behind_their_edge(segment, spacing, count):
    """By hand: 60 ft x 50 lb/ft2 x 1.5 / 30 000 psi is 0.15 in2/ft, No. 4 (0.196 in2) at 15 in, 32 in 40 ft;
    40 ft behind the long sides 0.1 in2/ft, 23 in, 31 in 60 ft."""
    rows, _ = told(SteelChoice(bar=4, **STRESSES), slab=continuous(segment))
    assert rows["tie bars"].amount == count
    assert f'at {spacing}"' in rows["tie bars"].note
    assert '1/2", 21 7/16" long' in rows["tie bars"].note


def test_edges_that_hold_as_much_are_one_row():
    ledger = Ledger()
    slab = continuous(0, 1, 2)
    steel = SteelChoice(bar=4, **STRESSES)
    rows = steel_rows(slab, (), (), steel, Display.FEET_INCHES, ledger)
    assert [r.amount for r in rows] == [62, 32]


def test_a_turned_edge_holds_as_much_as_a_level_one():
    """A square of 40 ft on its corner: 23 in as behind the long side above, 21 bars in 40 ft."""
    half = 20 * 2**0.5
    diamond = Ring(feet((0, -half), (half, 0), (0, half), (-half, 0)))
    for segment in range(4):
        rows, _ = told(SteelChoice(bar=4, **STRESSES), slab=continuous(segment, outline=diamond))
        assert rows["tie bars"].amount == 21
        assert 'at 23"' in rows["tie bars"].note


def test_tie_bars_come_no_wider_than_30_inches():
    """TM 5-822-5, the tied centre joint; 10 ft behind the edge would do with 94 in."""
    strip = Ring(feet((0, 0), (60, 0), (60, 10), (0, 10)))
    rows, _ = told(SteelChoice(bar=4, **STRESSES), slab=continuous(0, outline=strip))
    assert 'at 30"' in rows["tie bars"].note


@pytest.mark.parametrize("missing", ["steel_stress", "bond"])
def test_tie_bars_need_both_stresses(missing):
    rows, ledger = told(SteelChoice(**{**STRESSES, missing: None}), slab=continuous(0))
    assert rows == {}
    assert ledger.questions[0].startswith("Tie bars at the continuous edges need ")


def test_tie_bars_closer_than_an_inch_are_the_engineers():
    weak = SteelChoice(**{**STRESSES, "steel_stress": 1.0})
    rows, ledger = told(weak, slab=continuous(0))
    assert rows == {}
    assert "closer than an inch" in ledger.questions[0]
