"""A file for a moment, for readers that want a path."""

import contextlib
import os
import tempfile
from collections.abc import Iterator
from pathlib import Path

from kerfline.errors import Mistake, OutputRefused
from kerfline.files.folder_lock import abandoned, locked

PREFIX = ".kerfline-"


@contextlib.contextmanager
def scratch_file(folder: Path, data: bytes, suffix: str) -> Iterator[Path]:
    """A closed file with these bytes in a folder, gone afterwards.

    It is closed before it is read, since not every system opens a file twice. What a run that was killed
    left there is swept away.

    Args:
        folder: Where it lies; what is in it may name its neighbours.
        data: Its bytes.
        suffix: End of its name, such as ``.toml``.

    Raises:
        OutputRefused: It cannot be written there.
    """
    path: Path | None = None
    try:
        try:
            _sweep(folder, suffix)
            handle, name = tempfile.mkstemp(prefix=PREFIX, suffix=suffix, dir=folder)
            path = Path(name)
            with os.fdopen(handle, "wb") as file:
                file.write(data)
        except OSError as error:
            raise OutputRefused(_mistake(error, folder)) from error
        with locked(path):
            yield path
    finally:
        if path is not None:
            path.unlink(missing_ok=True)


def _sweep(folder: Path, suffix: str) -> None:
    for left in folder.glob(f"{PREFIX}*{suffix}"):
        if abandoned(left):
            left.unlink(missing_ok=True)


def _mistake(error: OSError, folder: Path) -> Mistake:
    return Mistake(
        what=f"nothing can be written there ({(error.strerror or str(error)).lower()})",
        where=str(folder),
        remedy="make room in that folder, or make it writable; nothing was changed",
    )
