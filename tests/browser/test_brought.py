"""Drawings that are brought to the page, in a real browser."""

import ezdxf
import pytest
from reportlab.pdfgen import canvas

from browsing import HOSTILE, panels
from paged import house

pytestmark = pytest.mark.browser

DROP = """
    const data = new DataTransfer();
    data.items.add(new File([arguments[0]], "plan.dxf"));
    const event = new DragEvent("drop", { dataTransfer: data, bubbles: true, cancelable: true });
    document.querySelector("#sheet").dispatchEvent(event);
"""


def test_a_drawing_is_dropped_on_the_page(page, serve, tmp_path):
    address, _ = serve(house(tmp_path))
    page.open(address)
    document = ezdxf.new()
    document.header["$INSUNITS"] = 2
    space = document.modelspace()
    space.add_lwpolyline(
        [(0, 0), (40, 0), (40, 10), (0, 10)], close=True, dxfattribs={"layer": "SLAB"}
    )
    document.saveas(tmp_path / "plan.dxf")
    page.script(DROP, (tmp_path / "plan.dxf").read_text())

    page.wait(lambda: "SLAB" in page.text("#dialog"))
    assert page.one("#dialog select").get_attribute("value") == "outline"
    assert len(page.all("#dialog .yardstick")) == 4
    assert "The drawing says feet" in page.text("#dialog")
    page.click("#dialog .main")
    page.wait(lambda: panels(page) == 4)
    page.wait(lambda: "How the drawing was read" in page.text("#dialog"))
    page.click("#dialog button")
    page.click("#undo")
    page.wait(lambda: panels(page) == 6)


def test_a_drawing_of_two_slabs_is_asked_about_and_one_is_tapped(page, serve, tmp_path):
    address, _ = serve(house(tmp_path))
    page.open(address)
    document = ezdxf.new()
    space = document.modelspace()
    for x, wide in ((0, 30), (60, 40)):
        outline = [(x, 0), (x + wide, 0), (x + wide, 20), (x, 20)]
        space.add_lwpolyline(outline, close=True, dxfattribs={"layer": "SLAB"})
    document.header["$INSUNITS"] = 0
    document.saveas(tmp_path / "plan.dxf")
    page.script(DROP, (tmp_path / "plan.dxf").read_text())

    page.wait(lambda: "SLAB" in page.text("#dialog"))
    assert not page.all("#dialog input[name=unit]:checked")
    assert not page.one("#dialog .main").is_enabled()
    page.script("document.querySelector('#dialog input[name=unit][value=ft]').click()")
    page.wait(lambda: len(page.all("#dialog .map .candidate")) == 2)
    assert not page.all("#dialog input[name=slab]:checked")
    assert not page.one("#dialog .main").is_enabled()
    wide = page.script(
        "return [...document.querySelectorAll('#dialog .map .candidate')]"
        ".sort((a, b) => b.getBoundingClientRect().width - a.getBoundingClientRect().width)[0].dataset.number"
    )
    page.script(
        "document.querySelector(`#dialog .map .candidate[data-number='${arguments[0]}']`)"
        ".dispatchEvent(new MouseEvent('click', { bubbles: true }))",
        wide,
    )
    page.wait(lambda: page.all("#dialog .map .candidate.chosen"))
    page.click("#dialog .main")
    page.wait(lambda: panels(page) == 8)


def two_sheds(path):
    """A PDF of two pages, on the second two sheds of 20 x 12 ft and 30 x 12 ft at 1:96; no scale stands on it."""
    page = canvas.Canvas(str(path), pagesize=(612, 792))
    page.drawString(100, 700, "Cover")
    page.showPage()
    page.rect(60, 300, 20 * 9, 12 * 9)
    page.rect(300, 300, 30 * 9, 12 * 9)
    page.showPage()
    page.save()
    return path


def test_a_page_of_a_pdf_is_read_at_its_scale_asked_about_and_taken(
    page, serve, tmp_path, pictures
):
    """Page and scale are asked first; without the scale it is said; then a slab is tapped, and cancelled once."""
    page.open(serve(house(tmp_path))[0])
    chosen = str(two_sheds(tmp_path / "sheds.pdf"))

    def brought(scale):
        page.one("#file").send_keys(chosen)
        page.wait(lambda: page.all("#pdf-page"))
        page.script("document.querySelector('#pdf-page').value = '2'")
        page.script("document.querySelector('#pdf-scale').value = arguments[0]", scale)
        page.script("document.querySelector('#dialog .main').click()")

    brought("")
    page.wait(lambda: "scale" in page.text("body"))
    assert panels(page) == 6
    (refused,) = page.errors()
    assert "422" in refused
    brought("1/8 in = 1 ft")
    page.wait(lambda: len(page.all("#dialog .map .candidate")) == 2)
    assert "Which of these is the slab?" in page.text("#dialog")
    assert not page.all("#dialog input[name=slab]:checked")
    assert not page.one("#dialog .main").is_enabled()
    page.script(
        "const role = document.querySelector('#dialog select'); role.value = 'outline';"
        "role.dispatchEvent(new Event('change'))"
    )
    assert page.one("#dialog input[name=slab]:checked").get_attribute("value") == "0"
    assert page.one("#dialog .main").is_enabled()
    page.driver.save_screenshot(str(pictures / "import-pdf.png"))
    page.script(
        "[...document.querySelectorAll('#dialog button')].find((b) => b.textContent === 'Cancel').click()"
    )
    page.wait(lambda: not page.script("return document.querySelector('#dialog').open"))
    assert panels(page) == 6

    brought("1/8 in = 1 ft")
    page.wait(lambda: len(page.all("#dialog .map .candidate")) == 2)
    wider = page.script(
        "return [...document.querySelectorAll('#dialog .map .candidate')]"
        ".sort((a, b) => b.getBoundingClientRect().width - a.getBoundingClientRect().width)[0].dataset.number"
    )
    page.script(
        "document.querySelector(`#dialog .map .candidate[data-number='${arguments[0]}']`)"
        ".dispatchEvent(new MouseEvent('click', { bubbles: true }))",
        wider,
    )
    page.wait(lambda: page.all("#dialog .map .candidate.chosen"))
    page.click("#dialog .main")
    page.wait(lambda: "30'-0\" x 12'-0\"" in page.text("#dialog"))


def test_text_of_a_drawing_never_becomes_markup(page, serve, tmp_path):
    page.open(serve(house(tmp_path))[0])
    document = ezdxf.new()
    document.header["$INSUNITS"] = 2
    outline = [(0, 0), (40, 0), (40, 10), (0, 10)]
    for layer in ("SLAB", "PLACEHOLDER"):
        document.modelspace().add_lwpolyline(outline, close=True, dxfattribs={"layer": layer})
    document.saveas(tmp_path / "plan.dxf")
    text = (tmp_path / "plan.dxf").read_text().replace("PLACEHOLDER", HOSTILE)
    page.script(DROP, text)

    page.wait(lambda: HOSTILE in page.text("#dialog"))
    assert page.script("return document.querySelectorAll('img, script:not([src])').length") == 0
    assert not page.driver.title.startswith("broken")
