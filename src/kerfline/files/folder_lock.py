"""Keeps two runs from working on one file or in one folder at the same time, and leaves nothing behind."""

import contextlib
import os
import sys
from collections.abc import Iterator
from pathlib import Path


@contextlib.contextmanager
def locked(path: Path) -> Iterator[None]:
    """Holds a file or folder; another run that wants it waits. The system lets go of it when the run ends.

    Where the system locks nothing (Windows, some network drives) two runs are not kept apart.

    Raises:
        OSError: It cannot be opened.
    """
    if sys.platform == "win32":
        yield
        return
    import fcntl

    handle = os.open(path, os.O_RDONLY)
    try:
        with contextlib.suppress(OSError):
            fcntl.flock(handle, fcntl.LOCK_EX)
        yield
    finally:
        os.close(handle)


def abandoned(path: Path) -> bool:
    """Whether no run holds a file that was made to be held; never where the system cannot tell."""
    if sys.platform == "win32":
        return False
    import fcntl

    try:
        handle = os.open(path, os.O_RDONLY)
    except OSError:
        return False
    try:
        fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError:
        return False
    finally:
        os.close(handle)
    return True


def written_through(folder: Path) -> None:
    """Waits until the names in a folder are safe on the disk, where the system can tell."""
    with contextlib.suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)
