"""The paths and texts of a page, each path with the pen that it is drawn with."""

import math

import pytest
from reportlab.lib.units import mm
from reportlab.pdfgen.canvas import Canvas

from kerfline.files.plan_pdf import page_objects
from kerfline.files.plan_pdf.page_objects import (
    PLAIN,
    WIDE,
    Content,
    TooMuch,
    content_of,
    moved,
    times,
)
from kerfline.files.plan_pdf.pdf_file import opened_page

MOVE, QUARTER = (1.0, 0.0, 0.0, 1.0, 10.0, 20.0), (0.0, 1.0, -1.0, 0.0, 0.0, 0.0)


def page(tmp_path, draw) -> Content:
    """What is read of a page of 200 by 100 mm."""
    canvas = Canvas(str(tmp_path / "a.pdf"), pagesize=(200 * mm, 100 * mm))
    draw(canvas)
    canvas.save()
    with opened_page(tmp_path / "a.pdf", 1) as opened:
        return content_of(opened)


def test_a_matrix_moves_turns_and_they_follow_one_another():
    assert moved(PLAIN, 3, 4) == (3, 4)
    assert moved(MOVE, 3, 4) == (13, 24)
    assert moved(QUARTER, 3, 4) == (-4, 3)
    assert moved(times(MOVE, QUARTER), 3, 4) == moved(QUARTER, 13, 24) == (-24, 13)
    assert moved(times(QUARTER, MOVE), 3, 4) == (6, 23)


def test_a_line_has_its_place_and_pen(tmp_path):
    def draw(canvas):
        canvas.setLineWidth(0.5 * mm)
        canvas.line(10 * mm, 20 * mm, 60 * mm, 20 * mm)

    (line,) = page(tmp_path, draw).paths
    assert line.path.points == (
        pytest.approx((10, 20), abs=0.01),
        pytest.approx((60, 20), abs=0.01),
    )
    assert (line.layer, line.width, line.filled) == ("0.50 mm black", 0.0, False)


@pytest.mark.parametrize(("width", "wide"), [(WIDE - 0.02, False), (WIDE + 0.01, True)])
def test_a_pen_as_wide_as_a_wall_keeps_its_width(tmp_path, width, wide):
    def draw(canvas):
        canvas.setLineWidth(width * mm)
        canvas.line(10 * mm, 20 * mm, 60 * mm, 20 * mm)

    (line,) = page(tmp_path, draw).paths
    assert line.width == (pytest.approx(width, abs=0.001) if wide else 0.0)


def test_colour_and_dashes_are_part_of_the_pen(tmp_path):
    def draw(canvas):
        canvas.setStrokeColorRGB(1, 0, 0)
        canvas.setDash(3, 2)
        canvas.setLineWidth(0.25 * mm)
        canvas.line(10 * mm, 20 * mm, 60 * mm, 20 * mm)

    assert page(tmp_path, draw).paths[0].layer == "0.25 mm #ff0000 dashed"


def test_a_filled_area_without_an_edge_is_told_from_a_drawn_one(tmp_path):
    def draw(canvas):
        canvas.setFillColorRGB(0, 0, 1)
        canvas.rect(10 * mm, 10 * mm, 50 * mm, 30 * mm, stroke=0, fill=1)
        canvas.rect(80 * mm, 10 * mm, 50 * mm, 30 * mm, stroke=1, fill=0)

    fill, edge = page(tmp_path, draw).paths
    assert (fill.filled, fill.layer) == (True, "filled #0000ff")
    assert not edge.filled
    assert edge.path.closed
    assert edge.path.ring().polygon.area == pytest.approx(1500, rel=1e-3)


def test_a_circle_is_arcs(tmp_path):
    (circle,) = page(tmp_path, lambda c: c.circle(50 * mm, 50 * mm, 20 * mm)).paths
    assert circle.path.has_arcs
    assert circle.path.ring().polygon.area == pytest.approx(math.pi * 400, rel=2e-3)


def test_what_lies_outside_the_page_is_counted(tmp_path):
    content = page(tmp_path, lambda c: c.line(300 * mm, 20 * mm, 310 * mm, 20 * mm))
    assert (content.paths, content.outside) == ([], 1)


def test_a_text_stands_at_its_middle_and_along_its_line(tmp_path):
    def draw(canvas):
        canvas.setFont("Helvetica", 12)
        canvas.translate(100 * mm, 50 * mm)
        canvas.rotate(90)
        canvas.drawCentredString(0, 0, "12'-0\"")

    (text,) = page(tmp_path, draw).texts
    assert text.text == "12'-0\""
    assert text.turn == pytest.approx(90, abs=0.1)
    assert text.at[1] == pytest.approx(50, abs=1.0)
    assert text.height == pytest.approx(12 * 25.4 / 72, rel=0.01)


def test_a_long_text_is_cut(tmp_path, monkeypatch):
    monkeypatch.setattr(page_objects, "MOST_TEXT", 4)
    assert page(tmp_path, lambda c: c.drawString(9, 9, "ABCDEF")).texts[0].text == "ABCD"


def test_forms_are_taken_apart(tmp_path):
    def draw(canvas):
        canvas.beginForm("door")
        canvas.line(0, 0, 10 * mm, 0)
        canvas.endForm()
        canvas.translate(50 * mm, 40 * mm)
        canvas.doForm("door")

    (line,) = page(tmp_path, draw).paths
    assert line.path.points[0] == pytest.approx((50, 40), abs=0.01)


def test_a_page_that_draws_too_much_is_told(tmp_path, monkeypatch):
    def draw(canvas):
        for y in (10, 20, 40):
            canvas.line(10 * mm, y * mm, 60 * mm, y * mm)

    monkeypatch.setattr(page_objects, "MOST_PATHS", 3)
    assert len(page(tmp_path, draw).paths) == 3
    monkeypatch.setattr(page_objects, "MOST_PATHS", 2)
    with pytest.raises(TooMuch):
        page(tmp_path, draw)
    monkeypatch.setattr(page_objects, "MOST_PATHS", 3)
    monkeypatch.setattr(page_objects, "MOST_POINTS", 5)
    with pytest.raises(TooMuch):
        page(tmp_path, draw)
