"""How fluid the page is: frames while the view moves, and from pointer to findings, by panels.

Not a test: ``PYTHONPATH=tests python tests/browser/times.py`` prints the tables. Frames are those of the browser
in software rendering while a hand pans for a second and a half; the wait is from a move of the pointer on a
joint until the totals that came back are drawn, the least and the middle one of five, since a machine that
does other work too adds to it. Beside it stands what the program itself used of a processor for one change.
"""

import json
import statistics
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

from selenium import webdriver
from selenium.webdriver.chrome.service import Service

from browsing import Page, settled
from conftest import CHROMIUM, DRIVER, SWITCHES, serving
from kerfline.app.live import outcome_of
from kerfline.app.open_job import open_job
from kerfline.web.desk import Desk
from kerfline.web.one_file import page_bytes
from kerfline.web.running import spare_the_collector

FLOORS = {50: (10, 5), 300: (20, 15), 1200: (40, 30), 3200: (64, 50)}
"""Bays of 10 ft each way, by the number of panels."""

EARLIER = {50: 164, 300: 340, 1200: 1921, 3200: 5036}
"""From pointer to findings (ms) when the whole picture was sent and drawn with every move."""

HAND = """
    const svg = document.querySelector("#drawing");
    svg.setPointerCapture = () => {};
    const box = document.querySelector("#sheet").getBoundingClientRect();
    const event = (target, type, x, y, button) => target.dispatchEvent(new PointerEvent(type, {
      bubbles: true, pointerId: 1, pointerType: "mouse", button: type === "pointermove" ? -1 : button, clientX: x, clientY: y }));
"""
FRAMES = (
    HAND
    + """
    const done = arguments[0];
    const times = [];
    let [last, x, y] = [performance.now(), box.left + box.width / 2, box.top + box.height / 2];
    const end = last + 1500;
    event(svg, "pointerdown", x, y, 1);
    requestAnimationFrame(function frame(now) {
      times.push(now - last);
      last = now;
      x += Math.sin(times.length / 9) * 9;
      y += Math.cos(times.length / 9) * 6;
      event(svg, "pointermove", x, y, 1);
      if (now < end) return requestAnimationFrame(frame);
      event(svg, "pointerup", x, y, 1);
      return done(times.slice(1));
    });
"""
)
WAIT = (
    HAND
    + """
    const [selector, by, done] = arguments;
    const reach = document.querySelector(selector);
    const shown = reach.getBoundingClientRect();
    const [x, y] = [shown.left + shown.width / 2, shown.top + shown.height * 0.52];
    const totals = document.querySelector("#totals");
    event(reach, "pointerdown", x, y, 0);
    const start = performance.now();
    new MutationObserver((_, observer) => {
      observer.disconnect();
      requestAnimationFrame(() => requestAnimationFrame(() => {
        const wait = performance.now() - start;
        document.body.dispatchEvent(new KeyboardEvent("keydown", { key: "Escape", bubbles: true }));
        event(svg, "pointerup", x, y, 0);
        done(wait);
      }));
    }).observe(totals, { childList: true, subtree: true, characterData: true });
    event(svg, "pointermove", x + by, y, 0);
"""
)
"""One move of something, put back by Escape, so that each is measured from the same state and none is at work still."""

PRESS = """
    const [words, done] = arguments;
    const button = [...document.querySelectorAll("#details button")].find((each) => each.textContent === words);
    const totals = document.querySelector("#totals");
    const start = performance.now();
    new MutationObserver((_, observer) => {
      observer.disconnect();
      requestAnimationFrame(() => requestAnimationFrame(() => done(performance.now() - start)));
    }).observe(totals, { childList: true, subtree: true, characterData: true });
    button.click();
"""
"""A button of what is chosen, until the totals are drawn."""

CHOOSE = """
    const [list, words] = arguments;
    document.querySelector(`#tab-${list}`).click();
    [...document.querySelectorAll(`#list-${list} button`)].find((each) => each.textContent.includes(words)).click();
"""

MOVED = {
    "joint": '.joint[data-id="J3"] .reach',
    "corner": '.handle[data-what="vertex"][data-id^="2 "] .reach',
    "opening": ".ring.opening .reach",
}
"""What is moved, and where it is taken hold of."""

NEXT = """
    const done = arguments[0];
    const start = performance.now();
    document.querySelector("#next").click();
    requestAnimationFrame(() => requestAnimationFrame(() => done(performance.now() - start)));
"""


def hall(folder: Path, panels: int) -> Path:
    """The job of a hall of so many panels, laid out already."""
    across, up = FLOORS[panels]
    wide, high = 10 * across, 10 * up
    lines = [((10 * k, 0), (10 * k, high)) for k in range(1, across)]
    lines += [((0, 10 * k), (wide, 10 * k)) for k in range(1, up)]
    joints = "".join(
        f'[[joint]]\nid = "J{n}"\npath = {[list(p) for p in line]}\nreason = "span"\nnote = "even bays"\n'
        for n, line in enumerate(lines, 1)
    )
    path = folder / f"hall-{panels}.toml"
    path.write_text(
        f'[job]\nname = "Hall"\nunits = "ft"\n[slab]\nthickness = "4 in"\n'
        f"outline = [[0, 0], [{wide}, 0], [{wide}, {high}], [0, {high}]]\n"
        f'openings = [[[12, 12], [16, 12], [16, 16], [12, 16]]]\n[rules]\nset = "floor"\n{joints}'
    )
    return path


