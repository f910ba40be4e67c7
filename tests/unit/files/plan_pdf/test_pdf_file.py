"""Opening a page of a PDF: how it is seen, and what is refused."""

import pytest
from reportlab.lib.pdfencrypt import StandardEncryption
from reportlab.pdfgen.canvas import Canvas

from kerfline.errors import InputRefused
from kerfline.files.plan_pdf import pdf_file
from kerfline.files.plan_pdf.pdf_file import Page, document_of, index_of, opened_page

WIDE = (10.0, 20.0, 82.0, 164.0)
"""A page of 72 by 144 units, an inch by two, that does not begin at the origin."""


def printed(path, pages=1, size=(72, 144), **settings):
    canvas = Canvas(str(path), pagesize=size, **settings)
    for _ in range(pages):
        canvas.line(0, 0, 10, 10)
        canvas.showPage()
    canvas.save()
    return path


@pytest.mark.parametrize(
    ("turn", "size", "corner"),
    [
        (0, (25.4, 50.8), (0.0, 0.0)),
        (1, (50.8, 25.4), (0.0, 25.4)),
        (2, (25.4, 50.8), (25.4, 50.8)),
        (3, (50.8, 25.4), (50.8, 0.0)),
    ],
)
def test_a_page_is_seen_upright(turn, size, corner):
    page = Page(None, 1, WIDE, turn)
    assert page.size == pytest.approx(size)
    assert page.seen(10.0, 20.0) == pytest.approx(corner)
    assert page.seen(46.0, 92.0) == pytest.approx((size[0] / 2, size[1] / 2))


def test_a_page_is_opened_with_its_number_and_size(tmp_path):
    with opened_page(printed(tmp_path / "a.pdf", pages=3), 2) as page:
        assert (page.number, page.turn) == (2, 0)
        assert page.size == pytest.approx((25.4, 50.8))
    with opened_page(printed(tmp_path / "b.pdf"), 0) as page:
        assert page.number == 1


def test_the_only_page_needs_no_number_and_several_do():
    assert index_of("a.pdf", 1, 0) == 0
    assert index_of("a.pdf", 3, 3) == 2
    with pytest.raises(InputRefused, match=r"this PDF has 2 pages; .*--page 2"):
        index_of("a.pdf", 2, 0)


@pytest.mark.parametrize("number", [-1, 4])
def test_a_page_that_is_not_there_is_refused(number):
    with pytest.raises(InputRefused, match=f"found --page {number}; allowed is 1 to 3"):
        index_of("a.pdf", 3, number)


def test_a_locked_pdf_and_a_damaged_one_are_refused(tmp_path):
    locked = printed(tmp_path / "a.pdf", encrypt=StandardEncryption("secret"))
    with pytest.raises(InputRefused, match=r"a\.pdf: this PDF is locked with a password"):
        document_of("a.pdf", locked.read_bytes())
    with pytest.raises(InputRefused, match=r"b\.pdf: this PDF is damaged or cut off"):
        document_of("b.pdf", b"%PDF-1.7 and then nothing")


def test_more_pages_than_can_be_read_are_refused(tmp_path, monkeypatch):
    content = printed(tmp_path / "a.pdf", pages=3).read_bytes()
    monkeypatch.setattr(pdf_file, "MOST_PAGES", 3)
    assert len(document_of("a.pdf", content)) == 3
    monkeypatch.setattr(pdf_file, "MOST_PAGES", 2)
    with pytest.raises(InputRefused, match="found 3 pages"):
        document_of("a.pdf", content)


def test_a_page_with_a_unit_of_its_own_is_refused(tmp_path):
    path = printed(tmp_path / "a.pdf")
    path.write_bytes(path.read_bytes() + b"\n% /UserUnit 2")
    with (
        pytest.raises(InputRefused, match="no scale of theirs can be trusted"),
        opened_page(path, 1),
    ):
        pass
