"""Pieces of long work for the tests; a process that does them must be able to import them."""

import os
import subprocess
import sys

from kerfline.errors import InputRefused, Mistake


def doubled(number, progress=None):
    """Work that tells its process."""
    return 2 * number, os.getpid()


def refused(progress=None):
    """Work that finds its input wrong."""
    raise InputRefused(Mistake(what="this is wrong", where="here"))


def endless(mark, progress=None):
    """Work that says that it has begun and never ends by itself."""
    mark.write_text(str(os.getpid()))
    progress("Counting to the end of numbers")
    while True:
        pass


def dying(progress=None):
    """Work whose process is killed, as a system short of memory does."""
    os.abort()


def reading(mark, progress=None):
    """Work that waits for a process of its own, as the reading of a drawing does."""
    with subprocess.Popen([sys.executable, "-c", "import time; time.sleep(600)"]) as process:
        mark.write_text(str(process.pid))
        progress("Reading")
        process.wait()
