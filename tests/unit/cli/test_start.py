"""Where the command begins."""

import subprocess
import sys

CODE = """
import signal, sys
signal.signal(signal.SIGINT, {before})
sys.argv = ["kerfline", "--version"]
from kerfline.cli.start import main
from kerfline.cli.at_once import stop_at_once
try:
    main()
finally:
    print("stops at once" if signal.getsignal(signal.SIGINT) is stop_at_once else "left alone")
"""


def started(before):
    done = subprocess.run(
        [sys.executable, "-c", CODE.format(before=before)], capture_output=True, text=True, check=True
    )  # fmt: skip
    return done.stdout.splitlines()


def test_the_command_can_be_stopped_from_its_first_moment():
    version, stop = started("signal.default_int_handler")
    assert version.startswith("kerfline, version ")
    assert stop == "stops at once"


def test_a_signal_that_somebody_turned_off_stays_so():
    assert started("signal.SIG_IGN")[-1] == "left alone"
