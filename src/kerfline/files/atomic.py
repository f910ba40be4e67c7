"""Writes several files so that all of them are there, or none is changed."""

import contextlib
import errno
import os
import signal
import tempfile
from collections.abc import Iterator, Mapping
from pathlib import Path

from kerfline.errors import Mistake, OutputRefused

REMEDIES = {
    errno.ENOSPC: "make room, or name another folder with --out",
    errno.EACCES: "name a folder with --out that you may write to",
    errno.EPERM: "name a folder with --out that you may write to",
    errno.EROFS: "name a folder with --out that you may write to",
    errno.ENOTDIR: "a file stands where a folder is needed; name another folder with --out",
    errno.EEXIST: "a file stands where a folder is needed; name another folder with --out",
    errno.EISDIR: "a folder has the name of the file; move it away, or name another folder",
    errno.ENAMETOOLONG: "give the job a shorter name",
}
DEFAULT_REMEDY = "name another folder with --out"
PLAIN_FILE = 0o666
"""Permissions of a new file before the user's mask is taken off; temporaries start out stricter."""


def write_all(directory: Path, contents: Mapping[str, bytes]) -> tuple[Path, ...]:
    """Writes files into a folder, each to a temporary first.

    Args:
        directory: Where to; made, with its parents, where it is missing.
        contents: Bytes by file name.

    Returns:
        The files, in the order given.

    Raises:
        OutputRefused: A file cannot be written. No temporary is left, and no file that stood there
            before is changed unless the file system failed between two renames.
    """
    targets = {name: directory / name for name in contents}
    made: list[Path] = []
    try:
        made = [d for d in (directory, *directory.parents) if not d.exists()]
        with _temporaries() as temporaries:
            directory.mkdir(parents=True, exist_ok=True)
            for name, data in contents.items():
                _refuse_folder(targets[name])
                temporaries[name] = _written(directory, data)
            with _not_stopped():
                for name, target in targets.items():
                    temporaries[name].replace(target)
                    del temporaries[name]
    except OSError as error:
        _remove_empty(made)
        raise OutputRefused(_mistake(error, directory)) from error
    except KeyboardInterrupt:
        _remove_empty(made)
        raise
    return tuple(targets.values())


@contextlib.contextmanager
def _temporaries() -> Iterator[dict[str, Path]]:
    """Temporaries by name; those that are still listed at the end are removed."""
    left: dict[str, Path] = {}
    try:
        yield left
    finally:
        for path in left.values():
            path.unlink(missing_ok=True)


@contextlib.contextmanager
def _not_stopped() -> Iterator[None]:
    """Lets a stop from the keyboard or the system wait, so that not some of the files are renamed."""
    if not hasattr(signal, "pthread_sigmask"):  # not on Windows
        yield
        return
    before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT, signal.SIGTERM})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)


def _refuse_folder(target: Path) -> None:
    if target.is_dir():
        raise IsADirectoryError(errno.EISDIR, os.strerror(errno.EISDIR), str(target))


def _written(directory: Path, data: bytes) -> Path:
    """A temporary in the folder that holds the data, safe on the disk."""
    handle, name = tempfile.mkstemp(prefix=".kerfline-", suffix=".part", dir=directory)
    path = Path(name)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        path.chmod(PLAIN_FILE & ~_mask())
    except BaseException:
        path.unlink(missing_ok=True)
        raise
    return path


def _mask() -> int:
    """The user's mask for new files; it can only be read by setting it."""
    mask = os.umask(0)
    os.umask(mask)
    return mask


def _remove_empty(made: list[Path]) -> None:
    """Takes away the folders that were made for nothing, deepest first."""
    for folder in made:
        with contextlib.suppress(OSError):
            folder.rmdir()


def _mistake(error: OSError, directory: Path) -> Mistake:
    reason = (error.strerror or str(error)).lower()
    return Mistake(
        what=f"the files cannot be written ({reason})",
        where=str(directory),
        remedy=REMEDIES.get(error.errno or 0, DEFAULT_REMEDY),
    )
