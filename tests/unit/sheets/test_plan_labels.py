"""Tags on the plan."""

import math
from dataclasses import replace

import pytest
import shapely

from kerfline.model.finding import Finding, Rule, Severity
from kerfline.model.slab import JointKind
from kerfline.rules.cover import SPARE_COVER
from kerfline.sheets.marks import Board, Layer, Path, Text
from kerfline.sheets.plan_labels import (
    NO_CUT,
    belongs,
    by_place,
    cut_allowed,
    hard_lines,
    keep_out_words,
    label_areas,
    label_features,
    label_findings,
    label_joints,
    label_panels,
    path_line,
)
from kerfline.units import Display
from shapes import workshop_layout, workshop_slab
from views import maker_on, texts, view

FT = 304.8
CONTROL = workshop_layout().joints[0]


def joint(name, *path, kind=JointKind.CONTROL):
    return replace(CONTROL, id=name, path=path, kind=kind)


def finding(at):
    return Finding(
        rule=Rule.SPAN, severity=Severity.ERROR, at=at, subject="P1", measured=None, limit=None, message="m",
        source="s", remedy="r",
    )  # fmt: skip


def test_a_long_joint_shows_its_code_and_a_short_one_its_name_alone():
    board = Board()
    label_joints(
        maker_on(board), [joint("J1", (0, 0), (9000, 0)), joint("J2", (0, 5000), (1500, 5000))]
    )
    assert texts(board) == ["J1 CTLJ", "J2"]


def test_a_construction_joint_that_is_called_by_its_code_says_it_once():
    board = Board()
    label_joints(maker_on(board), [joint("CNTJ1", (0, 0), (9000, 0), kind=JointKind.CONSTRUCTION)])
    assert texts(board) == ["CNTJ1"]


def test_a_piece_under_three_millimetres_has_no_tag():
    board = Board()
    label_joints(
        maker_on(board), [joint("J1", (0, 0), (290, 0)), joint("J2", (0, 2000), (310, 2000))]
    )
    assert texts(board) == ["J2"]


def test_what_finds_no_room_is_remembered():
    maker = maker_on(Board(), frame=(0.0, 0.0, 1.0, 1.0))
    label_joints(maker, [joint("J1", (0, 0), (9000, 0))])
    assert maker.left_out.tags == ["J1"]
    assert texts(maker.board) == []


def test_every_panel_is_numbered_inside_itself_where_it_is_large_enough():
    board = Board()
    layout = workshop_layout()
    label_panels(maker_on(board), layout)
    assert sorted(texts(board)) == sorted(p.id for p in layout.panels)
    by_name = {p.id: view().shape(p.polygon) for p in layout.panels}
    for text in board:
        if isinstance(text, Text):
            assert by_name[text.text].buffer(40).covers(shapely.Point(text.at))


def test_a_panel_on_a_border_is_named_on_one_sheet_alone():
    panel = shapely.box(0, 0, 2000, 2000)
    left, right = view(window=(0, 0, 60, 300)), view(window=(60, 0, 400, 300))
    assert belongs(left, shapely.box(0, 0, 1999, 2000))
    assert not belongs(left, panel), "its heart lies on the border: it is the right one's"
    assert belongs(right, panel)


def test_features_and_areas_have_their_names():
    board = Board()
    maker = maker_on(board)
    label_features(maker, workshop_slab())
    label_areas(maker, workshop_slab())
    said = texts(board)
    for words in ("C1", "C2", "C3", "N1 drain", "opening 1", "W1", "W2", "W3"):
        assert words in said
    assert "K1 no cut: tubing" in said


@pytest.mark.parametrize(
    ("cover", "words"),
    [
        (None, NO_CUT),
        (SPARE_COVER, NO_CUT),
        (SPARE_COVER + 25.4, 'cut no deeper than 1"'),
        (SPARE_COVER + 25.4 - 0.1, 'cut no deeper than 7/8"'),
    ],
)
def test_a_saw_goes_no_deeper_than_the_cover_allows_rounded_down(cover, words):
    keep_out = replace(workshop_slab().keep_outs[0], cover=cover)
    assert cut_allowed(keep_out, Display.FEET_INCHES) == words
    slab = replace(workshop_slab(), keep_outs=(keep_out,))
    told = keep_out_words(slab, Display.FEET_INCHES)
    assert told == ([] if words == NO_CUT else [f"K1, tubing: {words}."])


@pytest.mark.parametrize(("apart", "places"), [(290, 1), (310, 2)])
def test_findings_in_one_place_share_a_number(apart, places):
    found = by_place([finding((0, 0)), finding((apart, 0)), finding((1e6, 0))], view())
    assert [numbers for _, numbers in found] == ([[1, 2]] if places == 1 else [[1], [2]])
    board = Board()
    label_findings(maker_on(board), [finding((0, 0)), finding((apart, 0))])
    assert texts(board) == (["F1 F2"] if places == 1 else ["F1", "F2"])


def test_labels_cross_everything_but_hatching():
    marks = [
        Path(layer=Layer.EDGE, points=((0, 0), (9, 0))), Path(layer=Layer.HATCH, points=((0, 1), (9, 1))),
        Path(layer=Layer.KEEP_OUT, points=((0, 2), (9, 2))), Text(layer=Layer.TAG, at=(0, 0), text="x", height=2),
    ]  # fmt: skip
    assert [line.coords[0] for line in hard_lines(marks)] == [(0, 0)]


def test_a_path_with_an_arc_is_a_line_with_a_bow():
    half = path_line(Path(layer=Layer.EDGE, points=((0, 0), (10, 0)), bulges=(1.0,)))
    assert half.length == pytest.approx(math.pi * 5, rel=1e-2)
    ring = path_line(
        Path(layer=Layer.EDGE, points=((0, 0), (10, 0)), bulges=(1.0, 1.0), closed=True)
    )
    assert ring.is_closed
    assert ring.length == pytest.approx(math.pi * 10, rel=1e-2)
