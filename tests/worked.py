"""Work for worker processes, in a module that they can import."""

import os
import signal
import time


def squared(number: int) -> int:
    if number == 3:
        raise ValueError("three")
    return number * number


def deadly(number: int) -> int:
    """The fourth kills its worker whenever it is tried."""
    if number == 4:
        time.sleep(0.2)
        os.kill(os.getpid(), signal.SIGKILL)
    return -number


def endless(number: int) -> int:
    time.sleep(600)
    return number


def mixed(number: int) -> int:
    return number if number == 0 else endless(number)
