"""Standard output and error that end quietly where nobody reads on, and say in words where they are full."""

import io
import os
import sys
from typing import TextIO

from kerfline.errors import Mistake, OutputRefused


class Outlet(io.RawIOBase):
    """Writes to a handle of the system for as long as somebody takes what is written.

    A reader that has read enough (``| head -1``) is no mistake: the command runs on and its files are
    written; what it says goes nowhere.
    """

    def __init__(self, handle: int, name: str) -> None:
        super().__init__()
        self.handle, self.named, self.lost = handle, name, False

    def writable(self) -> bool:
        """Always."""
        return True

    def fileno(self) -> int:
        """The handle."""
        return self.handle

    def isatty(self) -> bool:
        """Whether it is a terminal."""
        return os.isatty(self.handle)

    def write(self, data: "io.ReadableBuffer") -> int:  # type: ignore[name-defined]  # typeshed's own name
        """Writes some of the data and says how many bytes.

        Raises:
            OutputRefused: It takes no more; said once.
        """
        if not self.lost:
            try:
                return os.write(self.handle, data)
            except BrokenPipeError:
                self.lost = True
            except OSError as error:
                self.lost = True
                raise OutputRefused(_mistake(error, self.named)) from error
        return memoryview(data).nbytes


def _mistake(error: OSError, name: str) -> Mistake:
    return Mistake(
        what=f"what there is to say cannot be written ({(error.strerror or str(error)).lower()})",
        where=name,
        remedy="make room where it goes; the files of this run are written, all of them or none",
    )


def patient(stream: TextIO | None, name: str) -> TextIO | None:
    """A standard stream made patient; as it is where it has no handle (a test, no console at all)."""
    try:
        handle = stream.fileno() if stream else -1
    except (OSError, ValueError, AttributeError):
        return stream
    if stream is None or handle < 0 or sys.platform == "win32":  # its console is no plain handle
        return stream
    return io.TextIOWrapper(
        io.BufferedWriter(Outlet(handle, name)),
        encoding=stream.encoding,
        errors=stream.errors,
        line_buffering=True,
    )
