"""Where the command begins: it can be stopped in one line from here on, while its libraries are loaded too."""

import os
import signal
from types import FrameType

STOPPED = 130
"""Exit status of a command that was stopped: 128 and the number of the signal (POSIX shells)."""

STOPPED_WORDS = "stopped; no file is left half written"


def main() -> None:
    """Runs the command line."""
    if signal.getsignal(signal.SIGINT) is signal.default_int_handler:
        signal.signal(signal.SIGINT, stop_at_once)
    from kerfline.cli.program import run

    run()


def stop_at_once(_number: int, _frame: FrameType | None) -> None:
    """Ends the process where nothing has to be tidied up: before a command and after it."""
    os.write(2, f"{STOPPED_WORDS}\n".encode())
    os._exit(STOPPED)
