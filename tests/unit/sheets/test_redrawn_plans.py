"""The plans of parts that are drawn again."""

import pytest
import shapely
from shapely import Polygon

from kerfline.model.job import SheetChoice
from kerfline.sheets.baselines import baselines
from kerfline.sheets.marks import Board, Fill, Path
from kerfline.sheets.paper import paper
from kerfline.sheets.redrawn import Redrawn
from kerfline.sheets.redrawn_plans import redrawn_plans
from shapes import workshop_job, workshop_layout
from views import texts

NEAR = Redrawn(id="L1", name="part 1 drawn larger", region=shapely.box(0, 0, 7315.2, 4876.8))
FAR = Redrawn(id="L2", name="part 2 drawn larger", region=shapely.box(7315.2, 0, 18288, 4876.8))
TURNED = Redrawn(id="W", name="wing turned 27 degrees", region=NEAR.region, turned=True)


def plans(*parts, before=1, **choice):
    job = workshop_job(sheet=SheetChoice(**choice))
    base = baselines(job.slab)
    size = paper("tabloid")
    return list(redrawn_plans(job, workshop_layout(), base, "Joint plan", parts, size, before))


def test_their_sheets_are_numbered_on_from_those_before():
    near, far = plans(NEAR, FAR, before=3)
    assert near.sheet == 4
    assert far.sheet == 4 + len(near.choice.sheets)
    assert near.choice.seats[0] == 3
    assert near.plans[0].title == "Joint plan, part 1 drawn larger"


def test_what_is_drawn_larger_takes_no_heed_of_the_scale_of_the_plan_and_is_measured_from_its_corner():
    (near,) = plans(NEAR, scale=240.0)
    assert near.choice.scale < 240.0
    assert near.plans[0].base == baselines(workshop_job().slab)
    assert near.plans[0].corner == ""


def test_a_turned_part_keeps_the_scale_that_was_asked_for_and_has_a_corner_of_its_own():
    (wing,) = plans(TURNED, scale=96.0)
    assert wing.choice.scale == 96.0
    assert wing.plans[0].corner == "AW"


def test_no_scale_is_smaller_than_the_one_that_left_no_room():
    (free,) = plans(NEAR)
    tight = Redrawn(id="L1", name="part", region=NEAR.region, finer=free.choice.scale / 2)
    (held,) = plans(tight)
    assert held.choice.scale <= free.choice.scale / 2
    assert len(held.plans) > 1


@pytest.mark.parametrize(
    ("part", "said"),
    [(NEAR, "drawn larger"), (TURNED, "Corner AW lies 0'-0\" right and 0'-0\" up from corner A")],
)
def test_beside_each_stands_where_it_lies_and_how_it_is_read(part, said):
    (plan,) = plans(part)
    board = Board()
    (blocks,) = plan.blocks
    for block in blocks:
        block.draw(board, (10.0, 250.0), 90.0)
    words = " ".join(texts(board)).replace("\u00a0", " ")
    assert said in words
    assert part.id in texts(board)


def test_the_key_plan_beside_each_sheet_of_one_tones_what_that_sheet_shows():
    """Part 2 takes several sheets at a fine scale: what they tone lies side by side and is all of it."""
    fine = Redrawn(id="L2", name="part 2 drawn larger", region=FAR.region, finer=24.0)
    (plan,) = plans(fine)
    assert len(plan.blocks) == len(plan.choice.sheets) > 1
    toned = []
    for key, _ in plan.blocks:
        board = Board()
        key.draw(board, (10.0, 250.0), 90.0)
        fills = [Polygon(m.rings[0]) for m in board.marks if isinstance(m, Fill)]
        toned.append(shapely.union_all(fills))
    whole = shapely.union_all(toned)
    assert sum(shape.area for shape in toned) == pytest.approx(whole.area)
    outline = max(
        (Polygon(m.points) for m in board.marks if isinstance(m, Path) and m.closed),
        key=lambda shape: shape.area,
    )
    share = FAR.region.area / workshop_job().slab.outline.polygon.area
    assert whole.area / outline.area == pytest.approx(share, rel=1e-3)


def test_only_what_lies_in_it_is_drawn_of_the_layout():
    (near,) = plans(NEAR)
    shown = near.plans[0].layout
    assert 0 < len(shown.panels) < len(workshop_layout().panels)
    inside = NEAR.region.buffer(10.0)
    assert all(inside.covers(j.line) for j in shown.joints)
