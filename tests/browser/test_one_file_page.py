"""The one-file page on a tablet: from the disk, without a server or a network."""

import base64
import io

import pypdfium2
import pytest
from PIL import Image, ImageStat
from selenium.webdriver.common.keys import Keys

from browsing import HOSTILE, at, panels, tap
from kerfline.app.live import kept_outcome
from kerfline.app.open_job import open_job
from kerfline.units import Display, format_length
from kerfline.web.one_file import bundle, page_bytes
from paged import FT, HOUSE, house

pytestmark = pytest.mark.browser


@pytest.fixture
def file(tmp_path):
    """The page of the house, on the disk."""

    def written(text=HOUSE):
        path = tmp_path / "boathouse.html"
        path.write_bytes(page_bytes(kept_outcome(open_job(house(tmp_path, text)))))
        return path.as_uri()

    return written


def test_it_opens_from_the_disk_and_asks_for_nothing(page, file):
    page.open(file())

    assert page.one("#job-name").text == "Boathouse"
    assert panels(page) == 6
    asked = page.script("return performance.getEntriesByType('resource').map((e) => e.name)")
    assert asked == []


def test_a_tap_on_a_panel_tells_its_size(page, file):
    page.open(file())
    tap(page, at(page, 25, 14))

    page.wait(lambda: "Panel P6" in page.text("#details"))
    assert "10'-0\"" in page.text("#details")
    assert "100 % of 10'-0\"" in page.text("#details")


def test_the_distance_between_two_taps_is_shown(page, file):
    page.open(file())
    page.click("#fit")
    page.click("#tool-measure")
    tap(page, at(page, 0, 0))
    tap(page, at(page, 30, 0))

    page.wait(lambda: page.text(".ghost text") == "30'-0\"")


def test_cuts_are_ticked_off_by_a_thumb_and_stay_ticked(page, file):
    address = file()
    page.size(820, 1180).open(address)
    assert page.text(".progress").startswith("0 of 3 cuts done; 0 ft done, 70 ft left")
    first = page.text("#present h2")
    page.click("#done")
    page.wait(lambda: page.text(".progress").startswith("1 of 3 cuts done; 20 ft done, 50 ft left"))
    assert page.text("#present h2") != first
    assert page.all(".joint.done")
    box = page.script("return document.querySelector('#done').getBoundingClientRect().toJSON()")
    assert min(box["width"], box["height"]) >= 64

    page.open(address)
    assert page.text(".progress").startswith("1 of 3 cuts done")
    page.click("#back")
    page.click("#done")
    page.wait(lambda: page.text(".progress").startswith("0 of 3 cuts done"))


def test_the_present_cut_stands_large_with_its_measures_from_the_corner(page, file):
    page.size(820, 1180).open(file())
    page.script(
        "[...document.querySelectorAll('#list-cuts .cut')].find((n) => n.textContent.includes('J2')).querySelector('button').click()"
    )
    page.wait(lambda: "J2" in page.text("#present h2"))
    words = page.text("#present")
    assert "measured from corner A" in words
    assert [node.text for node in page.all("#present dd")][:4] == [
        "20'-0\" right",
        "0'-0\" up",
        "20'-0\" up",
        '1"',
    ]
    assert {node.text for node in page.all("#drawing .measures text")} >= {"A", "20'-0\" right"}
    assert page.all(".joint.now[data-id=J2]")
    assert any(node.text.endswith("· J2") for node in page.all("#drawing .joint-name"))


def test_at_night_nothing_is_bright(page, file):
    """No colour of the page reaches a fifth of the luminance of white."""
    page.size(820, 1180).open(file())
    page.click("#night")
    seen = Image.open(io.BytesIO(page.driver.get_screenshot_as_png())).convert("L")
    assert ImageStat.Stat(seen).mean[0] < 40
    page.open(page.driver.current_url)
    assert page.one("#night").get_attribute("aria-pressed") == "true"
    page.click("#night")


def test_it_prints_every_cut_with_its_numbers(page, file):
    page.open(file())
    printed = page.driver.execute_cdp_cmd("Page.printToPDF", {})["data"]
    document = pypdfium2.PdfDocument(base64.b64decode(printed))
    text = "".join(sheet.get_textpage().get_text_range() for sheet in document)
    for words in ("1 · J1", "2 · J3", "3 · J2", "20'-0\" right"):
        assert words in text


def test_it_zooms_by_keys_and_shows_all_again(page, file):
    page.open(file())
    place = "return document.querySelector('.world').getAttribute('transform')"
    page.one("#drawing").send_keys("0")
    before = page.script(place)
    page.one("#drawing").send_keys("+", Keys.ARROW_RIGHT)
    assert page.script(place) != before
    page.one("#drawing").send_keys("0")
    assert page.script(place) == before


def test_a_hostile_text_stays_text_there_too(page, file):
    text = HOUSE.replace('"Boathouse"', f'"{HOSTILE}"').replace("under wall W1", HOSTILE)
    page.open(file(text))

    assert page.one("#job-name").text == HOSTILE
    assert page.script("return document.querySelectorAll('img').length") == 0


@pytest.mark.parametrize("display", Display)
def test_a_tapped_distance_is_written_as_everywhere_else(page, file, display):
    """The page's own writing of a distance agrees with the program's on a thousand lengths."""
    page.open(file())
    lengths = [i * 7.31 for i in range(700)] + [i * 25.4 / 32 for i in range(300)] + [10 * FT]
    lengths += [-length for length in lengths]
    script = f"{bundle('lengths.js')}\nreturn arguments[0].map((mm) => $lengths.lengthText(mm, arguments[1]));"

    assert page.script(script, lengths, display.value) == [
        format_length(mm, display) for mm in lengths
    ]
