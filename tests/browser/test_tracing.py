"""A picture under the drawing: brought, squared up, scaled, traced over, kept, and on no sheet."""

import io
import itertools
import math

import numpy as np
import pytest
from PIL import Image
from reportlab.pdfgen import canvas
from selenium.common.exceptions import StaleElementReferenceException
from selenium.webdriver.common.keys import Keys

from browsing import at, drag, settled, tap
from kerfline.app.open_job import open_job
from paged import HOUSE as HOUSE_JOB
from paged import house
from photographs import FT, HOUSE, as_bytes, photograph

pytestmark = pytest.mark.browser

PLAN = math.dist((0, 0), (40 * FT, 28 * FT))
"""How large the plan is, from corner to corner, mm."""

READY = """
    const [image, ...more] = document.querySelectorAll("#drawing image.tracing");
    return image && !more.length && image.parentNode.dataset.shows === image.getAttribute("href");
"""
SQUARED = "return document.querySelector('#drawing image.tracing')?.getAttribute('href').includes('plan%22')"
ON_SCREEN = """
    const image = document.querySelector("#drawing image.tracing");
    const box = image.getBBox();
    const [width, height] = arguments[2];
    const spot = new DOMPoint(box.x + arguments[0] * box.width / width, box.y + arguments[1] * box.height / height);
    const seen = spot.matrixTransform(image.getScreenCTM());
    return [seen.x, seen.y];
"""


def bring(page, path):
    """Lays a file under the drawing, as the user's choice of a file does."""
    page.one("#tracing-file").send_keys(str(path))
    page.wait(
        lambda: (
            page.all("#drawing image.tracing")
            and not page.script("return document.querySelector('#under').hidden")
        )
    )
    shown(page)


def shown(page):
    """Waits until the picture is there as it now lies."""
    page.wait(lambda: page.script(READY))
    settled(page)


def spot(page, pixel, size=(2400, 1800)):
    """Where on the screen a pixel of the picture is."""
    return page.script(ON_SCREEN, *pixel, list(size))


def square_up(page, camera, corners, sides):
    page.click("#tracing-square")
    settled(page)
    for corner in corners:
        tap(page, spot(page, camera.sees(corner)))
    page.wait(lambda: page.all("#side-one"))
    page.one("#side-one").send_keys(sides[0])
    page.one("#side-next").send_keys(sides[1], Keys.ENTER)
    page.wait(lambda: page.script(SQUARED))
    shown(page)


def plan_of(page, place):
    """Where on the plan (mm) a place of the screen is."""
    return page.script(
        """
        const world = document.querySelector("#drawing .world");
        const spot = new DOMPoint(...arguments[0]).matrixTransform(world.getScreenCTM().inverse());
        return [spot.x, -spot.y];
        """,
        list(place),
    )


def inked_corners(page, start):
    """Where on the screen the corners of the house are, measured in a picture of the screen as an eye would.

    Each side is looked for within some pixels of where it should be, and taken in the middle of its ink; the
    first corner tapped, which stays where it was, says where the house should be.
    """
    seen = np.asarray(
        Image.open(io.BytesIO(page.driver.get_screenshot_as_png())).convert("L"), float
    )
    expected = [at(page, (start[0] + x) / FT, (start[1] + y) / FT) for x, y in HOUSE]
    lines = []
    for (ax, ay), (bx, by) in itertools.pairwise([*expected, expected[0]]):
        level = abs(by - ay) < abs(bx - ax)
        found = []
        for share in (0.25, 0.4, 0.6, 0.75):
            x, y = round(ax + share * (bx - ax)), round(ay + share * (by - ay))
            strip = seen[y - 9 : y + 10, x] if level else seen[y, x - 9 : x + 10]
            dark = np.clip(strip.max() - strip - 40, 0, None)
            found.append((y if level else x) - 9 + (dark * np.arange(19)).sum() / dark.sum() + 0.5)
        assert max(found) - min(found) < 1.5, "a side runs square"
        lines.append((level, sum(found) / len(found)))
    # Side after side: each corner is where one that runs level meets one that stands upright.
    corners = []
    for before, after in itertools.pairwise([lines[-1], *lines]):
        level, upright = (before[1], after[1]) if before[0] else (after[1], before[1])
        corners.append((upright, level))
    return corners


