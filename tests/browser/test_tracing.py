"""A picture under the drawing: brought, squared up, scaled, traced over, kept, and on no sheet."""

import io
import itertools
import math

import numpy as np
import pytest
from PIL import Image
from selenium.webdriver.common.keys import Keys

from browsing import at, settled, tap
from kerfline.app.open_job import open_job
from photographs import FT, HOUSE, photograph

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


@pytest.fixture
def empty(page, serve, tmp_path, monkeypatch):
    """The page of ``kerfline view`` with no argument, in a folder of its own."""
    monkeypatch.chdir(tmp_path)

    def opened(width=1440, height=900):
        address, _ = serve(None)
        page.size(width, height)
        page.driver.get(address)
        page.wait(lambda: page.all("#start-name"))
        settled(page)
        return page

    return opened


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
