"""How large a file may be that is read: any of up to 20 MB is read or refused in 20 s and 1 GB on two cores."""

from pathlib import Path

from kerfline.errors import InputRefused, Mistake

MEGABYTE = 1_000_000

LARGEST_PLAN = 40 * MEGABYTE
"""Bytes of the largest drawing, page or picture, read from the disk or brought to the page."""

LARGEST_WITH_SHEETS = 400 * MEGABYTE
"""Bytes of the largest text DXF that its sheets are cut out of; what is left must be no larger than ``LARGEST_PLAN``.

Our own drawing of a floor of 1,000 walls aslant has 240 sheets and 120 MB, its model one."""

LARGEST_JOB = 10 * MEGABYTE
"""Bytes of the largest job file, some 100,000 walls; a megabyte takes a second."""

LARGEST_WEATHER = 2 * MEGABYTE
"""Bytes of the largest weather table, four years by the hour; a megabyte takes two seconds."""


def refuse_too_large(path: Path, kind: str, largest: int, remedy: str) -> None:
    """Refuses a file that is too large to be read.

    Args:
        path: The file, which is there.
        kind: What it is, such as ``job file``.
        largest: Bytes that are allowed.
        remedy: What to do about it.

    Raises:
        InputRefused: It is larger.
        OSError: Its size cannot be asked for.
    """
    refuse_size(path.stat().st_size, path, kind, largest, remedy)


def refuse_size(size: int, path: Path, kind: str, largest: int, remedy: str) -> None:
    """The same of a number of bytes, whatever part of the file they are."""
    if size > largest:
        raise InputRefused(
            Mistake(
                what=f"the {kind} is too large to read",
                where=str(path),
                found=f"{size / MEGABYTE:,.1f} MB",
                allowed=f"up to {largest // MEGABYTE} MB",
                remedy=remedy,
            )
        )