def test_a_photograph_from_aslant_is_squared_up_and_traced(empty, tmp_path, pictures):
    """Against the pinhole camera that took it: every corner within half a hundredth of the plan."""
    data, camera = photograph()
    (tmp_path / "plan.jpg").write_bytes(data)
    page = empty()
    page.one("#start-name").send_keys("House")
    page.one("#start-thickness").send_keys("4")
    bring(page, tmp_path / "plan.jpg")
    page.driver.save_screenshot(str(pictures / "tracing-brought.png"))
    rectangle = [(0, 0), (40 * FT, 0), (40 * FT, 28 * FT), (0, 28 * FT)]
    start = plan_of(page, spot(page, camera.sees((0, 0))))
    square_up(page, camera, rectangle, ("40", "28"))
    page.driver.save_screenshot(str(pictures / "tracing-squared.png"))
    # Traced by eye: where the ink of each corner is on the screen.
    for corner in inked_corners(page, start):
        tap(page, corner)
    page.click("#entry-close")
    page.wait(lambda: page.all(".slab") and page.text("#totals"))
    page.click("#save")
    page.wait(lambda: page.text("#saved") == "Saved in house.toml")
    settled(page)
    page.driver.save_screenshot(str(pictures / "tracing-traced.png"))
    job = open_job(tmp_path / "house.toml")
    drawn = job.slab.outline.points
    shift = [
        sum(p[i] - q[i] for p, q in zip(drawn, HOUSE, strict=True)) / len(HOUSE) for i in (0, 1)
    ]
    off = [
        math.dist((x - shift[0], y - shift[1]), q) for (x, y), q in zip(drawn, HOUSE, strict=True)
    ]
    assert max(off) < 0.005 * PLAN
    assert (tmp_path / job.tracing.file).read_bytes() == data
    # The page opened anew shows it again.
    page.driver.refresh()
    page.wait(lambda: page.all("#drawing image.tracing"))
    shown(page)


def paper(path):
    """A PDF of two pages, the plan of a shed on the second: 20 ft by 12 ft at 1:96, between two ticks."""
    page = canvas.Canvas(str(path), pagesize=(612, 792))
    page.drawString(100, 700, "Cover")
    page.showPage()
    page.rect(100, 200, 20 * 9, 12 * 9)
    page.showPage()
    page.save()
    return path


def typed(page, *keys):
    """Keys to whatever has the focus; once more where it was just made anew and has kept the focus."""
    try:
        page.driver.switch_to.active_element.send_keys(*keys)
    except StaleElementReferenceException:
        page.driver.switch_to.active_element.send_keys(*keys)


def pressed(page, selector):
    """Reaches a control and presses it, without a pointer."""
    page.script("document.querySelector(arguments[0]).focus()", selector)
    typed(page, Keys.ENTER)


@pytest.mark.parametrize("width", [360, 1440])
def test_a_page_of_a_pdf_by_keyboard_alone(empty, tmp_path, pictures, width):
    """Laid, scaled by two points that the arrow keys reach, faded, hidden, shown and removed again."""
    page = empty(width, 800)
    page.one("#tracing-file").send_keys(str(paper(tmp_path / "shed.pdf")))
    page.wait(lambda: page.all("#tracing-page-number"))
    typed(page, Keys.CONTROL, "a")
    typed(page, "2", Keys.ENTER)
    page.wait(lambda: page.all("#drawing image.tracing"))
    shown(page)
    assert "page 2" in page.text("#under")
    page.driver.save_screenshot(str(pictures / f"tracing-pdf-{width}.png"))

    pressed(page, "#tracing-scale")
    settled(page)
    for corner in ((100, 592), (280, 592)):
        cross_to(page, spot(page, corner, (612, 792)))
        typed(page, Keys.ENTER)
    page.wait(lambda: page.all("#scale-length"))
    typed(page, "20 ft", Keys.ENTER)
    page.wait(
        lambda: page.script(
            "return document.querySelector('#under input[type=checkbox][data-key=\"do Locked\"]').checked"
        )
    )
    shown(page)
    ends = [plan_of(page, spot(page, p, (612, 792))) for p in ((100, 592), (280, 592))]
    assert math.dist(*ends) == pytest.approx(20 * FT, rel=0.01)
    page.driver.save_screenshot(str(pictures / f"tracing-scaled-{width}.png"))

    if width < 900:
        pressed(page, "#grip")
        settled(page)
    page.script("document.querySelector('#tracing-fade').focus()")
    typed(page, Keys.ARROW_LEFT)
    opacity = "return document.querySelector('#drawing image.tracing').getAttribute('opacity')"
    page.wait(lambda: page.script(opacity) == "0.55")
    page.script("document.querySelector('[data-key=\"do Shown\"]').focus()")
    typed(page, " ")
    page.wait(lambda: not page.all("#drawing image.tracing"))
    typed(page, " ")
    page.wait(lambda: page.all("#drawing image.tracing"))
    pressed(page, "#tracing-remove")
    page.wait(lambda: not page.one("#under").is_displayed())
    assert not page.all("#drawing image.tracing")


