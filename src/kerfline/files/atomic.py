"""Writes several files so that they appear as one: the old ones or the new ones, never some of each.

How: the new files are written into a hidden folder beside the old ones; it is renamed to ``READY`` once
it is whole, and from then on the new files count. Then the old files are moved into it and the new ones
out of it. A run that is killed in between leaves ``READY``, and whoever opens the folder next carries it
through (``finish``). What is left of a run that was killed earlier is swept away then.
"""

import contextlib
import errno
import json
import os
import shutil
import tempfile
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path

from kerfline.errors import Mistake, OutputRefused
from kerfline.files.folder_lock import locked, written_through
from kerfline.files.not_stopped import not_stopped

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
DEFAULT_REMEDY = (
    "close the files where another program has them open, or name another folder with --out"
)
PLAIN_FILE = 0o666
"""Permissions of a new file before the user's mask is taken off; temporaries start out stricter."""

PREFIX, PART = ".kerfline-", ".part"
"""How the name of what is not whole yet begins and ends."""

READY = ".kerfline-ready"
"""A folder of whole files on their way to their places: ``new``, ``old`` and the list of what goes."""

NEW, OLD, GOES = "new", "old", "goes.json"


def write_all(directory: Path, contents: Mapping[str, bytes]) -> tuple[Path, ...]:
    """Writes files into a folder.

    Args:
        directory: Where to; made, with its parents, where it is missing.
        contents: Bytes by file name.

    Returns:
        The files, in the order given.

    Raises:
        OutputRefused: A file cannot be written; every file that stood there before is as it was.
    """
    with opened(directory) as folder:
        return folder.write(contents)


def finish(directory: Path) -> None:
    """Carries through what a killed run began in a folder; whoever reads a set there does this first.

    Raises:
        OutputRefused: It cannot be done.
    """
    if (directory / READY).is_dir():
        with opened(directory):
            pass


@contextlib.contextmanager
def opened(directory: Path) -> Iterator["Folder"]:
    """A folder to write in, held against other runs, with what a killed run left tidied up.

    Raises:
        OutputRefused: It cannot be made or written; folders made for nothing are gone again.
    """
    made: list[Path] = []
    try:
        made = [d for d in (directory, *directory.parents) if not d.exists()]
        directory.mkdir(parents=True, exist_ok=True)
        with locked(directory):
            _tidy(directory)
            yield Folder(directory)
    except OSError as error:
        _remove_empty(made)
        raise OutputRefused(_mistake(error, directory)) from error
    except BaseException:
        _remove_empty(made)
        raise


class Folder:
    """A folder that is held and tidy."""

    def __init__(self, directory: Path) -> None:
        self.directory = directory

    def write(self, contents: Mapping[str, bytes], goes: Sequence[str] = ()) -> tuple[Path, ...]:
        """Writes files and takes others away, all of it or nothing.

        Args:
            contents: Bytes by file name.
            goes: Names of files that are taken away.

        Returns:
            The files written, in the order given.

        Raises:
            OSError: A file cannot be written; every file that stood there before is as it was.
        """
        targets = tuple(self.directory / name for name in contents)
        for target in targets:
            if target.is_dir():
                raise IsADirectoryError(errno.EISDIR, os.strerror(errno.EISDIR), str(target))
        if len(targets) == 1 and not goes:
            _write_one(targets[0], *contents.values())
        else:
            self._write_many(contents, goes)
        return targets

    def _write_many(self, contents: Mapping[str, bytes], goes: Sequence[str]) -> None:
        staged = Path(tempfile.mkdtemp(prefix=PREFIX, suffix=PART, dir=self.directory))
        try:
            (staged / NEW).mkdir()
            (staged / OLD).mkdir()
            for name, data in contents.items():
                _written(staged / NEW / name, data)
            _written(staged / GOES, json.dumps(list(goes)).encode())
            with not_stopped():
                staged.rename(self.directory / READY)
                written_through(self.directory)
                _carry(self.directory)
        except BaseException:
            shutil.rmtree(staged, ignore_errors=True)
            raise


def _write_one(target: Path, data: bytes) -> None:
    """A single file: one rename replaces it, so it needs no folder of its own."""
    handle, name = tempfile.mkstemp(prefix=PREFIX, suffix=PART, dir=target.parent)
    os.close(handle)
    part = Path(name)
    try:
        _written(part, data)
        part.replace(target)
    except BaseException:
        part.unlink(missing_ok=True)
        raise


def _written(path: Path, data: bytes) -> None:
    """Writes a file and waits until it is safe on the disk."""
    with path.open("wb") as file:
        file.write(data)
        file.flush()
        os.fsync(file.fileno())
    path.chmod(PLAIN_FILE & ~_mask())


def _tidy(directory: Path) -> None:
    """Carries through what was whole when its run was killed, and sweeps away what was not."""
    if (directory / READY).is_dir():
        with not_stopped():
            _carry(directory)
    for left in directory.glob(f"{PREFIX}*{PART}"):
        if left.is_dir():
            shutil.rmtree(left)
        else:
            left.unlink()


def _carry(directory: Path) -> None:
    """Moves the old files out of the way and the new ones into their places.

    May begin anywhere: what has been moved already is not there to be moved again. First all old files
    go, so that none of them ever lies among new ones.

    Raises:
        OSError: A file cannot be moved; all that was moved is back where it was, as far as can be.
    """
    ready = directory / READY
    new, old = ready / NEW, ready / OLD
    coming = sorted(path.name for path in new.iterdir())
    moved: list[tuple[Path, Path]] = []
    try:
        for name in (*json.loads((ready / GOES).read_bytes()), *coming):
            if (directory / name).is_file() and not (old / name).exists():
                _move(directory / name, old / name, moved)
        for name in coming:
            _move(new / name, directory / name, moved)
    except OSError:
        with contextlib.suppress(OSError):
            for source, target in reversed(moved):
                target.replace(source)
            shutil.rmtree(_done_with(ready))
        raise
    shutil.rmtree(_done_with(ready))


def _move(source: Path, target: Path, moved: list[tuple[Path, Path]]) -> None:
    source.replace(target)
    moved.append((source, target))


def _done_with(ready: Path) -> Path:
    """The folder under a name that nobody carries through; killed before it is gone, it is swept away."""
    part = ready.with_name(f"{ready.name}{PART}")
    if part.exists():
        shutil.rmtree(part)
    return ready.rename(part)


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