def used(job: Path) -> dict[str, float]:
    """What the program uses of a processor to measure one change and to tell the page, ms."""
    spare_the_collector()
    desk = Desk(job)
    seen = desk.open({})
    x, y = seen["picture"]["bounds"][2:]
    changes = {
        "joint": lambda step: {"do": "slide", "id": "J3", "by": [100.0 * step, 0.0]},
        "corner": lambda step: {"do": "vertex", "what": "outline", "id": "0", "index": 2, "to": [x - 100.0 * step, y]},
        "opening": lambda step: {"do": "move", "what": "opening", "id": "1", "by": [25.4 * step, 0.0]},
        "split": lambda step: {"do": "split", "id": f"P{1 + step}"},
    }  # fmt: skip
    return {name: _used(desk, seen["at"], change) for name, change in changes.items()}


def _used(desk: Desk, at: str, change: Callable[[int], dict[str, Any]]) -> float:
    took = []
    for step in range(1, 6):
        start = time.process_time()
        json.dumps(desk.looks.change({"at": at, "action": change(step)}))
        took.append(1000 * (time.process_time() - start))
    return statistics.median(took)


def times_of_the_page(page: Page, folder: Path) -> None:
    """Prints how the page moves and answers."""
    print("| panels | frame, ms | 95 % | longest | earlier: pointer to findings, ms |")
    print("|---|---|---|---|---|")
    rows = []
    for panels in FLOORS:
        job = hall(folder, panels)
        with serving(job) as (address, _):
            page.open(address, 120)
            settled(page)
            frames = sorted(page.driver.execute_async_script(FRAMES))
            settled(page)
            page.click("#fit")
            print(f"| {panels} | {_frames(frames)} | {EARLIER[panels]} |")
            waits = {name: _waits(page, name) for name in MOVED}
            waits["split"] = _splits(page)
        program = used(job)
        rows += [
            f"| {panels} | {name} | {statistics.median(found):.0f} | {min(found):.0f} | {program[name]:.0f} |"
            for name, found in waits.items()
        ]
    print("| panels | change | to findings, ms | least | program |\n|---|---|---|---|---|")
    print(*rows, sep="\n")


def _waits(page: Page, name: str) -> list[float]:
    """From a move of the pointer on something until its findings are drawn, five times."""
    if name == "corner":
        page.script(CHOOSE, "slab", "corners")
    waits = []
    for by in (-14, -18, -22, -26, -30):
        settled(page)
        waits.append(page.driver.execute_async_script(WAIT, MOVED[name], by))
    return waits


def _splits(page: Page) -> list[float]:
    """From the button that splits a panel until its findings are drawn, three times, each taken back."""
    waits = []
    for number in (3, 5, 7):
        page.script(CHOOSE, "panels", f"P{number}")
        settled(page)
        before = page.text("#totals")
        waits.append(page.driver.execute_async_script(PRESS, "Split across"))
        page.click("#undo")
        page.wait(lambda: page.text("#totals") == before)  # noqa: B023 - called at once
    return waits


def times_of_the_crews_page(page: Page, folder: Path) -> None:
    """Prints how the crew's page moves, and its size."""
    print("| panels | kB | frame, ms | 95 % | longest | tap to next cut, ms |")
    print("|---|---|---|---|---|---|")
    for panels in FLOORS:
        file = folder / f"crew-{panels}.html"
        file.write_bytes(page_bytes(outcome_of(open_job(hall(folder, panels)))))
        page.driver.get(file.as_uri())
        page.wait(lambda: page.all(".slab") and page.text("#totals"), 120)
        settled(page)
        frames = sorted(page.driver.execute_async_script(FRAMES))
        settled(page)
        tap = statistics.median(page.driver.execute_async_script(NEXT) for _ in range(5))
        print(f"| {panels} | {file.stat().st_size / 1000:.0f} | {_frames(frames)} | {tap:.0f} |")


def _frames(frames: list[float]) -> str:
    late = frames[int(0.95 * len(frames))]
    return f"{statistics.median(frames):.1f} | {late:.1f} | {frames[-1]:.1f}"


def main() -> None:
    """Prints the tables."""
    options = webdriver.ChromeOptions()
    options.binary_location = CHROMIUM
    for switch in SWITCHES:
        options.add_argument(switch)
    driver = webdriver.Chrome(options=options, service=Service(DRIVER))
    driver.set_script_timeout(120)
    page = Page(driver).size(1200, 800)
    with tempfile.TemporaryDirectory() as folder:
        times_of_the_page(page, Path(folder))
        times_of_the_crews_page(page, Path(folder))
    driver.quit()


if __name__ == "__main__":
    main()
