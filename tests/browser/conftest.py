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

from browsing import PATIENCE, Page

CHROMIUM, DRIVER = shutil.which("chromium"), shutil.which("chromedriver")
SWITCHES = (
    "--headless=new", "--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage", "--hide-scrollbars",
)  # fmt: skip
SERVER = """
    import sys
    from pathlib import Path
    from kerfline.web import serve
    serve(Path(sys.argv[1]) if len(sys.argv) > 1 else None, open_browser=False, tell=lambda words: print(words, flush=True))
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
def serving(path: Path | None):
    """A server on a job, as a process of its own; gives its address and the process."""
    with subprocess.Popen(
        [sys.executable, "-c", textwrap.dedent(SERVER), *([str(path)] if path else [])],
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
