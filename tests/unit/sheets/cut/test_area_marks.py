"""How an area is told from the rest of the slab."""

from dataclasses import replace

import shapely

from kerfline.geometry.ring import Ring
from kerfline.model.slab import JointKind, Slab
from kerfline.sheets.cut.area_marks import name_formed, name_others
from kerfline.sheets.cut.areas import named_area
from kerfline.sheets.key_plan import Piece
from kerfline.sheets.marks import Board, Layer
from shapes import workshop_layout
from views import maker_on, texts


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
