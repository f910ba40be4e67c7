"""A stop where nothing has to be tidied up."""

import signal
import subprocess
import sys

CODE = """
import atexit
from kerfline.cli.at_once import stop_at_once
atexit.register(print, "tidied")
stop_at_once(2, None)
print("went on")
"""


def test_the_process_ends_there_with_one_line_and_the_shells_status():
    """128 and the number of the signal, as POSIX shells report it (XCU 2.8.2)."""
    done = subprocess.run([sys.executable, "-c", CODE], capture_output=True, text=True, check=False)
    assert done.returncode == 128 + signal.SIGINT
    assert done.stderr == "stopped; no file is left half written\n"
    assert done.stdout == ""
