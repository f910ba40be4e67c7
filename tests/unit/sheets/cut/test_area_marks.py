"""How an area is told from the rest of the slab."""

from dataclasses import replace

import pytest
import shapely

from kerfline.app.day import plan_day
from kerfline.app.placements import placed_layout
from kerfline.geometry.ring import Ring
from kerfline.model.day import DayInput, PourChoice, SawChoice, Side, SteelChoice
from kerfline.model.slab import JointKind, Slab
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from kerfline.sheets.cut.area_marks import name_formed, name_others
from kerfline.sheets.cut.areas import named_area, pour_areas
from kerfline.sheets.cut.lines import Saw
from kerfline.sheets.cut.sheet import cut_sheet
from kerfline.sheets.key_plan import Piece
from kerfline.sheets.marks import Board, Layer
from kerfline.units import MM3_PER_YD3, MM_PER_INCH, Display
from shapes import workshop_job, workshop_layout
from views import maker_on, texts

RULES = SlabRules(rule_set=load("floor"))


@pytest.fixture(scope="module")
def sheets():
    return cut_sheet(workshop_job(), workshop_layout(), RULES)


DAY = DayInput(
    pours=PourChoice(volume=14 * MM3_PER_YD3, access=(Side.BOTTOM,)),
    saws=SawChoice(blade=10 * MM_PER_INCH),
    steel=SteelChoice(dowels="ufc-3-260-02"),
)


def parted():
    return placed_layout(workshop_job().slab, workshop_layout(), DAY, workshop_job().display)


@pytest.fixture(scope="module")
def plan():
    job = workshop_job()
    return plan_day(job.slab, parted(), RULES, DAY, job.display)


@pytest.fixture(scope="module")
def areas(plan):
    return pour_areas(plan)


@pytest.fixture(scope="module")
def sets(areas, plan):
    saw = Saw.planned(plan.placement.method, DAY.saws, Display.FEET_INCHES)
    return [cut_sheet(workshop_job(), parted(), RULES, saw=saw, area=a) for a in areas]


def test_the_key_plan_tones_this_placement_and_numbers_all(areas, sets):
    for sheets in sets:
        assert any(t.text == "Key plan" for t in sheets[0].texts)
        numbers = [t.text for t in sheets[0].texts if t.layer is Layer.SYMBOL]
        assert {area.id for area in areas} <= set(numbers)


def parts_of(area):
    other = shapely.box(5000, 0, 9000, 4000)
    return replace(area, pieces=(*area.pieces, Piece(id="2", region=other)))


AREA = named_area("1", "west", shapely.box(0, 0, 5000, 4000), ())
SLAB = Slab(outline=Ring(((0, 0), (9000, 0), (9000, 4000), (0, 4000))), thickness=100)


def test_a_placement_beside_the_shown_one_is_named_where_there_is_room():
    board = Board()
    name_others(maker_on(board, scale=50), parts_of(AREA))
    assert texts(board) == ["placement 2: not on this sheet"]
    small = Board()
    name_others(maker_on(small, scale=500), parts_of(AREA))
    assert texts(small) == []


def test_the_joint_along_the_edge_is_named():
    joint = replace(
        workshop_layout().joints[0],
        id="CNTJ1",
        kind=JointKind.CONSTRUCTION,
        path=((5000, 0), (5000, 4000)),
    )
    board = Board()
    name_formed(maker_on(board), replace(AREA, formed=(joint, replace(joint, id="J9"))))
    assert texts(board)[0] == "CNTJ1"
    assert "J9 CNTJ" in texts(board)
