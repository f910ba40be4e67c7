"""Pieces of long work for the tests; a process that does them must be able to import them."""

import os

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
