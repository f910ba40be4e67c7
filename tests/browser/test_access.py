"""The page can be used by everybody: names, contrast, sizes; and looks right at three widths."""

import io
import itertools
import math
import shutil
import subprocess

import pytest
from PIL import Image, ImageStat

from browsing import at, settled
from paged import HOUSE, house

pytestmark = pytest.mark.browser

RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
"""Rule tags of axe-core: WCAG 2.2, levels A and AA (W3C Recommendation, 2023), and its own advice."""

TROUBLED = HOUSE.replace("[20, 0], [20, 20]", "[23, 0], [23, 20]")
"""The house with a joint that breaks the span, so that findings show in every colour."""


@pytest.fixture(scope="session")
def axe(tmp_path_factory):
    """The text of axe-core, from the npm registry; never part of this repository."""
    npm = shutil.which("npm")
    if not npm:
        pytest.skip("npm is not installed, so axe-core cannot be fetched")
    folder = tmp_path_factory.mktemp("axe")
    got = subprocess.run(
        [
            npm,
            "install",
            "--silent",
            "--no-audit",
            "--no-fund",
            "--prefix",
            str(folder),
            "axe-core",
        ],
        capture_output=True,
        text=True,
        check=False,
    )
    if got.returncode:
        pytest.skip(f"the npm registry did not give axe-core: {got.stderr.strip()[-200:]}")
    return (folder / "node_modules" / "axe-core" / "axe.min.js").read_text(encoding="utf-8")


def complaints(page, axe):
    """What axe-core finds on the page as it is now, one line each."""
    page.script(axe)
    page.driver.set_script_timeout(60)
    found = page.driver.execute_async_script(
        "const done = arguments[1];"
        "axe.run(document, { runOnly: arguments[0] }).then((r) => done(r.violations));",
        RULES,
    )
    return [
        f"{each['id']}: {each['help']}: {node['target']} {node.get('failureSummary', '')}"
        for each in found
        for node in each["nodes"]
    ]


@pytest.mark.parametrize("dark", [False, True], ids=["light", "dark"])
@pytest.mark.parametrize("width", [360, 1200])
def test_axe_finds_nothing_on_the_page(page, serve, tmp_path, axe, width, dark):
    address = serve(house(tmp_path, TROUBLED))[0]
    page.size(width, 800, dark=dark).open(address)

    assert complaints(page, axe) == []
    if width < 900:
        page.click("#grip")
    for tab in ("panels", "joints", "slab", "account", "findings"):
        page.click(f"#tab-{tab}")
        if tab != "account":
            page.click(f"#list-{tab} li button")
        assert complaints(page, axe) == []
    page.click("#more")
    assert complaints(page, axe) == []
    page.click("#keys")
    assert complaints(page, axe) == []


@pytest.mark.parametrize("dark", [False, True], ids=["light", "dark"])
def test_axe_finds_nothing_on_the_one_file_page(page, serve, tmp_path, axe, downloads, dark):
    file = fetched(page, serve, tmp_path, downloads)
    page.size(820, 1180, dark=dark).open(file.as_uri())

    assert complaints(page, axe) == []
    page.click("#done")
    page.click("#night")
    assert complaints(page, axe) == []
    page.click("#night")


def fetched(page, serve, tmp_path, downloads):
    """The one-file page of the house, as the page hands it out."""
    page.open(serve(house(tmp_path, TROUBLED))[0])
    page.click("#more")
    page.click("#one-file")
    return downloads()


def test_every_control_can_be_reached_with_the_tab_key(page, serve, tmp_path):
    page.open(serve(house(tmp_path))[0])
    reached = page.script(
        """
        const wanted = [...document.querySelectorAll("button, input, select, [tabindex='0']")];
        const shown = wanted.filter((n) => n.offsetParent !== null && !n.disabled && n.tabIndex >= 0);
        return shown.filter((n) => { n.focus(); return document.activeElement !== n; }).map((n) => n.id);
        """
    )

    assert reached == []


