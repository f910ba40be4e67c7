"""The legend: each line and mark with what it means."""

from dataclasses import replace

from kerfline.model.slab import Slab
from kerfline.sheets.details import Shown, detail_numbers
from kerfline.sheets.legend import AMENDED, legend
from kerfline.sheets.marks import Board, Layer, Text
from shapes import workshop_job, workshop_layout, workshop_slab
from views import texts


def entries(job=None, layout=None, **more):
    figure = legend(job or workshop_job(), layout or workshop_layout(), 2.5, 100.0, **more)
    board = Board()
    figure.draw(board, (0.0, 300.0), 100.0)
    return texts(board), figure, board


def test_it_names_what_the_plan_shows_and_nothing_else():
    said, _, _ = entries()
    for words in ("CTLJ  control (contraction) joint", "CNTJ  construction joint", "O  opening through the slab",
                  "W  interior wall", "K  no cut here", "J1, P1  joint and panel, see tables"):  # fmt: skip
        assert words in said
    assert any("re-entrant corner" in words for words in said)
    bare = replace(workshop_job(), slab=Slab(outline=workshop_slab().outline, thickness=100))
    few, _, _ = entries(bare, replace(workshop_layout(), joints=()), flags=False, tags=False)
    assert few == ["Legend", "slab edge (baselines: its outside face)"]


def test_an_amended_plan_tells_what_exists_from_what_is_added():
    said, _, _ = entries(layout=replace(workshop_layout(), added=frozenset({"J1"})))
    assert AMENDED[Layer.CONTROL_NEW] in said
    assert AMENDED[Layer.CONTROL_EXISTING] in said
    assert AMENDED[Layer.CONSTRUCTION_EXISTING] in said
    assert AMENDED[Layer.CONSTRUCTION_NEW] not in said
    assert "CTLJ  control (contraction) joint" not in said


def test_details_are_named_where_the_set_has_them():
    said, _, _ = entries(details=True)
    number = detail_numbers(workshop_job(), workshop_layout(), ())[Shown.CONTROL]
    assert f"CTLJ  control (contraction) joint: detail {number}" in said
    assert "number of a detail" in said


def test_a_keep_out_with_cover_says_that_some_depth_is_allowed():
    deep = replace(workshop_slab().keep_outs[0], cover=100.0)
    job = replace(workshop_job(), slab=replace(workshop_slab(), keep_outs=(deep,)))
    assert "K  no cut, or no deeper than the notes say" in entries(job)[0]


def test_lines_are_drawn_with_the_pens_of_the_plan_and_fit_the_height():
    said, figure, board = entries()
    assert {Layer.CONTROL, Layer.CONSTRUCTION, Layer.EDGE, Layer.WALL} <= {m.layer for m in board}
    lowest = min(t.at[1] for t in board if isinstance(t, Text))
    assert lowest >= 300.0 - figure.tall
    assert len(said) == len(set(said))