def cross_to(page, place):
    """Moves the cross to a place of the screen by the arrow keys: a pixel each, twenty-four with Shift."""
    page.script("document.querySelector('#drawing').focus({ preventScroll: true })")
    typed(page, Keys.ARROW_RIGHT)
    for axis, keys in (
        (0, (Keys.ARROW_LEFT, Keys.ARROW_RIGHT)),
        (1, (Keys.ARROW_UP, Keys.ARROW_DOWN)),
    ):
        off = round(place[axis] - cross_of(page)[axis])
        key, (far, few) = keys[off > 0], divmod(abs(off), 24)
        if far:
            typed(page, Keys.SHIFT, *[key] * far, Keys.NULL)
        if few:
            typed(page, *[key] * few)
    assert cross_of(page) == pytest.approx(place, abs=1.0)


def cross_of(page):
    return page.script(
        "const box = document.querySelector('.ghost .cursor').getBoundingClientRect();"
        "return [box.x + box.width / 2, box.y + box.height / 2]"
    )


@pytest.fixture
def traced(page, serve, tmp_path):
    """The page on a job with a picture under it: a house of 30 by 20 ft, ten pixels to a foot."""
    data = as_bytes(Image.new("RGB", (300, 200), "#c8d8ff"), "PNG")
    (tmp_path / "fax.png").write_bytes(data)
    table = 'file = "fax.png"\nsize = [300, 200]\npicture = [[0, 200], [300, 200]]\nplan = [[0, 0], [30, 0]]\n'
    address, _ = serve(house(tmp_path, f"{HOUSE_JOB}\n[tracing]\n{table}"))
    page.open(address)
    shown(page)
    return page


def test_it_is_dragged_where_it_is_not_locked_and_undone(traced):
    page = traced
    where = "return document.querySelector('#drawing image.tracing').getAttribute('transform')"
    page.click("#zoom-out")
    page.click("#tracing-move")
    before = page.script(where)
    for place in ((0, 0), (2, 1)):
        settled(page)
        tap(page, at(page, *place))
    page.wait(lambda: page.script(where) != before)
    settled(page)
    corner = plan_of(page, spot(page, (0, 200), (300, 200)))
    # The second point rests on the grid of an inch.
    assert corner == pytest.approx([2 * FT, FT], abs=30)

    # Beside the slab the loose picture is taken hold of; the arrow keys go on by an inch.
    moved = page.script(where)
    drag(page, at(page, 31, 20.5), [30, 0], [0, -12])
    page.wait(lambda: page.script(where) != moved and page.text("#undo").startswith("Undo"))
    dragged = plan_of(page, spot(page, (0, 200), (300, 200)))
    assert dragged[0] > corner[0] + 10
    page.wait(lambda: "picture under the drawing" in page.text("#details"))
    page.one("#drawing").send_keys(Keys.ARROW_LEFT)
    page.wait(
        lambda: (
            plan_of(page, spot(page, (0, 200), (300, 200)))[0]
            == pytest.approx(dragged[0] - 25.4, abs=0.1)
        )
    )
    for _ in range(3):
        page.one("body").send_keys(Keys.CONTROL, "z")
    page.wait(lambda: page.script(where) == before)

    page.click("[data-key='do Locked']")
    page.wait(lambda: not page.all("#drawing image.tracing.loose"))
    settled(page)
    drag(page, at(page, -0.5, 10), [25, 0], [15, 0])
    settled(page)
    assert page.script(where) == before


def test_a_length_that_cannot_be_read_keeps_the_question_open(traced):
    page = traced
    page.forgive("422")
    page.click("#tracing-scale")
    for place in ((0, 0), (30, 0)):
        settled(page)
        tap(page, at(page, *place))
    page.wait(lambda: page.all("#scale-length"))
    page.one("#scale-length").send_keys("about ten", Keys.ENTER)
    page.wait(lambda: "length" in page.text("#dialog .trouble"))
    page.one("#scale-length").send_keys(Keys.CONTROL, "a")
    page.one("#scale-length").send_keys("60", Keys.ENTER)
    page.wait(lambda: not page.all("#scale-length"))
    page.wait(lambda: "scale the picture" in page.one("#undo").get_attribute("title"))
    assert plan_of(page, spot(page, (300, 200), (300, 200)))[0] == pytest.approx(60 * FT, rel=0.01)


def test_a_picture_that_is_gone_is_said(page, serve, tmp_path):
    page.forgive("422")
    table = 'file = "gone.png"\nsize = [300, 200]\npicture = [[0, 200], [300, 200]]\nplan = [[0, 0], [30, 0]]\n'
    address, _ = serve(house(tmp_path, f"{HOUSE_JOB}\n[tracing]\n{table}"))
    page.open(address)
    page.wait(lambda: "gone.png is not beside the job" in page.text("#message"))


def test_what_is_no_picture_is_refused_in_words(empty, tmp_path):
    page = empty()
    page.forgive("422")
    (tmp_path / "plan.png").write_bytes(b"\x89PNG\r\n\x1a\n cut off")
    page.one("#tracing-file").send_keys(str(tmp_path / "plan.png"))
    page.wait(lambda: "damaged or cut off" in page.text("#message"))
    assert not page.one("#under").is_displayed()
