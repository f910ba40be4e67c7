"""A page is read in a process of its own, and comes out of it whole."""

import pytest
from reportlab.lib.units import mm
from reportlab.pdfgen.canvas import Canvas

from kerfline.errors import InputRefused
from kerfline.files.apart import Overrun
from kerfline.files.plan_pdf import page_content as module
from kerfline.files.plan_pdf.page_content import page_content
from kerfline.files.plan_pdf.page_objects import content_of
from kerfline.files.plan_pdf.pdf_file import opened_page


@pytest.fixture
def plan(tmp_path):
    path = tmp_path / "plan.pdf"
    canvas = Canvas(str(path), pagesize=(200 * mm, 100 * mm))
    canvas.circle(50 * mm, 50 * mm, 20 * mm)
    canvas.setLineWidth(3 * mm)
    canvas.line(10 * mm, 10 * mm, 90 * mm, 10 * mm)
    canvas.drawString(100 * mm, 50 * mm, "Scale 1:100 – Maßstab")
    canvas.save()
    return path


def test_what_comes_out_is_what_was_read(plan):
    read = page_content(plan, 0)
    with opened_page(plan, 0) as page:
        assert read.content == content_of(page)
        assert read.size == pytest.approx(page.size)
    assert read.number == 1
    assert len(read.content.paths) == 2


def test_a_refusal_comes_out_with_its_words(plan):
    with pytest.raises(InputRefused, match=r"plan\.pdf: there is no such page; found --page 7"):
        page_content(plan, 7)


def test_a_page_that_takes_too_long_is_refused(plan, monkeypatch):
    def endless(*_):
        raise Overrun

    monkeypatch.setattr(module, "run_apart", endless)
    with pytest.raises(InputRefused, match=r"plan\.pdf, page 1: this page draws more than can be"):
        page_content(plan, 0)
    with pytest.raises(InputRefused, match="page 4"):
        page_content(plan, 4)