@pytest.mark.parametrize("width", [360, 1200, 2560])
@pytest.mark.parametrize("dark", [False, True], ids=["light", "dark"])
def test_the_page_fits_its_window(page, serve, tmp_path, pictures, width, dark):
    """Nothing sticks out sideways; the drawing keeps at least a third of the window's height."""
    height = {360: 800, 1200: 800, 2560: 1300}[width]
    page.size(width, height, dark=dark).open(serve(house(tmp_path, TROUBLED))[0])
    page.driver.save_screenshot(str(pictures / f"page-{width}-{'dark' if dark else 'light'}.png"))

    assert page.script("return document.documentElement.scrollWidth") <= width
    box = page.script("return document.querySelector('#sheet').getBoundingClientRect().toJSON()")
    assert box["height"] >= height / 3
    slab = page.script("return document.querySelector('.slab').getBoundingClientRect().toJSON()")
    assert box["left"] <= slab["left"]
    assert slab["right"] <= box["right"]
    assert slab["width"] * slab["height"] >= 0.2 * box["width"] * box["height"]


def test_controls_are_large_enough_for_a_finger(page, serve, tmp_path):
    """At least 24 by 24 CSS pixels: WCAG 2.2, success criterion 2.5.8 (level AA)."""
    page.size(360, 800).open(serve(house(tmp_path))[0])
    small = page.script(
        """
        const all = [...document.querySelectorAll("button, select, input:not([type=checkbox])")];
        const boxes = all.filter((n) => n.offsetParent !== null).map((n) => [n.id, n.getBoundingClientRect()]);
        return boxes.filter(([, box]) => Math.min(box.width, box.height) < 24).map(([id]) => id);
        """
    )

    assert small == []


SIGHTS = ["none", "deuteranopia", "protanopia", "tritanopia", "achromatopsia"]


@pytest.mark.parametrize("far", [False, True], ids=["near", "far"])
@pytest.mark.parametrize("dark", [False, True], ids=["light", "dark"])
def test_errors_warnings_and_sound_are_told_apart_without_colour(page, serve, tmp_path, dark, far):
    """Mean colours of panels, and of marks, differ by 20 or more (CIE 1976 L*a*b*, CIE 15:2004) to every eye."""
    page.size(1200, 800, dark=dark).open(serve(house(tmp_path, TROUBLED))[0])
    for _ in range(5 if far else 0):
        page.click("#zoom-out")
    settled(page)
    # Clear of joints, names and sizes, which are the same on all of them.
    places = {"error": (14, 13), "warning": (28.6, 12.5), "sound": (4, 13)}
    spots = {name: at(page, *place) for name, place in places.items()}
    reach = 8 if far else 24
    for sight in SIGHTS:
        page.driver.execute_cdp_cmd("Emulation.setEmulatedVisionDeficiency", {"type": sight})
        seen = Image.open(io.BytesIO(page.driver.get_screenshot_as_png())).convert("RGB")
        means = {name: lab(mean(seen, spot, reach)) for name, spot in spots.items()}
        for one, two in itertools.combinations(means, 2):
            assert math.dist(means[one], means[two]) >= 20, (sight, one, two, means)
    page.driver.execute_cdp_cmd("Emulation.setEmulatedVisionDeficiency", {"type": "none"})
    shapes = page.script(
        "return [...document.querySelectorAll('#drawing .finding')].map((n) => n.querySelector('.mark').getAttribute('d'))"
    )
    assert len(set(shapes)) == 2


def mean(image, spot, reach):
    """The mean colour around a place."""
    x, y = map(round, spot)
    return ImageStat.Stat(image.crop((x - reach, y - reach, x + reach, y + reach))).mean


def lab(rgb):
    """CIE L*a*b* of an sRGB colour (IEC 61966-2-1), white D65."""
    line = [c / 255 for c in rgb]
    line = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in line]
    rows = ((0.4124, 0.3576, 0.1805), (0.2126, 0.7152, 0.0722), (0.0193, 0.1192, 0.9505))
    white = (0.9505, 1.0, 1.089)
    x, y, z = (
        sum(m * c for m, c in zip(row, line, strict=True)) / w
        for row, w in zip(rows, white, strict=True)
    )
    fx, fy, fz = (
        t ** (1 / 3) if t > 216 / 24389 else (24389 / 27 * t + 16) / 116 for t in (x, y, z)
    )
    return (116 * fy - 16, 500 * (fx - fy), 200 * (fy - fz))
