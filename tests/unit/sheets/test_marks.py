"""Marks on paper, as every writer gets them."""

from dataclasses import replace

from kerfline.sheets.marks import PENS, Anchor, Board, Fill, Layer, Measure, Path, Sheet, Text
from kerfline.sheets.paper import paper
from views import view


def test_every_layer_has_a_pen_of_the_series_that_prints_black():
    """ISO 128-20: line widths run 0.13, 0.18, 0.25, 0.35, 0.5, 0.7, 1.0 mm (series from memory)."""
    assert set(PENS) == set(Layer)
    for pen in PENS.values():
        assert pen.width in (0.13, 0.18, 0.25, 0.35, 0.5, 0.7, 1.0)
        assert max(pen.colour) < 170
        assert len(pen.dash) % 2 == 0


def test_a_board_draws_lines_boxes_circles_and_texts():
    board = Board()
    board.line(Layer.EDGE, (0, 0), (1, 1), ref="J1")
    board.box(Layer.EDGE, (0, 0, 2, 1))
    board.circle(Layer.EDGE, (5, 5), 2.0)
    board.text(Layer.TAG, (1, 2), "J1", 2.5, anchor=Anchor.END, turn=90.0)
    board.text(Layer.TAG, (1, 2), "", 2.5)
    line, box, ring, text = board
    assert (line.points, line.closed, line.ref) == (((0, 0), (1, 1)), False, "J1")
    assert (box.points, box.closed) == (((0, 0), (2, 0), (2, 1), (0, 1)), True)
    assert (ring.points, ring.bulges) == (((3, 5), (7, 5)), (1.0, 1.0))
    assert (text.anchor, text.turn) == (Anchor.END, 90.0)


def test_a_board_takes_what_stands_on_another_its_measures_too():
    text = Text(layer=Layer.DIMENSION, at=(0, 0), text="1", height=2.5)
    measure = Measure(
        start=(0, 0), end=(1, 0), line=(1, 2), text=text, running=False, upright=False
    )
    one, other = Board([text]), Board([text], [measure])
    one.take(other)
    assert (len(one.marks), one.measures) == (2, [measure])


def test_a_text_elsewhere_keeps_what_is_not_said():
    text = Text(
        layer=Layer.TAG, at=(0, 0), text="J1", height=2.5, turn=30.0, ref="J1", in_plan=True
    )
    assert text.moved((4, 5)) == replace(text, at=(4, 5))
    assert text.moved((4, 5), turn=0.0, anchor=Anchor.END) == replace(
        text, at=(4, 5), turn=0.0, anchor=Anchor.END
    )


def sheet(views):
    marks = (
        Text(layer=Layer.TAG, at=(10, 10), text="low", height=2.5),
        Path(layer=Layer.EDGE, points=((10, 200), (90, 200))),
        Fill(layer=Layer.EDGE, rings=(((300, 10), (310, 10), (310, 20)),)),
    )
    return Sheet(
        name="plan", title="Plan", number=1, count=1, paper=paper("a3"), marks=marks, views=views
    )


def test_a_view_has_the_marks_that_stand_in_its_room_and_a_single_one_all():
    low, high = view(window=(0, 0, 200, 100)), view(window=(0, 100, 200, 300))
    two = sheet((low, high))
    assert [type(m) for m in two.marks_of(low)] == [Text]
    assert [type(m) for m in two.marks_of(high)] == [Path]
    assert sheet((low,)).marks_of(low) == two.marks
    assert two.view is low
    assert sheet(()).view is None
    assert [t.text for t in two.texts] == ["low"]
