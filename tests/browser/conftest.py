"""A real browser on a real server; skipped, with the reason, where there is no browser."""

import contextlib
import os
import shutil
import subprocess
import sys
import textwrap
import time
from pathlib import Path

import pytest
from selenium import webdriver
from selenium.webdriver.chrome.service import Service
from selenium.webdriver.common.by import By
from selenium.webdriver.support.ui import WebDriverWait

CHROMIUM, DRIVER = shutil.which("chromium"), shutil.which("chromedriver")
PATIENCE = 30
SWITCHES = (
    "--headless=new", "--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage", "--hide-scrollbars",
)  # fmt: skip
SERVER = """
    import sys
    from pathlib import Path
    from kerfline.web import serve
    serve(Path(sys.argv[1]), open_browser=False, tell=lambda words: print(words, flush=True))
"""


class Page:
    """A window on the page, with the few things that the tests do in it."""

    def __init__(self, driver):
        self.driver = driver
        self.forgiven = []

    def open(self, address, patience=PATIENCE):
        """Loads the page and waits for the drawing."""
        self.driver.get(address)
        self.wait(lambda: self.all(".panel"), patience)
        return self

    def size(self, width, height, *, dark=False):
        """Sets the size of the window, and light or dark."""
        shape = {"width": width, "height": height, "deviceScaleFactor": 1, "mobile": width < 500}
        self.driver.execute_cdp_cmd("Emulation.setDeviceMetricsOverride", shape)
        scheme = [{"name": "prefers-color-scheme", "value": "dark" if dark else "light"}]
        self.driver.execute_cdp_cmd("Emulation.setEmulatedMedia", {"features": scheme})
        return self

    def wait(self, condition, patience=PATIENCE):
        """Waits until a condition holds, and gives back what it gave."""
        return WebDriverWait(self.driver, patience, 0.05).until(lambda _: condition())

    def one(self, selector):
        """The first element."""
        return self.driver.find_element(By.CSS_SELECTOR, selector)

    def all(self, selector):
        """Every element."""
        return self.driver.find_elements(By.CSS_SELECTOR, selector)

    def text(self, selector):
        """An element's text; empty where it is not there now."""
        return self.script(
            "return document.querySelector(arguments[0])?.textContent ?? ''", selector
        )

    def script(self, text, *values):
        """Runs a script in the page."""
        return self.driver.execute_script(text, *values)

    def click(self, selector):
        """Clicks an element when it can be clicked."""
        self.wait(lambda: self.one(selector).is_enabled() and self.one(selector).is_displayed())
        self.one(selector).click()

    def idle(self):
        """Waits until the page is busy with nothing."""
        self.wait(lambda: not self.one("#busy").is_displayed(), 6 * PATIENCE)

    def joint_spot(self, name):
        """A place on the screen where a joint can be taken hold of."""
        return self.script(TAKE_HOLD, name)

    def errors(self):
        """What the browser complained of, but for what the test said it would."""
        found = [entry["message"] for entry in self.driver.get_log("browser")]
        return [words for words in found if not any(f in words for f in self.forgiven)]

    def forgive(self, words):
        """The browser is going to complain of this, and should."""
        self.forgiven.append(words)


TAKE_HOLD = """
    const path = document.querySelector(`.joint[data-id="${arguments[0]}"] .line`);
    const size = path.getTotalLength();
    for (let share = 0.05; share < 1; share += 0.05) {
      const at = path.getPointAtLength(size * share).matrixTransform(path.getScreenCTM());
      const hit = document.elementFromPoint(at.x, at.y)?.closest("[data-id]");
      if (hit?.dataset.id === arguments[0]) return [at.x, at.y];
    }
    return null;
"""


@pytest.fixture(scope="session")
def chromium():
    """One browser for all tests."""
    if not CHROMIUM or not DRIVER:
        pytest.skip(
            "chromium and chromedriver are not installed (Debian: chromium, chromium-driver)"
        )
    options = webdriver.ChromeOptions()
    options.binary_location = CHROMIUM
    for switch in SWITCHES:
        options.add_argument(switch)
    options.set_capability("goog:loggingPrefs", {"browser": "ALL"})
    driver = webdriver.Chrome(options=options, service=Service(DRIVER))
    yield driver
    driver.quit()


@pytest.fixture
def page(chromium, serve):
    """A window, wide and light; the browser must have had no complaint at the end."""
    window = Page(chromium).size(1200, 800)
    window.errors()
    yield window
    chromium.get("about:blank")
    assert window.errors() == []


@contextlib.contextmanager
def serving(path: Path):
    """A server on a job, as a process of its own; gives its address and the process."""
    with subprocess.Popen(
        [sys.executable, "-c", textwrap.dedent(SERVER), str(path)],
        stdout=subprocess.PIPE,
        text=True,
        env={**os.environ, "PYTHONUNBUFFERED": "1"},
    ) as process:
        try:
            yield process.stdout.readline().split()[-1], process
        finally:
            process.terminate()


@pytest.fixture
def serve():
    """Starts servers that are stopped after the test."""
    with contextlib.ExitStack() as stack:
        yield lambda path: stack.enter_context(serving(path))


@pytest.fixture(scope="session")
def pictures():
    """Where screenshots go, for a person to look at."""
    folder = Path(__file__).parents[2] / "out" / "browser"
    folder.mkdir(parents=True, exist_ok=True)
    return folder


@pytest.fixture
def downloads(chromium, tmp_path):
    """The folder that the browser saves files into."""
    folder = tmp_path / "downloads"
    folder.mkdir()
    chromium.execute_cdp_cmd(
        "Browser.setDownloadBehavior", {"behavior": "allow", "downloadPath": str(folder)}
    )

    def arrived():
        end = time.monotonic() + PATIENCE
        while time.monotonic() < end:
            found = [p for p in folder.iterdir() if p.suffix == ".html"]
            if found:
                return found[0]
            time.sleep(0.05)
        message = "no file arrived"
        raise AssertionError(message)

    return arrived
